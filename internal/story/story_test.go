package story

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/config"
)

const dir = "../../testdata/stories"

var example = sync.OnceValue(func() bot.Setup {
	d := config.Example()
	return bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}
})

// play plays a story on a fresh file and returns what was heard.
func play(t *testing.T, name, text string) ([]Entry, error) {
	t.Helper()
	steps, err := Parse(name, text)
	if err != nil {
		return nil, err
	}
	script := Script{Name: name, Steps: steps}
	begin, err := script.Begin(example())
	if err != nil {
		return nil, err
	}
	w := open(t, begin)
	var all []Entry
	w.Hear(func(e Entry) { all = append(all, e) })
	return all, script.Play(w)
}

func open(t *testing.T, begin time.Time) *World {
	t.Helper()
	w, err := New(example(), filepath.Join(t.TempDir(), "crosslay.db"), begin, Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := w.Close(); err != nil {
			t.Error(err)
		}
	})
	return w
}

func TestStories(t *testing.T) {
	files, err := filepath.Glob(dir + "/*.story")
	if err != nil || len(files) == 0 {
		t.Fatalf("no stories in %s: %v", dir, err)
	}
	for i, file := range files {
		if i%oneIn != 0 {
			continue
		}
		t.Run(strings.TrimSuffix(filepath.Base(file), ".story"), func(t *testing.T) {
			t.Parallel()
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := play(t, file, string(text)); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestParse_mistakes_have_file_and_line(t *testing.T) {
	cases := map[string]struct{ text, want string }{
		"empty":        {"\n# nothing\n", "x.story:1: the story is empty"},
		"no_line":      {"at 2026-11-25 06:59\nana says hello", "x.story:2: \"ana says hello\" is no line"},
		"bad_time":     {"at noon", "x.story:1: \"at noon\" is no time"},
		"bad_length":   {"at 2026-11-25 06:59\n+soon", "x.story:2: \"soon\" is no length"},
		"bad_field":    {"at 2026-11-25 06:59\n\nexpect echo colour=red", "x.story:3: there is no field \"colour\""},
		"no_kind":      {"at 2026-11-25 06:59\nexpect record", "x.story:2: say what is expected"},
		"no_date":      {"at 06:59\n+1m", "x.story:1: the first line needs a date"},
		"no_person":    {"at 2026-11-25 06:59\nbob in #shop: hi", "x.story:2: no person goes by \"bob\""},
		"no_place":     {"at 2026-11-25 06:59\nana in #pub: hi", "x.story:2: no place goes by \"#pub\""},
		"no_thread":    {"at 2026-11-25 06:59\nana in E1: hi", "x.story:2: Engine 1 has no thread before its first prompt"},
		"no_message":   {"at 2026-11-25 06:59\nana edits 1: hi", "x.story:2: ana has said 0 messages"},
		"no_reaction":  {"at 2026-11-25 06:59\nana unreacts", "x.story:2: ana has not reacted"},
		"backwards":    {"at 2026-11-25 06:59\nat 2026-11-24 07:00", "x.story:2: time does not run backwards"},
		"dead":         {"at 2026-11-25 06:59\nkill\nkill", "x.story:3: the bot is not running"},
		"alive":        {"at 2026-11-25 06:59\nstart", "x.story:2: the bot is running already"},
		"wrong_expect": {"at 2026-11-25 06:59\n+1m\nexpect summary", "x.story:3: expected a said summary, found 0"},
		"too_many":     {"at 2026-11-25 06:59\n+1m\nexpect 1 prompt", "x.story:3: expected 1 said prompt, found 8"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			if _, err := play(t, "x.story", c.text); err == nil || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("error %v, want one that begins with %q", err, c.want)
			}
		})
	}
}

func TestPlay_is_the_same_every_time(t *testing.T) {
	text, err := os.ReadFile(dir + "/morning.story")
	if err != nil {
		t.Fatal(err)
	}
	run := func() string {
		var b bytes.Buffer
		write := WriteJSON(&b)
		entries, err := play(t, "morning.story", string(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if err := write(e); err != nil {
				t.Fatal(err)
			}
		}
		return b.String()
	}
	if one, two := run(), run(); one != two || len(one) == 0 {
		t.Error("two runs of one story differ")
	}
}

func TestSimulate_is_the_same_for_a_seed(t *testing.T) {
	run := func(seed uint64) (Totals, string) {
		w := open(t, BeforeChange(example(), dept.Date{Year: 2026, Month: time.March, Day: 6}))
		var b bytes.Buffer
		write := WriteJSON(&b)
		w.Hear(func(e Entry) { _ = write(e) })
		totals, err := Simulate(w, 4, seed) // over the night on which clocks go forward
		if err != nil {
			t.Fatal(err)
		}
		return totals, b.String()
	}
	totals, one := run(7)
	if _, two := run(7); one != two {
		t.Error("two runs of one seed differ")
	}
	if _, other := run(8); one == other {
		t.Error("another seed makes no difference")
	}
	if got := totals.Said[string(chat.Prompt)]; got != 4*8 {
		t.Errorf("%d prompts in 4 days of 8 companies", got)
	}
	if totals.Parked != 0 || totals.Recorded[string(bot.OnReading)] == 0 {
		t.Errorf("totals %+v", totals)
	}
}

func TestGuide_every_line_does_something(t *testing.T) {
	w := open(t, BeforeChange(example(), dept.Date{Year: 2026, Month: time.November, Day: 25}))
	g := NewGuide(w.Setup(), w.Now())
	if g.Who == "" || g.Where != "E1" || len(g.Lines) < 10 || len(g.Lines) > 18 {
		t.Fatalf("guide %+v", g)
	}
	for _, l := range g.Lines {
		typed, why, ok := strings.Cut(l, "\t")
		if !ok || len(typed) > 33 || len(why) > 42 {
			t.Errorf("line %q does not fit the screen", l)
		}
	}
}

func TestWorld_goes_on_with_a_file(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crosslay.db")
	begin := BeforeChange(example(), dept.Date{Year: 2026, Month: time.November, Day: 25})
	for _, session := range []string{"a", "b"} {
		w, err := New(example(), path, begin, Options{Fast: true, Session: session})
		if err != nil {
			t.Fatal(err)
		}
		if err := w.Advance(2 * time.Minute); err != nil {
			t.Fatal(err)
		}
		prompt, ok := w.Hall.Prompt("E1")
		if !ok {
			t.Fatalf("%s: no prompt", session)
		}
		answers := 0
		w.Hear(func(e Entry) {
			if e.What == WasSaid && e.Who == "" && e.Thread == string(prompt.Ref) {
				answers++
			}
		})
		if err := w.Send(w.Hall.Say("ines", prompt.Thread(), "3 ok")); err != nil {
			t.Fatal(err)
		}
		if session == "a" && answers == 0 {
			t.Error("no answer to the first reply")
		}
		if n := len(w.Hall.Posts()); session == "b" && n < 10 {
			t.Errorf("only %d messages were found again", n)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
