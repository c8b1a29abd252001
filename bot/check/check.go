// Package check knows check sheets: which questions an item is asked, what kind
// of answer each wants, which answers are in limits, and who acts when one is
// not. It judges readings; it does not read text (reply does) and remembers
// nothing (bot does).
package check

import (
	"time"

	"crosslay/bot/dept"
)

// ID names a check within its sheet: "fuel".
type ID string

// Ref names a check of an item. Its text form, item.check, is what records and
// `crosslay read` print.
type Ref struct {
	Item  dept.ItemID `json:"item"`
	Check ID          `json:"check"`
}

func (r Ref) String() string { return string(r.Item) + "." + string(r.Check) }

// Sheet is the check sheet of a kind of item.
type Sheet struct {
	ID      dept.SheetID
	Kind    dept.KindID
	Name    string   // "power unit"
	Names   []string // what crews call it: "pump", "hpu"
	Can     []string // what a company can do with it: "cut", "spread"
	Checks  []Check
	Service Service
	Caution string // said once, when the item is first asked about in a shift
}

// Service is when an item of the kind falls due at the shop; zero means never.
type Service struct {
	Months int     // by calendar
	Hours  float64 // by engine hours
}

// Check finds a check of the sheet.
func (s *Sheet) Check(id ID) (*Check, bool) {
	for i := range s.Checks {
		if s.Checks[i].ID == id {
			return &s.Checks[i], true
		}
	}
	return nil, false
}

// Check is one question of a sheet.
type Check struct {
	ID       ID
	Label    string   // short, for the numbered line: "hydraulic fluid"
	Question string   // in full
	Method   string   // how to do it right, one line
	Names    []string // what it answers to, besides its label: "hyd oil", "fluid"
	Answer   Answer
	When     When
	Fault    Fault
	Proviso  string // question that a low reading hangs on: "was the tool nearly closed?"; "" for none
	Caution  string
	Use      Use // what computing does with the reading
	Turnover int // of a fuel level: days after which fuel that was not renewed is named; 0 for never
}

// Use connects a check with what the bot computes from it.
type Use string

// The uses a sheet may name.
const (
	UseNone  Use = ""
	UseFuel  Use = "fuel"  // a level: minutes left, top-off ladder
	UseFluid Use = "fluid" // hydraulic fluid: position of the tool matters
	UseRun   Use = "run"   // a warm-up run: timed, adds engine hours
	// UseConnection is a hose's connection: one that will not go on is explained by
	// trapped pressure.
	UseConnection Use = "connection"
)

// AnswerKind is the kind of answer that a check wants.
type AnswerKind string

// Every kind of answer. Condition is passed by "good"; YesNo by one of yes and
// no; Level is a fraction of full, Gauge low/ok/over.
const (
	Condition AnswerKind = "condition"
	YesNo     AnswerKind = "yes_no"
	Level     AnswerKind = "level"
	Gauge     AnswerKind = "gauge"
	Number    AnswerKind = "number"
	Run       AnswerKind = "run"
	Choice    AnswerKind = "choice"
	DateAhead AnswerKind = "date"
	Text      AnswerKind = "text"
	Photo     AnswerKind = "photo"
)

// WantsFigure reports whether a blanket answer cannot answer the kind: it wants
// a reading.
func (k AnswerKind) WantsFigure() bool {
	switch k {
	case Condition, YesNo, Gauge:
		return false
	case Level, Number, Run, Choice, DateAhead, Text, Photo:
		return true
	}
	return true
}

// Answer is the kind of answer with its limits.
type Answer struct {
	Kind    AnswerKind
	Good    string   // for YesNo: "yes" or "no", whichever is good
	Unit    Unit     // for Number; Run is in minutes, Level in fractions of full
	Min     *float64 // in Unit; for Level the floor; for Run the minimum in minutes
	Max     *float64 // for Run the end of the range in minutes
	Step    float64  // resolution of the gauge, in Unit; 0 where not given
	Choices []Option // for Choice
}

// Option is one of a list, with the names it answers to.
type Option struct {
	Name  string
	Names []string
	Good  bool
}

// When says when a check is asked.
type When struct {
	Every    Every
	Weekdays []time.Weekday // for OnWeekday
	Days     []int          // for OnMonthDay, 1 to 31; past the end of a month means its last day
}

// Every is the rhythm of a check.
type Every string

// The rhythms a sheet may give.
const (
	EachShift  Every = "shift"
	OnWeekday  Every = "weekday"
	OnMonthDay Every = "day"
	AfterUse   Every = "use"
)

// Due reports whether the check is asked in the shift that begins on date d.
// After-use checks are never due by date.
func (w When) Due(d dept.Date) bool {
	switch w.Every {
	case EachShift, "":
		return true
	case OnWeekday:
		for _, day := range w.Weekdays {
			if day == d.Weekday() {
				return true
			}
		}
	case OnMonthDay:
		last := dept.Date{Year: d.Year, Month: d.Month + 1, Day: 1}.AddDays(-1).Day
		for _, day := range w.Days {
			if min(day, last) == d.Day {
				return true
			}
		}
	case AfterUse:
	}
	return false
}

// Act is who acts on a fault, in rising order of gravity.
type Act string

// Crew fixes it on the spot; Shop is told; Out takes the item out of service and
// tells the shop.
const (
	Crew Act = "crew"
	Shop Act = "shop"
	Out  Act = "out_of_service"
)

// Worse reports whether a is graver than b.
func (a Act) Worse(b Act) bool { return a.rank() > b.rank() }

func (a Act) rank() int {
	switch a {
	case Crew:
		return 1
	case Shop:
		return 2
	case Out:
		return 3
	}
	return 0
}

// Fault says what a fault of the check means.
type Fault struct {
	Default Act
	Damages []Damage
	Repeat  Repeat
}

// Damage is a named damage with an act of its own: a nick goes to the shop, a
// cut takes the hose out of service.
type Damage struct {
	Name  string   // "cut"
	Names []string // "cuts", "sliced", "gashed"
	Act   Act
}

// Repeat sends a fault that the crew may fix to the shop when it comes back:
// Times within Days. Zero Times means never.
type Repeat struct {
	Times int
	Days  int
}

// ActFor is the act for a named damage, or for "" the check's own default.
func (f Fault) ActFor(damage string) Act {
	for _, d := range f.Damages {
		if d.Name == damage {
			return d.Act
		}
	}
	return f.Default
}

// Names reports whether the check names a damage of its own by that name.
func (f Fault) Names(damage string) bool {
	for _, d := range f.Damages {
		if d.Name == damage {
			return true
		}
	}
	return false
}

// Book is all sheets of a department by id.
type Book map[dept.SheetID]*Sheet

// Of is the check that ref names, with its sheet.
func (b Book) Of(d *dept.Department, ref Ref) (*Check, bool) {
	item, ok := d.Item(ref.Item)
	if !ok {
		return nil, false
	}
	sheet, ok := b[item.Sheet]
	if !ok {
		return nil, false
	}
	return sheet.Check(ref.Check)
}
