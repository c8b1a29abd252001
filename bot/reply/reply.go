// Package reply understands what people write: which checks a message answers
// and how, that an engine was started or shut down, that a crew is away on a
// call, that something is asked or taken back. It decides nothing and remembers
// nothing: what the message means is all it says.
package reply

import (
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// Context is what a message is read against: the checks that were asked, in
// order, and what has been said so far.
type Context struct {
	Items []Item
	Now   time.Time // when it was said, in the department's zone
	Asked []Doubt   // what the bot last asked back in this thread, if unanswered
	Held  dept.ItemID
	// Company is what the company answers to, its id among it; said of itself it is no
	// subject: "E7 all good".
	Company []string
	// Settled are the checks that already have a result, for "the rest".
	Settled map[check.Ref]check.State
	// Running are engines said to be started, for "off".
	Running map[dept.ItemID]time.Time
}

// Item is one item as it was asked about.
type Item struct {
	ID     dept.ItemID
	Names  []string // its own, its sheet's, its number
	Place  string   // where it rides; it tells alike items apart
	Checks []Asked
}

// Asked is one check as it was asked: N is its number in the prompt, 0 if it was
// not numbered. Check is shared with the sheet and not changed.
type Asked struct {
	N     int
	Check *check.Check
}

// Intent is what a message is, as a whole.
type Intent string

// The intents. A message with any result is an Answer, whatever else it says.
const (
	Answer   Intent = "answer"
	Busy     Intent = "busy"
	Question Intent = "question"
	Undo     Intent = "undo"
	Report   Intent = "report"
	Chatter  Intent = "chatter"
)

// Reading is what a message means.
type Reading struct {
	Intent  Intent
	Results []Result // in the order of the prompt, at most one a check
	Starts  []Mark   // engines said to be started just now
	Stops   []Mark   // engines said to be shut down just now
	Busy    bool     // going on a call, will do it later
	Back    bool     // back from it
	Undo    bool
	Used    []dept.ItemID // items said to have been used on a call
	About   []check.Ref   // what a question is about; Check "" for an item as a whole
	Reports []Complaint   // faults that none of the asked checks covers
	Held    dept.ItemID   // the item that holds for the next message
	// NotUnderstood are the stretches of the message that no rule explained.
	NotUnderstood []string
	// Ask are the checks to ask back about: unsure ones, and those that the words
	// reach but that still want a reading.
	Ask []check.Ref
}

// Mark is an engine started or shut down; At is zero where only "now" is meant.
// Item is "" where the words do not say which.
type Mark struct {
	Item dept.ItemID
	At   time.Time
}

// Position is what was said of the condition that a low reading hangs on.
type Position string

// Met: the tool was nearly closed. Unmet: it was open.
const (
	Unknown Position = ""
	Met     Position = "met"
	Unmet   Position = "unmet"
)

// Result is one check's result.
type Result struct {
	Ref      check.Ref   `json:"ref"`
	State    check.State `json:"state"` // OK, Fail or Unsure
	Value    check.Value `json:"value,omitzero"`
	Damage   string      `json:"damage,omitempty"`   // name of a damage of the check's sheet, if one was named
	Fixed    bool        `json:"fixed,omitempty"`    // said to be fixed on the spot
	Poured   bool        `json:"poured,omitempty"`   // fluid or fuel was filled in
	Blanket  bool        `json:"blanket,omitempty"`  // only a blanket answer reached it
	Position Position    `json:"position,omitempty"` // for checks with a proviso
	Start    time.Time   `json:"start,omitzero"`
	End      time.Time   `json:"end,omitzero"`    // of a run given by clock times
	Ran      bool        `json:"ran,omitempty"`   // a run that took place; package bot says so
	Words    string      `json:"words,omitempty"` // the stretch of the message that says so
	Doubt    Doubt       `json:"doubt,omitzero"`  // for Unsure
}

// Doubt is a question that the bot has to ask back.
type Doubt struct {
	Why     Why         `json:"why"`
	Refs    []check.Ref `json:"refs,omitempty"`    // the checks it is about; the choice, where Why is WhichItem
	Choices []string    `json:"choices,omitempty"` // what to offer, in words
	// State, Value and Damage are what was said, where only the item or the check
	// is in doubt: the answer to the question completes them.
	State  check.State `json:"state,omitempty"`
	Value  check.Value `json:"value,omitzero"`
	Damage string      `json:"damage,omitempty"`
}

// Why says why something is unsure.
type Why string

// The doubts.
const (
	WhichItem  Why = "which_item"  // the words fit several items
	WhichCheck Why = "which_check" // something is wrong with the item; what?
	NoReading  Why = "no_reading"  // named, but the figure is missing
	Straddles  Why = "straddles"   // the words straddle a limit
	NotChecked Why = "not_checked" // it was not, or could not be, checked
	Hedged     Why = "hedged"      // "I guess"
	Conflict   Why = "conflict"    // the words speak both ways
	Leftover   Why = "leftover"    // words that were not understood could bear on it
	ToolOpen   Why = "tool_open"   // read with the tool open
	Asking     Why = "asking"      // it was asked, not said
)

// Complaint is a fault on something that was not asked: an item of the company,
// or "" where no item is named.
type Complaint struct {
	Item  dept.ItemID
	Words string
}

// Refs0 is the first check the doubt is about, as text; "" if it has none.
func (d Doubt) Refs0() string {
	if len(d.Refs) == 0 {
		return ""
	}
	return d.Refs[0].String()
}
