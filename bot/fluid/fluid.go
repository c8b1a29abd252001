// Package fluid corrects a hydraulic level for the position of the tool. A
// double-acting cylinder holds more oil extended than retracted, by the area of
// its rod times the stroke; that oil is missing from the tank while the tool is
// open, and comes back when it closes. Levels are fractions of the band between
// the gauge's marks: 0 at the lower, 1 at the upper.
package fluid

import "math"

// Tool is a tool's cylinder, from the maker's figures.
type Tool struct {
	RodMM    float64
	StrokeMM float64
}

// Known reports whether the figures suffice to reckon with.
func (t Tool) Known() bool { return t.RodMM > 0 && t.StrokeMM > 0 }

// RodArea is the area of the rod in square millimetres.
func (t Tool) RodArea() float64 { return math.Pi / 4 * t.RodMM * t.RodMM }

// Holds is the volume, in millilitres, that the cylinder holds more than closed
// when it is open by the fraction of its stroke.
func (t Tool) Holds(open float64) float64 {
	return t.RodArea() * t.StrokeMM * min(max(open, 0), 1) / 1000
}

// Reading is a level read with the tool open by a fraction of its stroke, on a
// gauge whose marks are BandML apart.
type Reading struct {
	Level  float64
	Open   float64
	BandML float64
	Tool   Tool
}

// Corrected is what the reading means for the tank with the tool closed.
type Corrected struct {
	Level      float64 // with the tool closed; over 1 is over the upper mark
	MissingML  float64 // to the upper mark with the tool closed, never negative
	OverfillML float64 // over the upper mark if it were filled to it now and the tool closed
}

// Correct corrects the reading; false where a figure is missing, for then
// nothing may be said about the level.
func (r Reading) Correct() (Corrected, bool) {
	return Correct(r.Level, r.BandML, Position{r.Tool, r.Open})
}

// Position is a tool open by a fraction of its stroke.
type Position struct {
	Tool Tool
	Open float64
}

// Correct corrects a level for all tools that hang on the tank: what they hold
// adds up. It is false where a figure of any is missing.
func Correct(level, bandML float64, tools ...Position) (Corrected, bool) {
	if !(bandML > 0) || math.IsInf(bandML, 1) || math.IsNaN(level) {
		return Corrected{}, false
	}
	var in float64
	for _, p := range tools {
		if !p.Tool.Known() || math.IsNaN(p.Open) {
			return Corrected{}, false
		}
		in += p.Tool.Holds(p.Open)
	}
	closed := level + in/bandML
	return Corrected{
		Level:      closed,
		MissingML:  max(0, (1-closed)*bandML),
		OverfillML: max(in, (closed-1)*bandML),
	}, true
}
