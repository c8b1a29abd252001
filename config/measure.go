package config

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// number is a plain number; false after a problem or where the key is missing.
func (o object) number(key string) (float64, bool) {
	s := o.text(key)
	if s == "" {
		return 0, false
	}
	f, ok := parseNumber(s)
	if !ok {
		o.wrong(key, fmt.Sprintf("%q is not a number", s), "Write a number, as in 3.4")
	}
	return f, ok
}

// parseNumber reads 3, 3.4, 3/4 and 1 1/2; nothing infinite or hexadecimal.
func parseNumber(s string) (float64, bool) {
	if whole, part, ok := strings.Cut(s, " "); ok && strings.Contains(part, "/") {
		w, okW := parseNumber(whole)
		p, okP := parseNumber(part)
		return w + p, okW && okP && w >= 0 && p >= 0
	}
	if over, under, ok := strings.Cut(s, "/"); ok {
		a, okA := decimal(over)
		b, okB := decimal(under)
		return a / b, okA && okB && b != 0
	}
	return decimal(s)
}

var decimalShape = regexp.MustCompile(`^[+-]?(\d{1,12}(\.\d{0,12})?|\.\d{1,12})$`)

func decimal(s string) (float64, bool) {
	if !decimalShape.MatchString(s) {
		return 0, false
	}
	f, err := strconv.ParseFloat(s, 64)
	return f, err == nil
}

// fraction is a fraction of full, 0 to 1, written as 3/4, 0.75 or 75%.
func (o object) fraction(key string) (float64, bool) {
	s := o.text(key)
	if s == "" {
		return 0, false
	}
	f, ok := parseNumber(strings.TrimSpace(strings.TrimSuffix(s, "%")))
	if ok && strings.HasSuffix(s, "%") {
		f /= 100
	}
	if !ok || f < 0 || f > 1 {
		o.wrong(key, fmt.Sprintf("%q is not a fraction of full, from 0 to 1", s), "Write it like 3/4")
		return 0, false
	}
	return f, true
}

var measureShape = regexp.MustCompile(`^([-+0-9./ ]*[0-9.])\s*([^0-9]*)$`)

// measure is a figure in the unit want; written without a unit it is taken to be
// in bare, and refused where bare is "".
func (o object) measure(key string, want, bare check.Unit) (float64, bool) {
	s := o.text(key)
	if s == "" {
		return 0, false
	}
	f, ok := parseMeasure(s, want, bare)
	if !ok {
		o.wrong(key, fmt.Sprintf("%q is not a figure in %s or a unit like it", s, want), fmt.Sprintf("Write the figure and its unit, as in 10 %s", want))
	}
	return f, ok
}

func parseMeasure(s string, want, bare check.Unit) (float64, bool) {
	m := measureShape.FindStringSubmatch(s)
	if m == nil {
		return 0, false
	}
	f, ok := parseNumber(strings.TrimSpace(m[1]))
	if !ok {
		return 0, false
	}
	unit := bare
	if name := strings.TrimSpace(m[2]); name != "" {
		if unit, ok = check.ParseUnit(name); !ok {
			return 0, false
		}
	}
	f, ok = check.Convert(f, unit, want)
	return f, ok && !math.IsInf(f, 0) && !math.IsNaN(f)
}

// positive is a measure above zero; zero stands for not given.
func (o object) positive(key string, want check.Unit) float64 {
	f, ok := o.measure(key, want, "")
	if ok && f <= 0 {
		o.wrong(key, "the figure must be above zero", "Write the maker's figure or take the key out")
		return 0
	}
	return f
}

// duration is a time span: 45m, 150 min, 2h, 1h30m.
func (o object) duration(key string) (time.Duration, bool) {
	s := o.text(key)
	if s == "" {
		return 0, false
	}
	d, err := time.ParseDuration(s)
	if err != nil {
		minutes, ok := parseMeasure(s, "min", "")
		if ok {
			d, err = time.Duration(math.Round(minutes*60))*time.Second, nil
		}
	}
	if err != nil || d < 0 || d > 366*24*time.Hour {
		o.wrong(key, fmt.Sprintf("%q is not a span of time", s), "Write it like 45m, 150 min or 2h")
		return 0, false
	}
	return d, true
}

func (o object) date(key string) dept.Date {
	s := o.text(key)
	if s == "" {
		return dept.Date{}
	}
	d, err := dept.ParseDate(s)
	if err != nil || d.Year < 1900 || d.Year > 2200 {
		o.wrong(key, fmt.Sprintf("%q is not a date", s), "Write it like 2026-03-08")
		return dept.Date{}
	}
	return d
}

func (o object) clock(key string) (dept.Clock, bool) {
	s := o.text(key)
	if s == "" {
		return 0, false
	}
	return o.clockOf(key, s)
}

func (o object) clockOf(key, s string) (dept.Clock, bool) {
	c, err := dept.ParseClock(s)
	if err != nil {
		o.wrong(key, fmt.Sprintf("%q is not a time of day", s), `Write it like "07:00", in quotes`)
	}
	return c, err == nil
}

// yes is a true or false.
func (o object) yes(key string) bool {
	switch s := strings.ToLower(o.text(key)); s {
	case "true", "yes":
		return true
	case "", "false", "no":
		return false
	default:
		o.wrong(key, fmt.Sprintf("%q is neither true nor false", s), "Write true or false")
		return false
	}
}

// count is a whole number from least to most.
func (o object) count(key string, least, most int) int {
	s := o.text(key)
	if s == "" {
		return 0
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < least || n > most {
		o.wrong(key, fmt.Sprintf("%q is not a whole number from %d to %d", s, least, most), "")
		return 0
	}
	return n
}
