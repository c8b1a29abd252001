package export

import (
	"strings"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/wording"
)

// Names turns ids into what people call things. Without a department it knows
// none, and columns of names stay empty.
type Names struct {
	Dept *dept.Department
	Book check.Book
}

// zone is where its clocks hang: UTC without a department.
func (n Names) zone() *time.Location {
	if n.Dept == nil || n.Dept.Zone == nil {
		return time.UTC
	}
	return n.Dept.Zone
}

func (n Names) item(id dept.ItemID) string {
	if n.Dept == nil {
		return ""
	}
	it, _ := n.Dept.Item(id)
	return it.Number
}

func (n Names) company(id dept.CompanyID) string {
	if n.Dept == nil {
		return ""
	}
	c, _ := n.Dept.Company(id)
	return c.Name
}

// check is the check of an item by today's sheet; nil if there is none.
func (n Names) check(ref check.Ref) *check.Check {
	if n.Dept == nil {
		return nil
	}
	c, ok := n.Book.Of(n.Dept, ref)
	if !ok {
		return nil
	}
	return c
}

// unit is what the figures of a check are in.
func unit(c *check.Check) string {
	switch c.Answer.Kind {
	case check.Level:
		return "of full"
	case check.Run:
		return "min"
	case check.Number:
		return string(c.Answer.Unit)
	case check.Condition, check.YesNo, check.Gauge, check.Choice, check.DateAhead, check.Text, check.Photo:
	}
	return ""
}

// limits says what is in limits, with the unit: "3/4 or more", "5 min to 10 min".
func limits(c *check.Check) string {
	a := c.Answer
	show := func(f *float64) string { return wording.Figure(c, check.Num(*f)) }
	switch {
	case a.Kind == check.YesNo:
		return a.Good
	case a.Kind == check.Gauge:
		return "between the marks"
	case a.Kind == check.Choice:
		return good(a.Choices)
	case a.Kind == check.DateAhead:
		return "a date ahead"
	case a.Min != nil && a.Max != nil:
		return show(a.Min) + " to " + show(a.Max)
	case a.Min != nil:
		return show(a.Min) + " or more"
	case a.Max != nil:
		return show(a.Max) + " or less"
	case a.Kind == check.Condition:
		return "no fault seen"
	}
	return ""
}

func good(options []check.Option) string {
	var names []string
	for _, o := range options {
		if o.Good {
			names = append(names, o.Name)
		}
	}
	return strings.Join(names, ", ")
}

// Harmless is a text that a spreadsheet takes for a text: one that begins like a
// formula gets an apostrophe in front. (OWASP, "CSV Injection".) What cannot
// stand in a cell is left out.
func Harmless(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	if s != "" && strings.ContainsRune("=+-@\t\n", rune(s[0])) {
		return "'" + s
	}
	return s
}
