package wording

import (
	"fmt"
	"math"

	"crosslay/bot/fluid"
)

// volume writes a volume as people pour it: a tenth under ten, else whole.
func volume(v fluid.Volume) string {
	if v.Amount < 10 && v.Unit != "mL" {
		return tied(trim(fmt.Sprintf("%.1f", v.Amount)) + " " + string(v.Unit))
	}
	return tied(fmt.Sprintf("%.0f %s", v.Amount, v.Unit))
}

// Loss tells how fast fluid goes; "" where nothing can be told. Most is the rate
// if the gauge was read as far off as it can be.
func Loss(l fluid.Loss, perWeek, most fluid.Volume) string {
	if l.Silent != fluid.Spoken {
		return ""
	}
	days := math.Max(1, math.Round(l.Over.Hours()/24))
	return fmt.Sprintf("Loses about %s a week, %s at most: %d top-ups in %s.", volume(perWeek), volume(most), l.TopUps, plural(days, "day", "days"))
}

// ToppedAgain tells a crew that repeated top-ups went to the shop.
func ToppedAgain(times, days int) string {
	return fmt.Sprintf("Topped up %d times within %d days: it goes somewhere. The shop is told.", times, days)
}

// Trapped explains why a hose will not go on: the pressure that warming builds up
// in oil that is shut in, for 20 °F or 10 °C.
func Trapped(p fluid.Pressure, metric bool) string {
	warmer := "20 °F"
	if metric {
		warmer = "10 °C"
	}
	return fmt.Sprintf("Will not go on? Shut-in oil that warms by %s presses with %s to %s %s: nobody pushes a hose on against that.",
		tied(warmer), approx(p.Low), approx(p.High), p.Unit)
}
