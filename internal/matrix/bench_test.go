//go:build goolm

package matrix_test

import (
	"bytes"
	"context"
	"log/slog"
	"maps"
	"slices"
	"sync"
	"testing"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
	"crosslay/internal/chattest"
	"crosslay/internal/matrix"
	"crosslay/internal/matrix/matrixtest"
)

// inbox is where a backend's events go: it outlives the backend, as the database
// does.
type inbox struct {
	mu      sync.Mutex
	events  []chat.Event
	cursors map[string]string
	fail    error // what the next batch is answered with
	doubles int
	log     syncBuffer // of the bot
}

func newInbox() *inbox { return &inbox{cursors: map[string]string{}} }

func (in *inbox) receive(_ context.Context, batch chat.Batch) error {
	in.mu.Lock()
	defer in.mu.Unlock()
	if err := in.fail; err != nil && len(batch.Events) > 0 {
		in.fail = nil
		return err
	}
	for _, ev := range batch.Events {
		if slices.ContainsFunc(in.events, func(have chat.Event) bool { return have.ID == ev.ID }) {
			in.doubles++
			continue
		}
		in.events = append(in.events, ev)
	}
	maps.Copy(in.cursors, batch.Cursors)
	return nil
}

func (in *inbox) cursor(_ context.Context, name string) (string, error) {
	in.mu.Lock()
	defer in.mu.Unlock()
	return in.cursors[name], nil
}

func (in *inbox) past(_ context.Context, ref string) (chat.Event, bool, error) {
	in.mu.Lock()
	defer in.mu.Unlock()
	for _, ev := range in.events {
		if ev.ID == ref {
			return ev, true, nil
		}
	}
	return chat.Event{}, false, nil
}

func (in *inbox) all() []chat.Event {
	in.mu.Lock()
	defer in.mu.Unlock()
	return slices.Clone(in.events)
}

// wait waits for an event that is as wanted.
func (in *inbox) wait(t *testing.T, what string, want func(chat.Event) bool) chat.Event {
	t.Helper()
	for deadline := time.Now().Add(40 * time.Second); time.Now().Before(deadline); time.Sleep(10 * time.Millisecond) {
		for _, ev := range in.all() {
			if want(ev) {
				return ev
			}
		}
	}
	t.Fatalf("%s is not heard; heard was %+v; the bot's log:\n%s", what, in.all(), in.log.String())
	return chat.Event{}
}

// syncBuffer is a log that may be read while it is written.
type syncBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *syncBuffer) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *syncBuffer) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

func says(text string) func(chat.Event) bool {
	return func(ev chat.Event) bool { return ev.Text == text }
}

// house is a homeserver with a bot that is logged in and with people.
type house struct {
	*matrixtest.Server
	dir   string
	me    id.UserID
	inbox *inbox
	known map[string]bool
	mu    sync.Mutex
	rooms []string
	tune  func(*matrix.Config)
}

func newHouse(t *testing.T) *house {
	t.Helper()
	h := &house{Server: matrixtest.Start(t), dir: t.TempDir(), inbox: newInbox(), known: map[string]bool{}}
	h.me = id.UserID(h.Register(t, "bot"))
	login, err := matrix.LogIn(t.Context(), matrix.Credentials{Homeserver: h.URL, User: "bot", Password: matrixtest.Password, Dir: h.dir})
	if err != nil {
		t.Fatal(err)
	}
	if login.Trouble != nil {
		t.Fatal(login.Trouble)
	}
	return h
}

// person is somebody the department file knows.
func (h *house) person(t *testing.T, name string) *matrixtest.Person {
	t.Helper()
	p := h.Person(t, name)
	h.mu.Lock()
	defer h.mu.Unlock()
	h.known[string(p.ID)] = true
	return p
}

func (h *house) list(address string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.rooms = append(h.rooms, address)
}

func (h *house) config(t *testing.T) matrix.Config {
	t.Helper()
	account, err := matrix.LoadAccount(h.dir)
	if err != nil {
		t.Fatal(err)
	}
	cfg := matrix.Config{
		Account: account, Dir: h.dir, Cursor: h.inbox.cursor, Past: h.inbox.past,
		Log: slog.New(slog.NewJSONHandler(&h.inbox.log, nil)),
		Rooms: func() []string {
			h.mu.Lock()
			defer h.mu.Unlock()
			return slices.Clone(h.rooms)
		},
		Known: func(account string) bool {
			h.mu.Lock()
			defer h.mu.Unlock()
			return h.known[account]
		},
	}
	if h.tune != nil {
		h.tune(&cfg)
	}
	return cfg
}

// start runs the bot's backend; the function ends it.
func (h *house) start(t *testing.T) (*matrix.Backend, func()) {
	t.Helper()
	b, err := matrix.Open(t.Context(), h.config(t))
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- b.Run(ctx, h.inbox.receive) }()
	stop := sync.OnceFunc(func() {
		cancel()
		if err := <-done; err != nil {
			t.Errorf("the backend ended: %v", err)
		}
		b.Close()
	})
	t.Cleanup(stop)
	return b, stop
}

// room makes a room with the bot in it, and returns its address.
func (h *house) room(t *testing.T, p *matrixtest.Person, alias string, encrypted bool, others ...*matrixtest.Person) (id.RoomID, string) {
	t.Helper()
	address := "#" + alias + ":" + matrixtest.Domain
	h.list(address)
	var ids []id.UserID
	for _, o := range others {
		ids = append(ids, o.ID)
	}
	room := p.Room(alias, encrypted, append(ids, h.me)...)
	for _, o := range others {
		o.Join(room)
	}
	p.Members(t, room, append(ids, h.me)...)
	return room, address
}

func TestBackend_passes_the_suite(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	b, _ := h.start(t)
	ana := h.person(t, "ana")
	n := 0
	for _, encrypted := range []bool{true, false} {
		name := map[bool]string{true: "encrypted", false: "open"}[encrypted]
		t.Run(name, func(t *testing.T) {
			chattest.Suite(t, func(t *testing.T) chattest.Bench {
				n++
				room, address := h.room(t, ana, "suite-"+name+string(rune('a'+n)), encrypted)
				return chattest.Bench{Name: matrix.Name, Room: address, Post: b, Plain: false, Shown: func() []chattest.Shown {
					return h.shown(t, ana, room, address)
				}}
			})
		})
	}
}

// shown lists what ana sees of the bot, once she sees all that the server has.
func (h *house) shown(t *testing.T, p *matrixtest.Person, room id.RoomID, address string) []chattest.Shown {
	t.Helper()
	mark := p.Say(room, "", "so far")
	p.Wait(t, "her own words", room, func(s matrixtest.Seen) bool { return s.ID == mark })
	var list []chattest.Shown
	for _, s := range p.All(room, h.me) {
		key := ""
		if m, ok := s.Raw["crosslay.message"].(map[string]any); ok {
			key, _ = m["key"].(string)
		}
		list = append(list, chattest.Shown{
			Ref: chat.Ref(s.ID), Place: chat.Place{Backend: matrix.Name, Room: address, Thread: chat.Ref(s.Thread)},
			Message: chat.Message{Key: chat.Key(key)}, Edits: s.Edits,
		})
	}
	return list
}

func invite(user id.UserID) *mautrix.ReqInviteUser { return &mautrix.ReqInviteUser{UserID: user} }
