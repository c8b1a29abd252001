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
	Most    float64 // minutes of the longest day
}

// Add is the use with one more day.
func (u Use) Add(minutes float64) Use {
	return Use{u.Days + 1, u.Minutes + minutes, u.Squares + minutes*minutes, max(u.Most, minutes)}
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

// slack is crumbs of conversions.
const slack = 1e-9

// leastDays is a week: every platoon has had the engine.
const leastDays = 7

// z is the quantile of the normal distribution for nine cases in ten, two-sided.
const z = 1.6448536269514722

// Forecast takes the days to come to be like those watched. The range holds the
// spread of the days' minutes and half a step of the gauge to either side; and
// since long days are rare, Early is reckoned as if one more day like the longest
// had been seen.
func (t Tank) Forecast(u Use) Forecast {
	switch {
	case t.Endurance <= 0:
		return Forecast{Silent: NoEndurance}
	case math.IsNaN(t.Level):
		return Forecast{Silent: NoLevel}
	case t.Level < t.Floor-slack:
		return Forecast{Under: true}
	case u.Days < leastDays:
		return Forecast{Silent: LittleUse}
	case !(u.Minutes > 0):
		return Forecast{Silent: Unused}
	}
	early, _ := u.Add(u.Most).reach(t.minutes(-t.Step / 2))
	_, late := u.reach(t.minutes(t.Step / 2))
	return Forecast{Days: t.minutes(0) * float64(u.Days) / u.Minutes, Early: early, Late: late}
}

// minutes is how long it runs until the floor, were the level so much off.
func (t Tank) minutes(off float64) float64 {
	return max(0, clamp(t.Level+off)-t.Floor) * t.Endurance.Minutes()
}

// reach is the days d in which the minutes are run, early and late: with mean m
// and variance v of a day's minutes over n days, the roots of
// (minutes - m d)² = z² v (d + d²/n).
func (u Use) reach(minutes float64) (early, late float64) {
	if minutes == 0 {
		return 0, 0
	}
	n := float64(u.Days)
	mean := u.Minutes / n
	w := z * z * max(0, (u.Squares-n*mean*mean)/(n-1))
	a, b := mean*mean-w/n, minutes*mean+w/2
	root := math.Sqrt(max(0, b*b-a*minutes*minutes))
	early = minutes * minutes / (b + root) // the smaller root, without cancellation
	if a <= 0 {
		return early, math.Inf(1)
	}
	return early, (b + root) / a
}
