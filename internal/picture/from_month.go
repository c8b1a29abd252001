package picture

import (
	"slices"
	"strings"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/ledger"
)

// MonthOf is the month that begins on first, as of now or of its end. The book
// needs the month's prompts and readings, and all that was ever recorded of
// outages, spares and defects.
func MonthOf(book *ledger.Book, first dept.Date, now time.Time) Month {
	d := book.Setup.Dept
	begin, end := midnight(first, d.Zone), midnight(first.AddDays(days(first)), d.Zone)
	if now.After(end) {
		now = end.Add(-time.Minute)
	}
	m := Month{Department: d.Name, First: first, AsOf: now.In(d.Zone)}
	rows := map[dept.CompanyID]*MonthRow{}
	for _, c := range d.Companies {
		rows[c.ID] = &MonthRow{Name: c.Name}
	}
	recorded := map[dept.Date]bool{}
	for _, a := range book.Answers() {
		if row := rows[a.Shift.Company]; row != nil && inMonth(a.Shift.Date, first) && !a.Asked.IsZero() {
			m.add(book, row, a)
			recorded[a.Shift.Date] = true
		}
	}
	m.Recorded = len(recorded)
	m.defects(book, rows, begin, now)
	m.open(book, rows, now)
	m.outages(book, rows, begin, now)
	for _, c := range d.Companies {
		m.Companies = append(m.Companies, *rows[c.ID])
	}
	return m
}

func midnight(d dept.Date, zone *time.Location) time.Time { return dept.Clock(0).On(d, zone) }

func inMonth(d, first dept.Date) bool { return d.Year == first.Year && d.Month == first.Month }

// add counts a shift into its company's day.
func (m *Month) add(book *ledger.Book, row *MonthRow, a *ledger.Answers) {
	square := &row.Days[a.Shift.Date.Day-1]
	for _, id := range book.CarriedAt(a.Shift.Company, a.Asked) {
		o := book.Owed(a, id)
		square.Due += o.Due
		square.Settled += o.Settled
		square.Faults += o.Faults
		c, engine := book.RunCheck(id)
		if !engine || o.Out || !c.When.Due(a.Shift.Date) {
			continue
		}
		m.Runs++
		if book.Settled(a, check.Ref{Item: id, Check: c.ID}) {
			m.Ran++
		}
	}
}

func (m *Month) defects(book *ledger.Book, rows map[dept.CompanyID]*MonthRow, begin, now time.Time) {
	for _, life := range book.Lives {
		for _, s := range life.Steps {
			if s.At.Before(begin) || s.At.After(now) {
				continue
			}
			switch s.State {
			case "reported", "reopened":
				m.Reported++
				date := book.Setup.Rota.At(s.At).Date
				if row := rows[life.Company]; row != nil && inMonth(date, m.First) {
					row.Days[date.Day-1].Defects++
				}
			case "repaired":
				m.Repaired++
			}
		}
	}
}

// open marks the days on which defects stood open, and lists those that still do.
func (m *Month) open(book *ledger.Book, rows map[dept.CompanyID]*MonthRow, now time.Time) {
	for day := range days(m.First) {
		from, to := book.Day(m.First.AddDays(day))
		if !from.Before(now) {
			break
		}
		m.Begun++
		for _, life := range book.Lives {
			if row := rows[life.Company]; row != nil && book.FaultWithin(life, from, earlier(to, now)) {
				row.Days[day].Open++
			}
		}
	}
	for _, life := range book.Lives {
		if book.FaultWithin(life, now, now.Add(1)) {
			m.Faults = append(m.Faults, OpenFault{where(book, life), book.Named(life) + ", open since " + life.Since(now).In(book.Setup.Dept.Zone).Format("Jan 2")})
		}
	}
}

// where is a defect's item and the company that has it.
func where(book *ledger.Book, life *ledger.Life) string {
	it, _ := book.Setup.Dept.Item(life.Ref.Item)
	c, _ := book.Setup.Dept.Company(life.Company)
	return strings.Trim(it.Number+" · "+c.Name, " ·")
}

func (m *Month) outages(book *ledger.Book, rows map[dept.CompanyID]*MonthRow, begin, now time.Time) {
	d := book.Setup.Dept
	for _, o := range book.Outages {
		if !o.Meets(begin, now) {
			continue
		}
		it, ok := d.Item(o.Item)
		if !ok {
			continue
		}
		c, carried := d.Company(it.Company)
		out := OutItem{What: it.Number + " · spare", Why: o.Why, Days: o.Within(begin, now).Hours() / 24, Now: o.Holds(now)}
		if carried {
			out.What = it.Number + " · " + c.Name
			row := rows[c.ID]
			for day := range days(m.First) {
				from, to := book.Day(m.First.AddDays(day))
				if from.Before(now) && o.Meets(from, earlier(to, now)) {
					row.Days[day].Out = true
				}
			}
		}
		m.Outages = append(m.Outages, out)
	}
	slices.SortStableFunc(m.Outages, func(a, b OutItem) int { return int(1000 * (b.Days - a.Days)) })
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}
