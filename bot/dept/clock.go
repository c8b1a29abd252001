package dept

import (
	"fmt"
	"time"
)

// Clock is a wall-clock time of day, in minutes after midnight, 0 to 1439.
type Clock int

// ParseClock reads "07:00" or "7:00".
func ParseClock(s string) (Clock, error) {
	var h, m int
	var rest string
	if n, _ := fmt.Sscanf(s, "%d:%d%s", &h, &m, &rest); n != 2 || h < 0 || h > 23 || m < 0 || m > 59 {
		return 0, fmt.Errorf("%q is not a time of day; write it like 07:00", s)
	}
	return Clock(h*60 + m), nil
}

func (c Clock) String() string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }

// On returns the instant at which the wall clock in zone shows c on date d. Where
// the clock jumps over c, that is the first instant after the jump; where it
// shows c twice, the first of the two.
func (c Clock) On(d Date, zone *time.Location) time.Time {
	t := time.Date(d.Year, d.Month, d.Day, int(c)/60, int(c)%60, 0, 0, zone)
	if h, m, _ := t.Clock(); h*60+m != int(c) {
		return afterJump(t, zone)
	}
	if earlier := t.Add(-time.Hour); sameWall(earlier, t) {
		return earlier
	}
	return t
}

// afterJump finds the transition nearest to t, an instant that time.Date chose
// for a wall-clock time that does not exist. Go does not say on which side of
// the gap it lands, so both sides are searched.
func afterJump(t time.Time, zone *time.Location) time.Time {
	start, end := t.ZoneBounds()
	if !end.IsZero() && end.Sub(t) < 3*time.Hour {
		return end.In(zone)
	}
	return start.In(zone)
}

func sameWall(a, b time.Time) bool {
	return a.Hour() == b.Hour() && a.Minute() == b.Minute() && a.Day() == b.Day()
}

// Date is a calendar day without a zone.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// DateOf is the calendar day that t shows in its own location.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Date{y, m, d}
}

// ParseDate reads 2026-03-08.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return Date{}, fmt.Errorf("%q is not a date; write it like 2026-03-08", s)
	}
	return DateOf(t), nil
}

// String is the date as 2026-03-08; the zero Date is the empty string.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day)
}

// MarshalText writes the date as 2026-03-08.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (d *Date) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*d = Date{}
		return nil
	}
	p, err := ParseDate(string(b))
	if err != nil {
		return err
	}
	*d = p
	return nil
}

// IsZero reports whether no date is given.
func (d Date) IsZero() bool { return d == Date{} }

// AddDays is the date n days later; n may be negative.
func (d Date) AddDays(n int) Date {
	return DateOf(time.Date(d.Year, d.Month, d.Day+n, 12, 0, 0, 0, time.UTC))
}

// DaysSince is the number of days from e to d.
func (d Date) DaysSince(e Date) int {
	return int(d.noon().Sub(e.noon()).Hours()) / 24
}

// Weekday is the day of the week of d.
func (d Date) Weekday() time.Weekday { return d.noon().Weekday() }

// Before reports whether d lies before e.
func (d Date) Before(e Date) bool { return d.noon().Before(e.noon()) }

func (d Date) noon() time.Time { return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC) }

// Span is a part of the day, from From until before To; it may run past midnight
// (22:00 to 06:00). From equal to To is the empty span.
type Span struct{ From, To Clock }

// Holds reports whether the wall clock of t, in t's own location, is in the span.
func (s Span) Holds(t time.Time) bool {
	c := Clock(t.Hour()*60 + t.Minute())
	if s.From <= s.To {
		return s.From <= c && c < s.To
	}
	return c >= s.From || c < s.To
}

// Hours is a weekly working time: on the days listed, during the span. No days
// mean around the clock.
type Hours struct {
	Days []time.Weekday
	Span Span
}

// Open reports whether t, in its own location, lies in the working time.
func (h Hours) Open(t time.Time) bool {
	if len(h.Days) == 0 {
		return true
	}
	return h.works(t.Weekday()) && h.Span.Holds(t)
}

func (h Hours) works(d time.Weekday) bool {
	for _, have := range h.Days {
		if have == d {
			return true
		}
	}
	return false
}

// EndOfDay is the end of the working day on date d, or, if nobody works that
// day, of the next day on which somebody does.
func (h Hours) EndOfDay(d Date, zone *time.Location) time.Time {
	if len(h.Days) == 0 {
		return Clock(0).On(d.AddDays(1), zone)
	}
	for range 7 {
		if h.works(d.Weekday()) {
			break
		}
		d = d.AddDays(1)
	}
	return h.Span.To.On(d, zone)
}

// Add is the instant at which d of working time has passed since t.
func (h Hours) Add(t time.Time, d time.Duration, zone *time.Location) time.Time {
	if len(h.Days) == 0 {
		return t.Add(d)
	}
	for day := DateOf(t.In(zone)); ; day = day.AddDays(1) {
		if !h.works(day.Weekday()) {
			continue
		}
		from, to := h.Span.From.On(day, zone), h.Span.To.On(day, zone)
		if from.Before(t) {
			from = t
		}
		if !from.Before(to) {
			continue
		}
		if left := to.Sub(from); d > left {
			d -= left
			continue
		}
		return from.Add(d)
	}
}
