// Package fuel reckons with the tank of a small engine in fractions of full:
// how long it lasts, what a run burns, and whether a reading agrees with the
// runs since the one before. How long a full tank lasts is the maker's figure,
// from the department file; without it nothing is reckoned.
package fuel

import "time"

// Left is how long the engine runs on the fraction of its tank; false where the
// endurance is not known.
func Left(fraction float64, endurance time.Duration) (time.Duration, bool) {
	if endurance <= 0 {
		return 0, false
	}
	return time.Duration(clamp(fraction) * float64(endurance)), true
}

// Burn is the fraction of the tank that a run of the minutes takes, 0 where the
// endurance is not known.
func Burn(minutes float64, endurance time.Duration) float64 {
	if endurance <= 0 || !(minutes > 0) {
		return 0
	}
	return minutes / endurance.Minutes()
}

// After is the fraction in the tank after a run, never under empty.
func After(fraction, minutes float64, endurance time.Duration) float64 {
	return clamp(fraction - Burn(minutes, endurance))
}

// Change is how a reading fits the one before it.
type Change string

// The changes. All but Expected are asked about; none is a defect.
const (
	Expected Change = "expected"
	Higher   Change = "higher" // and nobody said it was filled
	Lower    Change = "lower"  // by more than the runs explain
)

// Compare sets a reading against the one before, the fraction burned since by
// runs, and the gauge's resolution. Each reading is good to half a step, so two
// of them may differ by a whole step without meaning anything. After a fill only
// the new reading holds, and nothing is asked.
func Compare(before, now, burned, step float64, filled bool) Change {
	expected := clamp(before - burned)
	switch {
	case filled:
		return Expected
	case now > before+step+slack:
		return Higher
	case now < expected-step-slack:
		return Lower
	}
	return Expected
}

func clamp(f float64) float64 {
	if !(f > 0) {
		return 0
	}
	return min(f, 1)
}
