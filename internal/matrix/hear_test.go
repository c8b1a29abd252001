//go:build goolm

package matrix_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"slices"
	"strings"
	"testing"
	"time"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"crosslay/bot/chat"
	"crosslay/internal/matrix"
	"crosslay/internal/matrix/matrixtest"
)

func drawing(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 7, 5))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// prompt posts a message that people answer in its thread.
func prompt(t *testing.T, b *matrix.Backend, address string, key chat.Key, kind chat.MessageKind, says ...string) id.EventID {
	t.Helper()
	m := chat.Message{Key: key, Kind: kind, Blocks: []chat.Block{chat.Text(chat.Title, "Engine 1"), chat.Text(chat.List, "1 fuel")}}
	for _, s := range says {
		m.Choices = append(m.Choices, chat.Choice{Label: s, Say: s})
	}
	ref, err := b.Post(t.Context(), m, chat.Place{Backend: matrix.Name, Room: address}, "")
	if err != nil {
		t.Fatal(err)
	}
	return id.EventID(ref)
}

func TestRun_hears_what_people_do(t *testing.T) {
	t.Parallel()
	for _, encrypted := range []bool{true, false} {
		t.Run(map[bool]string{true: "encrypted", false: "open"}[encrypted], func(t *testing.T) {
			h := newHouse(t)
			b, _ := h.start(t)
			ana := h.person(t, "ana")
			room, address := h.room(t, ana, "station-1", encrypted)
			root := prompt(t, b, address, "prompt/E1", chat.Prompt, "all good", "on a call")
			ana.Wait(t, "the prompt", room, func(s matrixtest.Seen) bool { return s.ID == root })
			place := chat.Place{Backend: matrix.Name, Room: address}
			thread := place
			thread.Thread = chat.Ref(root)

			open := ana.Say(room, "", "hello all")
			below := ana.Say(room, root, "1 ok")
			ana.Answer(room, root, "2 ok")
			ana.Answer(room, below, "3 ok")
			ana.Edit(room, below, "1 low")
			ana.Photo(room, root, drawing(t), "the nick")
			ana.React(room, root, "🚨")
			other := ana.Say(room, root, "4 low")
			edit := ana.Edit(room, other, "4 ok")
			thumb := ana.React(room, root, "👍🏽")
			h.inbox.wait(t, "the thumb", func(ev chat.Event) bool { return ev.Kind == chat.Reacted })
			ana.Redact(room, edit)
			ana.Redact(room, thumb)
			ana.Redact(room, below)
			ana.Send(room, &event.MessageEventContent{MsgType: event.MsgNotice, Body: "another bot"})
			ana.Send(room, &event.MessageEventContent{MsgType: event.MsgAudio, Body: "voice.ogg", URL: "mxc://localhost/x"})
			ana.Say(room, "", "the end")
			h.inbox.wait(t, "the end", says("the end"))

			want := []chat.Event{
				{Kind: chat.Said, Text: "hello all", Place: place, Ref: chat.Ref(open)},
				{Kind: chat.Said, Text: "1 ok", Place: thread, Ref: chat.Ref(below)},
				{Kind: chat.Said, Text: "2 ok", Place: thread},
				{Kind: chat.Said, Text: "3 ok", Place: thread},
				{Kind: chat.Edited, Text: "1 low", Place: thread, Target: chat.Ref(below)},
				{Kind: chat.Said, Text: "the nick", Place: thread},
				{Kind: chat.Chosen, Text: "on a call", Place: thread, Target: chat.Ref(root), Emoji: "🚨"},
				{Kind: chat.Said, Text: "4 low", Place: thread, Ref: chat.Ref(other)},
				{Kind: chat.Edited, Text: "4 ok", Place: thread, Target: chat.Ref(other)},
				{Kind: chat.Reacted, Place: thread, Target: chat.Ref(root), Emoji: "👍🏽"},
				{Kind: chat.Deleted, Place: thread, Target: chat.Ref(other)},
				{Kind: chat.Unreacted, Place: thread, Target: chat.Ref(root), Emoji: "👍🏽"},
				{Kind: chat.Deleted, Place: thread, Target: chat.Ref(below)},
				{Kind: chat.Lost, Place: place},
				{Kind: chat.Said, Text: "the end", Place: place},
			}
			got := h.inbox.all()
			for i, w := range want {
				if i >= len(got) || !same(got[i], w) {
					t.Fatalf("event %d is\n%+v, want\n%+v", i, at(got, i), w)
				}
			}
			pics := got[5].Pics
			if len(pics) != 1 {
				t.Fatalf("%d pictures, want 1", len(pics))
			}
			data, err := b.Fetch(t.Context(), pics[0])
			if err != nil || !bytes.Equal(data, drawing(t)) {
				t.Errorf("the picture comes back as %d bytes, %v", len(data), err)
			}
		})
	}
}

func at(list []chat.Event, i int) any {
	if i < len(list) {
		return list[i]
	}
	return "missing"
}

// same compares what a case gives of an event; author and times are always there.
func same(got, want chat.Event) bool {
	if want.Ref != "" && got.Ref != want.Ref || got.Author != "@ana:localhost" || got.Said.IsZero() || got.Arrived.IsZero() || got.ID == "" {
		return false
	}
	return got.Kind == want.Kind && got.Text == want.Text && got.Place == want.Place && got.Target == want.Target && got.Emoji == want.Emoji
}

func TestRun_loses_nothing_and_doubles_nothing(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	_, stop := h.start(t)
	ana := h.person(t, "ana")
	room, _ := h.room(t, ana, "station-1", true)
	ana.Say(room, "", "before")
	h.inbox.wait(t, "the first word", says("before"))
	stop()
	const many = 130 // more than any sync brings
	for i := range many {
		ana.Say(room, "", fmt.Sprint("while down ", i))
	}
	h.inbox.fail = errors.New("the disk is full")
	_, stop = h.start(t)
	h.inbox.wait(t, "the last word", says(fmt.Sprint("while down ", many-1)))
	stop()
	h.start(t)
	ana.Say(room, "", "after")
	h.inbox.wait(t, "the word after", says("after"))

	var heard []string
	for _, ev := range h.inbox.all() {
		heard = append(heard, ev.Text)
	}
	want := []string{"before"}
	for i := range many {
		want = append(want, fmt.Sprint("while down ", i))
	}
	if want = append(want, "after"); !slices.Equal(heard, want) {
		t.Errorf("heard %d words, want %d in order:\n%q", len(heard), len(want), heard)
	}
}

func TestRun_leaves_out_what_was_said_before_it_joined(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	ana := h.person(t, "ana")
	h.list("#station-1:localhost")
	room := ana.Room("station-1", false)
	ana.Say(room, "", "long ago")
	h.start(t)
	_, err := ana.Client.InviteUser(t.Context(), room, invite(h.me))
	if err != nil {
		t.Fatal(err)
	}
	ana.Members(t, room, h.me)
	ana.Say(room, "", "now")
	h.inbox.wait(t, "the word after it joined", says("now"))
	if got := h.inbox.all(); len(got) != 1 {
		t.Errorf("heard %+v, want one", got)
	}
}

func TestRun_server_killed(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	b, _ := h.start(t)
	ana := h.person(t, "ana")
	room, address := h.room(t, ana, "station-1", true)
	ana.Say(room, "", "before")
	h.inbox.wait(t, "the word before", says("before"))
	h.Kill()
	m := chat.Message{Key: "k/1", Blocks: []chat.Block{chat.Text(chat.Body, "still here")}}
	place := chat.Place{Backend: matrix.Name, Room: address}
	if _, err := b.Post(t.Context(), m, place, ""); err == nil || errors.Is(err, chat.ErrRefused) || errors.Is(err, chat.ErrUnsure) {
		t.Errorf("while the server is away Post says %v; want that it did not arrive", err)
	}
	h.Up(t)
	if _, err := b.Post(t.Context(), m, place, ""); err != nil {
		t.Fatal(err)
	}
	ana.Wait(t, "the bot's word", room, func(s matrixtest.Seen) bool { return s.Body == "still here" })
	ana.Say(room, "", "after")
	h.inbox.wait(t, "the word after", says("after"))
	if h.inbox.doubles > 0 {
		t.Logf("%d events came again and were known", h.inbox.doubles)
	}
}

func TestRun_direct(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	b, _ := h.start(t)
	ana := h.person(t, "ana")
	room := ana.Direct(h.me)
	ana.Members(t, room, h.me)
	ana.Say(room, "", "status")
	ev := h.inbox.wait(t, "the question", says("status"))
	if !ev.Place.Direct || ev.Place.Room != string(room) {
		t.Fatalf("heard in %+v, want direct in %s", ev.Place, room)
	}
	if _, err := b.Post(t.Context(), chat.Message{Key: "a/1", Blocks: []chat.Block{chat.Text(chat.Body, "all in service")}}, ev.Place, ""); err != nil {
		t.Fatal(err)
	}
	ana.Wait(t, "the answer", room, func(s matrixtest.Seen) bool { return s.Body == "all in service" && s.Secret })
}

func TestRun_room_by_id(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	b, _ := h.start(t)
	ana := h.person(t, "ana")
	room := ana.Room("", true)
	h.list(string(room))
	if _, err := ana.Client.InviteUser(t.Context(), room, invite(h.me)); err != nil {
		t.Fatal(err)
	}
	ana.Members(t, room, h.me)
	ana.Say(room, "", "hello")
	ev := h.inbox.wait(t, "a word", says("hello"))
	if ev.Place != (chat.Place{Backend: matrix.Name, Room: string(room)}) {
		t.Errorf("heard in %+v, want in %s, not in private", ev.Place, room)
	}
	root := prompt(t, b, string(room), "prompt/E1", chat.Prompt)
	ana.Wait(t, "the prompt", room, func(s matrixtest.Seen) bool { return s.ID == root && s.Secret })
}

func TestRun_follows_no_stranger(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.start(t)
	ana := h.person(t, "ana")
	stranger := h.Person(t, "stranger")
	h.list("#shop:localhost")
	shop := stranger.Room("shop", true, h.me)
	alone := stranger.Direct(h.me)
	odd := ana.Room("odd", true, h.me) // known, but not a room of the file
	room, _ := h.room(t, ana, "station-1", true)
	ana.Say(room, "", "done")
	h.inbox.wait(t, "a word", says("done"))
	for _, r := range []id.RoomID{shop, alone} {
		if stranger.Client.StateStore.IsInRoom(t.Context(), r, h.me) {
			t.Errorf("the bot is in %s, to which a stranger invited it", r)
		}
	}
	if ana.Client.StateStore.IsInRoom(t.Context(), odd, h.me) {
		t.Error("the bot is in a room that the file does not have")
	}
	h.mu.Lock()
	h.known[string(stranger.ID)] = true // the file has changed
	h.mu.Unlock()
	ana.Say(room, "", "wake up")
	stranger.Members(t, shop, h.me)
}

func TestRun_waits_for_keys(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.tune = func(c *matrix.Config) { c.Patience = 100 * time.Millisecond }
	b, stop := h.start(t)
	ana := h.person(t, "ana")
	room, address := h.room(t, ana, "station-1", true)
	root := prompt(t, b, address, "prompt/E1", chat.Prompt)
	ana.Wait(t, "the prompt", room, func(s matrixtest.Seen) bool { return s.ID == root })
	give := ana.Withhold(room, h.me)
	secret := ana.Say(room, root, "1 ok")
	ev := h.inbox.wait(t, "that a message is lost", func(ev chat.Event) bool { return ev.Kind == chat.Lost })
	if ev.Place.Thread != chat.Ref(root) || ev.Author != string(ana.ID) {
		t.Errorf("lost in %+v by %s, want in the prompt's thread by ana", ev.Place, ev.Author)
	}
	stop()
	give()
	h.start(t)
	ev = h.inbox.wait(t, "the message whose keys came late", says("1 ok"))
	if ev.ID != string(secret) || ev.Place.Thread != chat.Ref(root) {
		t.Errorf("heard %+v, want it in its place", ev)
	}
	lost := slices.DeleteFunc(h.inbox.all(), func(ev chat.Event) bool { return !strings.HasPrefix(ev.ID, "lost/") })
	if len(lost) != 1 {
		t.Errorf("said %d times that it is lost, want once", len(lost))
	}
}

// TestRun_new_login: another device of the same account goes on where the first
// one stopped, though what was encrypted for that one stays unreadable.
func TestRun_new_login(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.tune = func(c *matrix.Config) { c.Patience = 10 * time.Millisecond }
	_, stop := h.start(t)
	ana := h.person(t, "ana")
	room, _ := h.room(t, ana, "open", false)
	secret, _ := h.room(t, ana, "secret", true)
	ana.Say(room, "", "before")
	h.inbox.wait(t, "the first word", says("before"))
	ana.Say(secret, "", "secret before")
	h.inbox.wait(t, "the first secret word", says("secret before"))
	stop()
	ana.Say(room, "", "meanwhile")
	ana.Say(secret, "", "secret meanwhile")
	login, err := matrix.LogIn(t.Context(), matrix.Credentials{Homeserver: h.URL, User: "bot", Password: matrixtest.Password, Dir: h.dir})
	if err != nil || login.Trouble != nil {
		t.Fatal(err, login.Trouble)
	}
	h.start(t)
	h.inbox.wait(t, "the word said meanwhile", says("meanwhile"))
	h.inbox.wait(t, "that a secret word is lost", func(ev chat.Event) bool { return ev.Kind == chat.Lost })
	ana.Members(t, secret, h.me)
	ana.Forget(t, h.me)
	ana.Say(secret, "", "secret after")
	h.inbox.wait(t, "a secret word to the new device", says("secret after"))
	if got := len(h.inbox.all()); got != 5 {
		t.Errorf("%d events are heard, want 5: %+v", got, h.inbox.all())
	}
}
