package slack

import (
	"regexp"
	"strings"
	"sync"

	"go.mau.fi/util/emojishortcodes"
)

// characters are the emoji by Slack's short names.
var characters = sync.OnceValue(func() map[string]string {
	all := map[string]string{}
	for c, name := range emojishortcodes.GetMap() {
		all[strings.Trim(name, ":")] = strings.TrimSuffix(c, "\ufe0f") // the table adds it to all
	}
	for second, name := range seconds {
		if all[second] == "" {
			all[second] = all[name]
		}
	}
	return all
})

// seconds are the second names of emoji that crews use; people type either.
var seconds = map[string]string{
	"thumbsup": "+1", "thumbsdown": "-1", "exclamation": "heavy_exclamation_mark", "heavy_exclamation_mark": "exclamation",
	"shrug": "person_shrugging", "facepalm": "face_palm", "cop": "male-police-officer", "salute": "saluting_face",
}

// tones are the skin tones, as Slack writes them behind a name.
var tones = map[string]string{
	"skin-tone-2": "🏻", "skin-tone-3": "🏼", "skin-tone-4": "🏽", "skin-tone-5": "🏾", "skin-tone-6": "🏿",
}

// character is the emoji of a reaction, as "+1" or "+1::skin-tone-3". One of the
// workspace's own stays as its name between colons.
func character(name string) string {
	base, tone, _ := strings.Cut(name, "::")
	c, ok := characters()[base]
	if !ok {
		return ":" + base + ":"
	}
	if t := tones[tone]; t != "" {
		return c + t
	}
	return c
}

// code is an emoji in a text, with its tone behind it.
var code = regexp.MustCompile(`:([a-z0-9_+-]+)(?:::(skin-tone-[2-6]))?:`)

// withCharacters puts the characters where a text has the names.
func withCharacters(text string) string {
	return code.ReplaceAllStringFunc(text, func(s string) string {
		m := code.FindStringSubmatch(s)
		if _, ok := characters()[m[1]]; !ok {
			return s
		}
		if m[2] != "" {
			return character(m[1] + "::" + m[2])
		}
		return character(m[1])
	})
}
