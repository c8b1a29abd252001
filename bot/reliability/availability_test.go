package reliability_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"crosslay/bot/reliability"
)

func hour(h int) time.Time { return time.Date(2026, 3, 1, h, 0, 0, 0, time.UTC) }

func TestAvailability(t *testing.T) {
	span := func(from, to int) reliability.Span { return reliability.Span{From: hour(from), To: hour(to)} }
	open := func(from int) reliability.Span { return reliability.Span{From: hour(from)} }
	for _, c := range []struct {
		name  string
		out   []reliability.Span
		hours int
		times int
	}{
		{"never", nil, 0, 0},
		{"once", []reliability.Span{span(10, 20)}, 10, 1},
		{"twice_out_of_order", []reliability.Span{span(50, 60), span(10, 20)}, 20, 2},
		{"two_reasons_at_once", []reliability.Span{span(10, 20), span(15, 30)}, 20, 1},
		{"one_within_another", []reliability.Span{span(10, 40), span(15, 20), span(35, 50)}, 40, 1},
		{"one_after_the_other_without_a_gap", []reliability.Span{span(10, 20), span(20, 25)}, 15, 1},
		{"from_before_the_window", []reliability.Span{span(-30, 5)}, 5, 1},
		{"beyond_the_window", []reliability.Span{span(95, 300)}, 5, 1},
		{"still_out", []reliability.Span{open(90)}, 10, 1},
		{"all_of_it", []reliability.Span{open(-5)}, 100, 1},
		{"before_the_window", []reliability.Span{span(-30, -5)}, 0, 0},
		{"after_the_window", []reliability.Span{span(130, 140)}, 0, 0},
		{"upside_down", []reliability.Span{span(20, 10)}, 0, 0},
		{"ends_as_it_begins", []reliability.Span{span(20, 20)}, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := reliability.AvailabilityOf(span(0, 100), c.out)
			if a.Out != time.Duration(c.hours)*time.Hour || a.Times != c.times {
				t.Errorf("%v, %d times; want %d h, %d", a.Out, a.Times, c.hours, c.times)
			}
			if share, ok := a.Share(); !ok || share != 1-float64(c.hours)/100 {
				t.Errorf("share %v %v", share, ok)
			}
		})
	}
}

func TestAvailabilityOfNothing(t *testing.T) {
	for _, w := range []reliability.Span{{}, {From: hour(5), To: hour(5)}, {From: hour(5), To: hour(2)}} {
		if share, ok := reliability.AvailabilityOf(w, []reliability.Span{{From: hour(1)}}).Share(); ok {
			t.Errorf("%v: %v", w, share)
		}
	}
	a := reliability.Availability{Watched: 10 * time.Hour, Out: time.Hour, Times: 1}.Plus(reliability.Availability{Watched: 30 * time.Hour, Out: 3 * time.Hour, Times: 2})
	if share, _ := a.Share(); share != 0.9 || a.Times != 3 {
		t.Errorf("%+v", a)
	}
}

// Hour by hour, an item is out if any spell holds the hour: the oracle asks each.
func TestAvailabilityHourByHour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var out []reliability.Span
		for range rapid.IntRange(0, 6).Draw(t, "spells") {
			from := rapid.IntRange(-20, 60).Draw(t, "from")
			s := reliability.Span{From: hour(from), To: hour(from + rapid.IntRange(0, 30).Draw(t, "long"))}
			if rapid.Bool().Draw(t, "open") {
				s.To = time.Time{}
			}
			out = append(out, s)
		}
		hours, times, was := 0, 0, false
		for h := range 50 {
			is := false
			for _, s := range out {
				is = is || !hour(h).Before(s.From) && (s.To.IsZero() || hour(h).Before(s.To))
			}
			if is {
				hours++
			}
			if is && !was {
				times++
			}
			was = is
		}
		a := reliability.AvailabilityOf(reliability.Span{From: hour(0), To: hour(50)}, out)
		if a.Out != time.Duration(hours)*time.Hour || a.Times != times {
			t.Errorf("%v: %v %d, want %d h %d", out, a.Out, a.Times, hours, times)
		}
	})
}
