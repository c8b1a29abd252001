package fuel

import (
	"math"
	"time"
)

// Silence is why nothing is forecast; Spoken is none.
type Silence string

// The reasons for silence.
const (
	Spoken      Silence = ""
	NoEndurance Silence = "no endurance of a full tank on file"
	NoLevel     Silence = "no level read"
	LittleUse   Silence = "too little use to forecast by"
	Unused      Silence = "not used lately"
)

// Use is how long the engine ran in the last days, told by sums that can be kept
// without the runs: days watched, those without a run included.
type Use struct {
	Days    int
	Minutes float64 // together
	Squares float64 // of the minutes of each day
}

// Add is the use with one more day.
func (u Use) Add(minutes float64) Use {
	return Use{u.Days + 1, u.Minutes + minutes, u.Squares + minutes*minutes}
}

// Tank is what is known of a tank now.
type Tank struct {
	Level     float64       // fraction of full, as read, less what was burned since
	Step      float64       // resolution of the gauge, fraction of full
	Floor     float64       // fraction under which it is low
	Endurance time.Duration // of a full tank
}

// Forecast is in how many days a tank falls under its floor if nobody fills it.
type Forecast struct {
	Silent Silence
	Under  bool    // it is under the floor now
	Days   float64 // the likeliest
	Early  float64 // nine times in ten not before
	Late   float64 // nor after; +Inf where there is no telling
}

// leastDays is a week: every platoon has had the engine.
const leastDays = 7

// z is the quantile of the normal distribution for nine cases in ten, two-sided.
const z = 1.6448536269514722

// Forecast takes the days to come to be like those watched. Early starts from
// half a step of the gauge under the level that was read, Late from half a step
// over it; beside that the range holds the spread of the days' minutes.
func (t Tank) Forecast(u Use) Forecast {
	switch {
	case t.Endurance <= 0:
		return Forecast{Silent: NoEndurance}
	case math.IsNaN(t.Level):
		return Forecast{Silent: NoLevel}
	case t.Level < t.Floor:
		return Forecast{Under: true}
	case u.Days < leastDays:
		return Forecast{Silent: LittleUse}
	case !(u.Minutes > 0):
		return Forecast{Silent: Unused}
	}
	n := float64(u.Days)
	mean := u.Minutes / n
	spread := z * math.Sqrt(max(0, (u.Squares-n*mean*mean)/(n-1)))
	low, high := t.minutes(-t.Step/2), t.minutes(t.Step/2)
	return Forecast{
		Days:  t.minutes(0) / mean,
		Early: reach(low, mean, spread, n, +1),
		Late:  reach(high, mean, spread, n, -1),
	}
}

// minutes is how long it runs until the floor, were the level so much off.
func (t Tank) minutes(off float64) float64 {
	return max(0, clamp(t.Level+off)-t.Floor) * t.Endurance.Minutes()
}

// reach is the number of days d in which the minutes are run, on the side of the
// early or the late bound: mean d + side spread sqrt(d + d²/n) = minutes.
func reach(minutes, mean, spread, n, side float64) float64 {
	a := mean*mean - spread*spread/n
	b := minutes*mean + spread*spread/2
	root := math.Sqrt(max(0, b*b-a*minutes*minutes))
	switch {
	case side > 0:
		if minutes == 0 {
			return 0
		}
		return minutes * minutes / (b + root)
	case a <= 0:
		return math.Inf(1)
	}
	return (b + root) / a
}
