package reply

import (
	"crosslay/bot/check"
)

// unitAt reads the unit behind a figure. "in" is one only where it does not lead
// on to something.
func unitAt(t []token, i int) (check.Unit, int) {
	if i >= len(t) || t[i].kind == aNumber {
		return "", 0
	}
	w := t[i].s
	switch w {
	case "fl", "per":
		if next := wordAt(t, i+1); next == "oz" || next == "cent" {
			u, _ := check.ParseUnit(w + " " + next)
			return u, 2
		}
		return "", 0
	case "in":
		if i+1 < len(t) && t[i+1].kind == aWord && !t[i].glued {
			return "", 0
		}
	case "s", "h", "l", "v", "m":
		if w == "s" && i > 0 && t[i-1].kind == aWord {
			return "", 0 // "one's" is no second
		}
		if ends := i+1 == len(t) || t[i+1].kind == aPunct; !t[i].glued && w != "v" && w != "m" && !(w == "l" && ends) {
			return "", 0
		}
	case "\"", "%":
		if !t[i].glued && w == "\"" {
			return "", 0
		}
	case "bar", "cycles", "pieces":
	case "deg", "degrees", "°":
		if next := wordAt(t, i+1); next == "f" || next == "c" || next == "fahrenheit" || next == "celsius" {
			return map[byte]check.Unit{'f': "degF", 'c': "degC"}[next[0]], 2
		}
		return "", 0
	case "lbs", "pound":
		return "psi", 1
	case "precent", "percnt", "prcnt":
		return "%", 1
	case "minuets", "minuts", "mintues", "minutues", "minits", "minites", "mintes", "miuntes", "mnts", "minuet", "mintue":
		return "min", 1
	}
	if t[i].kind == aPunct && w != "%" && w != "\"" {
		return "", 0
	}
	u, ok := check.ParseUnit(w)
	if !ok {
		return "", 0
	}
	return u, 1
}

// quantityAt reads a figure or a range of figures with a unit at t[i].
func quantityAt(t []token, i int) (quantity, int) {
	if q, n := dateAt(t, i); n > 0 {
		return q, n
	}
	if q, n := clocksAt(t, i); n > 0 {
		return q, n
	}
	q, n := amount(t, i)
	if n == 0 {
		return q, 0
	}
	u, k := unitAt(t, i+n)
	if k == 0 && q.frac && isAny(wordAt(t, i+n), "of", "inch", "an", "a") {
		at := i + n
		for isAny(wordAt(t, at), "of", "an", "a") {
			at++
		}
		if u2, k2 := unitAt(t, at); k2 > 0 {
			u, k = u2, at+k2-i-n
		}
	}
	q.unit, n = u, n+k
	q, n = compound(q, t, i, n)
	if q2, m := rangeTo(q, t, i+n); m > 0 {
		return q2, n + m
	}
	if q.unit != "" {
		q.whole = false
	}
	return q, n
}

// compound adds seconds to minutes and minutes to hours: "6 min 30 sec", and
// "an hour and a half" tails such as "2 minutes and a half".
func compound(q quantity, t []token, i, n int) (quantity, int) {
	if q.unit != "min" && q.unit != "h" {
		return q, n
	}
	at := i + n
	if wordAt(t, at) == "and" {
		at++
	}
	if wordAt(t, at) == "a" && wordAt(t, at+1) == "half" {
		return quantity{lo: q.lo + 0.5, hi: q.hi + 0.5, unit: q.unit, frac: true}, at + 2 - i
	}
	more, m := amount(t, at)
	if m == 0 {
		return q, n
	}
	u, k := unitAt(t, at+m)
	if k == 0 || !(q.unit == "min" && u == "s" || q.unit == "h" && u == "min") {
		return q, n
	}
	f, _ := check.Convert(more.lo, u, q.unit)
	return quantity{lo: q.lo + f, hi: q.hi + f, unit: q.unit}, at + m + k - i
}

// rangeTo reads the far end of a range: "to 8", "- 6 min", "and 3/4".
func rangeTo(q quantity, t []token, i int) (quantity, int) {
	switch {
	case punctAt(t, i, "-"):
		if !t[i].glued {
			return q, 0
		}
	case wordAt(t, i) == "to", wordAt(t, i) == "thru", wordAt(t, i) == "through", wordAt(t, i) == "or":
	default:
		return q, 0
	}
	at := i + 1
	if wordAt(t, at) == "a" || wordAt(t, at) == "maybe" {
		at++
	}
	hi, n := amount(t, at)
	if n == 0 {
		return q, 0
	}
	u, k := unitAt(t, at+n)
	if q.unit == "" {
		q.unit = u
	}
	if hi.lo <= q.lo || wordAt(t, i) == "or" && !hi.frac && q.unit == "" {
		return q, 0
	}
	q.hi, q.bound = hi.lo, rangeB
	q.frac = q.frac && hi.frac
	q.whole = q.whole && hi.whole && q.unit == ""
	return q, at + n + k - i
}
