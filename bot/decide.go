package bot

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// Decide says what an event comes to. It is pure: the same setup, snapshot and
// event give the same outcome. It takes the snapshot over and may change what it
// points to.
func Decide(s Setup, snap Snapshot, ev chat.Event) Outcome {
	d := &decision{Setup: s, Snapshot: snap, ev: ev, now: ev.Arrived,
		touched: map[dept.CompanyID]bool{}, items: map[dept.ItemID]bool{}, defects: map[defect.ID]bool{}, fuelled: map[dept.ItemID]bool{}}
	d.dispatch()
	return d.finish()
}

type decision struct {
	Setup
	Snapshot
	ev      chat.Event
	now     time.Time
	out     Outcome
	touched map[dept.CompanyID]bool
	items   map[dept.ItemID]bool
	defects map[defect.ID]bool
	sent    map[chat.MessageKind]int
	fuelled map[dept.ItemID]bool // fuel was read just now, after any run told with it
	atWork  bool                 // the message tells of work on a call
	engine  dept.ItemID          // started or shut down just now
	steps   []string             // of a defect, to be told together
	asides  []string             // explanations that go with the echo
	fresh   []reply.Doubt        // about engines: asked with the others
	mended  map[check.Ref]bool   // faults of the shop's that the crew says it put right
}

func (d *decision) dispatch() {
	switch d.ev.Kind {
	case chat.Tick:
		d.tick()
	case chat.Followup:
		d.followup()
	case chat.Accepted:
		d.accepted()
	case chat.Started, chat.Reloaded:
		d.begin()
	case chat.Said, chat.Chosen:
		d.said()
	case chat.Edited, chat.Deleted:
		d.corrected()
	case chat.Reacted, chat.Unreacted:
		d.reacted()
	case chat.Lost:
		d.say(chat.Ask, d.ev.Place, "", wording.CouldNotRead(d.local(d.ev.Said)))
	}
}

// finish collects what was touched, and plans the next instants.
func (d *decision) finish() Outcome {
	for _, id := range slices.Sorted(maps.Keys(d.touched)) {
		if d.Standings[id] != nil {
			d.out.Standings = append(d.out.Standings, d.Standings[id])
			d.plan(id)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(d.items)) {
		d.out.Items = append(d.out.Items, d.Items[id])
	}
	for _, f := range d.Defects {
		if d.defects[f.ID] {
			d.out.Defects = append(d.out.Defects, f)
		}
	}
	return d.out
}

func (d *decision) local(t time.Time) time.Time { return t.In(d.Dept.Zone) }

// say queues a message in answer to the event.
func (d *decision) say(kind chat.MessageKind, place chat.Place, about string, blocks []chat.Block) {
	if d.sent == nil {
		d.sent = map[chat.MessageKind]int{}
	}
	key := answerKey(kind, d.ev, d.sent[kind])
	d.sent[kind]++
	d.out.Messages = append(d.out.Messages, chat.Message{Key: key, Kind: kind, Place: place, About: about, Blocks: blocks})
}

// sayUnder queues a message in the thread whose root has the key.
func (d *decision) sayUnder(kind chat.MessageKind, root chat.Key, room dept.Room, about string, blocks []chat.Block) {
	d.say(kind, chat.Place{Backend: room.Backend, Room: room.Address}, about, blocks)
	d.out.Messages[len(d.out.Messages)-1].Under = root
}

// sayTo queues a message in the open room of a purpose.
func (d *decision) sayTo(kind chat.MessageKind, p dept.Purpose, about string, blocks []chat.Block) {
	if room, ok := d.Dept.RoomFor(p); ok {
		d.say(kind, chat.Place{Backend: room.Backend, Room: room.Address}, about, blocks)
	}
}

// sayCompany queues a message in the thread of a company's shift.
func (d *decision) sayCompany(kind chat.MessageKind, st *Standing, about string, blocks []chat.Block) {
	room, ok := d.roomOf(st.Company)
	if !ok {
		return
	}
	if st.Watch == nil {
		d.say(kind, chat.Place{Backend: room.Backend, Room: room.Address}, about, blocks)
		return
	}
	d.sayUnder(kind, st.Watch.Prompt, room, about, blocks)
}

func (d *decision) roomOf(c dept.CompanyID) (dept.Room, bool) {
	company, ok := d.Dept.Company(c)
	if !ok {
		return dept.Room{}, false
	}
	return d.Dept.Room(company.Room)
}

func (d *decision) record(r Record) string {
	r.At, r.Arrived = d.ev.Said, d.now
	if r.Message == "" {
		r.Message = eventID(d.ev)
	}
	d.out.Records = append(d.out.Records, r)
	return r.ID
}

// touch marks a company's standing as changed.
func (d *decision) touch(c dept.CompanyID) { d.touched[c] = true }

// state is an item's state, to be changed.
func (d *decision) state(id dept.ItemID) *ItemState {
	d.items[id] = true
	if d.Items[id] == nil {
		d.Items[id] = newItem(d.Setup, id)
	}
	return d.Items[id]
}

func (d *decision) thing(id dept.ItemID) wording.Thing {
	it, ok := d.Dept.Item(id)
	if !ok {
		return wording.Thing{Name: "item", Number: string(id)}
	}
	name := string(it.Kind)
	if sheet := d.Book[it.Sheet]; sheet != nil {
		name = sheet.Name
	}
	return wording.Thing{Name: name, Number: it.Number, Place: it.Place}
}

func (d *decision) label(ref check.Ref) string {
	if c, ok := d.Book.Of(d.Dept, ref); ok {
		return c.Label
	}
	return "other"
}

func (d *decision) companyName(id dept.CompanyID) string {
	if c, ok := d.Dept.Company(id); ok {
		return c.Name
	}
	return "the shop"
}

// who is how the author is called on record and in threads.
func (d *decision) who() string {
	switch {
	case d.Known:
		return d.Person.Name
	case d.ev.Name != "":
		return d.ev.Name
	}
	return d.ev.Author
}

// followups ask for another decision with a snapshot of its own.
func (d *decision) ask(scope, what string) {
	d.out.Followups = append(d.out.Followups, chat.Event{
		Backend: "crosslay", ID: fmt.Sprintf("%s/%s/%s", what, scope, eventID(d.ev)),
		Kind: chat.Followup, Scope: scope, Text: what, Said: d.ev.Said, Arrived: d.now, Name: d.who(),
	})
}
