package rota_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"crosslay/bot/dept"
	"crosslay/bot/rota"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func date(t testing.TB, s string) dept.Date {
	t.Helper()
	d, err := dept.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// work makes a rota of a cycle with one letter a tour, beginning on date.
func work(t testing.TB, cycle, starts string, z *time.Location, changes ...string) rota.Rota {
	t.Helper()
	r := rota.Rota{Starts: date(t, starts), Zone: z}
	for _, c := range changes {
		clock, err := dept.ParseClock(c)
		if err != nil {
			t.Fatal(err)
		}
		r.Changes = append(r.Changes, clock)
	}
	for _, p := range strings.Split(cycle, "") {
		r.Cycle = append(r.Cycle, dept.Platoon(p))
		if !slices.Contains(r.Platoons, dept.Platoon(p)) {
			r.Platoons = append(r.Platoons, dept.Platoon(p))
		}
	}
	if wrong := r.Fits(); len(wrong) > 0 {
		t.Fatalf("%s does not fit: %v", cycle, wrong)
	}
	return r
}

// pattern is a rota with the figures published for it.
type pattern struct {
	name    string
	cycle   string
	changes []string
	weekly  float64 // hours of one platoon, on average
	tours   float64 // in 365 days
}

// Weekly hours and their sources. 24/48: 56 (Portsmouth OH charter s.164, FOUND).
// 48/96 XXOOOO: 56 (Pleasanton CA MOU 6.1, FOUND). 9 days XOXOXOOOO, platoons
// ACABABCBC: 56, 121 tours a year (Westminster paper, FOUND). 24/72 and XOXOOOOO:
// 42 h, 91.25 tours, and 121.67 tours of the others (RECOMPUTED). 10/14, two days, two nights and four off,
// on four platoons: 42 = 168/4, common practice, no source.
var patterns = []pattern{
	{"24_48", "ABC", []string{"07:00"}, 56, 121.67},
	{"48_96", "AABBCC", []string{"08:00"}, 56, 121.67},
	{"nine_days", "ACABABCBC", []string{"07:00"}, 56, 121.67},
	{"24_72", "ABCD", []string{"07:00"}, 42, 91.25},
	{"1_1_1_5", "ABABCDCD", []string{"07:00"}, 42, 91.25},
	{"10_14", "ABABDADACDCDBCBC", []string{"07:00", "17:00"}, 42, 182.5},
}

func TestAverageHours(t *testing.T) {
	z := zone(t, "America/Phoenix") // no changed clocks, so that averages are exact
	for _, p := range patterns {
		t.Run(p.name, func(t *testing.T) {
			r := work(t, p.cycle, "2026-01-01", z, p.changes...)
			const weeks = 9 * 8 * 7 // a whole number of every cycle
			hours, tours := map[dept.Platoon]float64{}, map[dept.Platoon]float64{}
			for day := range weeks * 7 {
				for _, s := range r.On(r.Starts.AddDays(day)) {
					hours[s.Platoon] += s.End.Sub(s.Start).Hours()
					tours[s.Platoon]++
				}
			}
			for _, platoon := range r.Platoons {
				if got := hours[platoon] / weeks; math.Abs(got-p.weekly) > 1e-9 {
					t.Errorf("%s works %.3f h a week, want %v", platoon, got, p.weekly)
				}
				if got := tours[platoon] / (weeks * 7) * 365; math.Abs(got-p.tours) > 0.005 {
					t.Errorf("%s has %.3f tours a year, want %v", platoon, got, p.tours)
				}
			}
		})
	}
}

func TestTables(t *testing.T) {
	z := zone(t, "America/Denver")
	tests := []struct {
		name, cycle string
		changes     []string
		want        string // from 2026-01-01, tour by tour
	}{
		{"24_48", "ABC", []string{"07:00"}, "ABCABCABCA"},
		{"48_96", "AABBCC", []string{"08:00"}, "AABBCCAABB"},
		{"nine_days", "ACABABCBC", []string{"07:00"}, "ACABABCBCA"},
		{"24_72", "ABCD", []string{"07:00"}, "ABCDABCDAB"},
		{"10_14", "ABABDADACDCDBCBC", []string{"07:00", "17:00"}, "ABABDADACDCDBCBCAB"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := work(t, tt.cycle, "2026-01-01", z, tt.changes...)
			var got strings.Builder
			at := r.On(r.Starts)[0].Start
			for range tt.want {
				s := r.At(at)
				got.WriteString(string(s.Platoon))
				at = s.End
			}
			if got.String() != tt.want {
				t.Errorf("got %s, want %s", got.String(), tt.want)
			}
			before := r.At(r.On(r.Starts)[0].Start.Add(-time.Second)).Platoon
			if want := tt.cycle[len(tt.cycle)-1:]; string(before) != want {
				t.Errorf("before the cycle's start %s works, want %s", before, want)
			}
		})
	}
}

// The 07:00 to 07:00 tour of Mar 7-8, 2026, has 23 h, that of Oct 31-Nov 1 25 h:
// 15 U.S.C. 260a(a) and tzdata 2025b, FOUND. Phoenix and Honolulu change nothing.
func TestChangedClocks(t *testing.T) {
	tests := []struct {
		zone, date string
		hours      float64
	}{
		{"America/New_York", "2026-03-06", 24}, {"America/New_York", "2026-03-07", 23}, {"America/New_York", "2026-03-08", 24},
		{"America/New_York", "2026-10-31", 25}, {"America/New_York", "2026-11-01", 24},
		{"America/Chicago", "2026-03-07", 23}, {"America/Denver", "2026-10-31", 25}, {"America/Los_Angeles", "2026-03-07", 23},
		{"America/Anchorage", "2026-10-31", 25}, {"America/Phoenix", "2026-03-07", 24}, {"Pacific/Honolulu", "2026-10-31", 24},
	}
	for _, tt := range tests {
		t.Run(tt.zone+"_"+tt.date, func(t *testing.T) {
			z := zone(t, tt.zone)
			s := work(t, "ABC", "2026-01-01", z, "07:00").On(date(t, tt.date))[0]
			if got := s.End.Sub(s.Start).Hours(); got != tt.hours {
				t.Errorf("%v h, want %v", got, tt.hours)
			}
			if w := s.End.In(z).Format("15:04"); w != "07:00" {
				t.Errorf("it turns over at %s on the wall", w)
			}
		})
	}
}

// A night tour may begin or end in the hour that the clock skips or shows twice.
func TestChangeWithinTheGap(t *testing.T) {
	z := zone(t, "America/New_York")
	r := work(t, "AB", "2026-01-01", z, "02:30", "14:30")
	if s := r.On(date(t, "2026-03-08"))[0]; !s.Start.Equal(time.Date(2026, 3, 8, 7, 0, 0, 0, time.UTC)) {
		t.Errorf("a change at a time that does not come is at %v", s.Start.UTC())
	}
	r = work(t, "AB", "2026-01-01", z, "01:30", "13:30")
	first := time.Date(2026, 11, 1, 5, 30, 0, 0, time.UTC)
	if s := r.On(date(t, "2026-11-01"))[0]; !s.Start.Equal(first) {
		t.Errorf("a change at a time that comes twice is at %v", s.Start.UTC())
	}
	if a, b := r.At(first), r.At(first.Add(time.Hour)); a != b {
		t.Errorf("the second 01:30 changes the shift again: %v, %v", a, b)
	}
}

func TestAtItsEdges(t *testing.T) {
	z := zone(t, "America/Denver")
	r := work(t, "ABC", "2026-01-01", z, "07:00")
	seven := time.Date(2026, 1, 2, 7, 0, 0, 0, z)
	if s := r.At(seven); s.Platoon != "B" || s.Date != date(t, "2026-01-02") || !s.Start.Equal(seven) {
		t.Errorf("at its first instant: %+v", s)
	}
	if s := r.At(seven.Add(-time.Nanosecond)); s.Platoon != "A" || s.Date != date(t, "2026-01-01") || !s.End.Equal(seven) {
		t.Errorf("just before: %+v", s)
	}
	if s := r.At(seven.UTC()); s.Platoon != "B" {
		t.Errorf("in another zone's words: %+v", s)
	}
	if next := r.Next(seven); !next.Equal(seven.Add(24 * time.Hour)) {
		t.Errorf("the change after a change: %v", next)
	}
	if b := r.Before(r.At(seven)); b.Platoon != "A" || !b.End.Equal(seven) {
		t.Errorf("relieved %+v", b)
	}
}

// Every minute has exactly one platoon: the shift at an instant holds it, its
// neighbours begin and end where it does, and (date, platoon) names it alone.
func TestEveryMinuteHasOnePlatoon(t *testing.T) {
	zones := []*time.Location{zone(t, "America/New_York"), zone(t, "America/Denver"), zone(t, "America/Phoenix"), zone(t, "America/Anchorage")}
	rapid.Check(t, func(rt *rapid.T) {
		p := rapid.SampledFrom(patterns).Draw(rt, "pattern")
		z := rapid.SampledFrom(zones).Draw(rt, "zone")
		r := work(t, p.cycle, "2026-01-01", z, p.changes...)
		minute := rapid.IntRange(-400*1440, 800*1440).Draw(rt, "minute")
		at := time.Date(2026, 1, 1, 0, 0, 0, 0, z).Add(time.Duration(minute) * time.Minute)
		s := r.At(at)
		if at.Before(s.Start) || !at.Before(s.End) {
			rt.Fatalf("%v is not in %+v", at, s)
		}
		if next, before := r.At(s.End), r.Before(s); !next.Start.Equal(s.End) || !before.End.Equal(s.Start) {
			rt.Fatalf("%+v is not joined to %+v and %+v", s, before, next)
		}
		holding := 0
		for day := -2; day <= 1; day++ {
			for _, o := range r.On(dept.DateOf(at).AddDays(day)) {
				if !at.Before(o.Start) && at.Before(o.End) {
					holding++
				}
				if o.Date == s.Date && o.Platoon == s.Platoon && !o.Start.Equal(s.Start) {
					rt.Fatalf("%+v and %+v have one name", o, s)
				}
			}
		}
		if holding != 1 {
			rt.Fatalf("%v is in %d shifts", at, holding)
		}
	})
}

func TestFits(t *testing.T) {
	good := rota.Rota{Platoons: []dept.Platoon{"A", "B"}, Cycle: []dept.Platoon{"A", "B"}, Changes: []dept.Clock{420}}
	if wrong := good.Fits(); len(wrong) != 0 {
		t.Fatalf("a good rota: %v", wrong)
	}
	tests := []struct {
		name  string
		spoil func(*rota.Rota)
		says  string
	}{
		{"no_platoons", func(r *rota.Rota) { r.Platoons, r.Cycle = nil, nil }, "no platoons"},
		{"no_change", func(r *rota.Rota) { r.Changes = nil }, "no shift change"},
		{"unsorted", func(r *rota.Rota) { r.Changes = []dept.Clock{1020, 420} }, "in order"},
		{"unknown_platoon", func(r *rota.Rota) { r.Cycle = []dept.Platoon{"A", "B", "C"} }, "not among the platoons"},
		{"idle_platoon", func(r *rota.Rota) { r.Platoons = []dept.Platoon{"A", "B", "C"} }, "never works"},
		{"half_a_day", func(r *rota.Rota) {
			r.Changes, r.Cycle = []dept.Clock{420, 1020}, []dept.Platoon{"A", "B", "A"}
		}, "whole number of days"},
		{"twice_a_day", func(r *rota.Rota) {
			r.Changes, r.Cycle = []dept.Clock{420, 1020}, []dept.Platoon{"A", "A", "B", "B"}
		}, "two tours"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := good
			tt.spoil(&r)
			if wrong := strings.Join(r.Fits(), "; "); !strings.Contains(wrong, tt.says) {
				t.Errorf("said %q, want %q in it", wrong, tt.says)
			}
		})
	}
}
