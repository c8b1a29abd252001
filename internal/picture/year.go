package picture

import (
	"fmt"
	"strings"
	"time"

	"crosslay/bot/dept"
	"crosslay/internal/ledger"
)

// Year is twelve months of an item.
type Year struct {
	Department string
	Number     string
	What       string // "power unit"
	Company    string // "" for a spare
	First      dept.Date
	Last       dept.Date // the last day that is known of
	Days       map[dept.Date]Day
	Engine     bool          // its days are runs; otherwise checks
	Min        float64       // minutes of a run that counts
	Hours      float64       // of its runs in the year
	Shifts     int           // that asked for it
	Good       int           // of them, those with a run that counts, or with every check answered
	OutNow     string        // since when it is out of service, and why; "" if it is not
	Out        time.Duration // how long it was out of service
	Faults     []string      // what is open while it is in service: "blade chip open since Feb 28"
	Levels     Levels
	Defects    []Defect // newest first
}

// Day is what one day of an item came to.
type Day struct {
	State   DayState
	Minutes float64 // of the longest run
	Defect  bool    // one was reported
	Fault   bool    // one stood open while the item was in service
	Out     bool    // it was out of service at some time
}

// DayState is the worst of a day's shifts.
type DayState string

// The states of a day. Faulty is that all that was asked was answered, and a check
// is at fault or a defect open; Short is that all was in order, and an item out of
// service at some time; Part is a run that was too short, or checks of which only some
// were answered.
const (
	NotAsked DayState = ""
	Done     DayState = "done"
	Faulty   DayState = "fault"
	Short    DayState = "short"
	Part     DayState = "part"
	Missed   DayState = "missed"
	Away     DayState = "out of service"
)

// Levels are the readings of one check over the year, with its limits; none, if
// the item has no figures.
type Levels struct {
	Label    string
	Points   []Level
	Low, Top float64 // ends of the scale
	Marks    []ScaleMark
}

// ScaleMark is a figure that is written beside a chart; a Limit has a line.
type ScaleMark struct {
	At    float64
	Words string
	Limit bool
}

// Level is one reading.
type Level struct {
	At    time.Time
	Is    float64
	Bad   bool
	Fixed bool // in limits since the crew put it right
}

// Defect is a line of the item's defects: what it was, and how it went.
type Defect struct {
	State State // Fault while it is open, OK once it is repaired
	What  string
	Went  string
}

// PNG draws the year.
func (y Year) PNG() ([]byte, error) { return y.page().png() }

func (y Year) page() *page {
	p := newPage()
	at := p.head(head{y.Department, strings.TrimSpace(y.Number + " · " + y.What), y.span()})
	at = p.standing(at, y)
	at = p.tallies(at, y.tallies())
	at = p.calendar(at, y)
	if len(y.Levels.Points) > 0 {
		at = p.levels(at+6, y)
	}
	p.height = p.defects(at+6, y.Defects) + 20
	return p
}

// standing says first of all whether the item can be used.
func (p *page) standing(at float64, y Year) float64 {
	state, words := y.standing()
	if state == Out {
		return p.banner(at, words)
	}
	p.mark(state, margin, at+4, 36, ground)
	for _, line := range p.wrap(words, label, inner-56, 2) {
		p.say(margin+52, at+33, label, state.ink(), ground, line)
		at += 42
	}
	return at + 24
}

// standing is whether the item is in service, by the records, and in what state.
func (y Year) standing() (State, string) {
	switch {
	case y.OutNow != "":
		return Out, "OUT OF SERVICE " + y.OutNow
	case len(y.Faults) > 0:
		return Fault, "IN SERVICE, " + list(y.Faults, 110)
	case y.Shifts == 0:
		return None, "No shift on record; not out of service"
	}
	return OK, "IN SERVICE"
}

func (y Year) span() string {
	span := monthYear(y.First) + " to " + monthYear(y.Last)
	if y.Company == "" {
		return "spare · " + span
	}
	return y.Company + " · " + span
}

func monthYear(d dept.Date) string { return fmt.Sprintf("%s %d", d.Month.String()[:3], d.Year) }

func (y Year) tallies() []tally {
	state := OK
	if y.Good < y.Shifts {
		state = Open
	}
	open := 0
	for _, d := range y.Defects {
		if d.State == Fault {
			open++
		}
	}
	all := []tally{{ratio(y.Good, y.Shifts), "shifts " + y.done(), state}}
	if y.Engine {
		all = append(all, tally{hours(y.Hours), "engine ran", OK})
	}
	return append(all,
		tally{fmt.Sprint(len(y.Defects)), reported(len(y.Defects), open), orOK(Fault, open)},
		outTally(y.Out, "days out"))
}

// reported is the word for defects of which some are still open.
func reported(n, open int) string {
	if open == 0 {
		return plural(n, "defect reported", "defects reported")
	}
	return plural(n, "defect, ", "defects, ") + fmt.Sprintf("%d open", open)
}

// outTally is how many days something was out of service, as ledger.Days has it.
func outTally(out time.Duration, word string) tally {
	if out == 0 {
		return tally{"0", word, OK}
	}
	return tally{fmt.Sprintf("%.1f", out.Hours()/24), word, Out}
}

// hours writes engine hours; a tenth is worth telling up to a hundred.
func hours(h float64) string {
	if h < 99.95 {
		return fmt.Sprintf("%.1f h", h)
	}
	return fmt.Sprintf("%.0f h", h)
}

// done is what a good shift did.
func (y Year) done() string {
	if y.Engine {
		return "with a run"
	}
	return "checked"
}

// ratio writes a share in whole percent, never up to a better one; a dash where
// there is nothing to share.
func ratio(n, of int) string {
	if of == 0 {
		return "–"
	}
	return fmt.Sprintf("%d%%", n*100/of)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// Alt says what the year shows.
func (y Year) Alt() string {
	what := fmt.Sprintf("Year of %s (%s), %s: ", y.Number, y.What, y.span())
	if y.Shifts == 0 {
		what += "no shift is on record"
	} else {
		what += fmt.Sprintf("%d of %d shifts %s", y.Good, y.Shifts, y.done())
	}
	if y.Engine && y.Hours > 0 {
		what += fmt.Sprintf(", %.1f engine hours", y.Hours)
	}
	if y.OutNow != "" {
		what = fmt.Sprintf("%s is out of service %s. %s", y.Number, y.OutNow, what)
	}
	if y.Out > 0 {
		what += "; out of service for " + ledger.Days(y.Out)
	}
	parts := []string{what + "."}
	if len(y.Faults) > 0 {
		parts = append([]string{"In service, " + list(y.Faults, 200) + "."}, parts...)
	}
	if low := y.Levels.bad(); len(y.Levels.Points) > 0 {
		words := fmt.Sprintf("%s: %s, %d of them out of limits", y.Levels.Label, count(len(y.Levels.Points), "reading", "readings"), low)
		if fixed := y.Levels.fixed(); fixed > 0 && low == 0 {
			words = fmt.Sprintf("%s: %s, all in limits, %d after the crew put it right", y.Levels.Label, count(len(y.Levels.Points), "reading", "readings"), fixed)
		} else if fixed > 0 {
			words += fmt.Sprintf(", %d put right by the crew", fixed)
		}
		parts = append(parts, words+".")
	}
	var defects []string
	for _, d := range y.Defects {
		defects = append(defects, d.What+" ("+d.Went+")")
	}
	if len(defects) == 0 {
		return clipped(strings.Join(append(parts, "No defects."), " "))
	}
	return clipped(strings.Join(append(parts, "Defects: "+list(defects, 600)+"."), " "))
}

func (l Levels) fixed() int {
	n := 0
	for _, p := range l.Points {
		if p.Fixed {
			n++
		}
	}
	return n
}

func (l Levels) bad() int {
	n := 0
	for _, p := range l.Points {
		if p.Bad {
			n++
		}
	}
	return n
}
