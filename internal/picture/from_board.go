package picture

import (
	"cmp"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/rota"
	"crosslay/bot/wording"
	"crosslay/internal/ledger"
)

// BoardOf is the board of a shift as of now, or of its end if it is over. The book
// needs the shift's prompts and readings, and all that was ever recorded of
// outages, spares and defects.
func BoardOf(book *ledger.Book, shift rota.Shift, now time.Time) Board {
	if now.After(shift.End) {
		now = shift.End.Add(-time.Second)
	}
	d := book.Setup.Dept
	b := Board{Department: d.Name, Date: shift.Date, Platoon: shift.Platoon, AsOf: now.In(d.Zone)}
	said := map[dept.CompanyID]*ledger.Answers{}
	for _, a := range book.Answers() {
		if a.Shift.Date == shift.Date && a.Shift.Platoon == shift.Platoon {
			said[a.Shift.Company] = a
		}
	}
	for _, c := range d.Companies {
		b.Companies = append(b.Companies, companyOf(book, c, said[c.ID], shift.Date, now))
	}
	return b
}

func companyOf(book *ledger.Book, c dept.Company, said *ledger.Answers, date dept.Date, now time.Time) Company {
	company := Company{Name: c.Name}
	for _, id := range book.CarriedAt(c.ID, now) {
		l := look{book: book, said: said, now: now, id: id}
		if said != nil {
			l.judge(date)
		}
		company.Items = append(company.Items, l.item())
		company.Asked += l.asked
		company.Answered += l.asked - l.open - l.unsure
		company.Runs += l.runs
		company.Ran += l.runs - l.norun
	}
	return company
}

// look is what is seen of one item.
type look struct {
	book *ledger.Book
	said *ledger.Answers // nil: the company was not asked
	now  time.Time
	id   dept.ItemID

	asked, open, unsure int // without runs
	runs, norun         int
	doubt               bool // something is unsure, be it a run
	fault               string
	repaired            bool // a fault of this shift
}

// judge counts the checks of the shift. An item out of service owes none.
func (l *look) judge(date dept.Date) {
	if _, out := l.book.OutAt(l.id, l.now); out {
		return
	}
	for _, ref := range l.refs(date) {
		c, _ := l.book.Setup.Book.Of(l.book.Setup.Dept, ref)
		state := l.said.State(ref)
		l.doubt = l.doubt || state == check.Unsure
		switch {
		case c.Answer.Kind == check.Run:
			l.run(c, ref)
			continue
		case state == check.Fail:
			l.faulty(c, ref)
		case state == check.Unsure:
			l.unsure++
		case state == check.Open:
			l.open++
		}
		l.asked++
	}
}

// run counts a warm-up run. One that failed is a fault; one that was too long
// asks nothing of anybody.
func (l *look) run(c *check.Check, ref check.Ref) {
	l.runs++
	if l.book.Settled(l.said, ref) {
		return
	}
	l.norun++
	if line := l.said.Results[ref]; line.State == string(check.Fail) && l.fault == "" {
		l.fault = c.Label + " " + cmp.Or(line.Note, wording.Figure(c, line.Value), "fault")
	}
}

// faulty is a check that was found at fault. Where its defect was repaired since,
// somebody has to look at it again.
func (l *look) faulty(c *check.Check, ref check.Ref) {
	line := l.said.Results[ref]
	for _, life := range l.book.Lives {
		if life.Ref == ref && !life.OpenAt(l.now) && life.Ended().After(line.At) {
			l.repaired = true
			return
		}
	}
	how := cmp.Or(line.Note, wording.Figure(c, line.Value))
	if l.fault == "" {
		l.fault = c.Label + " " + cmp.Or(how, "fault")
	}
}

// refs are the checks that are due, and behind them others that were answered.
func (l *look) refs(date dept.Date) []check.Ref {
	refs := l.book.Due(l.id, date)
	it, _ := l.book.Setup.Dept.Item(l.id)
	if sheet := l.book.Setup.Book[it.Sheet]; sheet != nil {
		for _, c := range sheet.Checks {
			ref := check.Ref{Item: l.id, Check: c.ID}
			if !c.When.Due(date) && l.said.State(ref) != check.Open {
				refs = append(refs, ref)
			}
		}
	}
	return refs
}

// item is the chip: the gravest of what holds.
func (l *look) item() Item {
	it, _ := l.book.Setup.Dept.Item(l.id)
	chip := Item{Number: it.Number}
	if it.Spare {
		chip.Number += " (spare)"
	}
	out, isOut := l.book.OutAt(l.id, l.now)
	defect := l.defect()
	switch {
	case isOut:
		chip.State, chip.Word = Out, out.Why
	case l.fault != "":
		chip.State, chip.Word = Fault, l.fault
	case defect != "":
		chip.State, chip.Word = Fault, defect
	case l.repaired:
		chip.State, chip.Word = Open, "repaired, look"
	case l.doubt:
		chip.State = Unsure
	case l.open > 0 && l.norun > 0:
		chip.State, chip.Word = Open, count(l.open, "open", "open")+", no run"
	case l.norun > 0:
		chip.State, chip.Word = Open, "no run"
	case l.open > 0:
		chip.State, chip.Word = Open, count(l.open, "open", "open")
	case l.asked+l.runs == 0:
		chip.State = None
	default:
		chip.State = OK
	}
	return chip
}

// defect is the item's first open defect in short, "" if it has none.
func (l *look) defect() string {
	for _, life := range l.book.Lives {
		if life.Ref.Item == l.id && life.OpenAt(l.now) {
			return l.book.Named(life)
		}
	}
	return ""
}
