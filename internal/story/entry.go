package story

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/terminal"
)

// What says what sort of entry a transcript line is.
type What string

// The sorts of entries.
const (
	WasSaid     What = "said"     // by the bot or a person
	WasEdited   What = "edited"   // a message has a new text
	WasDeleted  What = "deleted"  // a message is gone
	WasReacted  What = "reacted"  // or, with an empty emoji, the reaction taken back
	WasRecorded What = "recorded" // put on record
	WasParked   What = "parked"   // an event that could not be decided
	WasTrouble  What = "trouble"  // a message that could not be sent
)

// Entry is one thing that was said or recorded.
type Entry struct {
	What   What        `json:"what"`
	Kind   string      `json:"kind"` // of the message or record; of a person's doing, the event's
	Time   time.Time   `json:"time"`
	Room   string      `json:"room,omitempty"`
	Thread string      `json:"thread,omitempty"` // key or ref of the thread's root
	In     string      `json:"in,omitempty"`     // the place in short: #shop, E1, defect 1, direct
	Key    string      `json:"key,omitempty"`
	About  string      `json:"about,omitempty"`
	Who    string      `json:"who,omitempty"` // "" for the bot
	Text   string      `json:"text,omitempty"`
	Emoji  string      `json:"emoji,omitempty"`
	Number int         `json:"number,omitempty"` // of the message, as the terminal prints it
	Record *bot.Record `json:"record,omitempty"`
}

func (w *World) tell(e Entry) {
	e.Time = e.Time.In(w.setup.Dept.Zone)
	if len(w.heard) == 0 {
		w.early = append(w.early, e)
	}
	for _, f := range w.heard {
		f(e)
	}
}

// change makes an entry of what changed at the service.
func (w *World) change(c terminal.Change) {
	p := c.Post
	e := Entry{
		What: WasSaid, Kind: string(c.Kind), Time: c.At, Room: p.Place.Room, Thread: string(p.Place.Thread),
		In: w.Hall.Label(p.Place), Key: string(p.Key), About: p.About, Who: p.Author, Text: p.Text, Number: p.N,
	}
	if p.Kind != "" {
		e.Kind = string(p.Kind)
	}
	switch c.Kind {
	case chat.Edited:
		e.What = WasEdited
		if c.By != "" {
			e.Key = string(c.By)
		}
	case chat.Deleted:
		e.What, e.Text = WasDeleted, ""
	case chat.Reacted, chat.Unreacted:
		e.What, e.Kind, e.Who, e.Text = WasReacted, string(c.Kind), c.Who, ""
		e.Emoji = c.Emoji
	}
	w.tell(e)
}

func recorded(r bot.Record) Entry {
	about := r.Item
	e := Entry{
		What: WasRecorded, Kind: string(r.Kind), Time: r.At, Key: r.ID, About: string(about), Who: r.Who,
		Text: r.Words, Record: &r,
	}
	if r.Check != "" {
		e.About += "." + string(r.Check)
	}
	if e.About == "" {
		e.About = string(r.Company)
	}
	return e
}

func parked(now time.Time, ev chat.Event, err error) Entry {
	return Entry{What: WasParked, Kind: string(ev.Kind), Time: now, Key: ev.Backend + "/" + ev.ID, Text: err.Error()}
}

func (w *World) trouble(err error) {
	w.tell(Entry{What: WasTrouble, Kind: "trouble", Time: w.now, Text: err.Error()})
}

// WriteJSON writes entries as one object a line.
func WriteJSON(out io.Writer) func(Entry) error {
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	return func(e Entry) error { return enc.Encode(e) }
}

// WriteText writes what was said as a transcript; records are left out.
func WriteText(out io.Writer) func(Entry) error {
	return func(e Entry) error {
		head := fmt.Sprintf("[%d] %s", e.Number, e.Time.Format("Mon 15:04"))
		who := e.Who
		if who == "" {
			who = "crosslay"
		}
		var err error
		switch e.What {
		case WasSaid:
			_, err = fmt.Fprintf(out, "%s %s in %s (%s)\n%s\n", head, who, e.In, e.Kind, indent(e.Text))
		case WasEdited:
			_, err = fmt.Fprintf(out, "%s %s edited [%d] in %s\n%s\n", head, who, e.Number, e.In, indent(e.Text))
		case WasDeleted:
			_, err = fmt.Fprintf(out, "%s %s deleted it\n", head, who)
		case WasReacted:
			_, err = fmt.Fprintf(out, "%s %s %s: %s\n", head, who, e.Kind, e.Emoji)
		case WasParked, WasTrouble:
			_, err = fmt.Fprintf(out, "%s %s %s: %s\n", e.Time.Format("Mon 15:04"), e.What, e.Key, e.Text)
		case WasRecorded:
		}
		return err
	}
}

func indent(text string) string { return "    " + strings.ReplaceAll(text, "\n", "\n    ") }
