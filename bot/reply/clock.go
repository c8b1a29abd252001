package reply

// clocksAt reads a time of day or a range of them: 7:02 to 7:10, 0640-0648,
// 7 to 7:08, 7:02am. Plain numbers become times only beside one that is plain.
func clocksAt(t []token, i int) (quantity, int) {
	a, n, sure := clock(t, i)
	if n == 0 {
		return quantity{}, 0
	}
	at := i + n
	sep := punctAt(t, at, "-") || isAny(wordAt(t, at), "to", "till", "til", "until", "thru", "through", "and", "off")
	if sep {
		if wordAt(t, at+1) == "about" || wordAt(t, at+1) == "at" {
			at++
		}
		b, m, sureB := clock(t, at+1)
		if m > 0 && !sure && !sureB && n >= 2 && m >= 2 && wordAt(t, i) != "" && wordAt(t, at) != "and" && b.lo > a.lo && b.lo-a.lo < 60 {
			if _, k := unitAt(t, at+1+m); k == 0 {
				sure, sureB = true, true
			}
		}
		if f := b.lo / 60; m == 1 && sure && !sureB && wordAt(t, at+1) == "" && f > float64(int(a.lo)%60) && f < 60 {
			b.lo = float64(int(a.lo)/60*60) + f // "7:02 to 10"
		}
		if m > 0 && n == 1 && threeDigits(t, at+1) && a.lo == float64(int(b.lo)/60*60) && b.lo-a.lo < 60 && t[i].kind == aNumber && t[i].number <= 12 {
			sureB = true // "7 to 705"
		}
		if m > 0 && !sure && !sureB && threeDigits(t, i) && threeDigits(t, at+1) && b.lo > a.lo && b.lo-a.lo < 60 {
			if _, k := unitAt(t, at+1+m); k == 0 {
				return quantity{lo: a.lo, hi: b.lo, clock: true, pair: true, alt: true, altLo: t[i].number, altHi: t[at+1].number}, at + 1 + m - i
			}
		}
		if m > 0 && (sure || sureB) && !(wordAt(t, at) == "and" && !(sure && sureB)) {
			lo, hi := align(a.lo, b.lo)
			return quantity{lo: lo, hi: hi, clock: true, pair: true, half: a.half || b.half}, at + 1 + m - i
		}
	}
	if !sure {
		return quantity{}, 0
	}
	return a, n
}

func threeDigits(t []token, i int) bool {
	return i < len(t) && t[i].kind == aNumber && (len(t[i].s) == 3 || len(t[i].s) == 4)
}

// align puts the end after the start: a bare minute count ("7:02 to 10") takes
// the hour of the start, and the end may lie past noon or midnight.
func align(lo, hi float64) (float64, float64) {
	if hi >= 0 && hi < 60 && lo >= 60 { // "7:02 to 10"
		hour := float64(int(lo)/60) * 60
		if hour+hi > lo {
			return lo, hour + hi
		}
	}
	for hi < lo {
		hi += 12 * 60
	}
	return lo, hi
}

// clock reads one time; sure is false for a plain number that might be one.
func clock(t []token, i int) (q quantity, n int, sure bool) {
	if i >= len(t) || t[i].kind != aNumber {
		return spokenClock(t, i)
	}
	h := int(t[i].number)
	if m, ok := dottedMinutes(t, i); ok {
		return minuteOf(h, m), 1, true
	}
	switch {
	case punctAt(t, i+1, ":") && i+2 < len(t) && t[i+2].kind == aNumber && len(t[i+2].s) == 2 && h < 24 && t[i+2].number < 60:
		q, n, sure = minuteOf(h, int(t[i+2].number)), 3, true
	case len(t[i].s) == 4 && t[i].number == float64(h) && h%100 < 60 && h < 2400:
		q, n, sure = minuteOf(h/100, h%100), 1, t[i].s[0] == '0' || isAny(wordAt(t, i+1), "hrs", "hours") || isAny(wordAt(t, i-1), "at")
		if isAny(wordAt(t, i+1), "hrs", "hours") {
			n++
		} else if t[i].s[0] != '0' {
			q.alt, q.altLo, q.altHi = true, t[i].number, t[i].number
		}
	case t[i].number == float64(h) && len(t[i].s) <= 2 && h < 60:
		q, n, sure = minuteOf(h, 0), 1, false
		if h > 24 {
			q.lo = float64(h)
		}
		if _, k := unitAt(t, i+1); k > 0 && wordAt(t, i+1) != "m" {
			return q, 0, false
		}
	case len(t[i].s) == 3 && t[i].number == float64(h) && h%100 < 60 && h >= 100:
		q, n, sure = minuteOf(h/100, h%100), 1, false
	default:
		return q, 0, false
	}
	return halfDay(q, t, i, n, sure)
}

// dottedMinutes reads "7.20 til 7.23", where both ends are written so.
func dottedMinutes(t []token, i int) (int, bool) {
	dotted := func(k int) (int, bool) {
		if k < 0 || k >= len(t) || t[k].kind != aNumber || len(t[k].s) < 4 || t[k].s[len(t[k].s)-3] != '.' || t[k].number >= 24 {
			return 0, false
		}
		m := int(t[k].s[len(t[k].s)-2]-'0')*10 + int(t[k].s[len(t[k].s)-1]-'0')
		return m, m < 60
	}
	m, ok := dotted(i)
	if !ok {
		return 0, false
	}
	for _, k := range []int{i - 3, i - 2, i + 2, i + 3} {
		between := min(i, k) + 1
		if _, both := dotted(k); both && isAny(wordAt(t, between), "to", "till", "til", "until", "thru") {
			return m, true
		}
	}
	return 0, false
}

func minuteOf(h, m int) quantity {
	f := float64(h*60 + m)
	return quantity{lo: f, hi: f, clock: true}
}

func halfDay(q quantity, t []token, i, n int, sure bool) (quantity, int, bool) {
	switch w := wordAt(t, i+n); {
	case w == "am" || w == "a" && t[i+n].glued:
		if q.lo >= 12*60 {
			q.lo -= 12 * 60
		}
		q.hi, q.half = q.lo, true
		return q, n + 1, true
	case w == "pm" || w == "p" && t[i+n].glued:
		if q.lo < 12*60 {
			q.lo += 12 * 60
		}
		q.hi, q.half = q.lo, true
		return q, n + 1, true
	}
	return q, n, sure
}

// spokenClock reads "seven oh two", "seven fifteen", "seven" as dictation writes
// them; sure only with "oh".
func spokenClock(t []token, i int) (quantity, int, bool) {
	if q, n := toHour(t, i); n > 0 {
		return q, n, true
	}
	h, ok := hourWord(wordAt(t, i))
	if !ok || h < 1 || h > 12 {
		return quantity{}, 0, false
	}
	next := wordAt(t, i+1)
	if m, ok := hourWord(wordAt(t, i+2)); ok && m < 10 && isAny(next, "oh", "o") {
		q := minuteOf(int(h), int(m))
		q.alt, q.altLo, q.altHi = true, h*100+m, h*100+m
		return q, 3, true
	}
	if m, ok := numberWords[next]; ok && m >= 10 && m < 60 {
		n := 2
		if u, ok := hourWord(wordAt(t, i+2)); ok && u > 0 && u < 10 && m >= 20 {
			m, n = m+u, 3
		}
		return minuteOf(int(h), int(m)), n, isAny(wordAt(t, i-1), "at", "till", "til", "until")
	}
	return minuteOf(int(h), 0), 1, false
}

// hourWord reads a number word, "one" too, which elsewhere is mostly no number.
func hourWord(w string) (float64, bool) {
	if w == "one" {
		return 1, true
	}
	f, ok := numberWords[w]
	return f, ok
}

func isAny(w string, list ...string) bool {
	for _, x := range list {
		if w == x {
			return true
		}
	}
	return false
}

// toHour reads "at ten to seven", "at quarter past six", "at half past six".
func toHour(t []token, i int) (quantity, int) {
	if !isAny(wordAt(t, i-1), "at", "from", "around", "till", "until") {
		return quantity{}, 0
	}
	at := i
	if wordAt(t, at) == "a" {
		at++
	}
	m, ok := numberWords[wordAt(t, at)]
	switch wordAt(t, at) {
	case "quarter":
		m, ok = 15, true
	case "half":
		m, ok = 30, true
	}
	h := numberWords[wordAt(t, at+2)]
	if !ok || m >= 60 || h < 1 || h > 12 {
		return quantity{}, 0
	}
	switch wordAt(t, at+1) {
	case "to", "till", "til", "of", "before":
		return minuteOf(int(h)-1, 60-int(m)), at + 3 - i
	case "past", "after":
		return minuteOf(int(h), int(m)), at + 3 - i
	}
	return quantity{}, 0
}
