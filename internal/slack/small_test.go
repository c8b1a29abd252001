package slack

import (
	"testing"
	"time"
)

func TestCharacter(t *testing.T) {
	for name, want := range map[string]string{
		"+1": "👍", "thumbsup": "👍", "+1::skin-tone-5": "👍🏾", "white_check_mark": "✅", "ok_hand": "👌",
		"heavy_check_mark": "✔", "crossed_hoses": ":crossed_hoses:", "saluting_face": "🫡", "toolbox": "🧰", "fire_engine": "🚒", "fuelpump": "⛽", "thumbsdown": "👎", "+1::odd": "👍", "point_up::skin-tone-2": "☝🏻",
	} {
		if got := character(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

func TestRead(t *testing.T) {
	called := func(user string) string { return map[string]string{"U2": "Ravi"}[user] }
	for name, c := range map[string]struct{ in, want string }{
		"plain":          {"all good", "all good"},
		"bot_addressed":  {"<@U1> all good", "all good"},
		"person":         {"ask <@U2> or <@U2|ravi>", "ask @Ravi or @ravi"},
		"channel":        {"see <#C1|shop>", "see #shop"},
		"here":           {"<!here> off", "@here off"},
		"group":          {"<!subteam^S1|@b-shift>", "@b-shift"},
		"link":           {"<http://a.invalid/x?a=1&amp;b=2> <http://a.invalid|a.invalid>", "http://a.invalid/x?a=1&b=2 a.invalid"},
		"entities":       {"fuel &lt; 3/4 &amp; low", "fuel < 3/4 & low"},
		"emoji":          {":+1::skin-tone-3: and :thumbsup: :unknown_one: 7:02:10", "👍🏼 and 👍 :unknown_one: 7:02:10"},
		"hard_space":     {"5\u00a0min", "5 min"},
		"escaped_angle":  {"&lt;@U1&gt;", "<@U1>"},
		"struck_out":     {"~all good~ left hose has a nick", "left hose has a nick"},
		"struck_inside":  {"1 ok, 2 ~ok~ low", "1 ok, 2  low"},
		"struck_whole":   {"~all good~", ""},
		"about":          {"fuel ~3/4, saw ~half", "fuel ~3/4, saw ~half"},
		"quoted":         {"&gt; all good\nnot true, left hose is cut", "not true, left hose is cut"},
		"only_quoted":    {"&gt; 3/4", "> 3/4"},
		"double_escaped": {"&amp;lt;", "&lt;"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := read(c.in, "U1", called); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}

func TestStamp(t *testing.T) {
	at := time.Date(2026, 11, 25, 14, 0, 0, 123456000, time.UTC)
	if s := stampOf(at); s != "1795615200.123456" || !instant(s).Equal(at) {
		t.Errorf("%s, and back %s", s, instant(s))
	}
	for _, odd := range []string{"", "x", "1.x", "-5.0", "0"} {
		if !instant(odd).IsZero() {
			t.Errorf("%q is taken for %s", odd, instant(odd))
		}
	}
	if !later("1795615200.100000", "1795615200.099999") || later("", "1795615200.000000") {
		t.Error("stamps are not ordered by time")
	}
}

func TestClean(t *testing.T) {
	if got := clean("bell\a and \x1b[31m red\tx\ny\xff"); got != "bell and [31m red x\ny" {
		t.Errorf("%q", got)
	}
}
