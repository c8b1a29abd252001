package fluid

import (
	"math"
	"time"
)

// Silence is why nothing is told; Spoken is none.
type Silence string

// The reasons for silence.
const (
	Spoken   Silence = ""
	TooFew   Silence = "fewer than two top-ups"
	TooSoon  Silence = "top-ups less than a day apart"
	NoVolume Silence = "no volume told"
)

// TopUp is fluid poured in. ML is its volume, or what Poured makes of the levels.
type TopUp struct {
	At time.Time
	ML float64
}

// Poured is the volume that brings a level up, on a gauge whose marks are bandML
// apart; false where the figures are missing or the level did not rise.
func Poured(before, after, bandML float64) (float64, bool) {
	if !(after > before) || !(bandML > 0) {
		return 0, false
	}
	return (after - before) * bandML, true
}

// Loss is the rate at which fluid goes somewhere.
type Loss struct {
	Silent  Silence
	TopUps  int
	ML      float64       // lost between the first top-up and the last
	Over    time.Duration // that time
	PerWeek float64       // mL
	Low     float64       // mL a week, as far as the gauge can tell; never negative
	High    float64
}

const week = 7 * 24 * time.Hour

// LossOf reckons from top-ups in the order of time. What a top-up brought back
// was lost since the one before, so the first brings in no time and does not
// count. StepML is the resolution of the gauge: each amount rests on a reading
// before and one after, good to half a step. Those before err to one side, for
// people top up when the gauge has just come down to a mark; those after cancel,
// by the root of how many there are.
func LossOf(topUps []TopUp, stepML float64) Loss {
	l := Loss{TopUps: len(topUps)}
	if len(topUps) < 2 {
		l.Silent = TooFew
		return l
	}
	l.Over = topUps[len(topUps)-1].At.Sub(topUps[0].At)
	for _, t := range topUps[1:] {
		l.ML += t.ML
	}
	switch {
	case l.Over < 24*time.Hour:
		l.Silent = TooSoon
	case !(l.ML > 0):
		l.Silent = NoVolume
	default:
		weeks := float64(l.Over) / float64(week)
		count := float64(len(topUps) - 1)
		off := stepML / 2 * (count + math.Sqrt(count))
		l.PerWeek, l.Low, l.High = l.ML/weeks, max(0, l.ML-off)/weeks, (l.ML+off)/weeks
	}
	return l
}
