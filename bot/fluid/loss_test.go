package fluid_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"crosslay/bot/fluid"
)

func monday(day int) time.Time { return time.Date(2026, 3, 2+day, 7, 30, 0, 0, time.UTC) }

func TestLossOf(t *testing.T) {
	at := func(day int, ml float64) fluid.TopUp { return fluid.TopUp{At: monday(day), ML: ml} }
	tests := []struct {
		name           string
		topUps         []fluid.TopUp
		step           float64
		silent         fluid.Silence
		week, low, hig float64
	}{
		{"never", nil, 0, fluid.TooFew, 0, 0, 0},
		{"once", []fluid.TopUp{at(0, 100)}, 0, fluid.TooFew, 0, 0, 0},
		{"a_week_apart", []fluid.TopUp{at(0, 500), at(7, 70)}, 0, "", 70, 70, 70}, // what came before the first is not known
		{"two_weeks", []fluid.TopUp{at(0, 500), at(4, 60), at(14, 80)}, 20, "", 70, 70 - (2+math.Sqrt2)*5, 70 + (2+math.Sqrt2)*5},
		{"coarse_gauge", []fluid.TopUp{at(0, 500), at(14, 140)}, 40, "", 70, 50, 90},
		{"less_than_the_gauge_tells", []fluid.TopUp{at(0, 500), at(7, 30)}, 40, "", 30, 0, 70},
		{"twice_on_one_day", []fluid.TopUp{at(0, 100), {At: monday(0).Add(5 * time.Hour), ML: 50}}, 0, fluid.TooSoon, 0, 0, 0},
		{"a_day_apart", []fluid.TopUp{at(0, 500), at(1, 10)}, 0, "", 70, 70, 70},
		{"no_volume", []fluid.TopUp{at(0, 100), at(7, 0)}, 0, fluid.NoVolume, 0, 0, 0},
		{"out_of_order", []fluid.TopUp{at(7, 100), at(0, 100)}, 0, fluid.TooSoon, 0, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := fluid.LossOf(tt.topUps, tt.step)
			if l.Silent != tt.silent || l.TopUps != len(tt.topUps) {
				t.Fatalf("%+v", l)
			}
			near(t, "a week", l.PerWeek, tt.week, 1e-9)
			near(t, "low", l.Low, tt.low, 1e-9)
			near(t, "high", l.High, tt.hig, 1e-9)
		})
	}
}

// A tank that leaks at a known rate, topped up whenever somebody looks and sees it
// low, on a gauge read to the nearest step: the range holds the rate, but for one
// case in a hundred.
func TestLossHoldsTheRate(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	const band, step = 400.0, 0.125 // mL; of the band
	read := func(level float64) float64 { return math.Round(level/step) * step }
	missed := 0
	for range 1000 {
		perDay := 2 + 40*rng.Float64() // mL
		level, now := 1.0, monday(0)
		var topUps []fluid.TopUp
		for range 200 {
			now = now.Add(24 * time.Hour)
			level -= perDay / band
			if seen := read(level); seen <= 0.5 && rng.Float64() < 0.7 {
				if ml, ok := fluid.Poured(seen, 1, band); ok {
					topUps = append(topUps, fluid.TopUp{At: now, ML: ml})
				}
				level = 1 + (rng.Float64()-0.5)*step // filled up to what looks like the mark
			}
		}
		l := fluid.LossOf(topUps, step*band)
		if l.Silent == fluid.Spoken && (perDay*7 < l.Low || perDay*7 > l.High) {
			missed++
		}
	}
	if missed > 10 {
		t.Errorf("missed %d of 1000", missed)
	}
}

func TestPoured(t *testing.T) {
	for _, c := range []struct {
		before, after, band, want float64
		ok                        bool
	}{{0.25, 1, 400, 300, true}, {-0.25, 0.5, 400, 300, true}, {1, 1, 400, 0, false}, {1, 0.5, 400, 0, false}, {0, 1, 0, 0, false}, {math.NaN(), 1, 400, 0, false}} {
		if got, ok := fluid.Poured(c.before, c.after, c.band); got != c.want || ok != c.ok {
			t.Errorf("%+v: %v %v", c, got, ok)
		}
	}
}
