package outbox_test

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/chattest"
	"crosslay/internal/outbox"
	"crosslay/internal/sqlite"
)

// poster answers with what it is given, in order, and then shows everything.
type poster struct {
	answers []error
	posted  []chat.Key
	at      []time.Time
}

func (p *poster) Post(_ context.Context, m chat.Message, _ chat.Place, _ chat.Ref) (chat.Ref, error) {
	p.posted = append(p.posted, m.Key)
	p.at = append(p.at, time.Now())
	if len(p.answers) > 0 {
		err := p.answers[0]
		p.answers = p.answers[1:]
		if err != nil {
			return "", err
		}
	}
	return chat.Ref(fmt.Sprintf("r%d", len(p.posted))), nil
}

// finding is a poster with a search.
type finding struct {
	poster
	found  chat.Ref
	err    error
	asked  int
	places []chat.Place
}

func (f *finding) Find(_ context.Context, _ chat.Message, place chat.Place, _ time.Time) (chat.Ref, bool, error) {
	f.asked++
	f.places = append(f.places, place)
	err := f.err
	f.err = nil
	return f.found, f.found != "" && err == nil, err
}

var noon = time.Date(2026, 3, 8, 12, 0, 0, 0, time.UTC)

func queued(t *testing.T, messages ...chat.Message) *sqlite.Store {
	t.Helper()
	s, err := sqlite.Open(filepath.Join(t.TempDir(), "c.db"), sqlite.Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	enqueue(t, s, messages...)
	return s
}

func enqueue(t *testing.T, s *sqlite.Store, messages ...chat.Message) {
	t.Helper()
	e := chat.Event{Backend: "fake", ID: string(messages[0].Key), Said: noon, Arrived: noon}
	if _, err := s.Receive(t.Context(), "fake", chat.Batch{Events: []chat.Event{e}}); err != nil {
		t.Fatal(err)
	}
	_, err := s.Decide(t.Context(), func(bot.Tx, chat.Event) (bot.Outcome, error) {
		return bot.Outcome{Messages: messages}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func state(t *testing.T, s *sqlite.Store, key chat.Key) sqlite.Outgoing {
	t.Helper()
	list, err := s.Outgoing(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range list {
		if o.Message.Key == key {
			return o
		}
	}
	t.Fatalf("no message %s", key)
	return sqlite.Outgoing{}
}

func step(t *testing.T, s *outbox.Sender, now time.Time) bool {
	t.Helper()
	worked, err := s.Step(t.Context(), now)
	if err != nil {
		t.Fatal(err)
	}
	return worked
}

// TestWhatAnErrorComesTo: each answer of a service, for each kind of backend.
func TestWhatAnErrorComesTo(t *testing.T) {
	unsure := fmt.Errorf("post: %w", chat.ErrUnsure)
	cases := map[string]struct {
		answer error
		finds  bool
		state  outbox.State
		doubt  bool
		next   time.Duration // until it is tried again; 0 never
	}{
		"refused":          {fmt.Errorf("too long: %w", chat.ErrRefused), false, outbox.Refused, false, 0},
		"wait":             {fmt.Errorf("post: %w", chat.Wait{For: 40 * time.Second}), false, outbox.Ready, false, 40 * time.Second},
		"not_arrived":      {errors.New("connection refused"), false, outbox.Ready, false, 2 * time.Second},
		"unsure_blind":     {unsure, false, outbox.Uncertain, false, 0},
		"unsure_finder":    {unsure, true, outbox.Sending, true, 3 * time.Second},
		"canceled_finder":  {context.Canceled, true, outbox.Sending, true, 3 * time.Second},
		"timed_out_blind":  {context.DeadlineExceeded, false, outbox.Uncertain, false, 0},
		"refused_as_wrapd": {errors.Join(errors.New("room gone"), chat.ErrRefused), true, outbox.Refused, false, 0},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			f := &finding{poster: poster{answers: []error{c.answer}}}
			var backend outbox.Poster = &f.poster
			if c.finds {
				backend = f
			}
			s := queued(t, message("a", "#a"))
			var heard []error
			sender := outbox.New(s, map[string]outbox.Poster{"fake": backend},
				outbox.Options{Report: func(err error) { heard = append(heard, err) }})
			step(t, sender, noon)
			if o := state(t, s, "a"); o.State != c.state || o.Doubt != c.doubt || o.Reason == "" {
				t.Errorf("it is %s, doubt %v, reason %q", o.State, o.Doubt, o.Reason)
			}
			if len(heard) != 1 || !strings.Contains(heard[0].Error(), "a to fake #a ") {
				t.Errorf("the operator heard %v", heard)
			}
			again(t, s, sender, c.next)
		})
	}
}

// again: after the pause it is sent, not before; or never.
func again(t *testing.T, s *sqlite.Store, sender *outbox.Sender, pause time.Duration) {
	t.Helper()
	if pause == 0 {
		if next, err := sender.Next(t.Context()); !next.IsZero() || err != nil || step(t, sender, noon.Add(time.Hour)) {
			t.Errorf("it is tried again at %v, error %v", next, err)
		}
		return
	}
	if step(t, sender, noon.Add(pause-time.Millisecond)) {
		t.Error("it was tried again too early")
	}
	if next, err := sender.Next(t.Context()); !next.Equal(noon.Add(pause)) || err != nil {
		t.Errorf("next is %v, error %v", next, err)
	}
	step(t, sender, noon.Add(pause))
	if o := state(t, s, "a"); o.State != outbox.Sent || o.Ref == "" {
		t.Errorf("in the end it is %s with ref %q: %s", o.State, o.Ref, o.Reason)
	}
}

func TestBackOffDoublesUpToALimit(t *testing.T) {
	p := &poster{answers: make([]error, 12)}
	for i := range p.answers {
		p.answers[i] = errors.New("down")
	}
	s := queued(t, message("a", "#a"), message("b", "#a"))
	sender := outbox.New(s, map[string]outbox.Poster{"fake": p}, outbox.Options{})
	now := noon
	var pauses []time.Duration
	for range p.answers {
		step(t, sender, now)
		next, err := sender.Next(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		pauses = append(pauses, next.Sub(now))
		now = next
	}
	for i, want := range map[int]time.Duration{0: 2 * time.Second, 1: 4 * time.Second, 5: 64 * time.Second, 11: 5 * time.Minute} {
		if pauses[i] != want {
			t.Errorf("pause %d is %s, want %s", i, pauses[i], want)
		}
	}
	for step(t, sender, now) {
	}
	if len(p.posted) != 14 || p.posted[12] != "a" || p.posted[13] != "b" {
		t.Errorf("posted %v, want a 13 times and then b", p.posted)
	}
}

// TestFoundIsAdopted: what the search finds is not sent again; the search gets
// time to see it, and is asked again if it fails.
func TestFoundIsAdopted(t *testing.T) {
	f := &finding{poster: poster{answers: []error{chat.ErrUnsure}}, found: "r7", err: errors.New("search is down")}
	s := queued(t, message("a", "#a"))
	sender := outbox.New(s, map[string]outbox.Poster{"fake": f}, outbox.Options{})
	now := noon
	for range 10 {
		step(t, sender, now)
		now = now.Add(time.Second)
	}
	if o := state(t, s, "a"); o.State != outbox.Sent || o.Ref != "r7" || len(f.posted) != 1 || f.asked != 2 {
		t.Errorf("it is %s with ref %q, posted %d times, searched %d times", o.State, o.Ref, len(f.posted), f.asked)
	}
}

// TestRestartGivesTheServiceTime: what was in the air when the bot was killed may
// still be landing when it is back.
func TestRestartGivesTheServiceTime(t *testing.T) {
	s := queued(t, message("a", "#a"))
	if _, _, err := s.Claim(t.Context(), noon); err != nil {
		t.Fatal(err)
	}
	f := &finding{}
	sender := outbox.New(s, map[string]outbox.Poster{"fake": f}, outbox.Options{})
	for now := noon; now.Before(noon.Add(3 * time.Second)); now = now.Add(time.Second) {
		step(t, sender, now)
		if f.asked+len(f.posted) > 0 {
			t.Fatalf("searched or sent at %s", now.Sub(noon))
		}
	}
	step(t, sender, noon.Add(3*time.Second))
	if f.asked != 1 || len(f.posted) != 1 {
		t.Errorf("searched %d times, posted %d times", f.asked, len(f.posted))
	}
}

// TestUnknownBackendWaits: a message is not lost because a backend was taken out
// of the file for a while.
func TestUnknownBackendWaits(t *testing.T) {
	s := queued(t, message("a", "#a"))
	sender := outbox.New(s, nil, outbox.Options{})
	step(t, sender, noon)
	if o := state(t, s, "a"); o.State != outbox.Ready || !strings.Contains(o.Reason, `no backend "fake"`) {
		t.Errorf("it is %s: %s", o.State, o.Reason)
	}
}

// TestRun sends what is there, wakes for what is put in later and after a wait,
// and ends with its context.
func TestRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := queued(t, message("a", "#a"), message("b", "#b"))
		p := &poster{answers: []error{nil, chat.Wait{For: time.Minute}}}
		sender := outbox.New(s, map[string]outbox.Poster{"fake": p}, outbox.Options{Workers: 1})
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error)
		began := time.Now()
		go func() { ended <- sender.Run(ctx) }()
		time.Sleep(30 * time.Second)
		enqueue(t, s, message("c", "#a"))
		sender.Kick()
		sender.Kick()
		time.Sleep(time.Hour)
		cancel()
		if err := <-ended; !errors.Is(err, context.Canceled) {
			t.Errorf("it ended with %v", err)
		}
		want := map[chat.Key]time.Duration{"a": 0, "c": 30 * time.Second, "b": time.Minute}
		last := map[chat.Key]time.Duration{}
		for i, key := range p.posted {
			last[key] = p.at[i].Sub(began)
		}
		for key, after := range want {
			if last[key] != after {
				t.Errorf("%s was sent after %s, want %s", key, last[key], after)
			}
		}
	})
}

// TestShuttingDownKeepsWhatIsKnown: the answer of a service is written even if
// the context ended while it was on its way.
func TestShuttingDownKeepsWhatIsKnown(t *testing.T) {
	s := queued(t, message("a", "#a"))
	ctx, cancel := context.WithCancel(t.Context())
	service := &chattest.Service{Attempt: func(chat.Message) chattest.Fate { cancel(); return chattest.Shows }}
	sender := outbox.New(s, map[string]outbox.Poster{"fake": chattest.Blind{Service: service}}, outbox.Options{})
	if _, err := sender.Step(ctx, noon); err != nil {
		t.Fatal(err)
	}
	if o := state(t, s, "a"); o.State != outbox.Sent {
		t.Errorf("it is %s: %s", o.State, o.Reason)
	}
}

// full is a queue on a disk that is full for a while.
type full struct {
	outbox.Queue
	times int
}

func (q *full) Settle(ctx context.Context, key chat.Key, v outbox.Verdict) error {
	if q.times--; q.times >= 0 {
		return errors.New("the disk is full")
	}
	return q.Queue.Settle(ctx, key, v)
}

// TestSettledWhenTheDiskHasRoomAgain: the message is not sent again, and its room
// goes on.
func TestSettledWhenTheDiskHasRoomAgain(t *testing.T) {
	s := queued(t, message("a", "#a"), message("b", "#a"))
	p := &poster{}
	var told []chat.Key
	sender := outbox.New(&full{Queue: s, times: 3}, map[string]outbox.Poster{"fake": p},
		outbox.Options{Sent: func(key chat.Key) { told = append(told, key) }})
	failed := 0
	for range 8 {
		if _, err := sender.Step(t.Context(), noon); err != nil {
			failed++
		}
	}
	if diff := cmp.Diff([]chat.Key{"a", "b"}, p.posted); diff != "" || failed != 3 {
		t.Errorf("%d steps failed; posted (-want +got):\n%s", failed, diff)
	}
	if diff := cmp.Diff([]chat.Key{"a", "b"}, told); diff != "" {
		t.Errorf("told of (-want +got):\n%s", diff)
	}
}

// slow takes a minute for one room, and counts who is in it at the same time.
type slow struct {
	mu     sync.Mutex
	inside map[string]int
	at     map[chat.Key]time.Duration
	began  time.Time
	most   int
}

func (p *slow) Post(ctx context.Context, m chat.Message, place chat.Place, _ chat.Ref) (chat.Ref, error) {
	p.enter(place.Room, 1)
	defer p.enter(place.Room, -1)
	if place.Room == "#slow" {
		time.Sleep(20 * time.Second)
	}
	if place.Room == "#hangs" {
		<-ctx.Done()
		return "", ctx.Err()
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.at[m.Key] = time.Since(p.began)
	return chat.Ref(m.Key), nil
}

func (p *slow) enter(room string, by int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.inside[room] += by
	p.most = max(p.most, p.inside[room])
}

// TestSlowRoomsDelayNoOther: each room has one message in flight, and one that
// hangs is given up.
func TestSlowRoomsDelayNoOther(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := queued(t, message("h", "#hangs"), message("s1", "#slow"), message("s2", "#slow"), message("a", "#a"), message("b", "#b"))
		p := &slow{inside: map[string]int{}, at: map[chat.Key]time.Duration{}, began: time.Now()}
		ctx, cancel := context.WithCancel(t.Context())
		ended := make(chan error)
		sender := outbox.New(s, map[string]outbox.Poster{"fake": p}, outbox.Options{})
		go func() { ended <- sender.Run(ctx) }()
		time.Sleep(2 * time.Minute)
		enqueue(t, s, message("s3", "#slow"), message("c", "#c")) // all are idle
		sender.Kick()
		time.Sleep(time.Minute)
		cancel()
		<-ended
		want := map[chat.Key]time.Duration{
			"a": 0, "b": 0, "s1": 20 * time.Second, "s2": 40 * time.Second,
			"c": 2 * time.Minute, "s3": 2*time.Minute + 20*time.Second,
		}
		if diff := cmp.Diff(want, p.at); diff != "" || p.most != 1 {
			t.Errorf("%d at a time in one room; sent (-want +got):\n%s", p.most, diff)
		}
		if o := state(t, s, "h"); o.State != outbox.Uncertain {
			t.Errorf("what hangs is %s: %s", o.State, o.Reason)
		}
	})
}
