package slackdouble

import "testing"

// TestTyped: what people type, as Slack sends it.
func TestTyped(t *testing.T) {
	for text, want := range map[string]string{
		"fuel 3/4":             "fuel 3/4",
		"oil & fuel < 3/4 > 0": "oil &amp; fuel &lt; 3/4 &gt; 0",
		"👍":                    ":+1:",
		"👍🏽 ok":                ":+1::skin-tone-4: ok",
		"✅✔️":                  ":white_check_mark::heavy_check_mark:",
		"⛽ 🚒 🧰":                ":fuelpump: :fire_engine: :toolbox:",
		"👩‍🚒":                  ":female-firefighter:",
		"<@U0123> 1/2 ½":       "<@U0123> 1/2 ½",
	} {
		if got := typed(text); got != want {
			t.Errorf("%q is sent as %q, want %q", text, got, want)
		}
	}
}

func TestEmojiNames(t *testing.T) {
	for name, want := range map[string]bool{
		"+1": true, "thumbsup": true, "+1::skin-tone-3": true, "white_check_mark": true, "eyes": true,
		"": false, "👍": false, ":+1:": false, "tick": false, "+1::skin-tone-1": false, "+1::skin-tone-": false, "+1::": false,
	} {
		if got := isEmojiName(name); got != want {
			t.Errorf("%q: %v", name, got)
		}
	}
}
