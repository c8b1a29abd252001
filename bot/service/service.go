// Package service tells when an item falls due at the shop: by calendar or by
// engine hours, whichever comes first. The day on which the hours will be reached
// is a forecast from the item's own use, with a range; the day by calendar is
// certain. Dates and hours are handed in; nothing is remembered here.
package service

import (
	"math"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// Item is what is known of an item's service.
type Item struct {
	ID      dept.ItemID
	Every   check.Service // months and engine hours between services; zero means never
	Last    dept.Date     // last service, or in service since; zero where not known
	Hours   float64       // engine hours since then
	Reached dept.Date     // the day the hours became due, where known (see Reached)
	Use     Use
}

// By is what an item is due by.
type By string

// Nothing where an item never falls due, or nothing can be said.
const (
	Nothing  By = ""
	Calendar By = "calendar"
	Hours    By = "hours"
)

// Silence is why no day is told; Spoken is none.
type Silence string

// The reasons for silence.
const (
	Spoken    Silence = ""
	NoRule    Silence = "the sheet asks for no service"
	NoStart   Silence = "no last service on file"
	LittleUse Silence = "too little use to forecast by"
	Unused    Silence = "not used lately"
)

// Due is when an item falls due.
type Due struct {
	Item      dept.ItemID
	Silent    Silence
	Lacks     Silence // why one of two rules could not be reckoned with: it may fall due sooner by that one
	By        By
	Date      dept.Date // the likeliest day
	Early     dept.Date // nine times in ten not before this day
	Late      dept.Date // nor after this one; zero where there is no telling
	HoursLeft float64   // until due by hours, negative when over; NaN where hours do not count
	Overdue   int       // days since Date, 0 when not overdue
}

// Certain reports whether the day is a date and no forecast.
func (d Due) Certain() bool { return d.Silent == Spoken && d.Early == d.Date && d.Late == d.Date }

// Next is when the item falls due, seen from today.
func Next(it Item, today dept.Date) Due {
	c, h := byCalendar(it), byHours(it, today)
	d := c
	switch {
	case c.Silent == Spoken && h.Silent == Spoken:
		d = sooner(c, h)
	case h.Silent == Spoken:
		d = h
		d.Lacks = lacking(c)
	case c.Silent == Spoken:
		d.Lacks = lacking(h)
	case c.Silent == NoRule:
		d = h
	}
	d.HoursLeft = h.HoursLeft
	if d.Silent == Spoken {
		d.Overdue = max(0, today.DaysSince(d.Date))
	}
	return d
}

// lacking is why a rule that there is says nothing.
func lacking(d Due) Silence {
	if d.Silent == NoRule {
		return Spoken
	}
	return d.Silent
}

func byCalendar(it Item) Due {
	d := Due{Item: it.ID, By: Calendar, HoursLeft: math.NaN()}
	switch {
	case it.Every.Months <= 0:
		return Due{Item: it.ID, Silent: NoRule, HoursLeft: math.NaN()}
	case it.Last.IsZero():
		return Due{Item: it.ID, Silent: NoStart, HoursLeft: math.NaN()}
	}
	d.Date = AddMonths(it.Last, it.Every.Months)
	d.Early, d.Late = d.Date, d.Date
	return d
}

func byHours(it Item, today dept.Date) Due {
	d := Due{Item: it.ID, By: Hours, HoursLeft: math.NaN()}
	if !(it.Every.Hours > 0) {
		d.By, d.Silent = Nothing, NoRule
		return d
	}
	d.HoursLeft = it.Every.Hours - it.Hours
	if d.HoursLeft <= 0 {
		d.Date = today
		if !it.Reached.IsZero() && it.Reached.Before(today) {
			d.Date = it.Reached
		}
		d.Early, d.Late = d.Date, d.Date
		return d
	}
	f := it.Use.Until(d.HoursLeft)
	if f.Silent == Spoken && f.Days > farthest {
		f.Silent = Unused
	}
	if f.Silent != Spoken {
		d.By, d.Silent = Nothing, f.Silent
		return d
	}
	d.Date, d.Early, d.Late = after(today, f.Days), after(today, f.Early), after(today, f.Late)
	return d
}

// sooner joins the two: the certain day cuts the range of the forecast.
func sooner(calendar, hours Due) Due {
	d := calendar
	d.HoursLeft = hours.HoursLeft
	if hours.Date.Before(calendar.Date) {
		d.By, d.Date = Hours, hours.Date
	}
	d.Early = first(calendar.Date, hours.Early)
	d.Late = first(calendar.Date, hours.Late)
	return d
}

func first(a, b dept.Date) dept.Date {
	if !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}

// farthest is as many days ahead as a day is told.
const farthest = 20 * 366

func after(today dept.Date, days float64) dept.Date {
	if days > farthest {
		return dept.Date{}
	}
	const crumb = 1e-6 // of sums
	return today.AddDays(int(math.Floor(days + crumb)))
}

// AddMonths is the same day n months later, or the last day of that month where
// it has no such day.
func AddMonths(d dept.Date, n int) dept.Date {
	firstOf := time.Date(d.Year, d.Month+time.Month(n), 1, 12, 0, 0, 0, time.UTC)
	last := firstOf.AddDate(0, 1, -1).Day()
	return dept.Date{Year: firstOf.Year(), Month: firstOf.Month(), Day: min(d.Day, last)}
}
