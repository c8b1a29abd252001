package cover

import (
	"math"
	"testing"

	"crosslay/bot/dept"
)

// Worked values of the RAND travel-time formula as published by ISO ("Response-
// Time Considerations"): 1.5 miles 3.2 min, 2.5 miles 4.9 min, valid 0.5 to 8.
func TestMinutes(t *testing.T) {
	for _, c := range []struct {
		miles, minutes float64
		rough          bool
	}{{1.5, 3.2, false}, {2.5, 4.9, false}, {8, 14.3, false}, {0.4, 1.3, true}, {8.1, 14.4, true}} {
		got, rough := Minutes(c.miles * 1.609344)
		if math.Abs(got-c.minutes) > 0.05+1e-9 || rough != c.rough {
			t.Errorf("%v miles: %.2f min, rough %v; want %.1f, %v", c.miles, got, rough, c.minutes, c.rough)
		}
	}
}

// One degree of a great circle of 6371 km is 2 pi 6371 / 360 = 111.195 km.
func TestStraight(t *testing.T) {
	got := Straight(dept.Station{Lat: 10}, dept.Station{Lat: 11})
	if math.Abs(got-2*math.Pi*6371/360) > 1e-6 {
		t.Errorf("one degree: %v km", got)
	}
}

func TestBetween(t *testing.T) {
	d := &dept.Department{Roads: []dept.Road{{A: "a", B: "b", Km: 5}}}
	if w := Between(d, dept.Station{ID: "b"}, dept.Station{ID: "a"}); w.Km != 5 || !w.Stated {
		t.Errorf("stated both ways: %+v", w)
	}
	if w := Between(d, dept.Station{ID: "a"}, dept.Station{ID: "c", Lat: 1}); w.Stated || !w.Rough || math.Abs(w.Km-1.3*111.195) > 0.01 {
		t.Errorf("estimated: %+v", w)
	}
}
