package bot

import (
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
)

// A Standing is where a company stands now: its shift and what it owes. What
// happened is in the records, which only grow; a standing holds just what the
// next decision needs, so that its cost does not grow with the years.
type Standing struct {
	Company     dept.CompanyID   `json:"company"`
	Watch       *Watch           `json:"watch,omitempty"` // the shift that was prompted last
	Prior       *Watch           `json:"prior,omitempty"` // the one before, for late words
	Missed      []check.Ref      `json:"missed,omitempty"`
	NoRun       []dept.ItemID    `json:"no_run,omitempty"` // engines without a run in the shift before
	Obligations []nag.Obligation `json:"obligations,omitempty"`
	Raised      []Escalation     `json:"raised,omitempty"` // to be told to the officers at once
}

// Watch is one shift of a company.
type Watch struct {
	Date     dept.Date     `json:"date"`
	Platoon  dept.Platoon  `json:"platoon"`
	Start    time.Time     `json:"start"`
	End      time.Time     `json:"end"`
	Prompt   chat.Key      `json:"prompt"`
	Accepted time.Time     `json:"accepted,omitzero"` // when the service took the prompt
	Asked    []Asked       `json:"asked"`
	Left     []dept.ItemID `json:"left,omitempty"` // out of service: not asked
	// Statements are what was said in the shift, in the order in which it was said.
	Statements []Statement             `json:"statements,omitempty"`
	Busy       time.Time               `json:"busy,omitzero"` // away on a call since
	Running    map[dept.ItemID]Lit     `json:"running,omitempty"`
	Doubts     []reply.Doubt           `json:"doubts,omitempty"`   // asked and not answered
	Put        map[string]time.Time    `json:"put,omitempty"`      // doubts that were asked once, by what they were about
	Edition    int                     `json:"edition,omitempty"`  // how often the prompt was edited
	Recorded   map[string]Mark         `json:"recorded,omitempty"` // item.check -> what is on record
	Booked     map[dept.ItemID]float64 `json:"booked,omitempty"`   // minutes of the shift's runs, in the items' hours
	Held       Held                    `json:"held,omitzero"`
	Shot       Shot                    `json:"shot,omitzero"`       // a photo that waits for words about it
	Reminded   time.Time               `json:"reminded,omitzero"`   // a reminder stands in the thread and nobody spoke since
	Told       time.Time               `json:"told,omitzero"`       // news from the shop stands there, likewise
	ShopAsks   defect.ID               `json:"shop_asks,omitempty"` // the shop asked about it and nobody answered yet
}

// Held is the item that somebody spoke of last: it holds for the next words of
// the same person, for a short while.
type Held struct {
	Item dept.ItemID `json:"item"`
	By   string      `json:"by"`
	At   time.Time   `json:"at"`
}

// heldFor is how long an item that was named holds for the next message.
const heldFor = 3 * time.Minute

func (h Held) by(author string, at time.Time) dept.ItemID {
	if h.By != author || at.Sub(h.At) > heldFor {
		return ""
	}
	return h.Item
}

// Lit is an engine that is running.
type Lit struct {
	Since  time.Time `json:"since"`
	By     string    `json:"by"`
	Nudged bool      `json:"nudged,omitempty"`
}

// Mark is the result of a check that stands on record.
type Mark struct {
	Record string      `json:"record"` // its id
	State  check.State `json:"state"`
	Value  check.Value `json:"value,omitzero"`
	Damage string      `json:"damage,omitempty"`
	Fixed  bool        `json:"fixed,omitempty"`
	Words  string      `json:"words,omitempty"`
	By     string      `json:"by"`
	Event  string      `json:"event"`
}

// Asked is one numbered check of a prompt. Numbers do not move within a shift.
type Asked struct {
	N   int       `json:"n"`
	Ref check.Ref `json:"ref"`
}

// Statement is one message of a crew, as it was understood.
type Statement struct {
	Event   string         `json:"event"` // backend/id of the message
	Ref     chat.Ref       `json:"ref"`
	Author  string         `json:"author"`
	Officer bool           `json:"officer,omitempty"` // the company's officer, or the shop
	Said    time.Time      `json:"said"`
	Text    string         `json:"text"`
	Results []reply.Result `json:"results,omitempty"`
	Gone    bool           `json:"gone,omitempty"` // undone or deleted
	// Confirms are the checks for whose results a repair waited.
	Confirms []check.Ref `json:"confirms,omitempty"`
}

// ItemState is what holds of an item at the moment.
type ItemState struct {
	Item    dept.ItemID          `json:"item"`
	Out     *Outage              `json:"out,omitempty"`
	For     dept.ItemID          `json:"for,omitempty"`      // a spare: the item it stands in for
	With    dept.CompanyID       `json:"with,omitempty"`     // a spare: the company it is placed on
	StandIn dept.ItemID          `json:"stand_in,omitempty"` // the spare that stands in for it
	Hours   float64              `json:"hours"`
	Burned  float64              `json:"burned,omitempty"` // minutes run since the fuel was read
	Filled  time.Time            `json:"filled,omitzero"`  // when somebody last said that fuel was filled in
	Used    time.Time            `json:"used,omitzero"`    // when it was last said to have been used on a call
	Last    map[check.ID]Reading `json:"last,omitempty"`   // the last reading of each check
	Ailed   bool                 `json:"ailed,omitempty"`  // a defect was reported on it, ever: look them up
	Tally   Tally                `json:"tally,omitzero"`
	Lows    []time.Time          `json:"lows,omitempty"` // low fluid, tool closed, the last few
}

// Outage is why an item is out of service.
type Outage struct {
	Since  time.Time `json:"since"`
	By     string    `json:"by"`
	Why    string    `json:"why"`
	Defect defect.ID `json:"defect,omitempty"` // or "", by order
}

// Reading is the last reading of a check.
type Reading struct {
	At    time.Time   `json:"at"`
	State check.State `json:"state"`
	Value check.Value `json:"value,omitzero"`
	Words string      `json:"words,omitempty"`
}
