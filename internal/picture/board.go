package picture

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot/dept"
)

// Board is a shift of the department: what each company carries and how it
// stands.
type Board struct {
	Department string
	Date       dept.Date
	Platoon    dept.Platoon
	AsOf       time.Time // in the department's zone
	Companies  []Company
}

// Company is a company on the board. Engine runs are counted apart from the
// other checks, as the bot does when it says who has checked.
type Company struct {
	Name      string
	Asked     int // checks of the shift
	Answered  int // passed or at fault
	Runs, Ran int // warm-up runs asked for, and made
	Items     []Item
}

// Item is a piece of equipment on the board. Word says more than its state:
// "chain dull", "3 open", "HH-90 instead".
type Item struct {
	Number string
	State  State
	Word   string
}

// state is the worst of what the company carries.
func (c Company) state() State {
	for _, s := range gravest {
		for _, it := range c.Items {
			if it.State == s {
				return s
			}
		}
	}
	switch {
	case c.Asked > c.Answered || c.Runs > c.Ran:
		return Open
	case c.Asked+c.Runs == 0:
		return None
	}
	return OK
}

// gravest are the states that make a company's, the gravest first.
var gravest = []State{Out, Fault, Unsure, Open}

// quiet reports whether one word says all of the company: everything is in
// order, or nothing was answered and nothing is wrong.
func (c Company) quiet() bool {
	switch c.state() {
	case OK, None:
		return true
	case Open:
		return c.Answered == 0 && c.Ran == 0
	case Out, Fault, Unsure:
	}
	return false
}

// tallest is the height up to which every company is drawn in full: a phone's
// screen. Beyond it, those that one word describes move together.
const tallest = 2400

// PNG draws the board.
func (b Board) PNG() ([]byte, error) { return b.page().png() }

func (b Board) page() *page {
	if p := b.lay(false); p.height <= tallest {
		return p
	}
	return b.lay(true)
}

func (b Board) lay(gather bool) *page {
	p := newPage()
	y := p.head(head{b.Department, "Board · " + b.when(), "as of " + b.AsOf.Format("Mon Jan 2 15:04")})
	y = p.tallies(y, b.tallies())
	y = p.outLine(y, b.outs())
	if !gather {
		for _, c := range b.Companies {
			y = p.company(y, c)
		}
	} else {
		y = p.groups(y, b.Companies)
	}
	p.height = p.legend(y+6, states) + 14
	return p
}

func (b Board) when() string {
	day := time.Date(b.Date.Year, b.Date.Month, b.Date.Day, 12, 0, 0, 0, time.UTC)
	return day.Format("Mon Jan 2") + " · " + string(b.Platoon) + " shift"
}

// sums are what the board counts.
type sums struct{ asked, checked, out, fault, open, norun int }

func (b Board) sums() sums {
	var n sums
	for _, c := range b.Companies {
		if c.Asked+c.Runs > 0 {
			n.asked++
			if c.Answered >= c.Asked {
				n.checked++
			}
		}
		n.open += max(c.Asked-c.Answered, 0)
		n.norun += max(c.Runs-c.Ran, 0)
		for _, it := range c.Items {
			switch it.State {
			case Out:
				n.out++
			case Fault:
				n.fault++
			case Unsure, Open, OK, None:
			}
		}
	}
	return n
}

func (b Board) tallies() []tally {
	n := b.sums()
	checked := OK
	if n.checked < len(b.Companies) {
		checked = Open
	}
	if n.asked == 0 {
		return []tally{
			{fmt.Sprintf("0/%d", len(b.Companies)), "checked", None}, known(Out, n.out, "out"), known(Fault, n.fault, "with fault"),
			known(Open, 0, "open"), known(Open, 0, "no run"),
		}
	}
	return []tally{
		{fmt.Sprintf("%d/%d", n.checked, len(b.Companies)), "checked", checked},
		{fmt.Sprint(n.out), "out", orOK(Out, n.out)},
		{fmt.Sprint(n.fault), "with fault", orOK(Fault, n.fault)},
		{fmt.Sprint(n.open), "open", orOK(Open, n.open)},
		{fmt.Sprint(n.norun), "no run", orOK(Open, n.norun)},
	}
}

// known is what is on record of a shift that nobody was asked in: that nothing is,
// does not say that all is well.
func known(s State, n int, word string) tally {
	if n == 0 {
		return tally{"–", word, None}
	}
	return tally{fmt.Sprint(n), word, s}
}

// orOK is the state, or OK where there is none of it.
func orOK(s State, n int) State {
	if n == 0 {
		return OK
	}
	return s
}

// Alt says what the board shows.
func (b Board) Alt() string {
	n := b.sums()
	out, fault := b.named(Out), b.named(Fault)
	said := fmt.Sprintf("%d of %d companies have answered all checks", n.checked, len(b.Companies))
	if n.asked == 0 {
		said = "nobody was asked in this shift"
	}
	parts := []string{fmt.Sprintf("Board of %s, %s, as of %s: %s.", b.Department, b.when(), b.AsOf.Format("Mon 15:04"), said)}
	if len(out) > 0 {
		parts = append(parts, "Out of service: "+list(out, 300)+".")
	}
	if len(fault) > 0 {
		parts = append(parts, "With a fault: "+list(fault, 300)+".")
	}
	var open []string
	for _, c := range b.Companies {
		if c.Asked > c.Answered {
			open = append(open, fmt.Sprintf("%s: %d of %d", c.Name, c.Asked-c.Answered, c.Asked))
		}
	}
	if len(open) > 0 {
		parts = append(parts, "Open checks: "+list(open, 240)+".")
	}
	if n.norun > 0 {
		parts = append(parts, count(n.norun, "engine run", "engine runs")+" missing.")
	}
	return clipped(strings.Join(parts, " "))
}

// outs are the items out of service, each with its company and why.
func (b Board) outs() []string {
	var outs []string
	for _, c := range b.Companies {
		for _, it := range c.Items {
			if it.State == Out {
				outs = append(outs, strings.TrimSuffix(it.Number+", "+c.Name+", "+it.Word, ", "))
			}
		}
	}
	return outs
}

// named lists the items in a state, with their company.
func (b Board) named(s State) []string {
	var names []string
	for _, c := range b.Companies {
		for _, it := range c.Items {
			if it.State == s {
				names = append(names, strings.TrimRight(fmt.Sprintf("%s (%s, %s", it.Number, c.Name, it.Word), ", ")+")")
			}
		}
	}
	return names
}

// altMost is how long a text for those who cannot see may be: what chat services
// take.
const altMost = 1000

func clipped(s string) string {
	r := []rune(s)
	if len(r) <= altMost {
		return s
	}
	return string(r[:altMost-1]) + "…"
}
