package service_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/run"
	"crosslay/bot/service"
)

func date(t testing.TB, s string) dept.Date {
	t.Helper()
	if s == "" {
		return dept.Date{}
	}
	d, err := dept.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// steady is an engine that runs as long every day, so that its forecast has no
// range to speak of.
func steady(days int, hours float64) service.Use {
	var u service.Use
	for range days {
		u = u.Add(hours)
	}
	return u
}

func TestNext(t *testing.T) {
	const today = "2026-06-01"
	tenth := steady(90, 0.1)
	tests := []struct {
		name              string
		every             check.Service
		last              string
		hours             float64
		reached           string
		use               service.Use
		silent            service.Silence
		by                service.By
		date, early, late string
		overdue           int
	}{
		{"no_rule", check.Service{}, "2026-01-01", 5, "", tenth, service.NoRule, "", "", "", "", 0},
		{"calendar_alone", check.Service{Months: 12}, "2026-01-15", 5, "", tenth, "", service.Calendar, "2027-01-15", "2027-01-15", "2027-01-15", 0},
		{"every_month", check.Service{Months: 1}, "2026-05-31", 0, "", tenth, "", service.Calendar, "2026-06-30", "2026-06-30", "2026-06-30", 0},
		{"calendar_without_a_start", check.Service{Months: 12}, "", 5, "", tenth, service.NoStart, "", "", "", "", 0},
		{"calendar_overdue", check.Service{Months: 3}, "2026-02-15", 0, "", tenth, "", service.Calendar, "2026-05-15", "2026-05-15", "2026-05-15", 17},
		{"due_today", check.Service{Months: 3}, "2026-03-01", 0, "", tenth, "", service.Calendar, "2026-06-01", "2026-06-01", "2026-06-01", 0},
		{"hours_alone", check.Service{Hours: 50}, "", 48, "", tenth, "", service.Hours, "2026-06-21", "2026-06-21", "2026-06-21", 0},
		{"hours_first", check.Service{Months: 12, Hours: 50}, "2026-01-15", 49, "", tenth, "", service.Hours, "2026-06-11", "2026-06-11", "2026-06-11", 0},
		{"calendar_first", check.Service{Months: 5, Hours: 50}, "2026-01-10", 49, "", tenth, "", service.Calendar, "2026-06-10", "2026-06-10", "2026-06-10", 0},
		{"hours_over_the_day_not_known", check.Service{Hours: 50}, "", 51, "", tenth, "", service.Hours, "2026-06-01", "2026-06-01", "2026-06-01", 0},
		{"hours_to_the_minute", check.Service{Hours: 50}, "", 50, "2026-05-31", tenth, "", service.Hours, "2026-05-31", "2026-05-31", "2026-05-31", 1},
		{"hours_over_since", check.Service{Hours: 50}, "", 51, "2026-05-20", tenth, "", service.Hours, "2026-05-20", "2026-05-20", "2026-05-20", 12},
		{"both_over_the_earlier_counts", check.Service{Months: 3, Hours: 50}, "2026-02-15", 51, "2026-05-20", tenth, "", service.Calendar, "2026-05-15", "2026-05-15", "2026-05-15", 17},
		{"not_used_hours_alone", check.Service{Hours: 50}, "", 10, "", steady(90, 0), service.Unused, "", "", "", "", 0},
		{"not_used_calendar_too", check.Service{Months: 12, Hours: 50}, "2026-01-15", 10, "", steady(90, 0), "", service.Calendar, "2027-01-15", "2027-01-15", "2027-01-15", 0},
		{"watched_too_short", check.Service{Hours: 50}, "", 10, "", steady(13, 0.1), service.LittleUse, "", "", "", "", 0},
		{"two_busy_days_are_no_habit", check.Service{Hours: 50}, "", 10, "", steady(88, 0).Add(2).Add(2), service.LittleUse, "", "", "", "", 0},
		{"farther_than_anybody_plans", check.Service{Hours: 5000}, "", 0, "", tenth, service.Unused, "", "", "", "", 0},
		{"little_use_and_no_start", check.Service{Months: 12, Hours: 50}, "", 10, "", steady(13, 0.1), service.NoStart, "", "", "", "", 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			it := service.Item{ID: "pu", Every: tt.every, Last: date(t, tt.last), Hours: tt.hours, Reached: date(t, tt.reached), Use: tt.use}
			d := service.Next(it, date(t, today))
			if d.Item != "pu" || d.Silent != tt.silent || d.By != tt.by || d.Date.String() != tt.date || d.Overdue != tt.overdue {
				t.Errorf("%+v", d)
			}
			if d.Early.String() != tt.early || d.Late.String() != tt.late {
				t.Errorf("range %s to %s, want %s to %s", d.Early, d.Late, tt.early, tt.late)
			}
			if want := tt.every.Hours - tt.hours; tt.every.Hours > 0 && d.HoursLeft != want || tt.every.Hours == 0 && !math.IsNaN(d.HoursLeft) {
				t.Errorf("%v hours left", d.HoursLeft)
			}
		})
	}
}

// The certain day cuts the range of the forecast, and a forecast that may come
// before it leaves a day that is no longer certain.
func TestTheCalendarCutsTheRange(t *testing.T) {
	use := service.Use{}
	for i := range 90 {
		use = use.Add(float64(i%9/8) * 0.9) // nine tenths of an hour every ninth day
	}
	it := service.Item{Every: check.Service{Months: 6, Hours: 50}, Last: date(t, "2026-01-15"), Hours: 45, Use: use}
	d := service.Next(it, date(t, "2026-06-01"))
	if d.By != service.Calendar || d.Date.String() != "2026-07-15" || !d.Early.Before(d.Date) || d.Late != d.Date || d.Certain() {
		t.Errorf("%+v", d)
	}
	it.Every.Months = 0
	if d := service.Next(it, date(t, "2026-06-01")); d.By != service.Hours || !(d.Early.Before(d.Date) && d.Date.Before(d.Late)) || d.Certain() {
		t.Errorf("%+v", d)
	}
	it.Every = check.Service{Months: 6}
	if d := service.Next(it, date(t, "2026-06-01")); !d.Certain() {
		t.Errorf("%+v", d)
	}
}

// Where one of two rules cannot be reckoned with, the day by the other is no
// comfort, and that is said.
func TestLacks(t *testing.T) {
	today, tenth := date(t, "2026-06-01"), steady(90, 0.1)
	both := check.Service{Months: 12, Hours: 50}
	for _, c := range []struct {
		name string
		it   service.Item
		want service.Silence
	}{
		{"nothing", service.Item{Every: both, Last: date(t, "2026-01-15"), Use: tenth}, service.Spoken},
		{"the_last_service", service.Item{Every: both, Use: tenth}, service.NoStart},
		{"use", service.Item{Every: both, Last: date(t, "2026-01-15"), Use: steady(3, 1)}, service.LittleUse},
		{"any_use", service.Item{Every: both, Last: date(t, "2026-01-15"), Use: steady(90, 0)}, service.Unused},
		{"no_rule_lacks_nothing", service.Item{Every: check.Service{Months: 12}, Last: date(t, "2026-01-15")}, service.Spoken},
		{"nor_by_hours", service.Item{Every: check.Service{Hours: 50}, Use: tenth}, service.Spoken},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := service.Next(c.it, today); d.Silent != service.Spoken || d.Lacks != c.want {
				t.Errorf("%+v, want %q", d, c.want)
			}
		})
	}
}

func TestAddMonths(t *testing.T) {
	for _, c := range []struct {
		from string
		n    int
		want string
	}{
		{"2026-01-15", 1, "2026-02-15"}, {"2026-01-31", 1, "2026-02-28"}, {"2028-01-31", 1, "2028-02-29"}, {"2028-02-29", 12, "2029-02-28"},
		{"2026-12-31", 2, "2027-02-28"}, {"2026-11-30", 3, "2027-02-28"}, {"2026-05-31", 6, "2026-11-30"}, {"2026-03-31", -1, "2026-02-28"}, {"2026-03-10", 0, "2026-03-10"},
	} {
		if got := service.AddMonths(date(t, c.from), c.n); got.String() != c.want {
			t.Errorf("%s and %d months: %s, want %s", c.from, c.n, got, c.want)
		}
	}
}

// The calendar of package time is an oracle on days that every month has.
func TestAddMonthsByCalendar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dept.Date{Year: rapid.IntRange(2000, 2100).Draw(t, "year"), Month: time.Month(rapid.IntRange(1, 12).Draw(t, "month")), Day: rapid.IntRange(1, 28).Draw(t, "day")}
		n := rapid.IntRange(0, 60).Draw(t, "n")
		want := dept.DateOf(time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC).AddDate(0, n, 0))
		if got := service.AddMonths(d, n); got != want {
			t.Errorf("%s and %d months: %s, want %s", d, n, got, want)
		}
	})
}

// The bounds solve the equation they come from, with the normal quantile of gonum.
func TestUntilSolvesItsEquation(t *testing.T) {
	z := distuv.UnitNormal.Quantile(0.95)
	rapid.Check(t, func(t *rapid.T) {
		var u service.Use
		for range rapid.IntRange(20, 120).Draw(t, "days") {
			u = u.Add(rapid.SampledFrom([]float64{0, 0, 0.1, 0.15, 1.5}).Draw(t, "hours"))
		}
		left := rapid.Float64Range(0.1, 80).Draw(t, "left")
		f := u.Until(left)
		if f.Silent != service.Spoken {
			return
		}
		ran := func(u service.Use, days, side float64) float64 {
			n, m := float64(u.Days), u.Hours/float64(u.Days)
			s := math.Sqrt((u.Squares - n*m*m) / (n - 1))
			return m*days + side*z*s*math.Sqrt(days+days*days/n)
		}
		if got := ran(u.Add(u.Most), f.Early, 1); math.Abs(got-left) > 1e-6*left {
			t.Errorf("%+v: %v hours by then, want %v", f, got, left)
		}
		if got := ran(u, f.Late, -1); !math.IsInf(f.Late, 1) && math.Abs(got-left) > 1e-5*left {
			t.Errorf("%+v: %v hours by then, want %v", f, got, left)
		}
		if !(f.Early <= f.Days+1e-9 && f.Days <= f.Late+1e-9) || math.Abs(u.Hours/float64(u.Days)*f.Days-left) > 1e-9*left {
			t.Errorf("%+v", f)
		}
	})
}

// Nine in ten ranges hold the day, or nearly: simulated engines with a warm-up on
// most days and a call now and then, watched 60 days, run on until the hours are
// reached.
func TestUntilHoldsTheDay(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 3))
	day := func() float64 {
		hours := 0.0
		if rng.Float64() < 0.8 {
			hours += (5 + 5*rng.Float64()) / 60
		}
		if rng.Float64() < 0.08 {
			hours += rng.ExpFloat64() * 0.5
		}
		return hours
	}
	held, early, late := 0, 0, 0
	const rounds = 2000
	for range rounds {
		var u service.Use
		for range 60 {
			u = u.Add(day())
		}
		f := u.Until(6)
		days := 0.0
		for ran := 0.0; ran < 6; days++ {
			ran += day()
		}
		switch {
		case days < f.Early:
			early++
		case days-1 > f.Late:
			late++
		default:
			held++
		}
	}
	if share := float64(held) / rounds; share < 0.88 || share > 0.95 {
		t.Errorf("held in %.3f; sooner in %d, later in %d", share, early, late)
	}
}

func TestUseOf(t *testing.T) {
	day := date(t, "2026-03-07")
	runs := []run.Run{{Date: day.AddDays(-1), Minutes: 600}, {Date: day, Minutes: 30}, {Date: day, Minutes: 30}, {Date: day.AddDays(2), Minutes: 120}, {Date: day.AddDays(9), Minutes: 60}}
	if u := service.UseOf(runs, day, day.AddDays(3)); u != (service.Use{Days: 4, Busy: 2, Hours: 3, Squares: 5, Most: 2}) {
		t.Errorf("%+v", u)
	}
	if u := service.UseOf(runs, day, day.AddDays(-1)); u != (service.Use{}) {
		t.Errorf("no days: %+v", u)
	}
}

// Two rows of days are the row of both.
func TestPlus(t *testing.T) {
	a, b := service.Use{}.Add(2).Add(0), service.Use{}.Add(0.5).Add(3)
	if got, want := a.Plus(b), a.Add(0.5).Add(3); got != want || got.Most != 3 || a.Plus(service.Use{}) != a {
		t.Errorf("%+v, want %+v", got, want)
	}
}

func TestReached(t *testing.T) {
	day := date(t, "2026-03-07")
	runs := []run.Run{{Date: day, Minutes: 60}, {Date: day.AddDays(1), Minutes: 60}, {Date: day.AddDays(4), Minutes: 60}}
	for _, c := range []struct {
		from, limit float64
		want        string
	}{{47, 50, "2026-03-11"}, {48, 50, "2026-03-08"}, {49.5, 50, "2026-03-07"}, {46, 50, ""}, {55, 50, "2026-03-07"}} {
		got, ok := service.Reached(runs, c.from, c.limit)
		if got.String() != c.want || ok != (c.want != "") {
			t.Errorf("from %v: %s %v, want %q", c.from, got, ok, c.want)
		}
	}
}

// One day over is overdue; a week ends before its eighth day.
func TestNear(t *testing.T) {
	today := date(t, "2026-06-01")
	for last, want := range map[string]service.When{"2026-02-28": service.Overdue, "2026-03-01": service.Today, "2026-03-02": service.ThisWeek,
		"2026-03-07": service.ThisWeek, "2026-03-08": service.Later} {
		d := service.Next(service.Item{Every: check.Service{Months: 3}, Last: date(t, last)}, today)
		if got := d.Near(today, 7); got != want {
			t.Errorf("%s: %s, want %s", d.Date, got, want)
		}
	}
	over := service.Next(service.Item{Every: check.Service{Months: 3}, Last: date(t, "2026-02-28")}, date(t, "2026-05-29"))
	if over.Overdue != 1 || over.Near(date(t, "2026-05-29"), 7) != service.Overdue {
		t.Errorf("%+v", over)
	}
}

// Three days with a run are a habit, two are none.
func TestLeastUse(t *testing.T) {
	u := service.Use{}
	for range 20 {
		u = u.Add(0)
	}
	for busy, want := range map[int]service.Silence{0: service.Unused, 1: service.LittleUse, 2: service.LittleUse, 3: service.Spoken} {
		v := u
		for range busy {
			v = v.Add(1)
		}
		if f := v.Until(5); f.Silent != want {
			t.Errorf("%d days: %q, want %q", busy, f.Silent, want)
		}
	}
}

func TestAhead(t *testing.T) {
	today := date(t, "2026-06-01")
	by := func(id, last string, months int) service.Item {
		return service.Item{ID: dept.ItemID(id), Every: check.Service{Months: months}, Last: date(t, last)}
	}
	var uneven service.Use
	for i := range 30 {
		uneven = uneven.Add(float64(i%6/5) * 2) // two hours every sixth day
	}
	list := service.Ahead([]service.Item{
		by("later", "2026-01-01", 12), by("sunday", "2026-03-07", 3), by("today", "2026-03-01", 3), by("long_over", "2026-01-01", 3), by("just_over", "2026-02-28", 3),
		{ID: "perhaps", Every: check.Service{Hours: 50}, Hours: 46, Use: uneven}, {ID: "unknown", Every: check.Service{Hours: 50}}, by("a_week_from_now", "2026-03-08", 3),
	}, today, 7)
	want := []service.Entry{{When: service.Overdue}, {When: service.Overdue}, {When: service.Today}, {When: service.ThisWeek}, {When: service.Maybe}}
	ids := []dept.ItemID{"long_over", "just_over", "today", "sunday", "perhaps"}
	if len(list) != len(want) {
		t.Fatalf("%+v", list)
	}
	for i, e := range list {
		if e.Item != ids[i] || e.When != want[i].When {
			t.Errorf("%d: %s %s %s, want %s %s", i, e.Item, e.When, e.Date, ids[i], want[i].When)
		}
	}
	if list[0].Overdue != 61 || list[1].Overdue != 4 {
		t.Errorf("overdue %d and %d days", list[0].Overdue, list[1].Overdue)
	}
}
