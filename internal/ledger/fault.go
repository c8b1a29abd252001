package ledger

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/wording"
)

// PutRight reports whether a reading is in limits because the crew made it so:
// it was found wrong first. What was found is in the words at most.
func (l Line) PutRight() bool {
	return l.Kind == bot.OnReading && l.State == string(check.OK) && l.Note == "fixed by the crew"
}

// Label is what a check is called; its id where today's sheet has it no more.
func (b *Book) Label(ref check.Ref) string {
	if b.Setup.Dept == nil {
		return string(ref.Check)
	}
	if c, ok := b.Setup.Book.Of(b.Setup.Dept, ref); ok {
		return c.Label
	}
	return string(ref.Check)
}

// Named is a defect in short, by its check and what was found: "blade chip". It
// is the check alone with "fault" where the records do not tell more.
func (b *Book) Named(l *Life) string {
	return named(b.Label(l.Ref), cmp.Or(b.how(l), "fault"))
}

// named puts the name of a check before what was found, unless it is in there.
func named(label, how string) string {
	if strings.Contains(strings.ToLower(how), strings.ToLower(label)) {
		return how
	}
	return strings.TrimSpace(label + " " + how)
}

// how is what was found when the defect was last reported: by the reading that
// reported it, or else by the words.
func (b *Book) how(l *Life) string {
	for _, s := range slices.Backward(l.Steps) {
		if s.State != "reported" && s.State != "reopened" {
			continue
		}
		return cmp.Or(b.found(l.Ref, s.Message), b.heard(l.Ref, s.Words))
	}
	return ""
}

// found is what a message's reading of a check came to, "" if it is not at hand.
func (b *Book) found(ref check.Ref, message string) string {
	for _, r := range b.Lines {
		if message == "" || r.Kind != bot.OnReading || r.Message != message || r.Item != ref.Item || r.Check != ref.Check || r.State != string(check.Fail) {
			continue
		}
		if c, ok := b.Setup.Book.Of(b.Setup.Dept, ref); ok {
			return cmp.Or(r.Note, wording.Figure(c, r.Value))
		}
		return r.Note
	}
	return ""
}

// heard finds in words a damage that the check names, or the side on which a
// level is wrong.
func (b *Book) heard(ref check.Ref, words string) string {
	said := " " + strings.Join(strings.Fields(strings.ToLower(words)), " ") + " "
	var known []string
	if c, ok := b.Setup.Book.Of(b.Setup.Dept, ref); ok {
		for _, d := range c.Fault.Damages {
			known = append(known, d.Name)
		}
	}
	for _, how := range append(known, "low", "high", "empty") {
		if strings.Contains(said, " "+strings.ToLower(how)+" ") {
			return how
		}
	}
	return ""
}

// Day is the span of the shifts that begin on a day.
func (b *Book) Day(d dept.Date) (from, to time.Time) {
	shifts := b.Setup.Rota.On(d)
	return shifts[0].Start, shifts[len(shifts)-1].End
}

// FaultWithin reports whether at some instant from from, and before to, the
// defect was open and its item in service: an item that is out is shown as that.
func (b *Book) FaultWithin(l *Life, from, to time.Time) bool {
	begins := []time.Time{from}
	for _, s := range l.Steps {
		begins = append(begins, s.At)
	}
	for _, o := range b.Outages {
		if o.Item == l.Ref.Item {
			begins = append(begins, o.To)
		}
	}
	return slices.ContainsFunc(begins, func(t time.Time) bool {
		if t.Before(from) || !t.Before(to) || !l.OpenAt(t) {
			return false
		}
		_, out := b.OutAt(l.Ref.Item, t)
		return !out
	})
}

// Faults are the defects of an item that FaultWithin reports, oldest first.
func (b *Book) Faults(id dept.ItemID, from, to time.Time) []*Life {
	var list []*Life
	for _, l := range b.Lives {
		if l.Ref.Item == id && b.FaultWithin(l, from, to) {
			list = append(list, l)
		}
	}
	return list
}

// Since is when the defect that is open at t was last opened; zero if it is not
// open then.
func (l *Life) Since(t time.Time) time.Time {
	var since time.Time
	for _, s := range l.Steps {
		switch {
		case s.At.After(t):
			return since
		case ended[s.State]:
			since = time.Time{}
		case since.IsZero() && (s.State == "reported" || s.State == "reopened"):
			since = s.At
		}
	}
	return since
}

// nameReasons puts before each reason of an outage the check that it is about:
// "missing" alone reads as if the item were lost.
func (b *Book) nameReasons() {
	for i := range b.Outages {
		o := &b.Outages[i]
		switch l := b.causeOf(*o); {
		case l == nil:
		case o.Why == "at the shop":
			o.Why += ", " + b.Label(l.Ref)
		default:
			o.Why = named(b.Label(l.Ref), o.Why)
		}
	}
}

// causeOf is the defect that the message which took the item out spoke of; of
// several, one whose check knows the damage. It is nil if there is none.
func (b *Book) causeOf(o Outage) *Life {
	var cause *Life
	for _, l := range b.Lives {
		spoken := slices.ContainsFunc(l.Steps, func(s Line) bool {
			return s.Message == o.message && s.At.Equal(o.From)
		})
		if l.Ref.Item != o.Item || l.Ref.Check == "" || !spoken {
			continue
		}
		if c, ok := b.Setup.Book.Of(b.Setup.Dept, l.Ref); ok && c.Fault.Names(o.Why) {
			return l
		}
		if cause == nil {
			cause = l
		}
	}
	return cause
}
