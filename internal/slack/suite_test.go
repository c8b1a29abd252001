package slack

import (
	"context"
	"testing"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/chattest"
	"crosslay/internal/outbox"
	"crosslay/internal/slack/slackdouble"
)

var (
	_ outbox.Poster = (*Backend)(nil)
	_ outbox.Finder = (*Backend)(nil)
)

// quick is a pace for tests on the real clock.
var quick = Limits{Channel: 2 * time.Millisecond, Workspace: time.Millisecond, Connect: 10 * time.Millisecond}

// TestSuite runs the suite of all backends against the double, by id and by name
// of the channel; no rule of Slack's is broken in it.
func TestSuite(t *testing.T) {
	for _, room := range []string{"by_id", "by_name"} {
		t.Run(room, func(t *testing.T) {
			chattest.Suite(t, func(t *testing.T) chattest.Bench { return onDouble(t, room == "by_name") })
		})
	}
}

func onDouble(t *testing.T, byName bool) chattest.Bench {
	w := slackdouble.New(t, slackdouble.Options{PostEvery: time.Millisecond, PostBurst: 1000, PerMinute: map[string]int{"chat.postMessage": 100000}})
	id := w.AddChannel("station-1")
	b, err := New(Config{Tokens: Tokens{Bot: w.BotToken, App: w.AppToken}, URL: w.URL(), HTTP: w.Client(), Limits: quick})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		for _, v := range w.Violations() {
			t.Errorf("violation: %v", v)
		}
	})
	room := id
	if byName {
		room = "#station-1"
	}
	return chattest.Bench{Name: Name, Room: room, Post: b, Shown: func() []chattest.Shown { return shown(w, id, room) }}
}

func shown(w *slackdouble.Workspace, id, room string) []chattest.Shown {
	var list []chattest.Shown
	for _, m := range w.All(id) {
		key, _ := m.Payload["key"].(string)
		list = append(list, chattest.Shown{Ref: chat.Ref(m.TS), Message: chat.Message{Key: chat.Key(key)},
			Place: chat.Place{Backend: Name, Room: room, Thread: chat.Ref(m.Thread)}})
	}
	return list
}

func TestNew_needs_a_place_of_its_own_in_tests(t *testing.T) {
	if _, err := New(Config{Tokens: Tokens{Bot: "xoxb-1", App: "xapp-1"}}); err == nil {
		t.Error("a test could reach the real service")
	}
}

func TestPost_fits_the_limits(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		ref := w.post(prompt("prompt/E1/2026-11-25/C"), w.place())
		if n := len(w.Messages(w.station)); n != 1 {
			t.Fatalf("%d messages", n)
		}
		if ref2, found, err := w.b.Find(context.Background(), prompt("prompt/E1/2026-11-25/C"), w.place(), time.Now().Add(-time.Hour)); err != nil || !found || ref2 != ref {
			t.Errorf("found %s %v %v", ref2, found, err)
		}
	})
}
