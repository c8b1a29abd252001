package wording

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/reliability"
)

func TestReliabilityGolden(t *testing.T) {
	one := "power unit PU-07"
	watched := reliability.Availability{Watched: 365 * 24 * time.Hour, Out: 11 * 24 * time.Hour, Times: 3}
	by := func(h reliability.History, fellows reliability.Count) reliability.Report {
		return reliability.Of(h, fellows, 1)
	}
	even := reliability.History{Hours: 2100, Failures: []float64{300, 900, 1300, 2000}}
	late := reliability.History{Hours: 1000, Failures: []float64{500, 800, 880, 930, 960, 980, 990, 997}}
	early := reliability.History{Hours: 1500, Failures: []float64{5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478}}
	golden(t, "reliability", []spoken{
		{"a few failures, fellows alike", Reliability(ReliabilityView{Name: one, Report: by(even, reliability.Count{Failures: 22, Hours: 11000}), Available: watched, Clock: EngineHours})},
		{"more often than its fellows, but luck", Reliability(ReliabilityView{Name: one, Report: by(even, reliability.Count{Failures: 10, Hours: 9000}), Clock: EngineHours})},
		{"worse than its fellows, getting worse", Reliability(ReliabilityView{Name: one, Report: by(late, reliability.Count{Failures: 3, Hours: 6000}), Clock: EngineHours})},
		{"worse than its fellows, which never failed", Reliability(ReliabilityView{Name: one, Report: by(even, reliability.Count{Hours: 11000}), Clock: EngineHours})},
		{"worse than its fellows, of which one failed once", Reliability(ReliabilityView{Name: one, Report: by(even, reliability.Count{Failures: 1, Hours: 11000}), Clock: EngineHours})},
		{"as often as its fellows", Reliability(ReliabilityView{Name: one, Report: by(even, reliability.Count{Failures: 20, Hours: 10500}), Clock: EngineHours})},
		{"better than its fellows, getting better", Reliability(ReliabilityView{Name: one, Report: by(early, reliability.Count{Failures: 400, Hours: 15000}), Clock: EngineHours})},
		{"by the calendar", Reliability(ReliabilityView{Name: "all power units", Report: by(reliability.History{Hours: 8760, Failures: []float64{1000, 4000}}, reliability.Count{}),
			Available: reliability.Availability{Watched: 365 * 24 * time.Hour}, Clock: Days})},
		{"a kind that wears out, no item of which shows it alone", Reliability(ReliabilityView{Name: "all power units", Report: reliability.OfKind(slices.Repeat([]reliability.History{
			{Hours: 1000, Failures: []float64{600, 850, 960}}}, 8)), Clock: EngineHours})},
		{"no failure", Reliability(ReliabilityView{Name: one, Report: by(reliability.History{Hours: 72}, reliability.Count{Failures: 1, Hours: 300}), Clock: EngineHours})},
		{"no hours", Reliability(ReliabilityView{Name: one, Report: by(reliability.History{}, reliability.Count{}), Clock: EngineHours})},
		{"failures without a date", Reliability(ReliabilityView{Name: one, Report: by(reliability.History{Hours: 5, Failures: []float64{9}}, reliability.Count{}), Clock: EngineHours})},
		{"which is worst: more than luck", worstOf(12, []reliability.Count{{Failures: 9, Hours: 500}, {Failures: 11, Hours: 5500}})},
		{"which is worst: luck, for one is always last", worstOf(12, []reliability.Count{{Failures: 5, Hours: 500}, {Failures: 20, Hours: 5500}})},
		{"which is worst: too few", worstOf(12, []reliability.Count{{Failures: 1, Hours: 500}, {Failures: 1, Hours: 5500}})},
		{"which is worst: an only one", worstOf(1, []reliability.Count{{Failures: 1, Hours: 500}, {}})},
		{"which is worst: none", WorstOf(WorstView{Kind: "power units", Among: 12, Clock: EngineHours})},
	})
}

func worstOf(among int, c []reliability.Count) []chat.Block {
	return WorstOf(WorstView{Kind: "power units", Worst: "PU-03", Among: among,
		Comparison: reliability.Compare(c[0], c[1], among, reliability.Usual), Clock: EngineHours})
}

// A chief is told of luck; no probability, no word of a statistician.
func TestReliabilityHasNoStatistics(t *testing.T) {
	late := reliability.History{Hours: 1000, Failures: []float64{500, 800, 880, 930, 960, 980, 990, 997}}
	for _, b := range Reliability(ReliabilityView{Name: "x", Report: reliability.Of(late, reliability.Count{Failures: 3, Hours: 6000}, 1), Clock: EngineHours}) {
		for _, line := range b.Lines {
			for _, word := range []string{"significan", "p =", "probab", "confidence", "chi", "interval", "MTBF", "NaN", "Inf"} {
				if strings.Contains(line, word) {
					t.Errorf("%q in %q", word, line)
				}
			}
		}
	}
}

func TestApprox(t *testing.T) {
	for f, want := range map[float64]string{0: "0", 0.26: "0.3", 9.94: "9.9", 9.96: "10", 10: "10", 72: "72", 229.4: "230", 525: "530", 999: "1,000", 1537: "1,500",
		2100: "2,100", 12345678: "12,000,000", math.Inf(1): "many"} {
		if got := approx(f); got != want {
			t.Errorf("%v: %s, want %s", f, got, want)
		}
	}
}

func TestSure(t *testing.T) {
	for confidence, want := range map[float64]string{0.9: "9 in 10 sure", 0.8: "8 in 10 sure", 0.95: "95 in 100 sure"} {
		if got := strings.ReplaceAll(sure(confidence), tie, " "); got != want {
			t.Errorf("%v: %s, want %s", confidence, got, want)
		}
	}
}

func TestPercentIsNeverAllOfIt(t *testing.T) {
	for share, want := range map[float64]string{0.9999: "99.9%", 0.99: "99%", 0.987: "98%", 0.5: "50%"} {
		if got := percent(share); got != want {
			t.Errorf("%v: %s, want %s", share, got, want)
		}
	}
}
