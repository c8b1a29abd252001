package picture

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot/dept"
)

// Month is the department's month, company by company and day by day.
type Month struct {
	Department string
	First      dept.Date // of the month
	AsOf       time.Time // in the department's zone; the month's end if it is over
	Companies  []MonthRow
	Runs, Ran  int // warm-up runs owed and made
	Reported   int // defects
	Repaired   int
	Outages    []OutItem // the longest first
}

// MonthRow is a company's month; Days[0] is the first.
type MonthRow struct {
	Name string
	Days [31]Square
}

// Square is a company's day.
type Square struct {
	Due, Settled int  // checks
	Faults       int  // of those settled
	Out          bool // an item of its was out of service at some time
	Defects      int  // reported
}

// OutItem is an item that was out of service in the month.
type OutItem struct {
	What string  // "CT-02 · Truck 1"
	Why  string  // "crack"
	Days float64 // how long
	Now  bool    // it still is
}

// state is what a square shows.
func (s Square) state() DayState {
	switch {
	case s.Due == 0:
		return NotAsked
	case s.Settled >= s.Due && s.Faults > 0:
		return Faulty
	case s.Settled >= s.Due:
		return Done
	case s.Settled == 0:
		return Missed
	}
	return Part
}

// sum adds up a row.
func (r MonthRow) sum() (due, settled int) {
	for _, d := range r.Days {
		due += d.Due
		settled += d.Settled
	}
	return due, settled
}

// PNG draws the month.
func (m Month) PNG() ([]byte, error) { return m.page().png() }

func (m Month) page() *page {
	p := newPage()
	y := p.head(head{m.Department, fmt.Sprintf("%s %d", m.First.Month, m.First.Year), "as of " + m.AsOf.Format("Mon Jan 2 15:04")})
	y = p.tallies(y, m.tallies())
	y = p.section(y, "Checks and runs, day by day", bright)
	y = p.grid(y, m)
	y = p.squareLegend(y + 12)
	p.height = p.outages(y+4, m.Outages) + 20
	return p
}

func (m Month) sums() (due, settled, outDays int) {
	for _, c := range m.Companies {
		d, s := c.sum()
		due, settled = due+d, settled+s
	}
	days := 0.0
	for _, o := range m.Outages {
		days += o.Days
	}
	return due, settled, int(days + 0.5)
}

func (m Month) tallies() []tally {
	due, settled, out := m.sums()
	return []tally{
		{ratio(settled, due), "checks + runs", less(settled, due)},
		{ratio(m.Ran, m.Runs), "runs made", less(m.Ran, m.Runs)},
		{fmt.Sprint(m.Reported), plural(m.Reported, "defect", "defects"), orOK(Fault, m.Reported)},
		{fmt.Sprint(out), "item days out", orOK(Out, out)},
	}
}

// less is OK where everything that was owed was done.
func less(n, of int) State {
	if n < of {
		return Open
	}
	return OK
}

// Alt says what the month shows.
func (m Month) Alt() string {
	due, settled, out := m.sums()
	what := fmt.Sprintf("%s %d of %s, as of %s: ", m.First.Month, m.First.Year, m.Department, m.AsOf.Format("Jan 2 15:04"))
	if due == 0 {
		what += "no checks are on record"
	} else {
		what += ratio(settled, due) + " of checks and runs done"
	}
	if m.Runs > 0 {
		what += ", " + ratio(m.Ran, m.Runs) + " of warm-up runs made"
	}
	what += fmt.Sprintf(", %s reported and %d repaired", count(m.Reported, "defect", "defects"), m.Repaired)
	if len(m.Outages) > 0 {
		what += ", items out of service for " + count(out, "day", "days") + " in all"
	}
	parts := []string{what + "."}
	var open []string
	for _, c := range m.Companies {
		if due, settled := c.sum(); settled < due {
			open = append(open, fmt.Sprintf("%s %s", c.Name, ratio(settled, due)))
		}
	}
	if len(open) > 0 {
		parts = append(parts, "Not all done: "+list(open, 300)+".")
	}
	var outs []string
	for _, o := range m.Outages {
		outs = append(outs, o.What+" ("+o.says()+")")
	}
	if len(outs) > 0 {
		parts = append(parts, "Out of service: "+list(outs, 300)+".")
	}
	return clipped(strings.Join(parts, " "))
}

// says is why, how long, and whether it is over.
func (o OutItem) says() string {
	long := fmt.Sprintf("%.0f days", o.Days)
	switch {
	case o.Days < 1.5:
		long = fmt.Sprintf("%.0f hours", o.Days*24)
	case o.Days < 10:
		long = fmt.Sprintf("%.1f days", o.Days)
	}
	if o.Now {
		long = "still out, " + long + " of the month"
	} else {
		long += ", back in service"
	}
	if o.Why != "" {
		return o.Why + ": " + long
	}
	return long
}
