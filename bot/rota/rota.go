// Package rota knows which platoon is on duty at an instant, which date a shift
// carries, and when the next shift change comes on the wall clock.
//
// A rota is a cycle of tours. Tours begin at fixed wall-clock times of the day
// (one for 24-hour tours, two for day and night), so on the two days on which
// clocks change a tour is an hour shorter or longer, and still turns over at the
// time on the wall.
package rota

import (
	"fmt"
	"slices"
	"time"

	"crosslay/bot/dept"
)

// Rota is the pattern by which platoons follow one another.
type Rota struct {
	Platoons []dept.Platoon
	Cycle    []dept.Platoon // one entry a tour, in order; it repeats for ever
	Starts   dept.Date      // a date on whose first change the cycle begins
	Changes  []dept.Clock   // wall-clock times of the shift changes of a day, ascending
	Zone     *time.Location
}

// Shift is one tour of one platoon. (Date, Platoon) names it: Date is the day on
// which it begins.
type Shift struct {
	Date    dept.Date
	Platoon dept.Platoon
	Start   time.Time
	End     time.Time
}

// At is the shift on duty at t. A shift holds its first instant and not its end.
func (r Rota) At(t time.Time) Shift {
	d := dept.DateOf(t.In(r.Zone))
	for i := len(r.Changes) - 1; i >= 0; i-- {
		if !t.Before(r.Changes[i].On(d, r.Zone)) {
			return r.tour(d, i)
		}
	}
	return r.tour(d.AddDays(-1), len(r.Changes)-1)
}

// Next is the first shift change after t.
func (r Rota) Next(t time.Time) time.Time { return r.At(t).End }

// On lists the shifts that begin on date d.
func (r Rota) On(d dept.Date) []Shift {
	shifts := make([]Shift, len(r.Changes))
	for i := range r.Changes {
		shifts[i] = r.tour(d, i)
	}
	return shifts
}

// Before is the shift that s relieved.
func (r Rota) Before(s Shift) Shift { return r.At(s.Start.Add(-time.Second)) }

// tour is the i-th tour that begins on date d.
func (r Rota) tour(d dept.Date, i int) Shift {
	n := d.DaysSince(r.Starts)*len(r.Changes) + i
	n = ((n % len(r.Cycle)) + len(r.Cycle)) % len(r.Cycle)
	next, day := i+1, d
	if next == len(r.Changes) {
		next, day = 0, d.AddDays(1)
	}
	return Shift{
		Date:    d,
		Platoon: r.Cycle[n],
		Start:   r.Changes[i].On(d, r.Zone),
		End:     r.Changes[next].On(day, r.Zone),
	}
}

// Fits lists, in words, what is wrong with the rota; none when it can be worked.
func (r Rota) Fits() []string {
	var wrong []string
	if len(r.Platoons) == 0 {
		wrong = append(wrong, "no platoons: list them, as in [A, B, C]")
	}
	if len(r.Changes) == 0 {
		return append(wrong, "no shift change: give the time, as in \"07:00\"")
	}
	if !slices.IsSorted(r.Changes) {
		wrong = append(wrong, "the shift changes of a day must stand in order")
	}
	for i, p := range r.Cycle {
		if !slices.Contains(r.Platoons, p) {
			wrong = append(wrong, fmt.Sprintf("tour %d of the cycle is worked by platoon %q, which is not among the platoons", i+1, p))
		}
	}
	for _, p := range r.Platoons {
		if !slices.Contains(r.Cycle, p) {
			wrong = append(wrong, fmt.Sprintf("platoon %q never works in the cycle", p))
		}
	}
	if n := len(r.Changes); len(r.Cycle)%n != 0 {
		wrong = append(wrong, fmt.Sprintf("the cycle has %d tours, which is not a whole number of days of %d tours", len(r.Cycle), n))
	}
	return append(wrong, r.twiceADay()...)
}

// twiceADay finds days on which one platoon would work two tours: the two could
// not be told apart by date and platoon.
func (r Rota) twiceADay() []string {
	n := len(r.Changes)
	var wrong []string
	for day := 0; (day+1)*n <= len(r.Cycle); day++ {
		tours := slices.Clone(r.Cycle[day*n : (day+1)*n])
		slices.Sort(tours)
		if len(slices.Compact(tours)) < n {
			wrong = append(wrong, fmt.Sprintf("day %d of the cycle gives one platoon two tours; make them one longer tour", day+1))
		}
	}
	return wrong
}
