package wording

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"crosslay/bot/check"
)

// Level writes a fraction of full as a gauge is read: 3/4, 1/2, full. What no
// gauge shows is written in percent, rounded down, never up to a better level.
func Level(f float64) string {
	if s, _, ok := mark(f); ok {
		return s
	}
	return fmt.Sprintf("%d%%", int(math.Floor(f*100+1e-9)))
}

// mark finds the mark of a gauge that f stands on.
func mark(f float64) (string, float64, bool) {
	const near = 0.004 // "0.33" is a third
	switch {
	case math.Abs(f) < 1e-9:
		return "empty", 0, true
	case math.Abs(f-1) < 1e-9:
		return "full", 1, true
	}
	for _, den := range []float64{2, 3, 4, 8, 16} {
		num := math.Round(f * den)
		if num > 0 && num < den && math.Abs(f-num/den) < near {
			return fmt.Sprintf("%.0f/%.0f", num, den), num / den, true
		}
	}
	return "", 0, false
}

// Figure writes a value as its check is read: 3/4, 4200 psi, 7 min, low. What is
// written is never on the other side of a limit than what was read.
func Figure(c *check.Check, v check.Value) string {
	if v.Number == nil {
		return word(c, v.Word)
	}
	f := *v.Number
	switch c.Answer.Kind {
	case check.Level:
		return level(c.Answer, f)
	case check.Run:
		return figure(c.Answer, f, 0) + " min"
	}
	return withUnit(figure(c.Answer, f, places(f)), c.Answer.Unit)
}

func level(a check.Answer, f float64) string {
	if s, at, ok := mark(f); ok && sameSide(a, f, at) {
		return s
	}
	if down := math.Floor(f*100+1e-9) / 100; sameSide(a, f, down) {
		return fmt.Sprintf("%.0f%%", down*100)
	}
	return fmt.Sprintf("%.1f%%", f*100)
}

func sameSide(a check.Answer, f, g float64) bool {
	_, was := a.Within(f)
	_, is := a.Within(g)
	return was == is
}

// places is how many decimals a figure of this size is worth.
func places(f float64) int {
	switch abs := math.Abs(f); {
	case abs >= 100:
		return 0
	case abs >= 10:
		return 1
	}
	return 2
}

// figure rounds to so many decimals, or to more where rounding would cross a
// limit.
func figure(a check.Answer, f float64, decimals int) string {
	for ; decimals < 6; decimals++ {
		s := strconv.FormatFloat(f, 'f', decimals, 64)
		if g, err := strconv.ParseFloat(s, 64); err == nil && sameSide(a, f, g) && near(f, g) {
			return trim(s)
		}
	}
	return strconv.FormatFloat(f, 'f', -1, 64)
}

// near keeps half a minute from becoming none.
func near(f, g float64) bool { return math.Abs(f-g) <= 0.06*math.Abs(f) }

func trim(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func withUnit(s string, u check.Unit) string {
	switch u {
	case "", "count":
		return s
	case "%":
		return s + "%"
	case "degF":
		return s + " °F"
	case "degC":
		return s + " °C"
	}
	return s + " " + string(u)
}

// word writes the value of a word: a date as people say it, others as they are.
func word(c *check.Check, w string) string {
	if c.Answer.Kind == check.DateAhead {
		if t, err := time.Parse("2006-01", w); err == nil {
			return t.Format("Jan 2006")
		}
		if t, err := time.Parse(time.DateOnly, w); err == nil {
			return t.Format("Jan 2, 2006")
		}
	}
	return clip(w, 30)
}

// minutes writes a time span; half a minute counts.
func minutes(f float64) string { return figure(check.Answer{}, f, 0) + " min" }

// limits says what is in limits: "1/2 and up", "5 to 10 min"; "" where the sheet
// gives none.
func limits(c *check.Check) string {
	a := c.Answer
	show := func(f *float64) string {
		return Figure(&check.Check{Answer: check.Answer{Kind: a.Kind, Unit: a.Unit}}, check.Num(*f))
	}
	switch {
	case a.Min != nil && a.Max != nil:
		return fmt.Sprintf("%s to %s", bare(show(a.Min)), show(a.Max))
	case a.Min != nil && a.Kind == check.Level && *a.Min == 1:
		return "full"
	case a.Min != nil:
		return show(a.Min) + " and up"
	case a.Max != nil:
		return "up to " + show(a.Max)
	}
	return ""
}

// bare is a figure without its unit.
func bare(s string) string { return strings.TrimSuffix(strings.Fields(s)[0], "%") }

// passed writes a result that is in limits: "ok", "3/4 ok".
func passed(c *check.Check, v check.Value, fixed bool) string {
	s := "ok"
	if f := Figure(c, v); v.Number != nil || c.Answer.Kind.WantsFigure() {
		s = join(" ", f, "ok")
	}
	if fixed {
		s += ", fixed"
	}
	return s
}

// failed writes a fault, its gravest word in capitals: "1/2 LOW", "CRACKED".
func failed(c *check.Check, v check.Value, damage string) string {
	if damage != "" && (v.Number == nil || damage != "low" && damage != "over") {
		return strings.ToUpper(damage)
	}
	if v.Number == nil {
		return failedWord(c, v.Word)
	}
	_, side := c.Answer.Within(*v.Number)
	switch {
	case side == "":
		return Figure(c, v) + " FAULT"
	case c.Answer.Kind == check.Run && side == "low":
		return Figure(c, v) + " TOO SHORT"
	case c.Answer.Kind == check.Run:
		return Figure(c, v) + " TOO LONG"
	}
	return Figure(c, v) + " " + strings.ToUpper(side)
}

func failedWord(c *check.Check, w string) string {
	switch {
	case w == "low" && c.Answer.Kind == check.Run:
		return "TOO SHORT"
	case w == "over" && c.Answer.Kind == check.Run:
		return "TOO LONG"
	case w == "low" || w == "over":
		return strings.ToUpper(w)
	case c.Answer.Kind == check.DateAhead && w != "":
		return word(c, w) + " PAST"
	case w == "" || c.Answer.Kind == check.Condition:
		return "FAULT"
	}
	return word(c, w) + " FAULT"
}
