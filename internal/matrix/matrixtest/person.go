//go:build goolm

package matrixtest

import (
	"context"
	"database/sql"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"go.mau.fi/util/dbutil"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
	"maunium.net/go/mautrix/sqlstatestore"
)

// Person is somebody with a client of their own, encrypted.
type Person struct {
	ID     id.UserID
	Client *mautrix.Client
	t      testing.TB
	server *Server

	keys sync.Mutex // the machine is not made for sending beside a sync
	mach *crypto.OlmMachine

	mu   sync.Mutex
	seen []*Seen
	by   map[id.EventID]*Seen
	raw  []*event.Event // waits for its keys
}

// patience is how long something is waited for: long enough for a machine that is
// busy with other tests.
const patience = 40 * time.Second

// Seen is a message as the person sees it now.
type Seen struct {
	ID      id.EventID
	Room    id.RoomID
	Thread  id.EventID
	Sender  id.UserID
	Body    string // plain
	HTML    string
	Type    event.MessageType
	Edits   int
	Gone    bool
	Secret  bool // it came encrypted
	Content *event.MessageEventContent
	Raw     map[string]any // of the first version
	Emoji   []string       // the reactions to it
}

// Person registers somebody and has them online until the test ends.
func (s *Server) Person(t testing.TB, name string) *Person {
	t.Helper()
	s.Register(t, name)
	client, err := mautrix.NewClient(s.URL, "", "")
	must(t, err)
	_, err = client.Login(t.Context(), &mautrix.ReqLogin{
		Type: mautrix.AuthTypePassword, Password: Password, StoreCredentials: true,
		Identifier: mautrix.UserIdentifier{Type: mautrix.IdentifierTypeUser, User: name},
	})
	must(t, err)
	client.DefaultHTTPRetries = 3
	state := stateStore(t)
	client.StateStore = state
	p := &Person{ID: client.UserID, Client: client, t: t, server: s, by: map[id.EventID]*Seen{}}
	p.mach = crypto.NewOlmMachine(client, &client.Log, crypto.NewMemoryStore(nil), state)
	must(t, p.mach.Load(t.Context()))
	must(t, p.mach.ShareKeys(t.Context(), -1))
	p.listen(t)
	return p
}

// stateStore is what the person's client knows of rooms; the library's own for
// memory is not made for several goroutines.
func stateStore(t testing.TB) *sqlstatestore.SQLStateStore {
	t.Helper()
	raw, err := sql.Open("sqlite", "file:"+filepath.Join(t.TempDir(), "state.db")+"?_pragma=busy_timeout(5000)&_pragma=synchronous(OFF)&_txlock=immediate")
	must(t, err)
	t.Cleanup(func() { raw.Close() })
	db, err := dbutil.NewWithDB(raw, "sqlite")
	must(t, err)
	state := sqlstatestore.NewSQLStateStore(db, dbutil.NoopLogger, false)
	must(t, state.Upgrade(t.Context()))
	return state
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// listen has the person read along.
func (p *Person) listen(t testing.TB) {
	syncer := mautrix.NewDefaultSyncer()
	syncer.OnEvent(p.Client.StateStoreSyncHandler)
	syncer.OnSync(func(ctx context.Context, resp *mautrix.RespSync, since string) bool {
		p.keys.Lock()
		defer p.keys.Unlock()
		return p.mach.ProcessSyncResponse(ctx, resp, since)
	})
	syncer.OnEventType(event.StateMember, func(ctx context.Context, ev *event.Event) {
		p.keys.Lock()
		defer p.keys.Unlock()
		p.mach.HandleMemberEvent(ctx, ev)
	})
	syncer.OnEvent(p.take)
	syncer.OnSync(func(context.Context, *mautrix.RespSync, string) bool { p.again(); return true })
	p.Client.Syncer = quick{syncer}
	p.Client.Store = mautrix.NewMemorySyncStore()
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() {
		defer close(done)
		_ = p.Client.SyncWithContext(ctx) // it ends with the test
	}()
	t.Cleanup(func() { stop(); <-done })
}

// quick tries again soon after the server was away.
type quick struct{ *mautrix.DefaultSyncer }

func (quick) OnFailedSync(*mautrix.RespSync, error) (time.Duration, error) {
	return 50 * time.Millisecond, nil
}

func (p *Person) take(ctx context.Context, ev *event.Event) {
	if ev.Mautrix.EventSource&event.SourceTimeline == 0 {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.see(ctx, ev)
}

// again tries to read what waited for its keys.
func (p *Person) again() {
	p.mu.Lock()
	defer p.mu.Unlock()
	waiting := p.raw
	p.raw = nil
	for _, ev := range waiting {
		p.see(context.Background(), ev)
	}
}

func (p *Person) see(ctx context.Context, ev *event.Event) {
	secret := ev.Type == event.EventEncrypted
	if secret {
		p.keys.Lock()
		clear, err := p.mach.DecryptMegolmEvent(ctx, ev)
		p.keys.Unlock()
		if err != nil {
			p.raw = append(p.raw, ev)
			return
		}
		ev = clear
	}
	switch c := ev.Content.Parsed.(type) {
	case *event.MessageEventContent:
		if old := p.by[c.RelatesTo.GetReplaceID()]; old != nil {
			old.Edits++
			old.Body, old.HTML, old.Content = c.NewContent.Body, c.NewContent.FormattedBody, c.NewContent
			return
		}
		s := &Seen{
			ID: ev.ID, Room: ev.RoomID, Thread: c.RelatesTo.GetThreadParent(), Sender: ev.Sender, Body: c.Body, HTML: c.FormattedBody,
			Type: c.MsgType, Secret: secret, Content: c, Raw: ev.Content.Raw,
		}
		p.seen, p.by[ev.ID] = append(p.seen, s), s
	case *event.ReactionEventContent:
		if on := p.by[c.RelatesTo.EventID]; on != nil {
			on.Emoji = append(on.Emoji, c.RelatesTo.Key)
		}
	case *event.RedactionEventContent:
		if old := p.by[ev.Redacts]; old != nil {
			old.Gone = true
		}
	}
}

// All lists what the person sees of a room, by anybody or by one.
func (p *Person) All(room id.RoomID, by ...id.UserID) []Seen {
	p.mu.Lock()
	defer p.mu.Unlock()
	var all []Seen
	for _, s := range p.seen {
		if s.Room == room && (len(by) == 0 || slices.Contains(by, s.Sender)) {
			all = append(all, *s)
		}
	}
	return all
}

// revival starts the homeserver anew, once, when half of the patience has passed: after a
// kill this one stands still now and then, and shows nobody what it has taken.
func (p *Person) revival(t testing.TB) func() {
	at, done := time.Now().Add(patience/2), false
	return func() {
		if done || time.Now().Before(at) {
			return
		}
		done = true
		t.Logf("nothing new at %s for %s: the homeserver is started anew", p.ID, patience/2)
		p.server.Kill()
		p.server.Up(t)
	}
}

// Wait waits until the person sees a message of a room that is as wanted, and
// fails the test after a while.
func (p *Person) Wait(t testing.TB, what string, room id.RoomID, want func(Seen) bool) Seen {
	t.Helper()
	deadline := time.Now().Add(patience)
	revive := p.revival(t)
	for time.Now().Before(deadline) {
		revive()
		for _, s := range p.All(room) {
			if want(s) {
				return s
			}
		}
		time.Sleep(10 * time.Millisecond)
	}
	var bodies []string
	for _, s := range p.All(room) {
		bodies = append(bodies, string(s.Sender)+": "+s.Body)
	}
	t.Fatalf("%s does not see %s; in the room is %q", p.ID, what, bodies)
	return Seen{}
}

// Room makes an encrypted room, or an open one, and invites others.
func (p *Person) Room(alias string, encrypted bool, invite ...id.UserID) id.RoomID {
	p.t.Helper()
	req := &mautrix.ReqCreateRoom{RoomAliasName: alias, Invite: invite, Preset: "private_chat"}
	return p.create(req, encrypted)
}

// Direct makes a room to talk to somebody alone.
func (p *Person) Direct(with id.UserID) id.RoomID {
	p.t.Helper()
	return p.create(&mautrix.ReqCreateRoom{IsDirect: true, Invite: []id.UserID{with}, Preset: "trusted_private_chat"}, true)
}

func (p *Person) create(req *mautrix.ReqCreateRoom, encrypted bool) id.RoomID {
	p.t.Helper()
	if encrypted {
		empty := ""
		req.InitialState = []*event.Event{{
			Type: event.StateEncryption, StateKey: &empty,
			Content: event.Content{Parsed: &event.EncryptionEventContent{Algorithm: id.AlgorithmMegolmV1}},
		}}
	}
	resp, err := p.Client.CreateRoom(context.Background(), req)
	must(p.t, err)
	return resp.RoomID
}

// Join enters a room.
func (p *Person) Join(room id.RoomID) {
	p.t.Helper()
	_, err := p.Client.JoinRoomByID(context.Background(), room)
	must(p.t, err)
}

// Members waits until the person knows who is in a room.
func (p *Person) Members(t testing.TB, room id.RoomID, who ...id.UserID) {
	t.Helper()
	revive := p.revival(t)
	for deadline := time.Now().Add(patience); time.Now().Before(deadline); time.Sleep(10 * time.Millisecond) {
		revive()
		missing := slices.ContainsFunc(who, func(u id.UserID) bool { return !p.Client.StateStore.IsInRoom(context.Background(), room, u) })
		if !missing {
			return
		}
	}
	t.Fatalf("%s does not see %v in %s", p.ID, who, room)
}
