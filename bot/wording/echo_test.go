package wording

import (
	"strings"
	"testing"

	"crosslay/bot/chat"
	"crosslay/bot/check"
)

func TestEcho(t *testing.T) {
	pass := func(n int, c *check.Check) Told { return Told{N: n, Thing: saw, Check: c, State: check.OK} }
	fail := func(n int, c *check.Check, act check.Act) Told {
		return Told{N: n, Thing: saw, Check: c, State: check.Fail, Act: act}
	}
	half := fail(1, tank, check.Crew)
	half.Value = check.Num(0.5)
	full := pass(1, tank)
	full.Value = check.Num(1)
	other := pass(5, throttle)
	other.Thing = Thing{Name: "chain saw", Number: "S-02"}
	for _, tt := range []struct {
		name string
		told []Told
		want string
	}{
		{"range", []Told{pass(1, hydOil), pass(2, throttle), pass(3, valve)}, "Got it: chain saw S-01 1-3 ok"},
		{"range_with_a_gap", []Told{pass(3, valve), pass(1, hydOil), pass(2, throttle), pass(7, handle)}, "Got it: chain saw S-01 1-3, 7 ok"},
		{"level_without_figure", []Told{pass(1, tank), pass(2, throttle)}, "Got it: chain saw S-01 1-2 ok"},
		{"level_with_figure", []Told{full, pass(2, throttle)}, "Got it: chain saw S-01 2 ok, fuel full ok"},
		{"fault_with_who_acts", []Told{half}, "Got it: chain saw S-01 fuel 1/2 LOW (crew)"},
		{"not_numbered", []Told{pass(0, throttle)}, "Got it: chain saw S-01 throttle ok"},
		{"two_of_a_name_stay_apart", []Told{pass(1, throttle), other}, "Got it: chain saw S-01 1 ok; chain saw S-02 5 ok"},
		{"shop", []Told{fail(3, throttle, check.Shop)}, "Got it: chain saw S-01 throttle FAULT (to the shop)"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := strings.ReplaceAll(text(Echo(tt.told, nil, nil)), "\n", " "); got != tt.want {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
		})
	}
}

func TestEchoOfNothingIsNothing(t *testing.T) {
	if got := Echo(nil, nil, nil); len(got) != 0 {
		t.Errorf("got %v", got)
	}
}

func TestOutOfServiceIsTaggedOnce(t *testing.T) {
	out := func(c *check.Check) Told { return Told{N: 1, Thing: tool, Check: c, State: check.Fail, Act: check.Out} }
	for _, tt := range []struct {
		name string
		told []Told
		want int // cautions
	}{
		{"sheet_says_it", []Told{out(blades)}, 1},
		{"bot_says_it", []Told{out(handle)}, 1},
		{"twice_the_same", []Told{out(handle), out(handle)}, 1},
		{"one_of_each", []Told{out(blades), out(handle)}, 2},
		{"a_pass_needs_none", []Told{{N: 1, Thing: tool, Check: blades, State: check.OK}}, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			n := 0
			for _, b := range Echo(tt.told, nil, nil) {
				if b.Role == chat.Safety {
					n += len(b.Lines)
				}
			}
			if n != tt.want {
				t.Errorf("%d cautions, want %d", n, tt.want)
			}
		})
	}
}

// TestWordsAreKept holds that what was not understood is shown in full.
func TestWordsAreKept(t *testing.T) {
	words := "the left thing by the ladder makes a noise when it rains and nobody here knows what that is about"
	got := strings.ReplaceAll(text(Echo(nil, nil, []string{words})), "\n", " ")
	if !strings.Contains(got, words) {
		t.Errorf("got %s", got)
	}
}

func TestDoubtsAreCounted(t *testing.T) {
	doubts := make([]DoubtView, 7)
	for i := range doubts {
		doubts[i] = DoubtView{N: i + 1, Thing: saw, Check: throttle, Why: WhyHedged}
	}
	got := text(Doubts(doubts))
	if !strings.HasSuffix(got, "and 2 more, see the prompt") || strings.Contains(got, "6 throttle") {
		t.Errorf("got\n%s", got)
	}
}

// TestDoubtsStandWithoutACheck holds that every reason can be asked about an item
// as a whole, or about nothing that is known.
func TestDoubtsStandWithoutACheck(t *testing.T) {
	for _, why := range []string{WhyWhichItem, WhyWhichCheck, WhyNoReading, WhyStraddles, WhyNotChecked, WhyHedged, WhyConflict,
		WhyLeftover, WhyToolOpen, WhyAsking, WhyProviso, WhyOffLate, WhyWhichCompany, "a reason of tomorrow"} {
		for _, d := range []DoubtView{{Why: why}, {Why: why, Thing: saw}, {Why: why, Thing: saw, Check: hydOil, N: 2}, {Why: why, Check: throttle, Thing: saw}} {
			got := Doubts([]DoubtView{d})
			fits(t, why, got)
			if !strings.ContainsAny(text(got), "?.:") {
				t.Errorf("%s: not a question: %q", why, text(got))
			}
		}
	}
}
