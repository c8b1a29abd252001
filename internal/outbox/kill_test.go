package outbox_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/chattest"
	"crosslay/internal/outbox"
	"crosslay/internal/sqlite"
)

// The kill runs: a bot that receives, decides and sends is killed at its commit
// points, over and over, while the service that outlives it fails in every way
// it can. Whatever happens, each message is shown once.

var kinds = map[string]func(*chattest.Service) outbox.Poster{
	"keyed":      func(s *chattest.Service) outbox.Poster { return chattest.ByKey{Service: s} },
	"searchable": func(s *chattest.Service) outbox.Poster { return chattest.Searchable{Service: s} },
	"blind":      func(s *chattest.Service) outbox.Poster { return chattest.Blind{Service: s} },
}

func TestKilledAnywhereSendsOnce(t *testing.T) {
	for name, poster := range kinds {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			empty := template(t)
			points := map[string]int{}
			for seed := range uint64(runs) {
				w := newWorld(t, empty, seed, poster)
				w.live()
				for _, fault := range w.faults(name == "blind") {
					t.Errorf("seed %d: %s", seed, fault)
				}
				for p, n := range w.killed {
					points[p] += n
				}
				if t.Failed() {
					return
				}
			}
			everyPoint(t, points, name)
		})
	}
}

// everyPoint holds that the runs killed at every commit point there is.
func everyPoint(t *testing.T, points map[string]int, kind string) {
	t.Helper()
	if runs < 100 {
		return
	}
	names := []string{"receive", "decide", "recover", "claim", "settle sent", "settle ready"}
	if kind == "blind" {
		names = append(names, "settle uncertain")
	} else {
		names = append(names, "settle sending")
	}
	for _, n := range names {
		for _, when := range []string{"before ", "after "} {
			if points[when+n] == 0 {
				t.Errorf("no run was killed %s%s", when, n)
			}
		}
	}
}

// forgetful is a Finder that does not look.
type forgetful struct{ chattest.Searchable }

func (forgetful) Find(context.Context, chat.Message, chat.Place, time.Time) (chat.Ref, bool, error) {
	return "", false, nil
}

// TestMutantsAreCaught: the runs must be able to fail.
func TestMutantsAreCaught(t *testing.T) {
	mutants := map[string]func(*chattest.Service) outbox.Poster{
		"finder_that_does_not_look": func(s *chattest.Service) outbox.Poster {
			return forgetful{chattest.Searchable{Service: s}}
		},
		"keyed_that_is_not": func(s *chattest.Service) outbox.Poster { return liar{chattest.Blind{Service: s}} },
	}
	for name, poster := range mutants {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			empty := template(t)
			for seed := range uint64(runs) {
				w := newWorld(t, empty, seed, poster)
				w.live()
				if len(w.faults(false)) > 0 {
					return
				}
			}
			t.Errorf("%d runs found nothing wrong with it", runs)
		})
	}
}

// liar claims to go by keys.
type liar struct{ chattest.Blind }

func (liar) Keyed() bool { return true }

// world is one run.
type world struct {
	t       *testing.T
	path    string
	dice    *rand.Rand
	service *chattest.Service
	poster  outbox.Poster
	store   *sqlite.Store
	now     time.Time
	kills   int // still to come
	killed  map[string]int
	script  [][]chat.Message // what each event has sent
}

// template is an empty database, so that not every run has to make one.
func template(t *testing.T) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "empty.db")
	s, err := sqlite.Open(path, sqlite.Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

func newWorld(t *testing.T, empty []byte, seed uint64, poster func(*chattest.Service) outbox.Poster) *world {
	w := &world{
		t: t, path: filepath.Join(t.TempDir(), "c.db"), dice: rand.New(rand.NewPCG(seed, 7)),
		now: time.Date(2026, 3, 8, 12, 0, 0, 0, time.UTC), kills: 8, killed: map[string]int{},
	}
	w.service = &chattest.Service{Wait: 30 * time.Second, Attempt: w.attempt}
	w.poster = poster(w.service)
	if err := os.WriteFile(w.path, empty, 0o600); err != nil {
		t.Fatal(err)
	}
	w.script = script(w.dice)
	return w
}

// script has some prompts with echoes under them and edits of them, in two rooms.
func script(dice *rand.Rand) (events [][]chat.Message) {
	for i := range 2 + dice.IntN(3) {
		room := fmt.Sprintf("#st%d", dice.IntN(2))
		root := chat.Key(fmt.Sprintf("prompt/%d", i))
		events = append(events, []chat.Message{message(root, room)})
		for j := range dice.IntN(3) {
			reply := message(chat.Key(fmt.Sprintf("echo/%d/%d", i, j)), room)
			reply.Under = root
			edit := message(chat.Key(fmt.Sprintf("%s/edit/%d", root, j)), room)
			edit.Edits = root
			events = append(events, []chat.Message{reply, edit})
		}
	}
	return events
}

func message(key chat.Key, room string) chat.Message {
	return chat.Message{
		Key: key, Kind: chat.Echo, Place: chat.Place{Backend: "fake", Room: room}, Tell: true,
		Blocks: []chat.Block{chat.Text(chat.Body, string(key))},
	}
}

func (w *world) attempt(chat.Message) chattest.Fate {
	switch w.dice.IntN(12) {
	case 0:
		return chattest.Fails
	case 1:
		return chattest.Lost
	case 2, 3:
		return chattest.Silent
	case 4:
		return chattest.Asks
	}
	return chattest.Shows
}

type kill struct{}

func (w *world) atCommit(point string) {
	if w.kills > 0 && w.dice.IntN(7) == 0 {
		w.kills--
		w.killed[point]++
		panic(kill{})
	}
}

// live lets the bot live, die and be started again until nothing is left to do.
func (w *world) live() {
	for !w.life() {
		w.now = w.now.Add(time.Duration(w.dice.IntN(5000)) * time.Millisecond)
	}
}

// life is one process; it reports whether it came to the end of its work.
func (w *world) life() (done bool) {
	defer func() {
		if w.store != nil {
			w.store.Close()
		}
		if p := recover(); p != nil {
			if _, killed := p.(kill); !killed {
				panic(p)
			}
		}
	}()
	w.store = nil
	store, err := sqlite.Open(w.path, sqlite.Options{Fast: true, AtCommit: w.atCommit})
	if err != nil {
		w.t.Fatal(err)
	}
	w.store = store
	sender := outbox.New(store, map[string]outbox.Poster{"fake": w.poster}, outbox.Options{})
	for i := range w.script {
		w.hear(i)
		if w.dice.IntN(2) == 0 {
			w.step(sender)
		}
	}
	w.drain(sender)
	w.resolve(sender)
	return true
}

// hear delivers an event, perhaps once more, and decides on what is there.
func (w *world) hear(i int) {
	e := chat.Event{Backend: "fake", ID: fmt.Sprint(i), Kind: chat.Said, Said: w.now, Arrived: w.now, Text: fmt.Sprint(i)}
	if _, err := w.store.Receive(w.t.Context(), "fake", chat.Batch{Events: []chat.Event{e}}); err != nil {
		w.t.Fatal(err)
	}
	w.decide()
}

func (w *world) decide() {
	for more := true; more; {
		var err error
		more, err = w.store.Decide(w.t.Context(), func(_ bot.Tx, e chat.Event) (out bot.Outcome, err error) {
			if e.Kind == chat.Accepted {
				return bot.Outcome{Records: []bot.Record{{ID: "accepted/" + e.ID, Kind: bot.OnPrompt, At: e.Said}}}, nil
			}
			var i int
			_, err = fmt.Sscan(e.Text, &i)
			return bot.Outcome{Messages: w.script[i]}, err
		})
		if err != nil {
			w.t.Fatal(err)
		}
	}
}

func (w *world) step(s *outbox.Sender) bool {
	w.now = w.now.Add(100 * time.Millisecond)
	worked, err := s.Step(w.t.Context(), w.now)
	if err != nil {
		w.t.Fatal(err)
	}
	return worked
}

// drain sends until nothing waits for time alone.
func (w *world) drain(s *outbox.Sender) {
	for range 10_000 {
		if w.step(s) {
			continue
		}
		next, err := s.Next(w.t.Context())
		if err != nil {
			w.t.Fatal(err)
		}
		if next.IsZero() {
			w.decide()
			return
		}
		if next.After(w.now) {
			w.now = next
		}
	}
	w.t.Fatal("there is no end to it")
}

// resolve is the operator who looks at what is uncertain.
func (w *world) resolve(s *outbox.Sender) {
	for {
		list, err := w.store.Outgoing(w.t.Context(), outbox.Uncertain)
		if err != nil {
			w.t.Fatal(err)
		}
		if len(list) == 0 {
			return
		}
		for _, o := range list {
			arrived := w.service.Count(o.Message.Key) == 1
			if err := w.store.Resolve(w.t.Context(), o.Message.Key, arrived, w.now); err != nil {
				w.t.Fatal(err)
			}
		}
		w.drain(s)
	}
}

// faults lists what went wrong in a run that came to its end.
func (w *world) faults(blind bool) (list []string) {
	store, err := sqlite.Open(w.path, sqlite.Options{Fast: true})
	if err != nil {
		w.t.Fatal(err)
	}
	defer store.Close()
	rows, err := store.Outgoing(w.t.Context())
	if err != nil {
		w.t.Fatal(err)
	}
	say := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	sent := map[chat.Key]sqlite.Outgoing{}
	for _, o := range rows {
		sent[o.Message.Key] = o
	}
	for _, m := range slices.Concat(w.script...) {
		o, ok := sent[m.Key]
		switch count := w.service.Count(m.Key); {
		case !ok:
			say("%s was never queued", m.Key)
		case m.Edits != "":
			w.faultsOfEdit(o, blind, say)
		case o.State != outbox.Sent:
			say("%s is %s: %s", m.Key, o.State, o.Reason)
		case count != 1:
			say("%s is shown %d times", m.Key, count)
		}
	}
	w.faultsOfThreads(sent, say)
	w.faultsOfRecords(store, sent, say)
	return list
}

// faultsOfEdit: an edit is sent or overtaken; a blind service that could not say
// what it calls a message cannot have it edited, and the operator is told so.
func (w *world) faultsOfEdit(o sqlite.Outgoing, blind bool, say func(string, ...any)) {
	switch {
	case o.State == outbox.Sent, o.State == outbox.Overtaken:
	case blind && o.State == outbox.Refused && o.Reason != "":
	default:
		say("the edit %s is %s: %s", o.Message.Key, o.State, o.Reason)
	}
}

// faultsOfThreads: replies stand under their root, and a root shows its newest edit.
func (w *world) faultsOfThreads(sent map[chat.Key]sqlite.Outgoing, say func(string, ...any)) {
	newest := map[chat.Key]string{}
	for _, m := range slices.Concat(w.script...) {
		switch state := sent[m.Key].State; {
		case m.Edits == "":
		case state == outbox.Sent:
			newest[m.Edits] = m.Plain()
		case state == outbox.Overtaken:
			newest[m.Edits] = "" // a newer one must come
		case state == outbox.Refused:
			delete(newest, m.Edits)
		}
	}
	for _, s := range w.service.Shown() {
		m := s.Message
		if root := sent[m.Under]; m.Under != "" && s.Place.Thread != root.Ref {
			say("%s stands in thread %q, want %q", m.Key, s.Place.Thread, root.Ref)
		}
		if text, edited := newest[m.Key]; edited && m.Plain() != text {
			say("%s shows %q, want %q", m.Key, m.Plain(), text)
		}
	}
}

// faultsOfRecords: each message that was sent was told of, once.
func (w *world) faultsOfRecords(store *sqlite.Store, sent map[chat.Key]sqlite.Outgoing, say func(string, ...any)) {
	told := map[string]bool{}
	err := store.Records(w.t.Context(), sqlite.Filter{}, func(r bot.Record, _ string) error {
		told[r.ID] = true
		return nil
	})
	if err != nil {
		w.t.Fatal(err)
	}
	for key, o := range sent {
		if is := told["accepted/"+string(key)]; is != (o.State == outbox.Sent) {
			say("%s is %s, and told of as accepted: %v", key, o.State, is)
		}
	}
}
