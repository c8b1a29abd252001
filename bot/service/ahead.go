package service

import (
	"slices"

	"crosslay/bot/dept"
)

// When is how near a service is.
type When string

// The distances. Maybe is a forecast whose likeliest day lies after the week, but
// not its range.
const (
	Overdue  When = "overdue"
	Today    When = "today"
	ThisWeek When = "this week"
	Maybe    When = "maybe this week"
	Later    When = "later"
	Unknown  When = "unknown"
)

// Entry is a line of the shop's list.
type Entry struct {
	Due
	When When
}

// Near tells how near a service is, seen from today, a week being so many days.
func (d Due) Near(today dept.Date, days int) When {
	end := today.AddDays(days)
	switch {
	case d.Silent != Spoken:
		return Unknown
	case d.Overdue > 0:
		return Overdue
	case d.Date == today:
		return Today
	case d.Date.Before(end):
		return ThisWeek
	case !d.Early.IsZero() && d.Early.Before(end):
		return Maybe
	}
	return Later
}

// Ahead is the shop's list of the days to come, today included: what is overdue
// first, the longest at the top, then by day. Later and Unknown are left out.
func Ahead(items []Item, today dept.Date, days int) []Entry {
	var list []Entry
	for _, it := range items {
		d := Next(it, today)
		if near := d.Near(today, days); near != Later && near != Unknown {
			list = append(list, Entry{Due: d, When: near})
		}
	}
	slices.SortStableFunc(list, func(a, b Entry) int { return a.Date.DaysSince(b.Date) })
	return list
}
