package fuel

import (
	"math"
	"time"
)

// Levels is two readings of a tank, one after the other, and what is known of the
// time between.
type Levels struct {
	Before, Now float64       // fractions of full
	Ran         float64       // minutes that were recorded or reported since
	Step        float64       // resolution of the gauge
	Filled      bool          // somebody said it was filled
	Endurance   time.Duration // of a full tank; 0 where not known: then nothing burns, and Lower is not asked
}

// Question is how a reading fits, and by how much it does not.
type Question struct {
	Change   Change
	Expected float64 // the level that the runs leave
	Off      float64 // fraction by which the reading is higher or lower than can be; 0 if Expected
	Minutes  float64 // running time that this is worth; 0 where the endurance is not known
}

// Ask tells what to ask about a reading.
func (l Levels) Ask() Question {
	burned := Burn(l.Ran, l.Endurance)
	q := Question{Change: Compare(l.Before, l.Now, burned, l.Step, l.Filled), Expected: clamp(l.Before - burned)}
	if q.Change == Lower && l.Endurance <= 0 && l.Ran > 0 {
		q.Change = Expected // it ran, and nobody knows what that takes
	}
	switch q.Change {
	case Higher:
		q.Off = l.Now - l.Before
	case Lower:
		q.Off = q.Expected - l.Now
	case Expected:
	}
	q.Minutes = math.Abs(q.Off) * l.Endurance.Minutes()
	return q
}
