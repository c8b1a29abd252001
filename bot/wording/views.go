// Package wording has every sentence that crosslay says. The rules of tone: short,
// plain trade words, no praise, no jokes; lines of at most 60 characters; what is
// wrong or missing gets words, what is fine gets none; colour and symbols never
// carry meaning alone. Where people can get hurt, the caution stands where it
// belongs, once.
package wording

import (
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// Thing is an item as it is spoken of: "power unit PU-07".
type Thing struct {
	Name   string // the sheet's name
	Number string
	Place  string
}

// PromptView is what a company's prompt shows.
type PromptView struct {
	Company string
	Platoon dept.Platoon
	Date    dept.Date
	Items   []PromptItem
	Out     []OutLine // items left out, with the reason
	PassOn  []Open    // open defects
	Missed  []string  // "saw S-01: chain", left unanswered by the last shift
	Notes   []string  // what else the crew has to do: old fuel
	NoRun   []string  // engines that had no run in the last shift
	Done    bool      // everything is answered
}

// OutLine is an item out of service, or gone to the shop.
type OutLine struct {
	Thing Thing
	Why   string
	Spare string // number of the spare that stands in, ""
}

// Open is an open defect as it is passed on.
type Open struct {
	Thing Thing
	Label string // of the check
	Words string
	State string // "reported", "seen", "parts until Fri Nov 27", "at the shop", "repaired: look at it"
}

// PromptItem is one item with its checks.
type PromptItem struct {
	Thing    Thing
	StandsIn string // number of the item that this spare stands in for
	Caution  string
	Checks   []PromptCheck
}

// PromptCheck is one numbered line.
type PromptCheck struct {
	N       int
	Check   *check.Check
	State   check.State
	Value   check.Value
	Fixed   bool
	Damage  string // named damage of a fault
	Confirm bool   // a repair waits for this check
}

// Told is one result said back.
type Told struct {
	N      int
	Thing  Thing
	Check  *check.Check
	State  check.State
	Value  check.Value
	Damage string
	Fixed  bool
	Act    check.Act // for a fault
	Words  string
}

// Step is something that happened to a defect, told to somebody.
type Step struct {
	Thing   Thing
	Label   string
	Who     string
	Until   time.Time
	Spare   string
	Company string
	Words   string // what was said
	Again   bool   // the check is open again
}
