package story

import (
	"context"
	"errors"
	"fmt"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/internal/outbox"
	"crosslay/internal/sqlite"
	"crosslay/internal/terminal"
)

// World is a department at play: its clock moves only by Advance.
type World struct {
	Hall  *terminal.Hall
	setup bot.Setup
	path  string
	opt   Options
	now   time.Time

	store  *sqlite.Store // nil while the bot is dead
	engine *bot.Engine
	sender *outbox.Sender

	unheard   []chat.Event // said while the bot was dead
	standings map[dept.CompanyID]*bot.Standing
	early     []Entry // what nobody was there to hear yet
	heard     []func(Entry)
	settled   func() // called when the bot has nothing left to do at an instant
}

// Options of a World.
type Options struct {
	// Fast gives up durability over power cuts.
	Fast bool
	// Session sets the events of this run apart from those of earlier ones in the
	// same file; a story needs none.
	Session string
	// Paint draws the picture that a message names, from the records as of now; nil
	// puts a stub in its place whose alt text is the name.
	Paint func(ctx context.Context, store *sqlite.Store, now time.Time, name string) (chat.Picture, error)
}

// New opens the database file and starts the bot at an instant.
func New(setup bot.Setup, path string, at time.Time, opt Options) (*World, error) {
	w := &World{setup: OnTerminal(setup), path: path, opt: opt, now: at, standings: map[dept.CompanyID]*bot.Standing{}}
	w.settled = func() {}
	session := opt.Session
	if session == "" {
		session = "m"
	}
	w.Hall = NewHall(w.setup.Dept, terminal.NewService(session, w.Now))
	w.Hall.Watch(w.change)
	return w, w.Start()
}

// Now is the simulated instant.
func (w *World) Now() time.Time { return w.now }

// Setup is the department as it is played.
func (w *World) Setup() bot.Setup { return w.setup }

// Hear calls f for everything that is said or recorded from now on, and first for
// what was before anybody listened: the bot's words at its start.
func (w *World) Hear(f func(Entry)) {
	for _, e := range w.early {
		f(e)
	}
	w.heard = append(w.heard, f)
}

// Start starts the bot on the database file; what was said meanwhile arrives.
func (w *World) Start() error {
	if w.store != nil {
		return errors.New("the bot is running already")
	}
	store, err := sqlite.Open(w.path, sqlite.Options{Fast: w.opt.Fast})
	if err != nil {
		return err
	}
	w.store = store
	if len(w.Hall.Posts()) == 0 {
		last, err := Restore(w.Hall.Service, store)
		if err != nil {
			return err
		}
		if last.After(w.now) {
			w.now = last
		}
	}
	w.engine = bot.New(witness{store, w}, w.setup)
	w.sender = outbox.New(store, map[string]outbox.Poster{terminal.Name: w.Hall.Service}, outbox.Options{Now: w.Now, Report: w.trouble, Paint: w.paint})
	if err := w.engine.Note(context.Background(), chat.Started, w.now, ""); err != nil {
		return err
	}
	late := w.unheard
	w.unheard = nil
	for _, ev := range late {
		ev.Arrived = w.now
		if err := w.receive(ev); err != nil {
			return err
		}
	}
	return w.Settle()
}

func (w *World) paint(ctx context.Context, name string) (chat.Picture, error) {
	if w.opt.Paint == nil {
		return chat.Picture{Name: "picture.png", Type: "image/png", Data: []byte("png"), Alt: name}, nil
	}
	return w.opt.Paint(ctx, w.store, w.now, name)
}

// Kill drops the bot. The service and the file live on.
func (w *World) Kill() error {
	if w.store == nil {
		return errors.New("the bot is not running")
	}
	err := w.store.Close()
	w.store, w.engine, w.sender = nil, nil, nil
	return err
}

// Close ends the play.
func (w *World) Close() error {
	if w.store == nil {
		return nil
	}
	return w.Kill()
}

// Send hands an event to the bot and lets it answer.
func (w *World) Send(ev chat.Event) error {
	if w.store == nil {
		w.unheard = append(w.unheard, ev)
		return nil
	}
	if err := w.receive(ev); err != nil {
		return err
	}
	return w.Settle()
}

func (w *World) receive(ev chat.Event) error {
	_, err := w.store.Receive(context.Background(), ev.Backend, chat.Batch{Events: []chat.Event{ev}})
	return err
}

// Advance lets time pass, from wake to wake.
func (w *World) Advance(d time.Duration) error {
	end := w.now.Add(d)
	for w.store != nil {
		next, err := w.next()
		if err != nil {
			return err
		}
		if next.IsZero() || next.After(end) {
			break
		}
		if next.After(w.now) {
			w.now = next
		}
		if err := w.Settle(); err != nil {
			return err
		}
		if after, err := w.next(); err != nil {
			return err
		} else if !after.IsZero() && !after.After(w.now) {
			return fmt.Errorf("at %s the bot wakes for the same instant again and again", w.now.Format(time.RFC3339))
		}
	}
	w.now = end
	if w.store == nil {
		return nil
	}
	return w.Settle()
}

// next is when the engine or the sender has something to do next.
func (w *World) next() (time.Time, error) {
	wake, err := w.store.NextWake(context.Background())
	if err != nil {
		return wake, err
	}
	send, err := w.sender.Next(context.Background())
	if err != nil || send.IsZero() {
		return wake, err
	}
	if wake.IsZero() || send.Before(wake) {
		return send, nil
	}
	return wake, nil
}

// Settle lets the bot do all that is to be done at this instant.
func (w *World) Settle() error {
	const most = 1 << 20
	ctx := context.Background()
	for range most {
		woke, err := w.engine.Wake(ctx, w.now)
		if err != nil {
			return err
		}
		worked, err := drain(func() (bool, error) { return w.engine.Work(ctx) })
		if err != nil {
			return err
		}
		sent, err := drain(func() (bool, error) { return w.sender.Step(ctx, w.now) })
		if err != nil {
			return err
		}
		if woke == 0 && !worked && !sent {
			w.settled()
			return nil
		}
	}
	return fmt.Errorf("at %s the bot does not come to rest", w.now.Format(time.RFC3339))
}

// drain repeats do until it has nothing to do, and reports whether it had.
func drain(do func() (bool, error)) (bool, error) {
	for did := false; ; did = true {
		more, err := do()
		if err != nil || !more {
			return did, err
		}
	}
}

// witness sees what a decision put on record, once that is committed.
type witness struct {
	bot.Store
	w *World
}

// Decide implements bot.Store.
func (s witness) Decide(ctx context.Context, f func(bot.Tx, chat.Event) (bot.Outcome, error)) (bool, error) {
	var ev chat.Event
	var out bot.Outcome
	var failed error
	did, err := s.Store.Decide(ctx, func(tx bot.Tx, e chat.Event) (bot.Outcome, error) {
		ev = e
		out, failed = f(tx, e)
		return out, failed
	})
	if err != nil || !did {
		return did, err
	}
	if failed != nil {
		s.w.tell(parked(s.w.now, ev, failed))
		return did, nil
	}
	for _, st := range out.Standings {
		s.w.standings[st.Company] = st
	}
	for _, r := range out.Records {
		s.w.tell(recorded(r))
	}
	return did, nil
}
