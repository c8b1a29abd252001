package terminal

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"crosslay/bot/chat"
)

// bench is a station without a bot: what is sent is kept.
type bench struct {
	Station
	sent []chat.Event
	now  time.Time
}

func newBench() *bench {
	b := &bench{now: fixed()}
	b.Station = Station{
		Hall: hall(), Zone: time.UTC, Now: func() time.Time { return b.now },
		Send: func(ev chat.Event) error { b.sent = append(b.sent, ev); return nil },
		Pass: func(d time.Duration) error { b.now = b.now.Add(d); return nil },
		Who:  "ana", Where: "E1", Welcome: []string{"Quillwater", "+1m\tshift change"},
	}
	return b
}

func (b *bench) typed(t *testing.T, lines ...string) string {
	t.Helper()
	var out bytes.Buffer
	if err := b.Run(strings.NewReader(strings.Join(lines, "\n")+"\n"), &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestStation_speaks_as_anybody_anywhere(t *testing.T) {
	b := newBench()
	b.typed(t, "hello", "/as wim", "/in #shop", "seen", "/in direct", "status")
	want := []chat.Place{
		{Backend: Name, Room: "#station-1"}, // E1 has no thread yet
		{Backend: Name, Room: "#shop"},
		{Backend: Name, Room: "wim", Direct: true},
	}
	if len(b.sent) != len(want) {
		t.Fatalf("%d events", len(b.sent))
	}
	for i, ev := range b.sent {
		if ev.Place != want[i] {
			t.Errorf("%q went to %+v, want %+v", ev.Text, ev.Place, want[i])
		}
	}
	if b.sent[0].Author != "ana" || b.sent[1].Author != "wim" {
		t.Errorf("authors %s, %s", b.sent[0].Author, b.sent[1].Author)
	}
}

func TestStation_threads(t *testing.T) {
	b := newBench()
	post(t, b.Hall, "prompt/E1/2026-11-25/A", chat.Prompt, "#station-1", "Engine 1\n1 fuel")
	post(t, b.Hall, "defect/x", chat.Defect, "#shop", "Defect: hose")
	b.typed(t, "all good", "/in 2", "seen")
	if b.sent[0].Place.Thread != "prompt/E1/2026-11-25/A" || b.sent[1].Place.Thread != "defect/x" {
		t.Errorf("threads %q and %q", b.sent[0].Place.Thread, b.sent[1].Place.Thread)
	}
}

func TestStation_prompt_shows_clock_who_where(t *testing.T) {
	out := newBench().typed(t, "+15m", "/as wim", "/in shop")
	for _, want := range []string{"Wed 14:00 ana in E1> ", "Wed 14:15 ana in E1> ", "Wed 14:15 wim in E1> ", "Wed 14:15 wim in #shop> "} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

func TestStation_edits_and_reactions(t *testing.T) {
	b := newBench()
	b.typed(t, "half", "/edit 1 full", "/react 1", "/unreact", "/delete 1", "/photo the nick")
	var kinds []chat.Kind
	for _, ev := range b.sent {
		kinds = append(kinds, ev.Kind)
	}
	want := []chat.Kind{chat.Said, chat.Edited, chat.Reacted, chat.Unreacted, chat.Deleted, chat.Said}
	if len(kinds) != len(want) {
		t.Fatalf("kinds %v", kinds)
	}
	for i := range want {
		if kinds[i] != want[i] {
			t.Errorf("event %d is %s, want %s", i, kinds[i], want[i])
		}
	}
	if len(b.sent[5].Pics) != 1 || b.sent[5].Text != "the nick" {
		t.Errorf("photo %+v", b.sent[5])
	}
}

func TestStation_mistakes_get_a_sentence(t *testing.T) {
	cases := map[string]string{
		"/as bob":     "no person goes by",
		"/in nowhere": "no place goes by",
		"/edit 9 x":   "number of a message",
		"/edit":       "number of a message",
		"/fly":        "there is no /fly",
		"+9x":         "no length of time",
		"/kill":       "cannot be restarted",
	}
	for typed, want := range cases {
		if out := newBench().typed(t, typed); !strings.Contains(out, want) {
			t.Errorf("%s: no %q in\n%s", typed, want, out)
		}
	}
}

func TestStation_other_rooms_take_one_line(t *testing.T) {
	b := newBench()
	b.Send = func(chat.Event) error {
		post(t, b.Hall, "defect/x", chat.Defect, "#shop", "Defect: hose\nNICK\n"+strings.Repeat("words ", 40))
		return nil
	}
	out := b.typed(t, "left hose: nick", "/in #shop")
	first, second, _ := strings.Cut(out, "/in #shop")
	if strings.Count(first, "Defect: hose") != 1 || strings.Contains(first, "    Defect: hose") {
		t.Errorf("before going there:\n%s", first)
	}
	if !strings.Contains(second, "    Defect: hose\n    NICK\n") {
		t.Errorf("after going there:\n%s", second)
	}
}

func TestStation_fits_80_columns_and_keeps_control_characters_out(t *testing.T) {
	b := newBench()
	b.Where = "#shop"
	b.Send = func(ev chat.Event) error {
		post(t, b.Hall, "echo/1", chat.Echo, "#shop", strings.Repeat("long words ", 30)+"\x1b[2J\a"+strings.Repeat("x", 200))
		return nil
	}
	out := b.typed(t, "hello", "/look", "/who", "/rooms", "/help")
	for _, l := range strings.Split(out, "\n") {
		if n := utf8.RuneCountInString(l); n > width {
			t.Errorf("%d columns: %q", n, l)
		}
	}
	if strings.ContainsAny(out, "\x1b\a") {
		t.Error("a control character reached the screen")
	}
}

func TestStation_help_has_three_lines(t *testing.T) {
	if len(Help) != 3 {
		t.Errorf("%d lines", len(Help))
	}
	if out := newBench().typed(t, "/help"); !strings.Contains(out, strings.Join(Help, "\n")) {
		t.Errorf("help is not shown:\n%s", out)
	}
}

func TestStation_trouble_of_the_bot_is_told(t *testing.T) {
	b := newBench()
	b.Send = func(chat.Event) error { return errors.New("the disk is full") }
	if out := b.typed(t, "all good"); !strings.Contains(out, "-- the disk is full") {
		t.Errorf("not told:\n%s", out)
	}
}

func TestDuration(t *testing.T) {
	cases := map[string]time.Duration{"15m": 15 * time.Minute, "2h": 2 * time.Hour, "1d": 24 * time.Hour, "1d2h": 26 * time.Hour, "1h30m": 90 * time.Minute}
	for s, want := range cases {
		if got, err := Duration(s); err != nil || got != want {
			t.Errorf("%s is %v %v, want %v", s, got, err, want)
		}
	}
	for _, s := range []string{"", "x", "-5m", "5", "d"} {
		if d, err := Duration(s); err == nil && d != 0 {
			t.Errorf("%q is %v", s, d)
		}
	}
}
