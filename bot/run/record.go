package run

import "crosslay/bot/dept"

// Shift is one shift of the record. An Exempt one, in which the item was out of
// service, is left out: it neither counts nor ends a gap.
type Shift struct {
	Date    dept.Date
	Platoon dept.Platoon
	Good    bool
	Exempt  bool
}

// Record is how a unit was warmed up over a row of shifts.
type Record struct {
	Shifts  int // that count
	Good    int // with a run that counts
	Longest int // most shifts in a row without one
	Current int // shifts without one at the end of the row
}

// Mark sets Good on the shifts in which a run counts as warm-up.
func Mark(shifts []Shift, runs []Run, l Limits) []Shift {
	type key struct {
		date    dept.Date
		platoon dept.Platoon
	}
	good := map[key]bool{}
	for _, r := range runs {
		if r.Judge(l).Counts() {
			good[key{r.Date, r.Platoon}] = true
		}
	}
	marked := make([]Shift, len(shifts))
	for i, s := range shifts {
		s.Good = s.Good || good[key{s.Date, s.Platoon}]
		marked[i] = s
	}
	return marked
}

// RecordOf sums up shifts, given in the order of time.
func RecordOf(shifts []Shift) Record {
	var r Record
	for _, s := range shifts {
		if !s.Exempt {
			r = r.Add(s.Good)
		}
	}
	return r
}

// Add is the record with the next shift, so that it can be kept without the
// shifts.
func (r Record) Add(good bool) Record {
	r.Shifts++
	if good {
		r.Good++
		r.Current = 0
		return r
	}
	r.Current++
	r.Longest = max(r.Longest, r.Current)
	return r
}

// Loud reports whether the last two shifts passed without a run that counts:
// the officers are told.
func (r Record) Loud() bool { return r.Current >= 2 }
