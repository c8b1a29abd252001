package wording

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"crosslay/bot/chat"
	"crosslay/bot/check"
)

// TestPromptFits makes sheets and shifts at random, up to the five items and
// twenty-five checks that the limit is promised for.
func TestPromptFits(t *testing.T) {
	for seed := range uint64(400) {
		rnd := rand.New(rand.NewPCG(seed, 1))
		v := randomPrompt(rnd, 1+rnd.IntN(5), 25)
		all := Prompt(v)
		when := fmt.Sprintf("seed %d", seed)
		fits(t, when, all)
		if n := strings.Count(text(all), "\n") + 1; n > MaxLines {
			t.Fatalf("%s: %d lines\n%s", when, n, text(all))
		}
		everyNumber(t, when, v, all)
		if t.Failed() {
			t.FailNow()
		}
	}
}

// TestPromptHidesNothing holds that faults and unsettled checks keep their words
// however little room there is: a prompt that looked clean would be a false pass.
func TestPromptHidesNothing(t *testing.T) {
	for seed := range uint64(150) {
		rnd := rand.New(rand.NewPCG(seed, 2))
		v := randomPrompt(rnd, 1+rnd.IntN(9), 60)
		all := Prompt(v)
		for _, it := range v.Items {
			for _, c := range it.Checks {
				line := lineOf(all, c.N, c.Check.Label)
				switch c.State {
				case check.Fail:
					if !strings.Contains(line, failed(c.Check, c.Value, c.Damage)) {
						t.Fatalf("seed %d: fault %d hidden in %q\n%s", seed, c.N, line, text(all))
					}
				case check.Unsure:
					if !strings.Contains(line, "not settled") {
						t.Fatalf("seed %d: unsure %d hidden in %q\n%s", seed, c.N, line, text(all))
					}
				case check.Open:
					if line == "" {
						t.Fatalf("seed %d: open %d is gone\n%s", seed, c.N, text(all))
					}
				case check.OK:
				}
			}
		}
	}
}

// lineOf is the entry that starts with the check's number and label.
func lineOf(all []chat.Block, n int, label string) string {
	want := fmt.Sprintf("%d %s", n, label)
	for _, line := range strings.Split(text(all), "\n") {
		for _, entry := range strings.Split(line, " · ") {
			if entry == want || strings.HasPrefix(entry, want+":") {
				return entry
			}
		}
	}
	return ""
}

func everyNumber(t *testing.T, when string, v PromptView, all []chat.Block) {
	t.Helper()
	for _, it := range v.Items {
		if settled(it) {
			continue
		}
		for _, c := range it.Checks {
			if lineOf(all, c.N, c.Check.Label) == "" {
				t.Errorf("%s: check %d is not on the page\n%s", when, c.N, text(all))
			}
		}
	}
}

func randomPrompt(rnd *rand.Rand, items, most int) PromptView {
	v := PromptView{Company: "Engine 1", Platoon: "B", Date: fresh().Date}
	n := 0
	for i := range items {
		it := PromptItem{Thing: Thing{Name: words(rnd, 20), Number: fmt.Sprintf("X-%02d", i), Place: words(rnd, 20)}}
		if rnd.IntN(2) == 0 {
			it.Caution = words(rnd, 60)
		}
		for range most / items {
			n++
			it.Checks = append(it.Checks, randomCheck(rnd, n))
		}
		v.Items = append(v.Items, it)
	}
	for range rnd.IntN(6) {
		v.PassOn = append(v.PassOn, Open{Thing: pump, Label: words(rnd, 20), Words: words(rnd, 90), State: "seen"})
		v.Out = append(v.Out, OutLine{Thing: saw, Why: words(rnd, 40), Spare: "S-90"})
		v.Missed = append(v.Missed, words(rnd, 30))
		v.NoRun = append(v.NoRun, words(rnd, 30))
	}
	return v
}

func randomCheck(rnd *rand.Rand, n int) PromptCheck {
	c := *[]*check.Check{tank, hydOil, throttle, runIt, valve, blades, handle}[rnd.IntN(7)]
	c.Label, c.Method = words(rnd, 20), words(rnd, 120)
	states := []check.State{check.Open, check.Open, check.Open, check.OK, check.Fail, check.Unsure}
	return PromptCheck{N: n, Check: &c, State: states[rnd.IntN(len(states))], Confirm: rnd.IntN(9) == 0, Fixed: rnd.IntN(5) == 0}
}

// words makes up to n characters of text, at least one word.
func words(rnd *rand.Rand, n int) string {
	var all []string
	for left := 1 + rnd.IntN(n); left > 0; {
		w := strings.Repeat(string(rune('a'+rnd.IntN(26))), min(left, 1+rnd.IntN(9)))
		all = append(all, w)
		left -= len(w) + 1
	}
	return strings.Join(all, " ")
}

func TestPromptCollapses(t *testing.T) {
	all := func(v *PromptView) {
		for n := range 10 {
			set(v, n, ok)
		}
	}
	for _, tt := range []struct {
		name   string
		change func(*PromptView)
		want   string // a line that must be there
		not    string // a text that must not be
	}{
		{"all_ok_is_one_line", all, "Power unit PU-07: 1-5 ok", "throttle"},
		{"a_fault_stays", func(v *PromptView) { all(v); set(v, 3, fault) }, "3 throttle: FAULT", "1-5 ok"},
		{"ok_around_a_fault", func(v *PromptView) { all(v); set(v, 3, fault) }, "Power unit PU-07: 1-2, 4-5 ok", "fuel valve"},
		{"an_unsure_keeps_the_item_open", func(v *PromptView) { all(v); set(v, 3, unsure) }, "3 throttle: ? not settled, asked back", "1-2"},
		{"one_open_keeps_the_item_open", func(v *PromptView) { all(v); set(v, 4, func(c *PromptCheck) { c.State = check.Open }) }, "1 fuel: ok", "1-3"},
		{"open_run_is_still_to_start", func(v *PromptView) { set(v, 4, ok) }, "chain saw S-01 5 to 10 min", "power unit PU-07 5 to 10"},
		{"no_engine_no_outdoors", all, "Chain saw S-01: 8-9 ok", "outdoors"},
		{"caution_goes_with_the_item", all, "Chain saw S-01: 8-9 ok", "Never feel"},
		{"no_blanket_for_readings", func(v *PromptView) { all(v); set(v, 8, func(c *PromptCheck) { c.State = check.Open }) }, `In the thread: "fuel 3/4"`, "all good"},
		{"only_questions_left", func(v *PromptView) { all(v); set(v, 3, unsure) }, "Answer the questions in the thread.", "all good"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			v := fresh()
			tt.change(&v)
			got := text(Prompt(v))
			if !slices.Contains(strings.Split(got, "\n"), tt.want) {
				t.Errorf("want the line %q in\n%s", tt.want, got)
			}
			if strings.Contains(got, tt.not) {
				t.Errorf("do not want %q in\n%s", tt.not, got)
			}
		})
	}
}

func TestPromptNotesAreCounted(t *testing.T) {
	v := fresh()
	for range 7 {
		v.PassOn = append(v.PassOn, Open{Thing: saw, Label: "chain", State: "seen", Words: "dull"})
		v.Missed = append(v.Missed, "chain saw S-01: chain")
	}
	got := text(Prompt(v))
	for _, want := range []string{"Pass-on: chain saw S-01, chain: seen \"dull\" and 4 more"} {
		if !strings.Contains(got, want) {
			t.Errorf("want %q in\n%s", want, got)
		}
	}
	if n := strings.Count(got, "chain saw S-01: chain"); n == 7 || !strings.Contains(got, fmt.Sprintf("and %d more", 7-n)) {
		t.Errorf("missed checks are neither listed nor counted:\n%s", got)
	}
}
