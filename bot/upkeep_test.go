package bot

import (
	"testing"
	"time"

	"crosslay/bot/dept"
)

func TestFirstDay(t *testing.T) {
	for name, c := range map[string]struct {
		days []time.Weekday
		want time.Weekday
	}{
		"around_the_clock": {nil, time.Monday},
		"monday_to_friday": {[]time.Weekday{time.Monday, time.Friday}, time.Monday},
		"from_tuesday":     {[]time.Weekday{time.Sunday, time.Saturday, time.Tuesday}, time.Tuesday},
		"sundays":          {[]time.Weekday{time.Sunday}, time.Sunday},
	} {
		t.Run(name, func(t *testing.T) {
			if got := firstDay(dept.Hours{Days: c.days}); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}
