package service

import (
	"math"

	"crosslay/bot/dept"
	"crosslay/bot/run"
)

// Use is how much an engine ran in the last days, told by sums that can be kept
// without the runs: days watched, those without a run included.
type Use struct {
	Days    int
	Busy    int     // days with a run
	Hours   float64 // together
	Squares float64 // of the hours of each day
	Most    float64 // hours of the longest day
}

// Add is the use with one more day.
func (u Use) Add(hours float64) Use {
	u.Days++
	u.Hours += hours
	u.Squares += hours * hours
	u.Most = max(u.Most, hours)
	if hours > 0 {
		u.Busy++
	}
	return u
}

// Plus is the use of two rows of days together.
func (u Use) Plus(v Use) Use {
	return Use{u.Days + v.Days, u.Busy + v.Busy, u.Hours + v.Hours, u.Squares + v.Squares, max(u.Most, v.Most)}
}

// UseOf adds up the runs of the days from one date to another, both included.
func UseOf(runs []run.Run, from, to dept.Date) Use {
	byDay := map[dept.Date]float64{}
	for _, r := range runs {
		byDay[r.Date] += r.Minutes / 60
	}
	var u Use
	for d := from; !to.Before(d); d = d.AddDays(1) {
		u = u.Add(byDay[d])
	}
	return u
}

// A forecast wants two weeks and three days with a run; less is guessing.
const (
	leastDays = 14
	leastBusy = 3
)

// z is the quantile of the normal distribution for nine cases in ten, two-sided.
const z = 1.6448536269514722

// Forecast is in how many days an amount of hours is run.
type Forecast struct {
	Silent Silence
	Days   float64
	Early  float64
	Late   float64 // +Inf where there is no telling
}

// Until forecasts when so many more hours are run, with a range that holds about
// nine times in ten if use goes on as it was. With mean m and variance v of a
// day's hours over n days, the hours of d days to come lie within
// m d ± z sqrt(v (d + d²/n)): the days' own spread, and what n days leave open
// about the mean. Early and Late are the d at which those bounds reach the hours.
//
// Long days are rare, and a time that happened to have few of them tells too
// little of both mean and spread. So Early is reckoned as if one more day like
// the longest had been seen; without that the day comes sooner than Early in one
// case of six for an engine that seldom goes to work (by simulation).
func (u Use) Until(hours float64) Forecast {
	switch {
	case u.Days < leastDays:
		return Forecast{Silent: LittleUse}
	case u.Busy == 0:
		return Forecast{Silent: Unused}
	case u.Busy < leastBusy:
		return Forecast{Silent: LittleUse}
	}
	early, _ := u.Add(u.Most).reach(hours)
	_, late := u.reach(hours)
	return Forecast{Days: hours * float64(u.Days) / u.Hours, Early: early, Late: late}
}

// reach solves (hours - m d)² = z² v (d + d²/n) for d.
func (u Use) reach(hours float64) (early, late float64) {
	n := float64(u.Days)
	mean := u.Hours / n
	w := z * z * max(0, (u.Squares-n*mean*mean)/(n-1))
	a := mean*mean - w/n
	b := hours*mean + w/2 // half of the linear term
	root := math.Sqrt(max(0, b*b-a*hours*hours))
	early = hours * hours / (b + root) // the smaller root, without cancellation
	if a <= 0 {
		return early, math.Inf(1)
	}
	return early, (b + root) / a
}

// Reached is the day on which an engine that had run the hours from, counted from
// its last service, came to the limit by the runs, given in the order of time;
// false where it has not yet.
func Reached(runs []run.Run, from, limit float64) (dept.Date, bool) {
	for _, r := range runs {
		if from += r.Minutes / 60; from >= limit {
			return r.Date, true
		}
	}
	return dept.Date{}, false
}
