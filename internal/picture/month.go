package picture

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot/dept"
	"crosslay/internal/ledger"
)

// Month is the department's month, company by company and day by day.
type Month struct {
	Department string
	First      dept.Date // of the month
	AsOf       time.Time // in the department's zone; the month's end if it is over
	Companies  []MonthRow
	Runs, Ran  int // warm-up runs owed and made
	Recorded   int // days of which there is any record
	Begun      int // days up to AsOf
	Faults     []OpenFault
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
	Open         int  // defects that stood open while their item was in service
	Defects      int  // reported
}

// OutItem is an item that was out of service in the month.
type OutItem struct {
	What string  // "CT-02 · Truck 1"
	Why  string  // "crack"
	Days float64 // how long
	Now  bool    // it still is
}

// OpenFault is a defect that stands open at the end, its item in service.
type OpenFault struct {
	What string // "RS-03 · Ladder 3"
	Says string // "blade chip, open since Feb 28"
}

// state is what a square shows.
func (s Square) state() DayState {
	switch {
	case s.Due == 0:
		return NotAsked
	case s.Settled >= s.Due && s.Faults+s.Open > 0:
		return Faulty
	case s.Settled >= s.Due && s.Out:
		return Short
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
	if words := m.gap(); words != "" {
		p.say(margin, y+26, label, amber, ground, words)
		y += 56
	}
	y = p.tallies(y, m.tallies())
	y = p.section(y, "Checks and runs, day by day", bright)
	y = p.grid(y, m)
	y = p.squareLegend(y + 12)
	y = p.faults(y+4, m)
	p.height = p.outages(y+4, m.Outages) + 20
	return p
}

// gap says of how many days there is no record, "" if of none: the shares are of
// the others alone.
func (m Month) gap() string {
	if m.Recorded >= m.Begun {
		return ""
	}
	return fmt.Sprintf("%d of %s on record", m.Recorded, count(m.Begun, "day", "days"))
}

func (m Month) sums() (due, settled int, out time.Duration) {
	for _, c := range m.Companies {
		d, s := c.sum()
		due, settled = due+d, settled+s
	}
	for _, o := range m.Outages {
		out += o.long()
	}
	return due, settled, out
}

func (m Month) tallies() []tally {
	due, settled, out := m.sums()
	return []tally{
		{ratio(settled, due), "checks + runs", less(settled, due)},
		{ratio(m.Ran, m.Runs), "runs made", less(m.Ran, m.Runs)},
		{fmt.Sprint(len(m.Faults)), plural(len(m.Faults), "fault open", "faults open"), orOK(Fault, len(m.Faults))},
		outTally(out, "item days out"),
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
	parts := []string{m.inShort() + "."}
	say := func(what string, all []string) {
		if len(all) > 0 {
			parts = append(parts, what+": "+list(all, 300)+".")
		}
	}
	var faults, undone, outs []string
	for _, f := range m.Faults {
		faults = append(faults, f.What+" ("+f.Says+")")
	}
	for _, c := range m.Companies {
		if due, settled := c.sum(); settled < due {
			undone = append(undone, fmt.Sprintf("%s %s", c.Name, ratio(settled, due)))
		}
	}
	for _, o := range m.Outages {
		outs = append(outs, o.What+" ("+o.says()+")")
	}
	say("Faults open", faults)
	say("Not all done", undone)
	say("Out of service", outs)
	return clipped(strings.Join(parts, " "))
}

// inShort is the month in one sentence.
func (m Month) inShort() string {
	due, settled, out := m.sums()
	what := fmt.Sprintf("%s %d of %s, as of %s: ", m.First.Month, m.First.Year, m.Department, m.AsOf.Format("Jan 2 15:04"))
	if due == 0 {
		what += "no checks are on record"
	} else {
		what += ratio(settled, due) + " of checks and runs done"
	}
	if gap := m.gap(); gap != "" {
		what += " (" + gap + ")"
	}
	if m.Runs > 0 {
		what += ", " + ratio(m.Ran, m.Runs) + " of warm-up runs made"
	}
	what += fmt.Sprintf(", %s reported and %d repaired", count(m.Reported, "defect", "defects"), m.Repaired)
	if len(m.Outages) > 0 {
		what += ", items out of service for " + ledger.Days(out) + " in all"
	}
	return what
}

func (o OutItem) long() time.Duration { return time.Duration(o.Days * 24 * float64(time.Hour)) }

// says is why, how long, and whether it is over.
func (o OutItem) says() string {
	long := ledger.Days(o.long())
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
