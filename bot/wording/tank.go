package wording

import (
	"fmt"
	"math"
	"time"

	"crosslay/bot/dept"
	"crosslay/bot/fuel"
	"crosslay/bot/run"
)

// FuelForecast tells when a tank falls under its floor if nobody fills it; ""
// where nothing can be told. Days are counted from today.
func FuelForecast(f fuel.Forecast, floor float64, today dept.Date) string {
	switch {
	case f.Silent != fuel.Spoken:
		return ""
	case f.Under:
		return "UNDER " + Level(floor)
	}
	on := func(days float64) string {
		d := today.AddDays(int(math.Floor(days)))
		return tied(fmt.Sprintf("%s %d", d.Month.String()[:3], d.Day))
	}
	const far = 366
	if f.Days > far {
		return ""
	}
	between := "from " + on(f.Early) + " on"
	if f.Late <= far {
		between = on(f.Early) + " to " + on(f.Late)
	}
	return fmt.Sprintf("under %s about %s (%s) if nobody fills it", Level(floor), on(f.Days), between)
}

// OldFuel names fuel that was not renewed within the sheet's limit.
func OldFuel(thing Thing, age fuel.Age, limit int) string {
	return fmt.Sprintf("Old fuel: %s about %s (limit %d): drain, refill", thing.Number, plural(age.Days, "day", "days"), limit)
}

// WarmUps is an engine's warm-up record in one line. Others is how it stands
// against the other engines of its kind.
func WarmUps(hours float64, r run.Record, others run.Comparison, kinds string) string {
	text := figureOf(hours) + " engine hours"
	if r.Shifts == 0 {
		return text
	}
	text += fmt.Sprintf("; warm-up run in %d of %s", r.Good, plural(float64(r.Shifts), "shift", "shifts"))
	if rate, ok := r.Rate(0.95); ok && others != "" && r.Shifts >= 10 {
		text += tied(fmt.Sprintf(" (%.0f to %.0f in 100)", 100*rate.Lower, 100*rate.Upper))
	}
	if r.Longest > 0 {
		text += fmt.Sprintf(", longest gap %d", r.Longest)
	}
	if r.Loud() {
		text += fmt.Sprintf(", NONE IN THE LAST %d", r.Current)
	}
	switch others {
	case run.Worse:
		text += "; WORSE than the other " + kinds + ", more than luck"
	case run.Better:
		text += "; better than the other " + kinds
	case run.Alike:
	}
	return text
}

// MinutesLeft is how long the fuel lasts.
func MinutesLeft(left time.Duration) string {
	return fmt.Sprintf(", about %.0f min left", left.Minutes())
}
