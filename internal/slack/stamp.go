package slack

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// stampOf is an instant as Slack writes it: "1764082800.000100", seconds and
// microseconds.
func stampOf(t time.Time) string {
	return fmt.Sprintf("%d.%06d", t.Unix(), t.Nanosecond()/1000)
}

// instant reads a stamp; the zero time for what is none.
func instant(stamp string) time.Time {
	whole, part, _ := strings.Cut(stamp, ".")
	sec, err := strconv.ParseInt(whole, 10, 64)
	if err != nil || sec <= 0 {
		return time.Time{}
	}
	micro := 0
	if part != "" {
		if micro, err = strconv.Atoi((part + "000000")[:6]); err != nil || micro < 0 {
			return time.Time{}
		}
	}
	return time.Unix(sec, int64(micro)*1000).UTC()
}

// later reports whether stamp a is after b. What is no stamp is before all.
func later(a, b string) bool { return instant(a).After(instant(b)) }
