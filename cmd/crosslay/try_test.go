package main

import (
	"bufio"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"crosslay/bot/dept"
	"crosslay/internal/story"
)

// newWorld is the example department a minute before a shift change.
func newWorld(tb testing.TB) *story.World {
	tb.Helper()
	setup, err := load("")
	if err != nil {
		tb.Fatal(err)
	}
	begin := story.BeforeChange(setup, dept.Date{Year: 2026, Month: 11, Day: 25})
	w, err := story.New(setup, filepath.Join(tb.TempDir(), "x.db"), begin, story.Options{Fast: true})
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { w.Close() })
	return w
}

// guided types the lines of the first screen and returns what the screen shows.
func guided(t *testing.T) (screen string, said []story.Entry) {
	t.Helper()
	w := newWorld(t)
	w.Hear(func(e story.Entry) { said = append(said, e) })
	st := station(w, "crosslay.db")
	var lines []string
	for _, l := range st.Welcome {
		if typed, _, ok := strings.Cut(l, "\t"); ok {
			lines = append(lines, typed)
		}
	}
	var out strings.Builder
	if err := st.Run(strings.NewReader(strings.Join(lines, "\n")+"\n"), &out); err != nil {
		t.Fatal(err)
	}
	return out.String(), said
}

// TestTry_the_first_screen_leads_through_a_morning: who types what it says, and
// no more, checks a company, reports a nick, repairs it and sees the status.
func TestTry_the_first_screen_leads_through_a_morning(t *testing.T) {
	screen, said := guided(t)
	kinds := map[string]int{}
	open := map[string]bool{}
	for _, e := range said {
		kinds[string(e.What)+" "+e.Kind]++
		if e.Record != nil && e.Record.Kind == "reading" {
			open[string(e.Record.Item)+"."+string(e.Record.Check)] = e.Record.State == "unsure"
		}
	}
	for _, want := range []string{"said prompt", "said echo", "said defect", "said news", "said status", "recorded run"} {
		if kinds[want] == 0 {
			t.Errorf("no %s in %v", want, kinds)
		}
	}
	if kinds["said ask"]+kinds["said refusal"]+kinds["parked"] > 0 {
		t.Errorf("the morning stumbles: %v", kinds)
	}
	if len(open) != 20 {
		t.Errorf("%d of 20 checks are answered", len(open))
	}
	for ref, unsure := range open {
		if unsure {
			t.Errorf("%s stays unsure", ref)
		}
	}
	if strings.Contains(screen, "-- ") {
		t.Errorf("the station complains:\n%s", screen)
	}
}

func TestTry_the_screen_has_80_columns(t *testing.T) {
	screen, _ := guided(t)
	for _, l := range strings.Split(screen, "\n") {
		if n := utf8.RuneCountInString(l); n > 80 {
			t.Errorf("%d columns: %s", n, l)
		}
	}
}

func TestTry_the_first_screen_fits_24_lines(t *testing.T) {
	if n := len(station(newWorld(t), "crosslay.db").Welcome); n > 23 {
		t.Errorf("%d lines and the input line", n)
	}
}

// BenchmarkTryFirstPrompt is the time from the start of the built binary to the
// first company's prompt on the screen.
func BenchmarkTryFirstPrompt(b *testing.B) {
	binary := filepath.Join(b.TempDir(), "crosslay")
	if out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput(); err != nil {
		b.Fatalf("build: %v\n%s", err, out)
	}
	for b.Loop() {
		cmd := exec.Command(binary, "try", "--db", filepath.Join(b.TempDir(), "x.db"))
		cmd.Stdin = strings.NewReader("+1m\n")
		out, err := cmd.StdoutPipe()
		if err != nil {
			b.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			b.Fatal(err)
		}
		found := false
		for scan := bufio.NewScanner(out); scan.Scan(); {
			if !found && strings.Contains(scan.Text(), "crosslay in #") {
				found = true
				b.StopTimer()
			}
		}
		if err := cmd.Wait(); err != nil || !found {
			b.Fatalf("no prompt: %v", err)
		}
		b.StartTimer()
	}
}
