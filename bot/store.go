package bot

import (
	"context"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
)

// Store keeps the inbox, the standings, the records and the outbox's input. It
// has one writer. Every method that changes something is durable when it returns
// nil.
type Store interface {
	// Receive puts events into the inbox with their backend's cursors, in one
	// transaction. An event that is there already is left alone; the count says
	// how many were new.
	Receive(ctx context.Context, backend string, batch chat.Batch) (int, error)
	// Cursor returns a backend's bookmark, "" if it has none.
	Cursor(ctx context.Context, backend, name string) (string, error)
	// Decide runs f in one immediate transaction on the oldest unhandled event
	// and commits what it returns, with the event marked handled. An error of f
	// rolls back and parks the event with the error's text in a transaction of
	// its own. It reports whether there was an event.
	Decide(ctx context.Context, f func(Tx, chat.Event) (Outcome, error)) (bool, error)
	// Wakes lists the scopes whose next instant has come by now, with it.
	Wakes(ctx context.Context, now time.Time) ([]Wake, error)
	// NextWake is the earliest of all scopes' instants after which something is
	// to be done; zero if there is none.
	NextWake(ctx context.Context) (time.Time, error)
}

// Tx is what a decision may look up. Its answers are those of one instant.
type Tx interface {
	// KeyOf is the key of the message that the service knows by ref, "" if it
	// was not ours.
	KeyOf(backend, room string, ref chat.Ref) (chat.Key, error)
	Standing(dept.CompanyID) (*Standing, error) // nil before the first prompt
	Standings() (map[dept.CompanyID]*Standing, error)
	Item(dept.ItemID) (*ItemState, error) // nil before anything is known
	Items() (map[dept.ItemID]*ItemState, error)
	Defect(defect.ID) (*defect.Defect, error)
	// DefectsOf lists the defects of an item that are not closed or were
	// repaired since the instant; in order of report.
	DefectsOf(item dept.ItemID, since time.Time) ([]*defect.Defect, error)
	// DefectsOpen lists all defects that are not closed.
	DefectsOpen() ([]*defect.Defect, error)
	// DefectsOfKind lists the defects of a kind and check reported since.
	DefectsOfKind(kind dept.KindID, id check.ID, since time.Time) ([]*defect.Defect, error)
	// History lists the newest n records about an item, newest first.
	History(item dept.ItemID, n int) ([]Record, error)
	// Rungs lists the newest n reminder records about a company, newest first.
	Rungs(company dept.CompanyID, n int) ([]Record, error)
	// Meta is a small fact about the whole bot ("first_start"), "" if not set.
	Meta(name string) (string, error)
}

// Outcome is what a decision comes to. All of it is applied, or none.
type Outcome struct {
	Standings []*Standing
	Items     []*ItemState
	Defects   []*defect.Defect
	Records   []Record
	Messages  []chat.Message
	Drop      []chat.Key // messages not sent yet that need not be any more
	Wakes     []Wake     // replaces a scope's instant; a zero At removes it
	Followups []chat.Event
	Meta      map[string]string
}

// Wake is when something is next to be done for a scope: "company/E21", "shop",
// "officers".
type Wake struct {
	Scope string
	At    time.Time
}

// RecordKind is the stable name of a kind of record.
type RecordKind string

// What is put on record.
const (
	OnReading  RecordKind = "reading"
	OnRun      RecordKind = "run"
	OnDefect   RecordKind = "defect" // a step of a defect's life
	OnPrompt   RecordKind = "prompt"
	OnReminder RecordKind = "reminder"
	OnService  RecordKind = "service" // out of service and back, spares placed
	OnWords    RecordKind = "words"   // a message, with what was not understood
)

// Record is one line of what happened. It is appended and never changed; a later
// record supersedes it by naming its ID.
type Record struct {
	ID         string         `json:"id"` // unique, made of the deed: reading/<event>/<item.check>
	Kind       RecordKind     `json:"kind"`
	At         time.Time      `json:"at"`      // when it was said or happened
	Arrived    time.Time      `json:"arrived"` // when we learnt of it
	Company    dept.CompanyID `json:"company,omitempty"`
	Date       dept.Date      `json:"date,omitzero"` // the shift
	Platoon    dept.Platoon   `json:"platoon,omitempty"`
	Item       dept.ItemID    `json:"item,omitempty"`
	Check      check.ID       `json:"check,omitempty"`
	Defect     defect.ID      `json:"defect,omitempty"`
	State      string         `json:"state,omitempty"` // ok, fault; sent, overtaken; seen, repaired; ...
	Value      check.Value    `json:"value,omitzero"`
	Words      string         `json:"words,omitempty"`
	Who        string         `json:"who,omitempty"`
	Message    string         `json:"message,omitempty"` // backend/id of the event it came from
	Supersedes string         `json:"supersedes,omitempty"`
	Note       string         `json:"note,omitempty"`
}
