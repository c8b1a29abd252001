// Package run judges engine runs: whether a run counts as the warm-up of its
// shift, what it adds to the engine's hours, and how well a unit has been
// warmed up over many shifts. The minimum holds for a single run; short runs do
// not add up to a long one, though each adds hours and burns fuel.
package run

import (
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// Run is one run of one engine. Start and End are zero where the crew told only
// the minutes.
type Run struct {
	Item    dept.ItemID
	Date    dept.Date // with Platoon, the shift in which it ran
	Platoon dept.Platoon
	Start   time.Time
	End     time.Time
	Minutes float64
	OnCall  bool // at work, not for warming up: no length is too long
}

// Verdict is what a run comes to.
type Verdict string

// The verdicts.
const (
	Good  Verdict = "good"
	Short Verdict = "short" // not counted as warm-up, but adds hours
	Over  Verdict = "over"  // counted, with a word about it; no defect
	Ask   Verdict = "ask"   // not recorded before the crew has said how long it ran
)

// Counts reports whether a run of the verdict is the warm-up of its shift.
func (v Verdict) Counts() bool { return v == Good || v == Over }

// Records reports whether a run of the verdict is recorded and adds hours.
func (v Verdict) Records() bool { return v != Ask }

// Limits are the range of a warm-up run in minutes; zero where the sheet gives
// none.
type Limits struct{ Min, Max float64 }

// LimitsOf are the limits of a check whose answer is a run.
func LimitsOf(a check.Answer) Limits {
	var l Limits
	if a.Min != nil {
		l.Min = *a.Min
	}
	if a.Max != nil {
		l.Max = *a.Max
	}
	return l
}

// Judge judges the minutes that a crew told. The limits belong to the range.
// What is no length of time is asked about.
func Judge(min, max, minutes float64) Verdict {
	const slack = 1e-9
	switch {
	case !(minutes >= 0) || minutes > 24*60:
		return Ask
	case minutes < min-slack:
		return Short
	case max > 0 && minutes > max+slack:
		return Over
	}
	return Good
}

// Off judges a run that was timed from "started" to "off". An "off" later than
// twice the range may have been forgotten, so it is asked about; so is one that
// came before the start.
func (l Limits) Off(started, off time.Time) (minutes float64, v Verdict) {
	minutes = off.Sub(started).Minutes()
	if l.Max > 0 && minutes > 2*l.Max {
		return minutes, Ask
	}
	return minutes, Judge(l.Min, l.Max, minutes)
}

// Judge judges a run that was recorded. On a call an engine works for as long
// as it is needed: only the minimum is asked of it.
func (r Run) Judge(l Limits) Verdict {
	v := Judge(l.Min, l.Max, r.Minutes)
	if r.OnCall && v == Over {
		return Good
	}
	return v
}

// Hours is what the runs add to an engine's hours, short ones too.
func Hours(runs []Run) float64 {
	var minutes float64
	for _, r := range runs {
		minutes += r.Minutes
	}
	return minutes / 60
}
