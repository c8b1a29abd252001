// Package ledger reads records back into facts: which shift answered what, what
// was out of service and for how long, the life of each defect. It looks at
// nothing but the records it is given and the department file, so what was taken
// back or corrected is shown as such, and what nobody said stays unsaid.
//
// Which checks a shift owed is reckoned by the sheets as they are now; records do
// not keep it. A sheet that was changed since is therefore judged by its new form.
package ledger

import (
	"cmp"
	"slices"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// Line is a record with the id of the latest one that supersedes it, "" if it
// stands.
type Line struct {
	bot.Record
	SupersededBy string
}

// Stands reports whether no later record took the place of the line.
func (l Line) Stands() bool { return l.SupersededBy == "" }

// Book is a department's records, in the order in which things were said, and
// what they come to.
type Book struct {
	Setup   bot.Setup
	Lines   []Line
	Outages []Outage // in the order in which they began
	Spares  []StandIn
	Lives   []*Life // of defects, in the order in which they were first heard of
}

// New makes a book of lines in any order. What comes twice counts once.
func New(setup bot.Setup, lines []Line) *Book {
	seen := map[string]bool{}
	b := &Book{Setup: setup}
	for _, l := range lines {
		if !seen[l.ID] {
			seen[l.ID] = true
			b.Lines = append(b.Lines, l)
		}
	}
	slices.SortStableFunc(b.Lines, func(a, b Line) int { return a.At.Compare(b.At) })
	b.Outages, b.Spares, b.Lives = outages(b.Lines), standIns(b.Lines), lives(b.Lines)
	b.nameReasons()
	return b
}

// Shift names a shift of a company.
type Shift struct {
	Company dept.CompanyID
	Date    dept.Date
	Platoon dept.Platoon
}

// Compare orders shifts by date, platoon and company.
func (s Shift) Compare(t Shift) int {
	return cmp.Or(cmp.Compare(s.Date.String(), t.Date.String()), cmp.Compare(s.Platoon, t.Platoon), cmp.Compare(s.Company, t.Company))
}

// Answers is what a shift said, check by check.
type Answers struct {
	Shift   Shift
	Asked   time.Time // when it was prompted; zero if no record of that was given
	Results map[check.Ref]Line
}

// Answers gathers what each company said in each shift, in order. Results are
// those that stand at the end of what is known; one that was taken back is there
// with the state "open".
func (b *Book) Answers() []*Answers {
	found := map[Shift]*Answers{}
	at := func(l Line) *Answers {
		s := Shift{l.Company, l.Date, l.Platoon}
		if found[s] == nil {
			found[s] = &Answers{Shift: s, Results: map[check.Ref]Line{}}
		}
		return found[s]
	}
	for _, l := range b.Lines {
		switch l.Kind {
		case bot.OnPrompt:
			at(l).Asked = l.At
		case bot.OnReading:
			if l.Stands() {
				at(l).Results[check.Ref{Item: l.Item, Check: l.Check}] = l
			}
		case bot.OnRun, bot.OnDefect, bot.OnReminder, bot.OnService, bot.OnWords:
		}
	}
	list := make([]*Answers, 0, len(found))
	for _, a := range found {
		list = append(list, a)
	}
	slices.SortFunc(list, func(a, b *Answers) int { return a.Shift.Compare(b.Shift) })
	return list
}

// State is what a check came to in the shift; check.Open if nobody spoke of it
// or what was said was taken back.
func (a *Answers) State(ref check.Ref) check.State {
	l, ok := a.Results[ref]
	if !ok || l.State == "open" {
		return check.Open
	}
	return check.State(l.State)
}

// Due lists the checks that an item owes in every shift that begins on a day, by
// its sheet.
func (b *Book) Due(id dept.ItemID, day dept.Date) []check.Ref {
	it, _ := b.Setup.Dept.Item(id)
	sheet := b.Setup.Book[it.Sheet]
	if sheet == nil {
		return nil
	}
	var refs []check.Ref
	for _, c := range sheet.Checks {
		if c.When.Due(day) {
			refs = append(refs, check.Ref{Item: id, Check: c.ID})
		}
	}
	return refs
}

// Ran reports whether a result is a run that counts as the warm-up of its shift:
// one that lasted the minimum, also one that lasted too long.
func (b *Book) Ran(l Line) bool {
	c, ok := b.Setup.Book.Of(b.Setup.Dept, check.Ref{Item: l.Item, Check: l.Check})
	if !ok || c.Answer.Kind != check.Run {
		return false
	}
	if l.State == string(check.OK) {
		return true
	}
	if l.State != string(check.Fail) || l.Value.Number == nil {
		return false
	}
	_, side := c.Answer.Within(*l.Value.Number)
	return side == "over" && !c.Fault.Names(l.Note)
}

// Settled reports whether a check of the shift needs no more answer: it passed
// or is at fault; a run, only if it counts.
func (b *Book) Settled(a *Answers, ref check.Ref) bool {
	c, ok := b.Setup.Book.Of(b.Setup.Dept, ref)
	if ok && c.Answer.Kind == check.Run {
		l, said := a.Results[ref]
		return said && b.Ran(l)
	}
	s := a.State(ref)
	return s == check.OK || s == check.Fail
}
