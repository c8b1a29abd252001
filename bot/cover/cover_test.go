package cover_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"crosslay/bot/cover"
	"crosslay/bot/dept"
)

// Worked values of the RAND travel-time formula as published by ISO ("Response-
// Time Considerations", firechief.iso.com, FOUND): to the nearest tenth, 1.5 miles
// are 3.2 min and 2.5 miles 4.9 min; validated for 0.5 to 8.0 miles.
func TestMinutes(t *testing.T) {
	for _, c := range []struct {
		miles, minutes float64
		rough          bool
	}{{1.5, 3.2, false}, {2.5, 4.9, false}, {0.5, 1.5, false}, {8, 14.3, false}, {0.4, 1.3, true}, {8.1, 14.4, true}, {0, 0.7, true}} {
		got, rough := cover.Minutes(c.miles * 1.609344)
		if math.Abs(got-c.minutes) > 0.05+1e-9 || rough != c.rough {
			t.Errorf("%v miles: %.2f min, rough %v; want %.1f, %v", c.miles, got, rough, c.minutes, c.rough)
		}
	}
}

// The same page gives an average speed of 35 mph: what each further mile takes.
func TestMinutesAreAtThirtyFive(t *testing.T) {
	if mph := 60 / cover.Published.PerMile; math.Round(mph) != 35 {
		t.Errorf("%.2f mph", mph)
	}
}

// A department that measured its own drives is not held to the published figures.
func TestFormulaOfTheDepartment(t *testing.T) {
	own := cover.Formula{Base: 1, PerMile: 2, From: 1, To: 20, Detour: 1.5}
	if m, rough := own.Minutes(10 * 1.609344); math.Abs(m-21) > 1e-9 || rough {
		t.Errorf("%v, rough %v", m, rough)
	}
	w := own.Between(&dept.Department{}, dept.Station{ID: "a"}, dept.Station{ID: "b", Lat: 0.1})
	if math.Abs(w.Km-1.5*11.1195) > 0.001 {
		t.Errorf("%+v", w)
	}
}

// 5280 feet are 1609.344 m: UCUM 2.2 and NIST SP 811 App. B.8 (second-hand).
func TestMile(t *testing.T) {
	if got := (cover.Way{Km: 1.609344}).Miles(); math.Abs(got-1) > 1e-12 {
		t.Errorf("%v", got)
	}
}

// The way through the earth by vectors, turned into an arc, shares nothing with
// the haversine formula.
func TestStraightByVectors(t *testing.T) {
	vector := func(s dept.Station) [3]float64 {
		lat, lon := s.Lat*math.Pi/180, s.Lon*math.Pi/180
		return [3]float64{math.Cos(lat) * math.Cos(lon), math.Cos(lat) * math.Sin(lon), math.Sin(lat)}
	}
	rapid.Check(t, func(t *rapid.T) {
		a := dept.Station{Lat: rapid.Float64Range(-80, 80).Draw(t, "lat"), Lon: rapid.Float64Range(-179, 179).Draw(t, "lon")}
		b := dept.Station{Lat: a.Lat + rapid.Float64Range(-1, 1).Draw(t, "north"), Lon: a.Lon + rapid.Float64Range(-1, 1).Draw(t, "east")}
		u, v := vector(a), vector(b)
		chord := math.Sqrt(math.Pow(u[0]-v[0], 2) + math.Pow(u[1]-v[1], 2) + math.Pow(u[2]-v[2], 2))
		want := 6371 * 2 * math.Asin(chord/2)
		if got := cover.Straight(a, b); math.Abs(got-want) > 1e-6 {
			t.Errorf("%v to %v: %v km, want %v", a, b, got, want)
		}
	})
	// One degree of a great circle of 6371 km is 2 pi 6371 / 360 = 111.195 km.
	if got := cover.Straight(dept.Station{Lat: 10}, dept.Station{Lat: 11}); math.Abs(got-111.195) > 5e-4 {
		t.Errorf("one degree: %v km", got)
	}
	if got := cover.Straight(dept.Station{Lon: 0}, dept.Station{Lon: 180}); math.Abs(got-math.Pi*6371) > 1e-6 {
		t.Errorf("half way around: %v km", got)
	}
}

func TestBetween(t *testing.T) {
	d := &dept.Department{Roads: []dept.Road{{A: "a", B: "b", Km: 5}}}
	if w := cover.Between(d, dept.Station{ID: "b"}, dept.Station{ID: "a"}); w.Km != 5 || !w.Stated {
		t.Errorf("stated both ways: %+v", w)
	}
	if w := cover.Between(d, dept.Station{ID: "a"}, dept.Station{ID: "c", Lat: 1}); w.Stated || !w.Rough || math.Abs(w.Km-1.3*111.195) > 0.01 {
		t.Errorf("estimated: %+v", w)
	}
	if w := cover.Between(d, dept.Station{ID: "a", Lat: 1}, dept.Station{ID: "a", Lat: 1}); w.Km != 0 || !w.Stated || !w.Rough {
		t.Errorf("the same station: %+v", w)
	}
}

// valley is a department along one road: stations a mile apart, one company each.
func valley(n int) *dept.Department {
	d := &dept.Department{}
	for i := range n {
		s := dept.StationID(fmt.Sprint("st", i))
		d.Stations = append(d.Stations, dept.Station{ID: s})
		d.Companies = append(d.Companies, dept.Company{ID: dept.CompanyID(fmt.Sprint("E", i)), Station: s})
		for j := range i {
			d.Roads = append(d.Roads, dept.Road{A: s, B: dept.StationID(fmt.Sprint("st", j)), Km: float64(i-j) * 1.609344})
		}
	}
	d.Index()
	return d
}

func only(ids ...dept.CompanyID) func(dept.CompanyID) bool {
	return func(id dept.CompanyID) bool { return slices.Contains(ids, id) }
}

func TestNearest(t *testing.T) {
	d := valley(6)
	d.Companies = append(d.Companies, dept.Company{ID: "T2", Station: "st2"}, dept.Company{ID: "X", Station: "nowhere"})
	d.Index()
	for _, c := range []struct {
		name    string
		of      dept.CompanyID
		can     []dept.CompanyID
		want    dept.CompanyID
		minutes float64
	}{
		{"a_mile_away", "E2", []dept.CompanyID{"E0", "E3", "E5"}, "E3", 2.35},
		{"the_order_of_the_file_breaks_ties", "E2", []dept.CompanyID{"E3", "E1"}, "E1", 2.35},
		{"the_same_station", "E2", []dept.CompanyID{"E1", "T2"}, "T2", 0.65},
		{"not_itself", "E2", []dept.CompanyID{"E2", "E5"}, "E5", 5.75},
		{"nobody", "E2", nil, "", 0},
		{"one_without_a_station_is_no_help", "E2", []dept.CompanyID{"X"}, "", 0},
		{"one_that_is_not_there", "E9", []dept.CompanyID{"E1"}, "", 0},
		{"one_without_a_station_cannot_be_reached", "X", []dept.CompanyID{"E1"}, "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok := cover.Published.Nearest(d, c.of, only(c.can...))
			if got.Company != c.want || ok != (c.want != "") || ok && math.Abs(got.Way.Minutes-c.minutes) > 1e-9 {
				t.Errorf("%+v %v", got, ok)
			}
		})
	}
}

func TestPlace(t *testing.T) {
	d := valley(9)
	q := cover.Places{Out: []dept.CompanyID{"E8", "E1", "E5", "E6"}, Can: only("E0"), Spares: 1}
	p, silent := cover.Published.Place(d, q, cover.Total)
	if silent != cover.Spoken || !slices.Equal(p.At, []dept.CompanyID{"E6"}) {
		t.Fatalf("%+v %q", p, silent)
	}
	// Before 1, 5, 6 and 8 miles from E0; after, E1 still from E0, E5 and E8 from E6.
	if b := p.Before; math.Abs(b.Mean-(0.65+1.7*5)) > 1e-9 || math.Abs(b.Longest-14.25) > 1e-9 || b.Farthest != "E8" {
		t.Errorf("before %+v", b)
	}
	if a := p.After; math.Abs(a.Mean-(3*0.65+1.7*4)/4) > 1e-9 || math.Abs(a.Longest-4.05) > 1e-9 || a.Farthest != "E8" {
		t.Errorf("after %+v", a)
	}
	want := []cover.Help{
		{Company: "E1", By: "E0", ByNow: "E0", Minutes: 2.35, Now: 2.35}, {Company: "E5", By: "E6", ByNow: "E0", Minutes: 2.35, Now: 9.15},
		{Company: "E6", By: "E6", ByNow: "E0", Minutes: 0, Now: 10.85}, {Company: "E8", By: "E6", ByNow: "E0", Minutes: 4.05, Now: 14.25},
	}
	for i, h := range p.Help {
		w := want[i]
		if math.Abs(h.Minutes-w.Minutes) > 1e-9 || math.Abs(h.Now-w.Now) > 1e-9 || h.Company != w.Company || h.By != w.By || h.ByNow != w.ByNow || h.Way.Rough || h.Way.Minutes != h.Minutes {
			t.Errorf("%+v, want %+v", h, w)
		}
	}
}

// E4 and E5 would serve the whole alike; the order of the file decides. What is
// best on the whole need not be best for the one farthest away.
func TestPlaceGoalsDiffer(t *testing.T) {
	d := valley(12)
	q := cover.Places{Out: []dept.CompanyID{"E3", "E4", "E5", "E11"}, Can: only("E0"), Spares: 1}
	total, _ := cover.Published.Place(d, q, cover.Total)
	far, _ := cover.Published.Place(d, q, cover.Farthest)
	if total.At[0] != "E4" || far.At[0] != "E11" || !(far.After.Longest < total.After.Longest && far.After.Mean > total.After.Mean) {
		t.Errorf("total %+v\nfarthest %+v", total, far)
	}
}

// A company that is called ten times as often draws the spare.
func TestPlaceByWeight(t *testing.T) {
	d := valley(9)
	q := cover.Places{Out: []dept.CompanyID{"E2", "E6", "E8"}, Can: only("E0"), Spares: 1}
	q.Weight = func(id dept.CompanyID) float64 { return map[dept.CompanyID]float64{"E2": 10}[id] + 1 }
	if p, _ := cover.Published.Place(d, q, cover.Total); p.At[0] != "E2" {
		t.Errorf("%+v", p)
	}
	q.Weight = nil
	if p, _ := cover.Published.Place(d, q, cover.Total); p.At[0] == "E2" {
		t.Errorf("without the weight: %+v", p)
	}
}

func TestPlaceWhereNobodyCan(t *testing.T) {
	d := valley(5)
	q := cover.Places{Out: []dept.CompanyID{"E0", "E1", "E2"}, Can: only("E1"), Spares: 1} // E1 is out itself
	p, _ := cover.Published.Place(d, q, cover.Farthest)
	if !math.IsInf(p.Before.Longest, 1) || !math.IsInf(p.Before.Mean, 1) || p.At[0] != "E1" || math.Abs(p.After.Longest-2.35) > 1e-9 {
		t.Errorf("%+v", p)
	}
	if h := p.Help[0]; h.ByNow != "" || !math.IsInf(h.Now, 1) || h.By != "E1" {
		t.Errorf("%+v", h)
	}
}

func TestPlaceIsSilent(t *testing.T) {
	d := valley(3)
	d.Companies = append(d.Companies, dept.Company{ID: "X", Station: "nowhere"})
	d.Index()
	for want, q := range map[cover.Silence]cover.Places{
		cover.NoneOut:  {Can: only("E0"), Spares: 1},
		cover.NoSpares: {Out: []dept.CompanyID{"E1"}, Can: only("E0")},
		cover.Unplaced: {Out: []dept.CompanyID{"E1", "X"}, Can: only("E0"), Spares: 1},
	} {
		if p, got := cover.Published.Place(d, q, cover.Total); got != want || len(p.At) > 0 {
			t.Errorf("%q, want %q: %+v", got, want, p)
		}
	}
	if _, got := cover.Published.Place(d, cover.Places{Out: []dept.CompanyID{"E9"}, Can: only("E0"), Spares: 1}, cover.Total); got != cover.Unplaced {
		t.Errorf("a company that is not there: %q", got)
	}
}

// More spares than companies that are out: each gets one, the others stay.
func TestPlaceMoreThanNeeded(t *testing.T) {
	d := valley(5)
	q := cover.Places{Out: []dept.CompanyID{"E1", "E3", "E1"}, Can: only("E0"), Spares: 9}
	for _, goal := range []cover.Goal{cover.Total, cover.Farthest} {
		p, _ := cover.Published.Place(d, q, goal)
		if !slices.Equal(p.At, []dept.CompanyID{"E1", "E3"}) || p.After.Longest != 0 || p.After.Mean != 0 {
			t.Errorf("%s: %+v", goal, p)
		}
	}
}
