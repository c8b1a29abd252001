package slackdouble

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"sync"

	"go.mau.fi/util/emojishortcodes"
)

// Slack calls emoji by the short names of the emoji-data collection, which
// emojishortcodes holds.

// emojiNames puts names where a text has emoji, as Slack's clients do:
// ":fire:", ":+1::skin-tone-4:".
var emojiNames = sync.OnceValue(func() *strings.Replacer {
	names := emojishortcodes.GetMap()
	longest := slices.SortedFunc(maps.Keys(names), func(a, b string) int {
		return cmp.Or(cmp.Compare(len(b), len(a)), strings.Compare(a, b))
	})
	var toned, whole, bare []string
	for _, e := range longest {
		plain := strings.TrimSuffix(e, variation)
		for i, tone := range []string{"🏻", "🏼", "🏽", "🏾", "🏿"} {
			toned = append(toned, plain+tone, ":"+names[e]+"::skin-tone-"+string(rune('2'+i))+":")
		}
		whole = append(whole, e, ":"+names[e]+":")
		if plain != e {
			bare = append(bare, plain, ":"+names[e]+":")
		}
	}
	return strings.NewReplacer(slices.Concat(toned, whole, bare)...)
})

// variation asks for the coloured form of a character.
const variation = "\ufe0f"

// aliases are second names that Slack takes. MEMORY: there are more of them.
var aliases = []string{"thumbsup", "thumbsdown", "fire_truck", "hammer_and_spanner"}

var knownEmoji = sync.OnceValue(func() map[string]bool {
	known := map[string]bool{}
	for _, name := range emojishortcodes.GetMap() {
		known[name] = true
	}
	for _, name := range aliases {
		known[name] = true
	}
	return known
})

// isEmojiName tells whether a name can be used for a reaction: "+1", also with a
// tone behind it: "+1::skin-tone-3".
func isEmojiName(name string) bool {
	base, tone, toned := strings.Cut(name, "::")
	if toned && (len(tone) != len("skin-tone-N") || !strings.HasPrefix(tone, "skin-tone-") || !strings.Contains("23456", tone[10:])) {
		return false
	}
	return knownEmoji()[base]
}
