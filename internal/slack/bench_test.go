package slack

import (
	"context"
	"errors"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

// inbox is a store of events in memory, unique on their ids. It outlives the
// backends that fill it.
type inbox struct {
	mu      sync.Mutex
	ids     map[string]bool
	events  []chat.Event
	cursors map[string]string
	full    bool // nothing can be stored
}

func newInbox() *inbox { return &inbox{ids: map[string]bool{}, cursors: map[string]string{}} }

func (i *inbox) receive(_ context.Context, batch chat.Batch) error {
	i.mu.Lock()
	defer i.mu.Unlock()
	if i.full {
		return errors.New("the disk is full")
	}
	for _, ev := range batch.Events {
		if !i.ids[ev.ID] {
			i.ids[ev.ID] = true
			i.events = append(i.events, ev)
		}
	}
	for name, value := range batch.Cursors {
		i.cursors[name] = value
	}
	return nil
}

func (i *inbox) bookmark(_ context.Context, name string) (string, error) {
	i.mu.Lock()
	defer i.mu.Unlock()
	return i.cursors[name], nil
}

func (i *inbox) fill(full bool) {
	i.mu.Lock()
	defer i.mu.Unlock()
	i.full = full
}

// heard takes what has come since the last call.
func (i *inbox) heard() []chat.Event {
	i.mu.Lock()
	defer i.mu.Unlock()
	events := i.events
	i.events = nil
	return events
}

// bench is a workspace, with a backend that listens to it.
type bench struct {
	*slackdouble.Workspace
	t       *testing.T
	in      *inbox
	station string
	ines    string
	b       *Backend
	stop    func()

	mu      sync.Mutex
	trouble []error
	rooms   []string // of the department file; #station-1 if none
}

// onBench runs a test on the fake clock; at its end nothing may be held against
// the backend.
func onBench(t *testing.T, opt slackdouble.Options, f func(*bench)) {
	synctest.Test(t, func(t *testing.T) {
		opt.InMemory = true
		w := &bench{Workspace: slackdouble.New(t, opt), t: t, in: newInbox()}
		w.ines = w.AddUser("ines", "Ines Pelluci")
		w.station = w.AddChannel("station-1", w.ines)
		w.listen()
		f(w)
		w.stop()
		for _, v := range w.Violations() {
			t.Errorf("violation: %v", v)
		}
		w.Close()
		synctest.Wait()
	})
}

func (w *bench) config() Config {
	return Config{
		Tokens:   Tokens{Bot: w.BotToken, App: w.AppToken, Signing: w.SigningSecret},
		Rooms:    w.addresses,
		Bookmark: w.in.bookmark,
		Report:   w.report,
		URL:      w.URL(), HTTP: w.Client(), Dialer: w.Dialer(),
	}
}

func (w *bench) addresses() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	if len(w.rooms) == 0 {
		return []string{"#station-1"}
	}
	return w.rooms
}

func (w *bench) report(err error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.trouble = append(w.trouble, err)
}

// troubles takes what was reported since the last call.
func (w *bench) troubles() []error {
	w.mu.Lock()
	defer w.mu.Unlock()
	list := w.trouble
	w.trouble = nil
	return list
}

// listen starts a backend on the workspace and the inbox, as a bot that is started
// anew does.
func (w *bench) listen() {
	w.t.Helper()
	b, err := New(w.config())
	if err != nil {
		w.t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(w.t.Context())
	done := make(chan error, 1)
	go func() { done <- b.Run(ctx, w.in.receive) }()
	w.b = b
	w.stop = func() {
		cancel()
		if err := <-done; err != nil {
			w.t.Errorf("Run ended with %v", err)
		}
		w.stop = func() {}
	}
	w.settle()
}

// settle lets everything happen that happens at once, and what takes a moment.
func (w *bench) settle() {
	time.Sleep(3 * time.Second)
	synctest.Wait()
}

func (w *bench) place() chat.Place { return chat.Place{Backend: Name, Room: "#station-1"} }

func (w *bench) post(m chat.Message, place chat.Place) chat.Ref {
	w.t.Helper()
	ref, err := w.b.Post(w.t.Context(), m, place, "")
	if err != nil {
		w.t.Fatalf("post %s: %v", m.Key, err)
	}
	return ref
}

// prompt is a company's prompt as the engine makes it.
func prompt(key chat.Key) chat.Message {
	return chat.Message{
		Key: key, Kind: chat.Prompt, About: "E1",
		Blocks: []chat.Block{
			chat.Text(chat.Title, "Engine 1 · C shift · Wed Nov 25"), chat.Text(chat.Safety, "No smoking."),
			chat.Text(chat.List, "Power unit PU-01", "1 fuel: cap open, look", "2 hydraulic fluid: read the gauge", "5 warm-up run: 5 to 10 min"),
			chat.Text(chat.Hint, `In the thread: "all good"`),
		},
		Choices: []chat.Choice{{Label: "All good", Say: "all good"}, {Label: "Report a fault", Say: "report a fault", Ask: "Which item, and what is wrong with it?"},
			{Label: "On a call", Say: "on a call"}},
		Form: &chat.Form{Label: "Fill in the form", Title: "Engine 1", Rest: "Anything else", Fields: []chat.Field{
			{N: 1, Label: "fuel", Under: "Power unit PU-01", Say: []string{"full", "3/4", "1/2"}},
			{N: 2, Label: "hydraulic fluid", Under: "Power unit PU-01", Say: []string{"ok", "low", "over"}, Filled: "low"},
			{N: 5, Label: "warm-up run", Under: "Power unit PU-01", Unit: "min"},
		}},
	}
}

// only is the one event that was heard.
func (w *bench) only() chat.Event {
	w.t.Helper()
	events := w.in.heard()
	if len(events) != 1 {
		w.t.Fatalf("heard %d events, want 1: %+v", len(events), events)
	}
	return events[0]
}
