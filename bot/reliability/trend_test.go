package reliability_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"crosslay/bot/reliability"
)

// steady draws failures that come at a constant rate, watched for the hours.
func steady(rng *rand.Rand, rate, hours float64) reliability.History {
	h := reliability.History{Hours: hours}
	for t := rng.ExpFloat64() / rate; t < hours; t += rng.ExpFloat64() / rate {
		h.Failures = append(h.Failures, t)
	}
	return h
}

// Of things that neither improve nor wear out, at most one in twenty is said to
// wear out, and one in twenty to improve: what "more than luck" promises. The
// oracle is the simulation, which knows the truth.
func TestTrendSeldomCriesWolf(t *testing.T) {
	const rounds = 4000
	rng := rand.New(rand.NewPCG(7, 1))
	for _, rate := range []float64{0.006, 0.012, 0.03} {
		var worse, better, told int
		for range rounds {
			trend := reliability.TrendOf(steady(rng, rate, 1000))
			if trend.Silent != reliability.Spoken {
				continue
			}
			told++
			switch trend.Direction {
			case reliability.Worse:
				worse++
			case reliability.Better:
				better++
			}
		}
		for what, n := range map[string]int{"worse": worse, "better": better} {
			if share := float64(n) / float64(told); share > 0.055 || share < 0.005 {
				t.Errorf("about %v failures: %s in %.3f of %d", rate*1000, what, share, told)
			}
		}
	}
}

// What wears out plainly is found. Failures are those of a power law with shape 3.
func TestTrendFindsWearOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 2))
	found := 0
	for range 400 {
		h := reliability.History{Hours: 1000}
		for range 12 {
			h.Failures = append(h.Failures, 1000*math.Cbrt(rng.Float64()))
		}
		slices.Sort(h.Failures)
		if reliability.TrendOf(h).Direction == reliability.Worse {
			found++
		}
	}
	if found < 360 {
		t.Errorf("found %d of 400", found)
	}
}

// Nine in ten intervals hold the true time between failures, or more: with few
// failures they are wider than they need be.
func TestMTBFHoldsTheTruth(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 3))
	for _, rate := range []float64{0.0005, 0.003, 0.02} {
		held := 0
		const rounds = 3000
		for range rounds {
			m := reliability.MTBFOf(steady(rng, rate, 1000).Count(), reliability.Usual)
			if m.Lower <= 1/rate && 1/rate <= m.Upper {
				held++
			}
		}
		if share := float64(held) / rounds; share < 0.885 {
			t.Errorf("rate %v: held in %.3f", rate, share)
		}
	}
}

// An item like its fellows is called worse at most once in twenty times, and the
// worst of ten that are all alike too.
func TestComparisonSeldomCriesWolf(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 4))
	const rounds = 3000
	var asked, picked int
	for range rounds {
		var items []reliability.Count
		for range 10 {
			items = append(items, steady(rng, 0.004, 1000).Count())
		}
		others := reliability.Count{}
		for _, c := range items[1:] {
			others = others.Plus(c)
		}
		if c := reliability.Compare(items[0], others, 1, 0.9); c.Direction == reliability.Worse {
			asked++
		}
		if _, c := reliability.Worst(items, 0.9); c.Direction == reliability.Worse {
			picked++
		}
	}
	if float64(asked)/rounds > 0.05 || float64(picked)/rounds > 0.05 || picked == 0 {
		t.Errorf("asked %d, picked %d of %d", asked, picked, rounds)
	}
}

// Nor do the bounds of what it has come to promise more than they hold: failures
// of a power law, by its inverse, watched for a thousand hours.
func TestPowerLawHoldsTheTruth(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 9))
	for _, shape := range []float64{0.5, 1, 2.5} {
		const rounds, expected = 2000, 12.0
		held, told := 0, 0
		for range rounds {
			h := reliability.History{Hours: 1000}
			for m := rng.ExpFloat64(); m < expected; m += rng.ExpFloat64() {
				h.Failures = append(h.Failures, 1000*math.Pow(m/expected, 1/shape))
			}
			f := reliability.FitModified(h)
			if f.Silent != reliability.Spoken {
				continue
			}
			told++
			truly := 1000 / (expected * shape)
			if b := f.Bounds(reliability.Usual); b.Lower <= truly && truly <= b.Upper {
				held++
			}
		}
		if share := float64(held) / float64(told); share < 0.88 {
			t.Errorf("shape %v: held in %.3f of %d", shape, share, told)
		}
	}
}

func TestTrendIsSilent(t *testing.T) {
	for _, c := range []struct {
		name     string
		hours    float64
		failures []float64
		want     reliability.Silence
	}{
		{"no_hours", 0, nil, reliability.NoTime},
		{"none", 100, nil, reliability.TooFew},
		{"three", 100, []float64{1, 2, 3}, reliability.TooFew},
		{"four", 100, []float64{1, 2, 3, 4}, reliability.Spoken},
		{"out_of_order", 100, []float64{1, 3, 2, 4}, reliability.Disorder},
		{"after_the_end", 100, []float64{1, 2, 3, 101}, reliability.Disorder},
		{"before_the_start", 100, []float64{-1, 2, 3, 10}, reliability.Disorder},
		{"no_number", 100, []float64{math.NaN(), 2, 3, 10}, reliability.Disorder},
		{"infinite", math.Inf(1), []float64{1, 2, 3, 10}, reliability.NoTime},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := reliability.History{Hours: c.hours, Failures: c.failures}
			for what, got := range map[string]reliability.Silence{"trend": reliability.TrendOf(h).Silent, "fit": reliability.Fit(h).Silent,
				"laplace": reliability.Laplace(h).Silent, "handbook": reliability.Handbook(h).Silent, "reversals": reliability.Reversals(h).Silent} {
				if got != c.want {
					t.Errorf("%s: %q, want %q", what, got, c.want)
				}
			}
		})
	}
}

// A failure in hour 0 has no logarithm: the tests that need one keep quiet, the
// others speak.
func TestFailureAtTheStart(t *testing.T) {
	h := reliability.History{Hours: 100, Failures: []float64{0, 90, 95, 98, 99}}
	if s := reliability.Handbook(h).Silent; s != reliability.AtStart {
		t.Errorf("handbook: %q", s)
	}
	if s := reliability.Fit(h).Silent; s != reliability.AtStart {
		t.Errorf("fit: %q", s)
	}
	trend := reliability.TrendOf(h)
	if trend.Silent != reliability.Spoken || math.IsNaN(trend.Laplace.Statistic) {
		t.Errorf("%+v", trend)
	}
}

// All failures at the last instant leave the logarithms nothing.
func TestAllAtTheEnd(t *testing.T) {
	h := reliability.History{Hours: 100, Failures: []float64{100, 100, 100, 100}}
	if f := reliability.Fit(h); f.Silent != reliability.Disorder {
		t.Errorf("%+v", f)
	}
	if test := reliability.Handbook(h); test.Silent != reliability.Spoken || test.Worse > 1e-9 {
		t.Errorf("%+v", test)
	}
}

func TestGroupedIsSilent(t *testing.T) {
	for _, c := range []struct {
		name string
		g    reliability.Grouped
		want reliability.Silence
	}{
		{"nothing", reliability.Grouped{}, reliability.NoTime},
		{"one_period", reliability.Grouped{Ends: []float64{10}, Counts: []int{8}}, reliability.TooFew},
		{"lengths", reliability.Grouped{Ends: []float64{10, 20}, Counts: []int{8}}, reliability.Disorder},
		{"unsorted", reliability.Grouped{Ends: []float64{20, 10}, Counts: []int{8, 3}}, reliability.Disorder},
		{"empty_period", reliability.Grouped{Ends: []float64{10, 10}, Counts: []int{8, 3}}, reliability.Disorder},
		{"from_zero", reliability.Grouped{Ends: []float64{0, 10}, Counts: []int{0, 8}}, reliability.Disorder},
		{"negative", reliability.Grouped{Ends: []float64{10, 20}, Counts: []int{8, -3}}, reliability.Disorder},
		{"three_failures", reliability.Grouped{Ends: []float64{10, 20}, Counts: []int{1, 2}}, reliability.TooFew},
		{"all_in_the_first", reliability.Grouped{Ends: []float64{10, 20}, Counts: []int{9, 0}}, reliability.TooFew},
		{"all_in_the_last", reliability.Grouped{Ends: []float64{10, 20}, Counts: []int{0, 9}}, reliability.TooFew},
		{"told", reliability.Grouped{Ends: []float64{10, 20}, Counts: []int{3, 6}}, reliability.Spoken},
	} {
		t.Run(c.name, func(t *testing.T) {
			if f := reliability.FitGrouped(c.g); f.Silent != c.want {
				t.Errorf("%+v, want %q", f, c.want)
			}
		})
	}
}

// Two periods have a closed answer: t^b/T^b is the share of failures in the first.
func TestGroupedTwoPeriods(t *testing.T) {
	f := reliability.FitGrouped(reliability.Grouped{Ends: []float64{250, 1000}, Counts: []int{3, 9}})
	near(t, "shape", f.Shape, math.Log(3.0/12)/math.Log(250.0/1000), 1e-9)
	early := reliability.FitGrouped(reliability.Grouped{Ends: []float64{1e-4, 1000}, Counts: []int{3, 9}})
	near(t, "shape, a very short period", early.Shape, math.Log(0.25)/math.Log(1e-7), 1e-9)
}

// Fine groups say what single failures say.
func TestGroupedFinelyIsTheFit(t *testing.T) {
	g := reliability.Grouped{}
	for end := 0.01; end < 300.005; end += 0.01 {
		n := 0
		for _, f := range handbookCase.Failures {
			if f > end-0.0101 && f <= end-0.0001 {
				n++
			}
		}
		g.Ends, g.Counts = append(g.Ends, end), append(g.Counts, n)
	}
	f := reliability.FitGrouped(g)
	if f.Failures != 27 {
		t.Fatalf("%d failures in the groups", f.Failures)
	}
	near(t, "shape", f.Shape, reliability.Fit(handbookCase).Shape, 1e-3)
}

func TestReportKeepsQuietAboutDisorder(t *testing.T) {
	r := reliability.Of(reliability.History{Hours: 10, Failures: []float64{20}}, reliability.Count{Failures: 3, Hours: 100}, 1)
	if !r.Silent() || r.Trend.Silent != reliability.Disorder || r.Fellows.Silent != reliability.Disorder || r.Now.Silent != reliability.Disorder {
		t.Errorf("%+v", r)
	}
	if r := reliability.Of(caseStudy, reliability.Count{}, 1); r.Silent() || r.Fellows.Silent != reliability.NoFellows || r.Now.Silent != reliability.Spoken {
		t.Errorf("%+v", r)
	}
}
