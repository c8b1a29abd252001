package rota_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"crosslay/bot/dept"
	"crosslay/bot/rota"
)

// The hours of fire protection and of law enforcement that 29 CFR 553.230(c)
// allows in a work period of so many days before overtime. FOUND complete (CTAS of
// the University of Tennessee; rows 7 to 20 also in 110 Stat. 4385).
var (
	fireHours = map[int]float64{28: 212, 27: 204, 26: 197, 25: 189, 24: 182, 23: 174, 22: 167, 21: 159, 20: 151, 19: 144, 18: 136, 17: 129,
		16: 121, 15: 114, 14: 106, 13: 98, 12: 91, 11: 83, 10: 76, 9: 68, 8: 61, 7: 53}
	lawHours = map[int]float64{28: 171, 27: 165, 26: 159, 25: 153, 24: 147, 23: 140, 22: 134, 21: 128, 20: 122, 19: 116, 18: 110, 17: 104,
		16: 98, 15: 92, 14: 86, 13: 79, 12: 73, 11: 67, 10: 61, 9: 55, 8: 49, 7: 43}
)

// The rule beside the table, FOUND: 212 or 171 hours times days over 28, to the
// nearest hour; a half goes up (law, 14 days: 85.5 is 86).
func TestTableOfWorkPeriods(t *testing.T) {
	for most, table := range map[float64]map[int]float64{212: fireHours, 171: lawHours} {
		for days := 7; days <= 28; days++ {
			if want := math.Floor(most*float64(days)/28 + 0.5); table[days] != want {
				t.Errorf("%d days of %v: %v in the table, %v by the rule", days, most, table[days], want)
			}
		}
	}
	if perDay := 212.0 / 28; math.Abs(perDay-7.57) > 0.005 || math.Abs(171.0/28-6.11) > 0.005 {
		t.Errorf("%v hours a day", perDay)
	}
}

// worked is the hours that a platoon works in a period from the rota's start on,
// tours cut to the period.
func worked(r rota.Rota, p dept.Platoon, days int) float64 {
	start := r.On(r.Starts)[0].Start
	end := start.AddDate(0, 0, days)
	var hours float64
	for s := r.At(start); s.Start.Before(end); s = r.At(s.End) {
		if s.Platoon != p {
			continue
		}
		if s.End.After(end) {
			s.End = end
		}
		hours += s.End.Sub(s.Start).Hours()
	}
	return hours
}

// What rotas come to beside the table. RECOMPUTED: 48/96 in its cycle of 24 days
// 192 - 182 = 10 h; 24/48 in 27 days 216 - 204 = 12 h. FOUND: the cycle of 24 days
// (Pleasanton CA MOU 6.1), 112 h in 14 days (Bakersfield CA 2.84.040, Westminster),
// against which the table has 106 (Cleburne TX 93.09).
func TestScheduledAgainstTheTable(t *testing.T) {
	z := zone(t, "America/Phoenix")
	for _, c := range []struct {
		name, cycle        string
		days               int
		worked, over, room float64
	}{
		{"48_96_in_24_days", "AABBCC", 24, 192, 10, 0},
		{"24_48_in_27_days", "ABC", 27, 216, 12, 0},
		{"24_48_in_14_days_on_average", "ABC", 14, 112, 6, 24.0 * 2 / 3}, // a single platoon has 96 to 120
		{"nine_days_in_27_days", "ACABABCBC", 27, 216, 12, 0},
		{"24_72_in_28_days", "ABCD", 28, 168, -44, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := work(t, c.cycle, "2026-01-01", z, "07:00")
			var sum float64
			for _, p := range r.Platoons {
				hours := worked(r, p, c.days)
				if sum += hours; math.Abs(hours-c.worked) > c.room+1e-9 {
					t.Errorf("%s works %v h, want %v", p, hours, c.worked)
				}
			}
			mean := sum / float64(len(r.Platoons))
			if over := mean - fireHours[c.days]; math.Abs(mean-c.worked) > 1e-9 || math.Abs(over-c.over) > 1e-9 {
				t.Errorf("%v h on average, %v over the table's %v", mean, over, fireHours[c.days])
			}
		})
	}
}

// Worked examples beside the table. 29 CFR 553.231(b), FOUND: 80, 80, 52 and 0 h in
// 28 days are its 212, none over; 160 h in 14 days are 54 over. A column on fire
// law (2019-10-10), FOUND: 48 and 72 h in 14 days are 14 over. An opinion of the
// Department of Labor as summed up by IAFC (2019-08-23), FOUND: 17 days may have
// 129 h of fire, 7 days 43 h of police; together 172 in 28 days, none over 212.
func TestWorkedExamplesOfOvertime(t *testing.T) {
	for _, c := range []struct {
		name   string
		days   int
		worked []float64
		over   float64
	}{
		{"cfr_four_weeks", 28, []float64{80, 80, 52, 0}, 0},
		{"cfr_two_weeks", 14, []float64{80, 80}, 54},
		{"column_two_weeks", 14, []float64{48, 72}, 14},
		{"opinion_two_duties", 28, []float64{fireHours[17], lawHours[7]}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			sum := -fireHours[c.days]
			for _, h := range c.worked {
				sum += h
			}
			if got := max(0, sum); got != c.over {
				t.Errorf("%v over, want %v", got, c.over)
			}
		})
	}
}

// Tours and hours of a year, over a whole number of cycles. RECOMPUTED: 121.67
// tours in 365 days; FOUND: 121 of them whole (Westminster, Bakersfield), 2,920 h
// (Cleburne TX).
func TestAYear(t *testing.T) {
	z := zone(t, "America/Phoenix")
	const years = 18
	for _, cycle := range []string{"ABC", "AABBCC", "ACABABCBC"} {
		r := work(t, cycle, "2026-01-01", z, "07:00")
		for _, p := range r.Platoons {
			hours := worked(r, p, 365*years) / years
			if tours := hours / 24; math.Abs(hours-2920) > 1e-9 || math.Floor(tours) != 121 || math.Abs(tours-121.67) > 0.005 {
				t.Errorf("%s: %s works %v h, %v tours a year", cycle, p, hours, tours)
			}
		}
	}
}

// Kelly days: every k-th tour of a platoon off, worked here by a relief platoon K.
// RECOMPUTED: 56 (1 - 1/k) hours a week.
func TestKellyDays(t *testing.T) {
	z := zone(t, "America/Phoenix")
	for k, want := range map[int]float64{7: 48, 8: 49, 9: 49.78, 10: 50.4, 14: 52, 19: 53.05} {
		cycle := strings.Repeat("ABC", k-1) + "KKK"
		r := work(t, cycle, "2026-01-01", z, "07:00")
		days := 3 * k * 7 // a whole number of cycles and of weeks
		for _, p := range []dept.Platoon{"A", "B", "C"} {
			if got := worked(r, p, days) / float64(days) * 7; math.Abs(got-want) > 0.005 || math.Abs(got-56*(1-1/float64(k))) > 1e-9 {
				t.Errorf("every %d: %s works %.3f h a week, want %v", k, p, got, want)
			}
		}
	}
	if k := 1 / (1 - 53.0/56); math.Abs(k-18.67) > 0.005 {
		t.Errorf("53 hours want one tour in %.2f", k)
	}
}

// RFC 5545 3.8.5.3: weekly until Oct 7, 1997, on Tuesday and Thursday. The oracle
// of the other tests must know it too.
func TestOracleOnTwoDaysAWeek(t *testing.T) {
	z := zone(t, "America/New_York")
	all := oracle(t, z, time.Date(1997, 9, 2, 9, 0, 0, 0, z), "FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH")
	var got []string
	for _, at := range all {
		got = append(got, at.Format("Jan 2"))
	}
	want := []string{"Sep 2", "Sep 4", "Sep 9", "Sep 11", "Sep 16", "Sep 18", "Sep 23", "Sep 25", "Sep 30", "Oct 2"}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// 113 mornings, 54 in daylight time and 59 in standard time: RFC 5545 3.8.5.3. A
// rota of one platoon turns over at the same instants.
func TestOneTourADayAcrossTheChange(t *testing.T) {
	z := zone(t, "America/New_York")
	all := oracle(t, z, time.Date(1997, 9, 2, 9, 0, 0, 0, z), "FREQ=DAILY;UNTIL=19971224T000000Z")
	r := work(t, "A", "1997-09-02", z, "09:00")
	names := map[string]int{}
	s := r.On(r.Starts)[0]
	for _, at := range all {
		if !s.Start.Equal(at) {
			t.Fatalf("%v, want %v", s.Start, at)
		}
		name, _ := s.Start.In(z).Zone()
		names[name]++
		s = r.At(s.End)
	}
	if names["EDT"] != 54 || names["EST"] != 59 {
		t.Errorf("%v", names)
	}
}

// The instants of 2026 at which clocks change: 15 U.S.C. 260a(a) (2 a.m. of the
// second Sunday of March and the first of November, FOUND), tzdata 2025b.
func TestInstantsOfTheChange(t *testing.T) {
	for name, utc := range map[string][2]int{"America/New_York": {7, 6}, "America/Chicago": {8, 7}, "America/Denver": {9, 8}, "America/Los_Angeles": {10, 9}, "America/Anchorage": {11, 10}} {
		z := zone(t, name)
		spring := time.Date(2026, 3, 8, utc[0], 0, 0, 0, time.UTC)
		autumn := time.Date(2026, 11, 1, utc[1], 0, 0, 0, time.UTC)
		for _, c := range []struct {
			at           time.Time
			before, from string
			dst          bool
		}{{spring, "01:59", "03:00", true}, {autumn, "01:59", "01:00", false}} {
			if b, a := c.at.Add(-time.Minute).In(z), c.at.In(z); b.Format("15:04") != c.before || a.Format("15:04") != c.from || a.IsDST() != c.dst || b.IsDST() == c.dst {
				t.Errorf("%s: %v, then %v", name, b, a)
			}
		}
		// A change of shift in the hour that is not there comes at its end; one in
		// the hour that comes twice, the first time.
		half := work(t, "AB", "2026-01-01", z, "02:30", "14:30")
		if s := half.On(date(t, "2026-03-08"))[0]; !s.Start.Equal(spring) {
			t.Errorf("%s: 02:30 of spring is %v", name, s.Start.UTC())
		}
		half = work(t, "AB", "2026-01-01", z, "01:30", "13:30")
		if s := half.On(date(t, "2026-11-01"))[0]; !s.Start.Equal(autumn.Add(-30 * time.Minute)) {
			t.Errorf("%s: 01:30 of autumn is %v", name, s.Start.UTC())
		}
	}
	for _, name := range []string{"America/Phoenix", "Pacific/Honolulu"} {
		z := zone(t, name)
		_, winter := time.Date(2026, 1, 1, 0, 0, 0, 0, z).Zone()
		_, summer := time.Date(2026, 7, 1, 0, 0, 0, 0, z).Zone()
		if winter != summer {
			t.Errorf("%s changes its clocks", name)
		}
	}
}

// Names of rotas are used one way here and another there ("Kelly (Detroit)" is
// XOXOXOOOO in one report), so patterns alone are tested: the string of a platoon
// on and off duty. FOUND: 48/96 XXOOOO (Pleasanton), XOXOXOOOO with platoons
// ACABABCBC (Westminster); XOXOOOOO for 42 h is a forum post only.
func TestPatternStrings(t *testing.T) {
	z := zone(t, "America/Denver")
	for _, c := range []struct{ cycle, platoons, pattern string }{
		{"ABC", "ABC", "XOO"}, {"AABBCC", "ABC", "XXOOOO"}, {"ACABABCBC", "ABC", "XOXOXOOOO"}, {"ABCD", "ABCD", "XOOO"}, {"ABABCDCD", "ABCD", "XOXOOOOO"},
	} {
		r := work(t, c.cycle, "2026-01-01", z, "07:00")
		for _, p := range strings.Split(c.platoons, "") {
			var on strings.Builder
			for day := range 2 * len(c.cycle) {
				on.WriteByte("OX"[map[bool]int{true: 1}[string(r.On(r.Starts.AddDays(day))[0].Platoon) == p]])
			}
			if !strings.Contains(on.String(), c.pattern) {
				t.Errorf("%s: %s works %s, not %s", c.cycle, p, on.String(), c.pattern)
			}
		}
	}
}
