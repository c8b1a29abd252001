package dept_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"crosslay/bot/dept"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func clock(t testing.TB, s string) dept.Clock {
	t.Helper()
	c, err := dept.ParseClock(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func date(t testing.TB, s string) dept.Date {
	t.Helper()
	d, err := dept.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Clocks change at 2 a.m. on the second Sunday of March and the first of
// November: 15 U.S.C. 260a(a) FOUND, tzdata 2025b FOUND. The instants of 2026:
// New York 2026-03-08T07:00Z -> 03:00 EDT, 2026-11-01T06:00Z -> 01:00 EST.
func TestClockOn(t *testing.T) {
	tests := []struct {
		name, zone, clock, date, want string
	}{
		{"winter", "America/New_York", "07:00", "2026-03-07", "2026-03-07T12:00:00Z"},
		{"spring_day", "America/New_York", "07:00", "2026-03-08", "2026-03-08T11:00:00Z"},
		{"before_the_gap", "America/New_York", "01:59", "2026-03-08", "2026-03-08T06:59:00Z"},
		{"in_the_gap_the_first_instant_after", "America/New_York", "02:30", "2026-03-08", "2026-03-08T07:00:00Z"},
		{"start_of_the_gap", "America/New_York", "02:00", "2026-03-08", "2026-03-08T07:00:00Z"},
		{"after_the_gap", "America/New_York", "03:00", "2026-03-08", "2026-03-08T07:00:00Z"},
		{"doubled_hour_the_first", "America/New_York", "01:30", "2026-11-01", "2026-11-01T05:30:00Z"},
		{"start_of_the_doubled_hour", "America/New_York", "01:00", "2026-11-01", "2026-11-01T05:00:00Z"},
		{"after_the_doubled_hour", "America/New_York", "02:00", "2026-11-01", "2026-11-01T07:00:00Z"},
		{"autumn_day", "America/New_York", "07:00", "2026-11-01", "2026-11-01T12:00:00Z"},
		{"gap_in_chicago", "America/Chicago", "02:15", "2026-03-08", "2026-03-08T08:00:00Z"},
		{"gap_in_denver", "America/Denver", "02:15", "2026-03-08", "2026-03-08T09:00:00Z"},
		{"gap_in_los_angeles", "America/Los_Angeles", "02:15", "2026-03-08", "2026-03-08T10:00:00Z"},
		{"gap_in_anchorage", "America/Anchorage", "02:15", "2026-03-08", "2026-03-08T11:00:00Z"},
		{"none_in_phoenix", "America/Phoenix", "02:30", "2026-03-08", "2026-03-08T09:30:00Z"},
		{"none_in_honolulu", "Pacific/Honolulu", "02:30", "2026-03-08", "2026-03-08T12:30:00Z"},
		{"midnight", "America/Denver", "00:00", "2026-01-01", "2026-01-01T07:00:00Z"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := clock(t, tt.clock).On(date(t, tt.date), zone(t, tt.zone)).UTC().Format(time.RFC3339)
			if got != tt.want {
				t.Errorf("got %s, want %s", got, tt.want)
			}
		})
	}
}

// On every day of every zone, On is the first instant of the day at which the
// wall clock shows the time or, in a gap, a later one.
func TestClockOnIsFirst(t *testing.T) {
	zones := []string{"America/New_York", "America/Denver", "America/Phoenix", "America/Anchorage", "UTC", "Europe/Berlin"}
	rapid.Check(t, func(r *rapid.T) {
		z := zone(t, rapid.SampledFrom(zones).Draw(r, "zone"))
		c := dept.Clock(rapid.IntRange(0, 1439).Draw(r, "clock"))
		d := date(t, "2026-01-01").AddDays(rapid.IntRange(0, 730).Draw(r, "day"))
		got := c.On(d, z)
		if dept.DateOf(got) != d {
			r.Fatalf("%v on %v in %v fell on %v", c, d, z, got)
		}
		if shows := dept.Clock(got.Hour()*60 + got.Minute()); shows < c {
			r.Errorf("%v on %v in %v: the wall clock shows %v", c, d, z, shows)
		}
		for _, back := range []time.Duration{time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour} {
			e := got.Add(-back)
			if dept.DateOf(e) == d && dept.Clock(e.Hour()*60+e.Minute()) >= c {
				r.Errorf("%v on %v in %v: %v came before %v", c, d, z, e, got)
			}
		}
	})
}

func TestParseClock(t *testing.T) {
	for in, want := range map[string]string{"07:00": "07:00", "7:05": "07:05", "23:59": "23:59", "00:00": "00:00"} {
		if got := clock(t, in).String(); got != want {
			t.Errorf("%q: %s", in, got)
		}
	}
	for _, in := range []string{"", "7", "24:00", "12:60", "-1:00", "07:00x", "07:00 pm", "noon"} {
		if c, err := dept.ParseClock(in); err == nil {
			t.Errorf("%q read as %v", in, c)
		}
	}
}

func TestDate(t *testing.T) {
	if got := date(t, "2028-02-28").AddDays(2).String(); got != "2028-03-01" {
		t.Errorf("two days after the 28th of a leap February: %s", got)
	}
	if got := date(t, "2026-03-09").DaysSince(date(t, "2026-03-07")); got != 2 {
		t.Errorf("%d days over the spring change", got)
	}
	if got := date(t, "2026-01-01").DaysSince(date(t, "2026-12-31")); got != -364 {
		t.Errorf("%d days backwards", got)
	}
	if got := date(t, "2026-03-08").Weekday(); got != time.Sunday {
		t.Errorf("2026-03-08 is a %v", got)
	}
	for _, in := range []string{"", "2026-02-30", "03/08/2026", "2026-3-8"} {
		if d, err := dept.ParseDate(in); err == nil {
			t.Errorf("%q read as %v", in, d)
		}
	}
}

func TestDateText(t *testing.T) {
	for _, d := range []dept.Date{{}, {Year: 2026, Month: 3, Day: 8}} {
		b, err := d.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		back := dept.Date{Year: 1}
		if err := back.UnmarshalText(b); err != nil || back != d {
			t.Errorf("%v came back as %v, %v", d, back, err)
		}
	}
	var d dept.Date
	if err := d.UnmarshalText([]byte("soon")); err == nil {
		t.Error("\"soon\" is a date")
	}
}

func TestSpanHolds(t *testing.T) {
	tests := []struct {
		name, from, to, at string
		want               bool
	}{
		{"inside", "08:00", "16:00", "12:00", true},
		{"its_start", "08:00", "16:00", "08:00", true},
		{"not_its_end", "08:00", "16:00", "16:00", false},
		{"over_midnight_late", "22:00", "06:30", "23:00", true},
		{"over_midnight_early", "22:00", "06:30", "06:29", true},
		{"over_midnight_end", "22:00", "06:30", "06:30", false},
		{"over_midnight_day", "22:00", "06:30", "12:00", false},
		{"empty", "08:00", "08:00", "08:00", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			at := clock(t, tt.at).On(dept.Date{Year: 2026, Month: 5, Day: 4}, time.UTC)
			if got := (dept.Span{From: clock(t, tt.from), To: clock(t, tt.to)}).Holds(at); got != tt.want {
				t.Errorf("%s: %v", tt.at, got)
			}
		})
	}
}

func weekdays(t testing.TB) dept.Hours {
	return dept.Hours{
		Days: []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday},
		Span: dept.Span{From: clock(t, "07:00"), To: clock(t, "16:00")},
	}
}

func TestHoursAdd(t *testing.T) {
	const layout = "2006-01-02 15:04"
	z := zone(t, "America/Denver")
	tests := []struct {
		name, from string
		d          time.Duration
		want       string
	}{
		{"inside_a_day", "2026-03-02 08:00", 2 * time.Hour, "2026-03-02 10:00"},
		{"to_the_end_of_the_day", "2026-03-02 14:00", 2 * time.Hour, "2026-03-02 16:00"},
		{"over_night", "2026-03-02 15:00", 2 * time.Hour, "2026-03-03 08:00"},
		{"from_the_evening", "2026-03-02 20:00", time.Hour, "2026-03-03 08:00"},
		{"from_before_opening", "2026-03-02 05:00", time.Hour, "2026-03-02 08:00"},
		{"over_a_weekend_with_changed_clocks", "2026-03-06 15:30", time.Hour, "2026-03-09 07:30"},
		{"from_a_saturday", "2026-03-07 10:00", 0, "2026-03-09 07:00"},
		{"many_days", "2026-03-02 07:00", 45*time.Hour + time.Minute, "2026-03-09 07:01"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			from, err := time.ParseInLocation(layout, tt.from, z)
			if err != nil {
				t.Fatal(err)
			}
			if got := weekdays(t).Add(from, tt.d, z).Format(layout); got != tt.want {
				t.Errorf("got %s, want %s", got, tt.want)
			}
		})
	}
	noon := time.Date(2026, 3, 7, 12, 0, 0, 0, z)
	if got := (dept.Hours{}).Add(noon, 30*time.Hour, z); !got.Equal(noon.Add(30 * time.Hour)) {
		t.Errorf("around the clock: %v", got)
	}
}

func TestHoursOpenAndEndOfDay(t *testing.T) {
	z := zone(t, "America/Denver")
	h := weekdays(t)
	for at, want := range map[int]bool{6: false, 7: true, 15: true, 16: false} {
		if got := h.Open(time.Date(2026, 3, 2, at, 0, 0, 0, z)); got != want {
			t.Errorf("Monday %d:00 open: %v", at, got)
		}
	}
	if h.Open(time.Date(2026, 3, 1, 10, 0, 0, 0, z)) {
		t.Error("open on a Sunday")
	}
	for day, want := range map[string]string{"2026-03-06": "2026-03-06 16:00", "2026-03-07": "2026-03-09 16:00"} {
		if got := h.EndOfDay(date(t, day), z).Format("2006-01-02 15:04"); got != want {
			t.Errorf("end of %s: %s, want %s", day, got, want)
		}
	}
	if got := (dept.Hours{}).EndOfDay(date(t, "2026-03-07"), z).Format("2006-01-02 15:04"); got != "2026-03-08 00:00" {
		t.Errorf("around the clock the day ends at %s", got)
	}
}
