package matrix

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"maunium.net/go/mautrix/event"

	"crosslay/bot/chat"
)

var update = flag.Bool("update", false, "write the golden files anew")

func prompt() chat.Message {
	return chat.Message{
		Key: "prompt/E1/2026-11-25/C", Kind: chat.Prompt,
		Blocks: []chat.Block{
			chat.Text(chat.Title, "Engine 1 · C shift · Wed Nov 25"),
			chat.Text(chat.Safety, "Refuel only with the engine off and cool. No smoking."),
			chat.Text(chat.List, "Power unit PU-01 · officer side 2", "1 fuel: cap open, look; plain gas, no oil", `2 tip gap: 1/4" <apart> & @room`),
			chat.Text(chat.Body),
			chat.Text(chat.Hint, `In the thread: "all good", "2-4 ok"`),
		},
		Choices: []chat.Choice{{Label: "All good", Say: "all good"}, {Label: "Report", Say: "report a fault", Ask: "Which?"}, {Label: "On a call", Say: "on a call"}},
	}
}

// TestShow_golden: the files are what a captain reads, on a lock screen and in a
// client.
func TestShow_golden(t *testing.T) {
	c := body(prompt())
	got := "-- plain --\n" + c.Body + "\n-- html --\n" + strings.ReplaceAll(c.FormattedBody, "</p>", "</p>\n")
	path := filepath.Join("testdata", "prompt.golden")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil || got != string(want) {
		t.Errorf("shown is\n%s\nwant (%v)\n%s", got, err, want)
	}
}

func TestShow(t *testing.T) {
	decoded := func(c *event.Content) map[string]any {
		t.Helper()
		raw, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		var m map[string]any
		if err := json.Unmarshal(raw, &m); err != nil {
			t.Fatal(err)
		}
		return m
	}
	rel := func(m map[string]any) map[string]any { r, _ := m["m.relates_to"].(map[string]any); return r }

	below := decoded(show(prompt(), chat.Place{Thread: "$root"}))
	if r := rel(below); r["rel_type"] != "m.thread" || r["event_id"] != "$root" {
		t.Errorf("in a thread it relates to %v", r)
	}
	if key := below[markField].(map[string]any)["key"]; key != "prompt/E1/2026-11-25/C" {
		t.Errorf("its key is %v", key)
	}
	if below["m.mentions"] == nil {
		t.Error("the words in it may call people")
	}
	edit := decoded(revise(prompt(), "$old"))
	if r := rel(edit); r["rel_type"] != "m.replace" || r["event_id"] != "$old" {
		t.Errorf("an edit relates to %v", r)
	}
	if edit["body"] != "* Engine 1 · C shift · Wed Nov 25" || edit["m.new_content"].(map[string]any)["body"] != plainText(prompt()) {
		t.Errorf("an edit has the body %q and %v", edit["body"], edit["m.new_content"])
	}
	echo := prompt()
	echo.Kind = chat.Echo
	if got := body(echo).MsgType; got != event.MsgNotice {
		t.Errorf("an echo is a %s and rings", got)
	}
	long := chat.Message{Blocks: []chat.Block{chat.Text(chat.Body, strings.Repeat("word ", 4000))}}
	if c := body(long); c.FormattedBody != "" {
		t.Error("a long message has HTML and may be too large for an event")
	}
	if got := plainText(chat.Message{Blocks: []chat.Block{chat.Text(chat.Body, "bell\a and escape\x1b[31m")}}); got != "bell and escape[31m" {
		t.Errorf("control characters come through: %q", got)
	}
}

func TestSigns(t *testing.T) {
	m := mark{Says: []string{"all good", "on a call", "Seen"}}
	cases := map[string]string{"🚨": "on a call", "👀": "seen", "👀\ufe0f": "seen", "👍": "", "✅": "", "": ""}
	for emoji, want := range cases {
		if got := m.saying(emoji); got != want {
			t.Errorf("%s says %q, want %q", emoji, got, want)
		}
	}
	if got := (mark{Says: []string{"all good"}}).saying("👀"); got != "" {
		t.Errorf("a sign that is not offered says %q", got)
	}
}

// TestTransaction: the id by which a server knows a message again must not change
// between two releases, or a restart in between doubles it.
func TestTransaction(t *testing.T) {
	if got, want := transaction("prompt/E21/2026-03-08/A"), "crosslay-0c12f393c6857b682d051d7097f2ac08"; got != want {
		t.Errorf("transaction %q, want %q", got, want)
	}
}
