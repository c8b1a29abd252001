package slack

import (
	"testing"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

// TestHeard: whatever a person does comes in as the event that it is.
func TestHeard(t *testing.T) {
	const room = "#station-1"
	cases := map[string]struct {
		does func(w *bench, prompt string) (ref string)
		want chat.Event // Ref and Target: "root" for the prompt, "own" for what does returns
	}{
		"said_in_the_channel": {
			func(w *bench, _ string) string { return w.Say(w.ines, w.station, "", "status <3") },
			chat.Event{Kind: chat.Said, Ref: "own", Text: "status <3", Place: chat.Place{Room: room}}},
		"said_in_the_thread": {
			func(w *bench, root string) string { return w.Say(w.ines, w.station, root, "1-4 ok") },
			chat.Event{Kind: chat.Said, Ref: "own", Text: "1-4 ok", Place: chat.Place{Room: room, Thread: "root"}}},
		"bot_called_by_name": {
			func(w *bench, root string) string { return w.Say(w.ines, w.station, root, w.Mention()+" all good") },
			chat.Event{Kind: chat.Said, Ref: "own", Text: "all good", Place: chat.Place{Room: room, Thread: "root"}}},
		"said_to_the_bot_alone": {
			func(w *bench, _ string) string { return w.Say(w.ines, w.Direct(w.ines), "", "status") },
			chat.Event{Kind: chat.Said, Ref: "own", Text: "status", Place: chat.Place{Room: "direct", Direct: true}}},
		"thumbs_up": {
			func(w *bench, root string) string { w.React(w.ines, w.station, root, "+1::skin-tone-3"); return "" },
			chat.Event{Kind: chat.Reacted, Target: "root", Emoji: "👍🏼", Place: chat.Place{Room: room}}},
		"button": {
			func(w *bench, root string) string { return w.click(root, "All good") },
			chat.Event{Kind: chat.Chosen, Target: "root", Text: "all good", Place: chat.Place{Room: room, Thread: "root"}}},
		"button_that_asks": {
			func(w *bench, root string) string {
				w.click(root, "Report a fault")
				return w.send(map[string]string{"rest": "left hose has a nick"})
			},
			chat.Event{Kind: chat.Chosen, Target: "root", Text: "left hose has a nick", Place: chat.Place{Room: room, Thread: "root"}}},
		"form": {
			func(w *bench, root string) string {
				w.click(root, "Fill in the form")
				return w.send(map[string]string{"n/1/": "3/4", "n/5/min": "6", "rest": "left hose has a nick"})
			},
			chat.Event{Kind: chat.Chosen, Target: "root", Text: "1 3/4, 2 low, 5 6 min\nleft hose has a nick", Place: chat.Place{Room: room, Thread: "root"}}},
		"slash_command": {
			func(w *bench, _ string) string { return w.slash("status Engine 1") },
			chat.Event{Kind: chat.Said, Text: "status Engine 1", Place: chat.Place{Room: room}}},
		"photo": {
			func(w *bench, root string) string {
				return w.Say(w.ines, w.station, root, "left hose", slackdouble.Upload{Name: "nick.jpg", Data: []byte("\xff\xd8\xff\xe0 jpeg")})
			},
			chat.Event{Kind: chat.Said, Ref: "own", Text: "left hose", Place: chat.Place{Room: room, Thread: "root"}, Pics: []chat.Picture{{Name: "nick.jpg"}}}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			onBench(t, slackdouble.Options{}, func(w *bench) {
				root := string(w.post(prompt("prompt/E1/2026-11-25/C"), w.place()))
				own := c.does(w, root)
				w.settle()
				w.same(w.only(), c.want, root, own)
				w.quiet()
			})
		})
	}
}

func (w *bench) click(ts, button string) string {
	w.t.Helper()
	if err := w.Click(w.ines, w.station, ts, button); err != nil {
		w.t.Fatal(err)
	}
	return ""
}

// send fills in the dialog that is open and sends it.
func (w *bench) send(values map[string]string) string {
	w.t.Helper()
	views := w.Views(w.ines)
	if len(views) != 1 {
		w.t.Fatalf("%d dialogs are open; %v", len(views), w.troubles())
	}
	if _, err := w.SubmitView(w.ines, views[0].ID, values); err != nil {
		w.t.Fatal(err)
	}
	return ""
}

func (w *bench) slash(words string) string {
	w.t.Helper()
	if _, err := w.Slash(w.ines, w.station, words); err != nil {
		w.t.Fatal(err)
	}
	return ""
}

func (w *bench) same(got, want chat.Event, root, own string) {
	w.t.Helper()
	as := func(r chat.Ref) chat.Ref {
		switch r {
		case "root":
			return chat.Ref(root)
		case "own":
			return chat.Ref(own)
		}
		return r
	}
	want.Place.Backend, want.Place.Thread = Name, as(want.Place.Thread)
	if want.Place.Direct {
		want.Place.Room = w.Direct(w.ines)
	}
	if got.Kind != want.Kind || got.Place != want.Place || got.Text != want.Text || got.Emoji != want.Emoji ||
		got.Ref != as(want.Ref) || got.Target != as(want.Target) || len(got.Pics) != len(want.Pics) {
		w.t.Errorf("heard\n%+v, want\n%+v", got, want)
	}
	if got.Author != w.ines || got.Name != "ines" || got.Backend != Name || got.ID == "" {
		w.t.Errorf("heard of %q %q at %q as %q", got.Author, got.Name, got.Backend, got.ID)
	}
	if age := time.Since(got.Said); got.Said.IsZero() || age < 0 || age > time.Minute || got.Arrived.Before(got.Said.Add(-time.Second)) {
		w.t.Errorf("said at %s, arrived at %s", got.Said, got.Arrived)
	}
	if len(want.Pics) > 0 && (got.Pics[0].Name != want.Pics[0].Name || got.Pics[0].Type != "image/jpeg") {
		w.t.Errorf("pictures %+v", got.Pics)
	}
}

// quiet holds that nothing was reported.
func (w *bench) quiet() {
	w.t.Helper()
	for _, err := range w.troubles() {
		w.t.Errorf("reported: %v", err)
	}
}

// TestCorrected: what people do to what they have said.
func TestCorrected(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		root := string(w.post(prompt("prompt/E1/2026-11-25/C"), w.place()))
		ts := w.Say(w.ines, w.station, root, "all good")
		w.settle()
		w.only()
		w.Unfurl(w.station, ts)
		w.settle()
		if events := w.in.heard(); len(events) != 0 {
			t.Errorf("an unfurled link is heard as %+v", events)
		}
		w.Edit(w.station, ts, "all good but the saw")
		w.settle()
		if ev := w.only(); ev.Kind != chat.Edited || ev.Target != chat.Ref(ts) || ev.Text != "all good but the saw" || ev.Place.Thread != chat.Ref(root) {
			t.Errorf("the edit is heard as %+v", ev)
		}
		w.Delete(w.station, ts)
		w.settle()
		if ev := w.only(); ev.Kind != chat.Deleted || ev.Target != chat.Ref(ts) || ev.Author != w.ines {
			t.Errorf("the deletion is heard as %+v", ev)
		}
		w.React(w.ines, w.station, root, "+1")
		w.Unreact(w.ines, w.station, root, "+1")
		w.settle()
		if events := w.in.heard(); len(events) != 2 || events[1].Kind != chat.Unreacted || events[1].Emoji != "👍" {
			t.Errorf("the thumb taken away is heard as %+v", events)
		}
		w.quiet()
	})
}

// TestCorrected_root: a message that was answered leaves a stone when it goes.
func TestCorrected_root(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		ts := w.Say(w.ines, w.station, "", "Engine 1 all good")
		w.Say(w.ines, w.station, ts, "and the saw")
		w.settle()
		w.in.heard()
		w.Delete(w.station, ts)
		w.settle()
		if ev := w.only(); ev.Kind != chat.Deleted || ev.Target != chat.Ref(ts) || ev.Place.Thread != "" {
			t.Errorf("heard %+v", ev)
		}
	})
}

// TestEdits_come_out_of_order: an older edit that is delivered late does not come
// on top of the newer one, nor anything on top of a deletion.
func TestEdits_come_out_of_order(t *testing.T) {
	m := mark{}
	at := func(kind chat.Kind, stamp string) heard { return heard{Event: chat.Event{Kind: kind}, stamp: stamp} }
	steps := []struct {
		h    heard
		news bool
	}{
		{at(chat.Said, ""), true},
		{at(chat.Edited, "200.000000"), true},
		{at(chat.Edited, "100.000000"), false},
		{at(chat.Edited, "200.000000"), false},
		{at(chat.Said, ""), false},
		{at(chat.Edited, "300.000000"), true},
		{at(chat.Deleted, "400.000000"), true},
		{at(chat.Deleted, "400.000000"), false},
		{at(chat.Edited, "500.000000"), false},
		{at(chat.Reacted, "500.000000"), false},
	}
	for i, s := range steps {
		m = markOf(m.String()) // as it comes back from the store
		if got := m.take(s.h); got != s.news {
			t.Errorf("step %d, %s %s: news %v, want %v", i, s.h.Kind, s.h.stamp, got, s.news)
		}
	}
}

// TestHands: of one person's reaction each turn counts once, whatever comes twice
// or late.
func TestHands(t *testing.T) {
	var m mark
	hand := func(kind chat.Kind, stamp string) heard {
		return heard{Event: chat.Event{Kind: kind}, stamp: stamp, hand: handOf("U1", "+1")}
	}
	for i, s := range []struct {
		h    heard
		news bool
	}{
		{hand(chat.Unreacted, "50.000000"), false}, // overtook what it takes back
		{hand(chat.Reacted, "40.000000"), false},
		{hand(chat.Reacted, "100.000000"), true},
		{hand(chat.Reacted, "100.000000"), false},
		{hand(chat.Unreacted, "200.000000"), true},
		{hand(chat.Reacted, "100.000000"), false},
		{hand(chat.Reacted, "300.000000"), true},
	} {
		m = markOf(m.String())
		if got := m.take(s.h); got != s.news {
			t.Errorf("step %d, %s %s: news %v, want %v", i, s.h.Kind, s.h.stamp, got, s.news)
		}
	}
	put, taken := m.shown([]reaction{{Name: "eyes", Users: []string{"U2"}}})
	if len(put) != 1 || put[0] != "U2 eyes" || len(taken) != 1 || taken[0] != "U1 +1" {
		t.Errorf("put %v, taken %v", put, taken)
	}
}

// TestNotStored: what cannot be stored is not acknowledged, and comes again.
func TestNotStored(t *testing.T) {
	onBench(t, slackdouble.Options{Retries: []time.Duration{10 * time.Second, time.Minute}}, func(w *bench) {
		w.in.fill(true)
		w.Say(w.ines, w.station, "", "status")
		time.Sleep(9 * time.Second)
		if events := w.in.heard(); len(events) != 0 {
			t.Fatalf("heard %+v", events)
		}
		w.in.fill(false)
		time.Sleep(2 * time.Minute)
		if ev := w.only(); ev.Text != "status" {
			t.Errorf("heard %+v", ev)
		}
		w.Forget() // the acknowledgements that were held back on purpose
	})
}

// TestTwice: the same event again is the same event.
func TestTwice(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		root := string(w.post(prompt("prompt/E1/2026-11-25/C"), w.place()))
		for _, do := range []func(){
			func() { w.Say(w.ines, w.station, root, w.Mention()+" all good") },
			func() { w.React(w.ines, w.station, root, "+1") },
		} {
			do()
			w.settle()
			w.only()
			w.Redeliver()
			time.Sleep(5 * time.Minute)
			w.Redeliver()
			w.settle()
			if events := w.in.heard(); len(events) != 0 {
				t.Errorf("heard again: %+v", events)
			}
		}
	})
}

// TestOthers: what other bots say, and what Slack itself tells of people coming
// and going, is not said by a crew.
func TestOthers(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		now := stampOf(time.Now())
		for _, event := range []map[string]any{
			{"type": "message", "bot_id": "B0OTHER", "user": "U0OTHER", "text": "all good"},
			{"type": "message", "subtype": "bot_message", "bot_id": "B0OTHER", "text": "all good"},
			{"type": "message", "subtype": "channel_join", "user": w.ines, "text": "has joined the channel"},
			{"type": "message", "subtype": "channel_topic", "user": w.ines, "text": "all good"},
			{"type": "message", "user": "USLACKBOT", "text": "all good"},
			{"type": "message", "user": w.BotUser, "text": "all good"},
			{"type": "message", "user": w.ines, "text": ""},
		} {
			event["channel"], event["ts"], event["event_ts"] = w.station, now, now
			w.Publish(event)
		}
		w.settle()
		if events := w.in.heard(); len(events) != 0 {
			t.Errorf("heard %+v", events)
		}
	})
}
