package reply

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"crosslay/bot/dept"
)

var (
	shopOrderedOn = regexp.MustCompile(`(^| )ordered (it |them |on |this |last |the )*$`)
	shopPromise   = regexp.MustCompile(`^(until|eta|due|expected) `)
	shopDueStart  = regexp.MustCompile(`^(until|due|eta|expected|should|will|back|by|promised|arriving|in|about|maybe|probably|here|next|tomorrow|end|\d)`)
	shopMonths    = `(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*`
	shopISO       = regexp.MustCompile(`\b(\d{4})-(\d{1,2})-(\d{1,2})\b`)
	shopSlash     = regexp.MustCompile(`\b(\d{1,2})/(\d{1,2})(?:/(\d{2,4}))?\b`)
	shopMonthDay  = regexp.MustCompile(`\b` + shopMonths + `\.? (\d{1,2})(?:st|nd|rd|th)?\b`)
	shopDayMonth  = regexp.MustCompile(`\b(\d{1,2})(?:st|nd|rd|th)?(?: of)? ` + shopMonths + `\b`)
	shopOrdinal   = regexp.MustCompile(`\bthe (\d{1,2})(?:st|nd|rd|th)\b`)
	shopWeekday   = regexp.MustCompile(`\b(next )?(mon|tue|wed|thu|fri|sat|sun)(?:day|s|sday|nesday|r|rs|rsday|urday)?\b`)
	shopIn        = regexp.MustCompile(`\b(a|an|one|two|three|four|five|six|couple|few|\d{1,2})(?: of| more|-)? ?(day|week|month)s?\b`)
	shopWeekEnd   = regexp.MustCompile(`\b(end of (?:the |this )?week|this week|later this week)\b`)
)

// until looks for the day promised in a sentence that speaks of parts, or that
// names a day with "until". It is read from the clause about the parts and from
// those after it that go on about the day.
func (w *ShopWords) until(s shopSentence, today dept.Date) {
	about := false
	for _, c := range s.clauses {
		if c.asks {
			continue
		}
		late := c.denied && shopPartsLate.MatchString(c.text)
		about = about || (!c.denied || late) && (shopParts.MatchString(c.text) || late)
		if !about && !shopPromise.MatchString(c.text) && !(w.Parts && shopDueStart.MatchString(c.text)) {
			continue
		}
		if c.speaks() {
			about = false
			continue
		}
		if d, ok := shopDate(c.text, today); ok && !d.Before(today) {
			w.Until = d
		}
	}
}

// shopDate reads a day to come. A weekday is the next one after today, "next
// week" the Friday of it; dates without a year are the next such date, unless
// they have just passed.
func shopDate(text string, today dept.Date) (dept.Date, bool) {
	for _, read := range []func(string, dept.Date) (dept.Date, []int){shopCalendar, shopNear} {
		if d, at := read(text, today); at != nil && !shopOrderedOn.MatchString(text[:at[0]]) {
			return d, true
		}
	}
	return dept.Date{}, false
}

// shopCalendar reads dates that name the day of a month.
func shopCalendar(text string, today dept.Date) (dept.Date, []int) {
	if m := shopISO.FindStringSubmatchIndex(text); m != nil {
		d, err := dept.ParseDate(text[m[0]:m[1]])
		if err != nil {
			return d, nil
		}
		return d, m
	}
	if m := shopSlash.FindStringSubmatchIndex(text); m != nil {
		return shopMake(m, shopInt(text, m, 1), shopInt(text, m, 2), shopInt(text, m, 3), today)
	}
	if m := shopMonthDay.FindStringSubmatchIndex(text); m != nil {
		return shopMake(m, shopMonth(text[m[2]:m[3]]), shopInt(text, m, 2), 0, today)
	}
	if m := shopDayMonth.FindStringSubmatchIndex(text); m != nil {
		return shopMake(m, shopMonth(text[m[4]:m[5]]), shopInt(text, m, 1), 0, today)
	}
	if m := shopOrdinal.FindStringSubmatchIndex(text); m != nil {
		d := dept.Date{Year: today.Year, Month: today.Month, Day: shopInt(text, m, 1)}
		if d.Before(today) {
			d = dept.Date{Year: today.Year, Month: today.Month, Day: 1}.AddDays(31)
			d.Day = shopInt(text, m, 1)
		}
		if d.AddDays(0) != d {
			return d, nil
		}
		return d, m
	}
	return dept.Date{}, nil
}

// shopMake builds a date; without a year it is this year's, or next year's where
// that lies more than half a year back. Days that no calendar has are refused.
func shopMake(at []int, month, day, year int, today dept.Date) (dept.Date, []int) {
	if month > 12 {
		month, day = day, month
	}
	switch {
	case year == 0:
		year = today.Year
		if today.DaysSince(dept.Date{Year: year, Month: time.Month(month), Day: day}) > 180 {
			year++
		}
	case year < 100:
		year += 2000
	}
	d := dept.Date{Year: year, Month: time.Month(month), Day: day}
	if d.AddDays(0) != d {
		return d, nil
	}
	return d, at
}

// shopNear reads days told from today.
func shopNear(text string, today dept.Date) (dept.Date, []int) {
	for _, w := range []struct {
		words string
		days  int
	}{{"tomorrow", 1}, {"tmrw", 1}, {"tonight", 0}, {"today", 0}} {
		if i := strings.Index(text, w.words); i >= 0 {
			return today.AddDays(w.days), []int{i, i + len(w.words)}
		}
	}
	if m := shopWeekday.FindStringSubmatchIndex(text); m != nil {
		day := shopWeekdayOf(text[m[4]:m[5]])
		if m[2] >= 0 {
			return shopMonday(today).AddDays(7 + (int(day)+6)%7), m
		}
		return today.AddDays(1 + (int(day)-int(today.Weekday())+6)%7), m
	}
	if i := strings.Index(text, "next week"); i >= 0 {
		return shopMonday(today).AddDays(11), []int{i, i + 9}
	}
	if i := strings.Index(text, "next month"); i >= 0 {
		return dept.Date{Year: today.Year, Month: today.Month + 2, Day: 1}.AddDays(-1), []int{i, i + 10}
	}
	if m := shopWeekEnd.FindStringIndex(text); m != nil {
		return shopMonday(today).AddDays(4), m
	}
	return shopAfter(text, today)
}

// shopAfter reads "in two weeks", "5 days", "a month".
func shopAfter(text string, today dept.Date) (dept.Date, []int) {
	m := shopIn.FindStringSubmatchIndex(text)
	if m == nil {
		return dept.Date{}, nil
	}
	n, ok := map[string]int{"a": 1, "an": 1, "one": 1, "two": 2, "couple": 2, "three": 3, "few": 3, "four": 4, "five": 5, "six": 6}[text[m[2]:m[3]]]
	if !ok {
		n = shopInt(text, m, 1)
	}
	days := map[string]int{"day": 1, "week": 7, "month": 30}[text[m[4]:m[5]]]
	return today.AddDays(n * days), m
}

func shopMonday(d dept.Date) dept.Date { return d.AddDays(-(int(d.Weekday()) + 6) % 7) }

func shopWeekdayOf(s string) time.Weekday {
	return time.Weekday(strings.Index("sunmontuewedthufrisat", s[:3]) / 3)
}

func shopMonth(s string) int {
	return strings.Index("janfebmaraprmayjunjulaugsepoctnovdec", s[:3])/3 + 1
}

func shopInt(text string, m []int, group int) int {
	if m[2*group] < 0 {
		return 0
	}
	n, _ := strconv.Atoi(text[m[2*group]:m[2*group+1]])
	return n
}
