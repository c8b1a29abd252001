// Package chat has the neutral words between the bot and the services it talks
// through. A backend turns what it hears into Events and knows how to show a
// Message; the bot never learns which service it speaks with.
package chat

import "time"

// Key names a deed, not an attempt: prompt/E21/2026-03-08/A. It is stable over
// restarts, and it is what keeps anything from being sent twice.
type Key string

// Ref is the name a service gave to a message, unique within the room and
// backend that it stands in. Nobody but the backend looks inside.
type Ref string

// Place is where something is said. Thread is the Ref of the thread's root, or
// empty in the open room. A direct conversation is a Place with Direct set; its
// Room is whatever address the backend answers to.
type Place struct {
	Backend string `json:"backend"`
	Room    string `json:"room"` // the backend's address of the room, as in the department file
	Thread  Ref    `json:"thread,omitempty"`
	Direct  bool   `json:"direct,omitempty"`
}

// Kind says what sort of thing happened.
type Kind string

// What can happen. The first group comes from backends; the second from
// crosslay itself, through the same door.
const (
	Said      Kind = "said"      // a message; Text, Pictures
	Edited    Kind = "edited"    // Target is the message, Text its new text
	Deleted   Kind = "deleted"   // Target is gone
	Reacted   Kind = "reacted"   // Emoji was put on Target
	Unreacted Kind = "unreacted" // Emoji was taken off Target
	Chosen    Kind = "chosen"    // a button of Target was pressed; Text is what it says
	Lost      Kind = "lost"      // a message came that could not be read (encryption)

	Tick     Kind = "tick"     // a planned instant of a scope has come: Scope, Said
	Accepted Kind = "accepted" // a service accepted the message MsgKey: Target is its Ref
	Followup Kind = "followup" // one decision asks for another: Scope, Text
	Started  Kind = "started"  // the bot was started
	Reloaded Kind = "reloaded" // a changed department file was taken up, or refused: Text says
)

// Event is one thing that happened. (Backend, ID) is unique for ever: the same
// event delivered again is the same event.
type Event struct {
	Backend string    `json:"backend"`
	ID      string    `json:"id"`
	Kind    Kind      `json:"kind"`
	Said    time.Time `json:"said"`    // the service's stamp: decides meaning
	Arrived time.Time `json:"arrived"` // when it reached us: stamps rows, drives sending
	Place   Place     `json:"place,omitzero"`
	Ref     Ref       `json:"ref,omitempty"`    // of the message itself
	Target  Ref       `json:"target,omitempty"` // of the message it is about
	Author  string    `json:"author,omitempty"` // the account at the backend
	Name    string    `json:"name,omitempty"`   // how the service shows the author
	Text    string    `json:"text,omitempty"`
	Emoji   string    `json:"emoji,omitempty"` // the character itself: "👍"
	Pics    []Picture `json:"pics,omitempty"`
	Scope   string    `json:"scope,omitempty"`   // of a Tick or Followup
	MsgKey  Key       `json:"msg_key,omitempty"` // of an Accepted
}

// Picture is a photo. Incoming: Source is what the backend needs to fetch it
// again. Outgoing: Data is the file, or Source repeats an incoming picture.
type Picture struct {
	Name   string `json:"name"`
	Type   string `json:"type"` // media type
	Source string `json:"source,omitempty"`
	Data   []byte `json:"data,omitempty"`
	Alt    string `json:"alt,omitempty"`
}

// Batch is what a backend hands in at one time. Cursors are the backend's own
// bookmarks (a sync token); they are stored in the same transaction as the
// events, so that neither is ever ahead of the other.
type Batch struct {
	Events  []Event
	Cursors map[string]string
}

// MessageKind is the stable name of what a message is for. Stories and tests
// check it; wording may change around it.
type MessageKind string

// Every kind of message that the bot sends.
const (
	Prompt     MessageKind = "prompt"     // a company's checks of a shift
	Echo       MessageKind = "echo"       // what was understood
	Ask        MessageKind = "ask"        // a question back
	Answer     MessageKind = "answer"     // a method hint, help, why
	Nudge      MessageKind = "nudge"      // an engine has run long enough
	Nag        MessageKind = "nag"        // a reminder to those who owe something
	Escalation MessageKind = "escalation" // a reminder's higher rung, to somebody else
	Defect     MessageKind = "defect"     // the root of a defect's thread
	Report     MessageKind = "report"     // a further word in a defect's thread
	News       MessageKind = "news"       // what the shop did, told to the company
	Outage     MessageKind = "outage"     // out of service and back, told to the officers
	Fleet      MessageKind = "fleet"      // three of a kind with one fault
	Status     MessageKind = "status"     // an answer to an officer
	Summary    MessageKind = "summary"    // the morning summary
	Refusal    MessageKind = "refusal"    // that is not yours to do
	Notice     MessageKind = "notice"     // about the bot itself
	Caution    MessageKind = "caution"    // a caution that stands alone
)

// Message is something to be shown. The same blocks serve every backend; Plain
// is the form for a lock screen and for terminals.
type Message struct {
	Key     Key         `json:"key"`
	Kind    MessageKind `json:"kind"`
	Place   Place       `json:"place"`
	Under   Key         `json:"under,omitempty"` // the root of its thread is the message of this key: wait for it
	Edits   Key         `json:"edits,omitempty"` // replaces the message of this key in place
	About   string      `json:"about,omitempty"` // item, item.check, company: whatever it is about
	Blocks  []Block     `json:"blocks"`
	Choices []Choice    `json:"choices,omitempty"`
	Form    *Form       `json:"form,omitempty"`
	Pics    []Picture   `json:"pics,omitempty"`
	Tell    bool        `json:"tell,omitempty"` // an Accepted event comes when it was sent
}

// Role is what a block is for; a backend may set it off by its own means, never
// by colour alone.
type Role string

// The roles of a block.
const (
	Title  Role = "title"
	Body   Role = "body"
	List   Role = "list"   // one entry a line; the bot has numbered them itself
	Hint   Role = "hint"   // methods, how to answer
	Safety Role = "safety" // a caution
)

// Block is a few lines that belong together; lines have at most 60 characters.
type Block struct {
	Role  Role     `json:"role"`
	Lines []string `json:"lines"`
}

// Choice is something that can be tapped where a backend has buttons. Tapping it
// is the same as typing Say. Where Ask is set, a backend with dialogs asks it
// first, and tapping is the same as typing the answer.
type Choice struct {
	Label string `json:"label"`
	Say   string `json:"say"`
	Ask   string `json:"ask,omitempty"`
}
