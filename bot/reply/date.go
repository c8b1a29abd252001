package reply

import "fmt"

var months = map[string]int{
	"january": 1, "jan": 1, "february": 2, "feb": 2, "febuary": 2, "march": 3, "mar": 3, "april": 4, "apr": 4, "may": 5,
	"june": 6, "jun": 6, "july": 7, "jul": 7, "august": 8, "aug": 8, "september": 9, "sept": 9, "sep": 9,
	"october": 10, "oct": 10, "november": 11, "nov": 11, "december": 12, "dec": 12,
}

// dateAt reads a date with a year: 2027-03, 2027-03-15, 03/2027, 3/15/27,
// Mar 2027, March 15 2027, 15 Mar 27. "3/27" stays a fraction; see dateOf.
func dateAt(t []token, i int) (quantity, int) {
	if t[i].kind == aWord {
		return monthFirst(t, i)
	}
	if t[i].kind != aNumber {
		return quantity{}, 0
	}
	if m, ok := months[wordAt(t, i+1)]; ok && t[i].number <= 31 {
		if y, n := year(t, i+2); n > 0 {
			return dateQ(y, m, int(t[i].number)), 2 + n
		}
	}
	sep := ""
	if i+1 < len(t) && t[i+1].kind == aPunct && isAny(t[i+1].s, "-", "/", ".") {
		sep = t[i+1].s
	}
	if sep == "" || i+2 >= len(t) || t[i+2].kind != aNumber {
		return quantity{}, 0
	}
	if punctAt(t, i+3, sep) && i+4 < len(t) && t[i+4].kind == aNumber {
		return threeParts(int(t[i].number), int(t[i+2].number), int(t[i+4].number))
	}
	return twoParts(t[i].s, t[i+2].s, int(t[i].number), int(t[i+2].number))
}

func threeParts(a, b, c int) (quantity, int) {
	if a >= 2000 && a < 2100 && b >= 1 && b <= 12 && c >= 1 && c <= 31 {
		return dateQ(a, b, c), 5
	}
	if c < 100 && c >= 20 {
		c += 2000
	}
	if c >= 2000 && c < 2100 && a >= 1 && a <= 12 && b >= 1 && b <= 31 {
		return dateQ(c, a, b), 5
	}
	if c >= 2000 && c < 2100 && b >= 1 && b <= 12 && a >= 1 && a <= 31 {
		return dateQ(c, b, a), 5
	}
	return quantity{}, 0
}

func twoParts(s1, s2 string, a, b int) (quantity, int) {
	if len(s1) == 4 && a >= 2000 && a < 2100 && b >= 1 && b <= 12 {
		return dateQ(a, b, 0), 3
	}
	if len(s2) == 4 && b >= 2000 && b < 2100 && a >= 1 && a <= 12 {
		return dateQ(b, a, 0), 3
	}
	return quantity{}, 0
}

func monthFirst(t []token, i int) (quantity, int) {
	m, ok := months[t[i].s]
	if !ok {
		return quantity{}, 0
	}
	at := i + 1
	if isAny(wordAt(t, at), "of") || punctAt(t, at, ".") {
		at++
	}
	if at < len(t) && t[at].kind == aNumber && t[at].number <= 31 && len(t[at].s) <= 2 {
		next := at + 1
		if isAny(wordAt(t, next), "st", "nd", "rd", "th") {
			next++
		}
		if punctAt(t, next, ",") {
			next++
		}
		if y, n := fullYear(t, next); n > 0 {
			return dateQ(y, m, int(t[at].number)), next + n - i
		}
	}
	if d, n := ordinalDay(t, at); n > 0 {
		if y, m2 := fullYear(t, at+n); m2 > 0 {
			return dateQ(y, m, d), at + n + m2 - i
		}
	}
	if punctAt(t, at, "-") || punctAt(t, at, "/") || punctAt(t, at, "'") {
		at++
	}
	if y, n := year(t, at); n > 0 {
		return dateQ(y, m, 0), at + n - i
	}
	return quantity{}, 0
}

var ordinalWords = map[string]int{
	"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10,
	"eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14, "fifteenth": 15, "sixteenth": 16, "seventeenth": 17,
	"eighteenth": 18, "nineteenth": 19, "twentieth": 20, "thirtieth": 30,
}

// ordinalDay reads a day of the month in words: "first", "twenty third".
func ordinalDay(t []token, i int) (int, int) {
	if d, ok := ordinalWords[wordAt(t, i)]; ok {
		return d, 1
	}
	if tens := numberWords[wordAt(t, i)]; tens == 20 || tens == 30 {
		if d, ok := ordinalWords[wordAt(t, i+1)]; ok && d < 10 {
			return int(tens) + d, 2
		}
	}
	return 0, 0
}

// year reads 2027, 27, '27, twenty twenty seven.
func year(t []token, i int) (int, int) {
	if punctAt(t, i, "'") {
		y, n := year(t, i+1)
		if n > 0 {
			n++
		}
		return y, n
	}
	if y, n := fullYear(t, i); n > 0 {
		return y, n
	}
	if i < len(t) && t[i].kind == aNumber && len(t[i].s) == 2 && t[i].number >= 20 {
		return 2000 + int(t[i].number), 1
	}
	return 0, 0
}

func fullYear(t []token, i int) (int, int) {
	if i < len(t) && t[i].kind == aNumber && len(t[i].s) == 4 && t[i].number >= 2000 && t[i].number < 2100 {
		return int(t[i].number), 1
	}
	at := i
	if wordAt(t, i) == "two" && wordAt(t, i+1) == "thousand" {
		at += 2
		if wordAt(t, at) == "and" {
			at++
		}
	} else if wordAt(t, i) == "twenty" {
		at++
	} else {
		return 0, 0
	}
	q, n := spelled2(t, at)
	if n == 0 {
		return 0, 0
	}
	return 2000 + q, at + n - i
}

func spelled2(t []token, i int) (int, int) {
	v, ok := numberWords[wordAt(t, i)]
	if !ok || v < 20 || v > 90 {
		return 0, 0
	}
	if u, ok := numberWords[wordAt(t, i+1)]; ok && u > 0 && u < 10 {
		return int(v + u), 2
	}
	return int(v), 1
}

func dateQ(y, m, d int) quantity {
	if d == 0 {
		return quantity{date: fmt.Sprintf("%04d-%02d", y, m)}
	}
	return quantity{date: fmt.Sprintf("%04d-%02d-%02d", y, m, d)}
}

// dateOf is the date that a figure stands for where a date is wanted: 3/27 is
// March 2027.
func dateOf(q quantity) (string, bool) {
	if q.date != "" {
		return q.date, true
	}
	if q.frac && q.num >= 1 && q.num <= 12 && q.den >= 20 && q.den < 100 {
		return dateQ(2000+q.den, q.num, 0).date, true
	}
	return "", false
}
