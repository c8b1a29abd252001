// Package reliability tells how often something fails, and what may be read
// into that: availability, mean time between failures with bounds, trend, a
// power-law fit, one item against its fellows, and rates with intervals.
//
// It knows neither items nor dates: time is hours on one clock, engine hours or
// calendar hours, whichever the caller watches by; only availability is told in
// instants. Every result says by its Silent field whether the data carry it; a
// silent result has no other figures to rely on. Sentences belong to wording,
// which speaks of luck where this package speaks of probabilities.
package reliability

import (
	"math"
	"slices"
)

// Silence is why nothing can be said; Spoken is none.
type Silence string

// The reasons for silence.
const (
	Spoken    Silence = ""
	NoTime    Silence = "no time on the clock"
	TooFew    Silence = "too few failures"
	NoFellows Silence = "no fellows with time on the clock"
	Disorder  Silence = "failures out of order or outside the time watched"
	AtStart   Silence = "a failure at the very start"
	Several   Silence = "several items at once"
)

// Luck is whether chance alone explains a finding well enough.
type Luck string

// A finding that chance alone brings about in one case of twenty, or more
// often, could be luck.
const (
	CouldBe  Luck = "could be luck"
	MoreThan Luck = "more than luck"
)

// level is the probability under which a finding is more than luck; a common
// convention.
const level = 0.05

func luck(p float64) Luck {
	if p < level {
		return MoreThan
	}
	return CouldBe
}

// Direction is which way a finding points.
type Direction string

// Steady is neither; it also stands for what could be luck.
const (
	Steady Direction = "steady"
	Worse  Direction = "worse"
	Better Direction = "better"
)

// History is one item's failures, or one kind's taken together, on one clock.
type History struct {
	Hours    float64   // watched, from 0 until now
	Failures []float64 // each in hours since the start, ascending
}

// Fits says why the history cannot be reckoned with, or Spoken.
func (h History) Fits() Silence {
	switch n := len(h.Failures); {
	case !h.Count().watched():
		return NoTime
	case n > 0 && (!slices.IsSorted(h.Failures) || !(h.Failures[0] >= 0) || h.Failures[n-1] > h.Hours):
		return Disorder
	}
	return Spoken
}

// Count is the history as a count over hours.
func (h History) Count() Count { return Count{Failures: len(h.Failures), Hours: h.Hours} }

// Count is failures over hours watched.
type Count struct {
	Failures int
	Hours    float64
}

// watched reports whether the hours are a time: over 0 and finite.
func (c Count) watched() bool { return c.Hours > 0 && !math.IsInf(c.Hours, 1) }

// Plus adds two counts that were watched on the same clock.
func (c Count) Plus(d Count) Count { return Count{c.Failures + d.Failures, c.Hours + d.Hours} }
