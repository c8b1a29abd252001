package reply

import (
	"strings"

	"crosslay/bot/check"
)

// bound says how a figure is meant.
type bound uint8

const (
	exact bound = iota
	near
	underB
	overB
	rangeB
	atLeast
	atMost
)

// quantity is a figure with what stands around it. Of a range, lo and hi are the
// ends; otherwise both are the figure.
type quantity struct {
	lo, hi float64
	bound  bound
	unit   check.Unit
	mixed  int  // the whole part of a mixed number
	frac   bool // written as a fraction or a word for one
	whole  bool // a bare whole number
	num    int  // of a fraction as written: 3/27 may be a date
	den    int
	clock  bool // lo and hi are minutes after midnight
	pair   bool // a range of clock times
	half   bool // the clock time says am or pm
	date   string
	alt    bool // digits that may as well be a range of plain numbers, altLo to altHi
	altLo  float64
	altHi  float64
}

var numberWords = map[string]float64{
	"zero": 0, "nought": 0, "naught": 0, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
	"eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18,
	"nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
	"ninety": 90,
}

var scaleWords = map[string]float64{"hundred": 100, "thousand": 1000, "k": 1000, "million": 1e6}

var fractionWords = map[string]float64{
	"half": 2, "halfs": 2, "halve": 2, "halves": 2, "haf": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "quater": 4, "quarer": 4, "qtr": 4, "qtrs": 4, "fourth": 4, "fourths": 4,
	"fifth": 5, "fifths": 5, "sixth": 6, "eighth": 8, "eighths": 8, "eigth": 8, "eights": 8, "tenth": 10, "tenths": 10, "sixteenth": 16, "sixteenths": 16,
}

// amount reads a figure at t[i]; n is how many tokens it takes, 0 if none.
func amount(t []token, i int) (q quantity, n int) {
	if i >= len(t) {
		return q, 0
	}
	if t[i].kind == aNumber {
		q, n = digits(t, i)
	} else if t[i].kind == aWord {
		q, n = spelled(t, i)
	}
	if n == 0 {
		return q, 0
	}
	if f, m := over(q, t, i+n); m > 0 {
		return f, n + m
	}
	return point(q, n, t, i)
}

// over reads the rest of "one over twenty", "forty two and a third".
func over(q quantity, t []token, i int) (quantity, int) {
	if q.frac || q.unit != "" {
		return q, 0
	}
	if wordAt(t, i) == "over" && q.lo <= 16 {
		if d, n := amount(t, i+1); n > 0 && d.lo >= 2 && !d.frac {
			return quantity{lo: q.lo / d.lo, hi: q.lo / d.lo, frac: true, num: int(q.lo), den: int(d.lo)}, n + 1
		}
	}
	if wordAt(t, i) == "and" && isAny(wordAt(t, i+1), "a", "one") {
		if d, ok := fractionWords[wordAt(t, i+2)]; ok {
			return quantity{lo: q.lo + 1/d, hi: q.lo + 1/d, frac: true}, 3
		}
	}
	return q, 0
}

func digits(t []token, i int) (quantity, int) {
	v := t[i].number
	if f, n := slashed(t, i); n > 0 {
		return f, n
	}
	if f, n := mixed(t, i); n > 0 {
		return f, n
	}
	if q, n := outOf(v, t, i+1); n > 0 {
		return q, n + 1
	}
	if w := wordAt(t, i+1); w != "" {
		if d, ok := fractionWords[w]; ok && (v < d || d == 2) && d > 2 {
			return quantity{lo: v / d, hi: v / d, frac: true, num: int(v), den: int(d)}, 2
		}
		if s, ok := scaleWords[w]; ok {
			q, n := quantity{lo: v * s, hi: v * s}, 2
			return addRest(q, n, t, i, s)
		}
	}
	return quantity{lo: v, hi: v, whole: v == float64(int(v)) && !strings.Contains(t[i].s, ".")}, 1
}

// outOf reads "3 of 4", "three out of four".
func outOf(v float64, t []token, i int) (quantity, int) {
	at := i
	if wordAt(t, at) == "out" {
		at++
	}
	if wordAt(t, at) != "of" || at+1 >= len(t) {
		return quantity{}, 0
	}
	all, ok := numberWords[wordAt(t, at+1)]
	if t[at+1].kind == aNumber {
		all, ok = t[at+1].number, true
	}
	if !ok || all < v || all < 2 || all > 12 {
		return quantity{}, 0
	}
	return quantity{lo: v / all, hi: v / all, frac: true, num: int(v), den: int(all)}, at + 2 - i
}

// slashed reads 3/4.
func slashed(t []token, i int) (quantity, int) {
	if !punctAt(t, i+1, "/") || i+2 >= len(t) || t[i+2].kind != aNumber || t[i+2].number == 0 {
		return quantity{}, 0
	}
	if t[i].number > t[i+2].number && t[i+2].number > 16 {
		return quantity{}, 0
	}
	f := t[i].number / t[i+2].number
	return quantity{lo: f, hi: f, frac: true, num: int(t[i].number), den: int(t[i+2].number)}, 3
}

// mixed reads 1 1/2, 2-1/2, 2 and 1/2, 2 and a half.
func mixed(t []token, i int) (quantity, int) {
	at := i + 1
	switch {
	case punctAt(t, at, "-") && t[at].glued, wordAt(t, at) == "and":
		at++
	}
	if wordAt(t, at) == "a" || wordAt(t, at) == "one" {
		at++
	}
	f, n := quantity{}, 0
	if at < len(t) && t[at].kind == aNumber {
		if f, n = slashed(t, at); n == 0 || f.lo >= 1 || f.den > 16 {
			return f, 0
		}
	} else if d, ok := fractionWords[wordAt(t, at)]; ok && at >= i+3 {
		f, n = quantity{lo: 1 / d}, 1
	} else {
		return quantity{}, 0
	}
	v := t[i].number
	if t[i].kind == aWord {
		v = numberWords[t[i].s]
	}
	return quantity{lo: v + f.lo, hi: v + f.lo, frac: true, mixed: int(v)}, at + n - i
}

// point adds spoken decimals: "twenty point nine".
func point(q quantity, n int, t []token, i int) (quantity, int) {
	at := i + n
	if q.frac || !isAny(wordAt(t, at), "point", "decimal", "dot") {
		return q, n
	}
	scale := 0.1
	for at++; at < len(t); at++ {
		d, ok := numberWords[wordAt(t, at)]
		if w := wordAt(t, at); w == "oh" || w == "o" {
			d, ok = 0, true
		} else if w == "one" {
			d, ok = 1, true
		} else if t[at].kind == aNumber && len(t[at].s) == 1 {
			d, ok = t[at].number, true
		}
		if !ok || d > 9 {
			break
		}
		q.lo += d * scale
		q.hi, q.whole = q.lo, false
		scale /= 10
		n = at + 1 - i
	}
	return q, n
}

// spelled reads half, three quarters, seven and a half, forty five hundred.
func spelled(t []token, i int) (quantity, int) {
	w := t[i].s
	if d, ok := fractionWords[w]; ok {
		return quantity{lo: 1 / d, hi: 1 / d, frac: true, num: 1, den: int(d)}, 1
	}
	if w == "a" || w == "one" {
		return oneOf(t, i)
	}
	if d := unitDigit(wordAt(t, i+1)); w == "point" && d > 0 {
		return quantity{lo: d / 10, hi: d / 10}, 2 // "point five"
	}
	v, ok := numberWords[w]
	if _, k := unitAt(t, i+1); w == "ate" && k > 0 {
		v, ok = 8, true
	}
	if !ok {
		return quantity{}, 0
	}
	if d, ok := fractionWords[wordAt(t, i+1)]; ok && d > 2 {
		return quantity{lo: v / d, hi: v / d, frac: true, num: int(v), den: int(d)}, 2
	}
	if q, n := mixed(t, i); n > 0 {
		return q, n
	}
	n := 1
	if v >= 20 && v < 100 {
		if u := unitDigit(wordAt(t, i+1)); u > 0 {
			v, n = v+u, 2
		} else if wordAt(t, i+1) == "one" && v < 100 {
			v, n = v+1, 2
		}
		if w, m := spokenTens(t, i+n); n == 2 && m > 0 {
			return quantity{lo: v*100 + w, hi: v*100 + w, whole: true}, n + m // "forty five fifty"
		}
	} else if w, m := spokenTens(t, i+1); v >= 10 && v < 20 && m > 0 {
		return quantity{lo: v*100 + w, hi: v*100 + w, whole: true}, 1 + m // "eighteen fifty"
	} else if tens, ok := numberWords[wordAt(t, i+1)]; ok && v > 0 && v < 10 && tens >= 10 {
		if _, scale := scaleWords[wordAt(t, i+2)]; !scale {
			n, u := 2, 0.0
			if more, ok := numberWords[wordAt(t, i+2)]; ok && tens >= 20 && more > 0 && more < 10 {
				n, u = 3, more
			}
			return quantity{lo: v*100 + tens + u, hi: v*100 + tens + u, whole: true}, n
		}
	}
	if s, ok := scaleWords[wordAt(t, i+n)]; ok {
		q, n := quantity{lo: v * s, hi: v * s}, n+1
		return addRest(q, n, t, i, s)
	}
	return quantity{lo: v, hi: v, whole: true}, n
}

// spokenTens reads "fifty", "fifty five", "twelve" as the end of a number of four
// digits.
func spokenTens(t []token, i int) (float64, int) {
	v, ok := numberWords[wordAt(t, i)]
	if !ok || v < 10 || v > 90 {
		return 0, 0
	}
	if _, scale := scaleWords[wordAt(t, i+1)]; scale {
		return 0, 0
	}
	if u := unitDigit(wordAt(t, i+1)); u > 0 && v >= 20 {
		return v + u, 2
	}
	return v, 1
}

// addRest adds what follows hundred or thousand: "four thousand five hundred".
func addRest(q quantity, n int, t []token, i int, scale float64) (quantity, int) {
	at := i + n
	if wordAt(t, at) == "and" {
		at++
	}
	if at >= len(t) || t[at].kind == aPunct || wordAt(t, at) == "a" {
		return q, n
	}
	more, m := spelled(t, at)
	if at < len(t) && t[at].kind == aNumber && n > 1 && scale >= 100 {
		more, m = digits(t, at)
	}
	if m == 0 || more.frac || more.lo >= scale {
		return q, n
	}
	if more.lo < 10 && isAny(wordAt(t, at+m), "is", "was", "are", "s") { // "one is three hundred two is good"
		return q, n
	}
	return quantity{lo: q.lo + more.lo, hi: q.lo + more.lo}, at + m - i
}

func oneOf(t []token, i int) (quantity, int) {
	w := wordAt(t, i+1)
	if d, ok := fractionWords[w]; ok && (t[i].s == "a" || d > 2) {
		return quantity{lo: 1 / d, hi: 1 / d, frac: true, num: 1, den: int(d)}, 2
	}
	if s, ok := scaleWords[w]; ok && len(w) > 1 {
		return addRest(quantity{lo: s, hi: s}, 2, t, i, s)
	}
	if t[i].s == "a" {
		return quantity{}, 0
	}
	if w == "and" || w == "over" || w == "point" {
		return quantity{lo: 1, hi: 1, whole: true}, 1
	}
	if v, ok := numberWords[w]; ok && v >= 10 {
		n := 2
		if u, ok := hourWord(wordAt(t, i+2)); ok && v >= 20 && u > 0 && u < 10 {
			v, n = v+u, 3
		}
		return quantity{lo: 100 + v, hi: 100 + v}, n
	}
	if (i == 0 || t[i-1].kind == aPunct || isAny(t[i-1].s, "number", "check", "and", "point", "wait", "sorry", "actually")) && !isAny(w, "of", "more", "thing", "issue", "problem", "out") && w != "" {
		return quantity{lo: 1, hi: 1, whole: true}, 1
	}
	if wordAt(t, i+1) == "and" && wordAt(t, i+2) == "a" {
		if d, ok := fractionWords[wordAt(t, i+3)]; ok {
			return quantity{lo: 1 + 1/d, hi: 1 + 1/d, frac: true}, 4
		}
	}
	if _, n := unitAt(t, i+1); n > 0 && wordAt(t, i+1) != "in" && wordAt(t, i+1) != "s" {
		return quantity{lo: 1, hi: 1}, 1
	}
	return quantity{}, 0
}

// unitDigit is one to nine, 0 for anything else.
func unitDigit(w string) float64 {
	if w == "one" {
		return 1
	}
	if u := numberWords[w]; u < 10 {
		return u
	}
	return 0
}

func wordAt(t []token, i int) string {
	if i < 0 || i >= len(t) || t[i].kind != aWord {
		return ""
	}
	return t[i].s
}

func punctAt(t []token, i int, s string) bool {
	return i >= 0 && i < len(t) && t[i].kind == aPunct && t[i].s == s
}
