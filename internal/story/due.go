package story

import (
	"fmt"
	"strconv"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// Due is a check that a shift is asked, with its number.
type Due struct {
	N     int
	Item  dept.Item
	Check *check.Check
}

// dueOf lists what a company is asked on a date, numbered through, as long as
// nothing is out of service.
func dueOf(setup bot.Setup, company dept.CompanyID, date dept.Date) []Due {
	var due []Due
	for _, it := range setup.Dept.Carried(company) {
		sheet := setup.Book[it.Sheet]
		if sheet == nil {
			continue
		}
		for i := range sheet.Checks {
			if sheet.Checks[i].When.Due(date) {
				due = append(due, Due{len(due) + 1, it, &sheet.Checks[i]})
			}
		}
	}
	return due
}

// asked lists what the standing says was asked.
func asked(setup bot.Setup, st *bot.Standing) []Due {
	var due []Due
	for _, a := range st.Watch.Asked {
		it, _ := setup.Dept.Item(a.Ref.Item)
		if c, ok := setup.Book.Of(setup.Dept, a.Ref); ok {
			due = append(due, Due{a.N, it, c})
		}
	}
	return due
}

// Good is an answer that passes, in the words of a crew; "" where only a photo
// does.
func (a Due) Good() string {
	ans := a.Check.Answer
	switch ans.Kind {
	case check.Condition, check.Gauge:
		return "ok"
	case check.YesNo:
		return ans.Good
	case check.Level:
		return "full"
	case check.Number:
		return figure(middle(ans, 1), ans.Step) + " " + string(ans.Unit)
	case check.Run:
		return figure(middle(ans, 1), 1) + " min"
	case check.Choice:
		for _, o := range ans.Choices {
			if o.Good {
				return o.Name
			}
		}
	case check.DateAhead:
		return "2031-05"
	case check.Text:
		return "none"
	case check.Photo:
	}
	return ""
}

// middle is a value well within the limits.
func middle(ans check.Answer, otherwise float64) float64 {
	switch {
	case ans.Min != nil && ans.Max != nil:
		return (*ans.Min + *ans.Max) / 2
	case ans.Min != nil:
		return *ans.Min * 1.1
	case ans.Max != nil:
		return *ans.Max * 0.9
	}
	return otherwise
}

// figure writes a value to the gauge's resolution.
func figure(v, step float64) string {
	if step >= 1 || step == 0 && v >= 20 {
		return strconv.Itoa(int(v + 0.5))
	}
	return fmt.Sprintf("%.4g", v)
}
