package chattest

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"crosslay/bot/chat"
)

// Poster is a backend on the bench; it is what the outbox asks for.
type Poster interface {
	Post(ctx context.Context, m chat.Message, place chat.Place, target chat.Ref) (chat.Ref, error)
}

// Keyed is the mark of a backend for which the same key twice is harmless.
type Keyed interface{ Keyed() bool }

// Finder is a backend that can be searched by key.
type Finder interface {
	Find(ctx context.Context, m chat.Message, place chat.Place, since time.Time) (chat.Ref, bool, error)
}

// Bench is a backend on the test bench: the backend, how to see what its service
// shows, and a room that exists there.
type Bench struct {
	Name  string // of the backend, as in Place.Backend
	Room  string
	Post  Poster
	Shown func() []Shown
	// Plain is whether Shown has Messages as handed in; if not, the suite looks
	// at what the service shows only by count, place and Key.
	Plain bool
	// NoRefusal is set for a backend that has every room.
	NoRefusal bool
	// NoEdits is set for a backend that cannot edit in place and shows the new
	// text as a further message.
	NoEdits bool
}

// Suite runs what every backend must pass; open makes a backend to an empty service.
func Suite(t *testing.T, open func(t *testing.T) Bench) {
	cases := map[string]func(*testing.T, Bench){
		"post":              posts,
		"refs_differ":       refsDiffer,
		"thread":            threads,
		"edit_in_place":     edits,
		"same_key_twice":    sameKeyTwice,
		"find_by_key":       findByKey,
		"odd_texts":         oddTexts,
		"unknown_room":      unknownRoom,
		"choices_and_roles": choices,
		"ended_context":     ended,
	}
	for name, f := range cases {
		t.Run(name, func(t *testing.T) { f(t, open(t)) })
	}
}

func (b Bench) place() chat.Place { return chat.Place{Backend: b.Name, Room: b.Room} }

func (b Bench) message(key chat.Key, lines ...string) chat.Message {
	return chat.Message{Key: key, Kind: chat.Echo, Place: b.place(), Blocks: []chat.Block{chat.Text(chat.Body, lines...)}}
}

func (b Bench) post(t *testing.T, m chat.Message, place chat.Place, target chat.Ref) chat.Ref {
	t.Helper()
	ref, err := b.Post.Post(t.Context(), m, place, target)
	if err != nil {
		t.Fatalf("post %s: %v", m.Key, err)
	}
	if ref == "" {
		t.Fatalf("post %s: no ref", m.Key)
	}
	return ref
}

func (b Bench) count(t *testing.T, want int) []Shown {
	t.Helper()
	shown := b.Shown()
	if len(shown) != want {
		t.Fatalf("%d messages are shown, want %d", len(shown), want)
	}
	return shown
}

func (b Bench) text(t *testing.T, s Shown, want string) {
	t.Helper()
	if b.Plain && s.Message.Plain() != want {
		t.Errorf("shown is %q, want %q", s.Message.Plain(), want)
	}
}

func posts(t *testing.T, b Bench) {
	ref := b.post(t, b.message("k/1", "saw: fuel full"), b.place(), "")
	shown := b.count(t, 1)[0]
	if shown.Ref != ref || shown.Place.Room != b.Room || shown.Place.Thread != "" {
		t.Errorf("shown %s in %+v, want %s in %s", shown.Ref, shown.Place, ref, b.Room)
	}
	b.text(t, shown, "saw: fuel full")
}

func refsDiffer(t *testing.T, b Bench) {
	one := b.post(t, b.message("k/1", "same"), b.place(), "")
	two := b.post(t, b.message("k/2", "same"), b.place(), "")
	if one == two {
		t.Errorf("both messages have the ref %s", one)
	}
	b.count(t, 2)
}

func threads(t *testing.T, b Bench) {
	root := b.post(t, b.message("k/1", "root"), b.place(), "")
	place := b.place()
	place.Thread = root
	b.post(t, b.message("k/2", "below"), place, "")
	if below := b.count(t, 2)[1]; below.Place.Thread != root {
		t.Errorf("shown in thread %q, want %q", below.Place.Thread, root)
	}
}

func edits(t *testing.T, b Bench) {
	if b.NoEdits {
		t.Skip("the backend shows a new text as a further message")
	}
	ref := b.post(t, b.message("k/1", "old"), b.place(), "")
	edit := b.message("k/1/edit/1", "new")
	edit.Edits = "k/1"
	for range 2 { // repeating an edit is harmless
		if again := b.post(t, edit, b.place(), ref); again != ref {
			t.Errorf("the edited message has the ref %s, want %s", again, ref)
		}
	}
	b.text(t, b.count(t, 1)[0], "new")
}

func sameKeyTwice(t *testing.T, b Bench) {
	if k, ok := b.Post.(Keyed); !ok || !k.Keyed() {
		t.Skip("the backend does not go by keys")
	}
	one := b.post(t, b.message("k/1", "once"), b.place(), "")
	two := b.post(t, b.message("k/1", "once"), b.place(), "")
	if one != two {
		t.Errorf("the same message has the refs %s and %s", one, two)
	}
	b.count(t, 1)
}

func findByKey(t *testing.T, b Bench) {
	finder, ok := b.Post.(Finder)
	if !ok {
		t.Skip("the backend cannot search")
	}
	since := time.Now().Add(-time.Hour)
	root := b.post(t, b.message("k/1", "root"), b.place(), "")
	thread := b.place()
	thread.Thread = root
	below := b.post(t, b.message("k/2", "below"), thread, "")
	cases := map[string]struct {
		key   chat.Key
		place chat.Place
		want  chat.Ref
	}{
		"room":   {"k/1", b.place(), root},
		"thread": {"k/2", thread, below},
		"absent": {"k/3", b.place(), ""},
		"prefix": {"k/", b.place(), ""},
	}
	for name, c := range cases {
		ref, found, err := finder.Find(t.Context(), b.message(c.key, "x"), c.place, since)
		if err != nil || ref != c.want || found != (c.want != "") {
			t.Errorf("%s: found %q %v %v, want %q", name, ref, found, err, c.want)
		}
	}
}

// Odd are texts that services like to mangle or refuse.
var Odd = map[string]string{
	"markup":  "a < b & c > d *not bold* _nor slanted_ `nor code` ~nor struck~",
	"mention": "@channel @room <!here> #station-1",
	"link":    "see example.invalid/a?b=c&d=e [x](y)",
	"emoji":   "👍🏽 👩‍🚒 ½ ≥ ″",
	"rtl":     "מים ماء",
	"quotes":  `"quoted" 'single' \back\slash %s %d {{x}}`,
	"control": "bell\a and escape\x1b[31m red",
	"long":    strings.Repeat("sixty characters of text that go on and on and never stop. ", 50),
}

func oddTexts(t *testing.T, b Bench) {
	for name, text := range Odd {
		ref, err := b.Post.Post(t.Context(), b.message(chat.Key("odd/"+name), text), b.place(), "")
		if err != nil || ref == "" {
			t.Errorf("%s: ref %q, error %v", name, ref, err)
		}
	}
	b.count(t, len(Odd))
}

func unknownRoom(t *testing.T, b Bench) {
	if b.NoRefusal {
		t.Skip("the backend has every room")
	}
	place := b.place()
	place.Room = "no-such-room"
	if _, err := b.Post.Post(t.Context(), b.message("k/1", "x"), place, ""); !errors.Is(err, chat.ErrRefused) {
		t.Errorf("error %v, want one that is chat.ErrRefused", err)
	}
	b.count(t, 0)
}

func choices(t *testing.T, b Bench) {
	m := b.message("k/1", "Which saw?")
	m.Blocks = append(m.Blocks, chat.Text(chat.Title, "Truck 9"), chat.Text(chat.List, "1 fuel", "2 chain"),
		chat.Text(chat.Hint, "open the cap and look"), chat.Text(chat.Safety, "No smoking."), chat.Text(chat.Body))
	m.Choices = []chat.Choice{{Label: "saw 1", Say: "saw 1"}, {Label: "saw 2", Say: "saw 2"}}
	b.post(t, m, b.place(), "")
	b.count(t, 1)
}

// ended: whatever an ended context leaves behind, a backend must not claim that
// the message was shown, nor that it was refused.
func ended(t *testing.T, b Bench) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := b.Post.Post(ctx, b.message("k/1", "x"), b.place(), "")
	if errors.Is(err, chat.ErrRefused) {
		t.Errorf("error %v for an ended context", err)
	}
	if err == nil {
		b.count(t, 1)
	}
}
