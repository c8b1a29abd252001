package reliability_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"crosslay/bot/reliability"
)

// Items that are steady, each at a rate of its own and watched since its own day,
// are no kind that wears out.
func TestKindSeldomCriesWolf(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 5))
	const rounds = 1500
	var worse, better int
	for range rounds {
		var items []reliability.History
		for range 8 {
			items = append(items, steady(rng, 0.001+0.006*rng.Float64(), 200+800*rng.Float64()))
		}
		switch reliability.TrendOf(items...).Direction {
		case reliability.Worse:
			worse++
		case reliability.Better:
			better++
		}
	}
	if w, b := float64(worse)/rounds, float64(better)/rounds; w > 0.055 || b > 0.055 || w < 0.01 || b < 0.01 {
		t.Errorf("worse in %.3f, better in %.3f", w, b)
	}
}

// What no item shows by itself the kind may: eight that wear out alike, with three
// failures each.
func TestKindFindsWearOut(t *testing.T) {
	late := reliability.History{Hours: 1000, Failures: []float64{600, 850, 960}}
	items := make([]reliability.History, 8)
	for i := range items {
		items[i] = late
	}
	if s := reliability.TrendOf(late).Silent; s != reliability.TooFew {
		t.Errorf("one alone: %q", s)
	}
	r := reliability.OfKind(items)
	if r.Trend.Direction != reliability.Worse || r.MTBF.Count != (reliability.Count{Failures: 24, Hours: 8000}) {
		t.Errorf("%+v", r)
	}
	if r.Now.Silent != reliability.Several || r.Fellows.Silent != reliability.NoFellows {
		t.Errorf("%+v", r)
	}
}

// A fleet that grows has more failures late; its items are none the worse.
func TestNewItemsAreNoTrend(t *testing.T) {
	var items []reliability.History
	calendar := reliability.History{Hours: 1000}
	for i := range 10 {
		h := reliability.History{Hours: 1000 - float64(i)*90}
		for f := 100.0; f < h.Hours; f += 200 {
			h.Failures = append(h.Failures, f)
			calendar.Failures = append(calendar.Failures, f+1000-h.Hours)
		}
		items = append(items, h)
	}
	slices.Sort(calendar.Failures)
	if d := reliability.TrendOf(calendar).Direction; d != reliability.Worse {
		t.Errorf("by the calendar the fleet looks %s; the test wants it to look worse", d)
	}
	if trend := reliability.OfKind(items).Trend; trend.Direction != reliability.Steady {
		t.Errorf("%+v", trend)
	}
}

func TestOfKindLeavesOutTheUnwatched(t *testing.T) {
	r := reliability.OfKind([]reliability.History{{}, caseStudy, {Hours: 0}})
	if r.Silent() || r.MTBF.Count != caseStudy.Count() || r.Trend.Direction != reliability.Better {
		t.Errorf("%+v", r)
	}
	if r := reliability.OfKind(nil); r.MTBF.Silent != reliability.NoTime || r.Trend.Silent != reliability.NoTime {
		t.Errorf("%+v", r)
	}
	if r := reliability.OfKind([]reliability.History{caseStudy, {Hours: 5, Failures: []float64{7}}}); r.MTBF.Silent != reliability.Disorder {
		t.Errorf("%+v", r)
	}
}

// Hours or minutes, the verdicts are the same and the times are in proportion.
func TestNothingHangsOnTheUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.Float64Range(0.01, 100).Draw(t, "scale")
		h := reliability.History{Hours: 1000}
		at := 0.0
		for range rapid.IntRange(0, 25).Draw(t, "failures") {
			at += rapid.Float64Range(0.5, 39).Draw(t, "gap")
			h.Failures = append(h.Failures, at)
		}
		g := reliability.History{Hours: h.Hours * scale}
		for _, f := range h.Failures {
			g.Failures = append(g.Failures, f*scale)
		}
		a := reliability.Of(h, reliability.Count{Failures: 9, Hours: 4000}, 1)
		b := reliability.Of(g, reliability.Count{Failures: 9, Hours: 4000 * scale}, 1)
		if a.Trend.Silent != b.Trend.Silent || math.Abs(a.Trend.Laplace.Statistic-b.Trend.Laplace.Statistic) > 1e-6 ||
			math.Abs(a.Trend.Handbook.Statistic-b.Trend.Handbook.Statistic) > 1e-6 || a.Fellows.Direction != b.Fellows.Direction ||
			math.Abs(a.Now.MTBF*scale-b.Now.MTBF) > 1e-6*b.Now.MTBF || math.Abs(a.MTBF.Lower*scale-b.MTBF.Lower) > 1e-9*b.MTBF.Lower {
			t.Errorf("%+v\n%+v", a, b)
		}
	})
}
