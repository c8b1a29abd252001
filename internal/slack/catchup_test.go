package slack

import (
	"slices"
	"testing"
	"testing/synctest"
	"time"

	"crosslay/bot/chat"
	"crosslay/internal/slack/slackdouble"
)

// TestCatchUp: the bot is down, people go on, and when it is back it hears all of
// it once, in the order in which it was said.
func TestCatchUp(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		omar := w.AddUser("omar", "Omar Castelan")
		w.Say(w.ines, w.Direct(w.ines), "", "status") // so that the conversation is known
		root := string(w.post(prompt("prompt/E1/2026-11-25/C"), w.place()))
		old := w.Say(w.ines, w.station, root, "all good")
		w.React(omar, w.station, root, "+1")
		w.settle()
		if n := len(w.in.heard()); n != 3 {
			t.Fatalf("heard %d", n)
		}
		w.stop()
		w.settle()

		w.Say(w.ines, w.station, root, "left hose has a nick")
		time.Sleep(time.Minute)
		w.Edit(w.station, old, "all good but the hose")
		time.Sleep(time.Minute)
		w.Say(omar, w.station, "", "on a call")
		w.Say(omar, w.Direct(omar), "", "never heard of") // he has not talked to the bot before
		w.Say(w.ines, w.Direct(w.ines), "", "status Engine 1")
		w.Unreact(omar, w.station, root, "+1")
		w.React(w.ines, w.station, root, "ok_hand")
		time.Sleep(20 * time.Minute)

		w.listen()
		time.Sleep(time.Minute)
		synctest.Wait()
		var got []string
		for _, ev := range w.in.heard() {
			got = append(got, string(ev.Kind)+" "+ev.Text+ev.Emoji)
		}
		want := []string{"said left hose has a nick", "edited all good but the hose", "said on a call", "reacted 👌", "unreacted 👍", "said status Engine 1"}
		if len(got) != len(want) {
			t.Fatalf("heard %q", got)
		}
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("heard %q, want %q", got, want)
				break
			}
		}
		w.Cut() // and once more, with nothing new
		time.Sleep(5 * time.Minute)
		if events := w.in.heard(); len(events) != 0 {
			t.Errorf("heard again %+v", events)
		}
	})
}

// TestCatchUp_never_before_the_start: what was said before the bot was there is
// not its business.
func TestCatchUp_never_before_the_start(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		w.stop()
		w.in.cursors = map[string]string{}
		w.Lose(true)
		w.Say(w.ines, w.station, "", "all good")
		w.Lose(false)
		time.Sleep(time.Minute)
		w.listen()
		time.Sleep(5 * time.Minute)
		w.Cut()
		time.Sleep(5 * time.Minute)
		if events := w.in.heard(); len(events) != 0 {
			t.Errorf("heard %+v", events)
		}
	})
}

// TestCatchUp_old_thread: a defect that waited for parts for weeks is answered
// while the bot is down.
func TestCatchUp_old_thread(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		root := string(w.post(prompt("defect/d1"), w.place()))
		w.Say(w.ines, w.station, root, "waiting for parts")
		time.Sleep(20 * 24 * time.Hour)
		w.in.heard()
		w.stop()
		w.Say(w.ines, w.station, root, "repaired")
		time.Sleep(time.Hour)
		w.listen()
		time.Sleep(time.Minute)
		if ev := w.only(); ev.Text != "repaired" || ev.Place.Thread != chat.Ref(root) {
			t.Errorf("heard %+v", ev)
		}
	})
}

// TestCatchUp_then_late: what the catch-up has told is no news when Slack delivers
// it late.
func TestCatchUp_then_late(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		root := string(w.post(prompt("prompt/E1/2026-11-25/C"), w.place()))
		w.Lose(true)
		ts := w.Say(w.ines, w.station, root, "all good")
		w.Edit(w.station, ts, "all good but the saw")
		w.React(w.ines, w.station, root, "+1")
		w.Cut()
		w.Lose(false)
		time.Sleep(2 * time.Minute)
		if n := len(w.in.heard()); n != 3 { // said as it stands now, its edit, the thumb
			t.Fatalf("heard %d", n)
		}
		w.Publish(map[string]any{"type": "reaction_added", "user": w.ines, "reaction": "+1", "event_ts": stampOf(time.Now().Add(-2 * time.Minute)),
			"item": map[string]any{"type": "message", "channel": w.station, "ts": root}})
		w.Publish(map[string]any{"type": "message", "channel": w.station, "channel_type": "channel", "user": w.ines, "text": "all good",
			"ts": ts, "thread_ts": root, "event_ts": ts})
		w.settle()
		if events := w.in.heard(); len(events) != 0 {
			t.Errorf("heard again %+v", events)
		}
	})
}

// TestCatchUp_in_trouble: a catch-up that fails is made good by the next one.
func TestCatchUp_in_trouble(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		time.Sleep(2 * time.Minute)
		w.Lose(true)
		w.Say(w.ines, w.station, "", "status")
		w.Fail("conversations.history", slackdouble.Status(503))
		w.Cut()
		w.Lose(false)
		time.Sleep(10 * time.Minute)
		if ev := w.only(); ev.Text != "status" {
			t.Errorf("heard %+v", ev)
		}
	})
}

// TestCatchUp_deleted: what was heard before the gap and taken away in it is heard
// as gone, in a thread and in the open channel; what stands is not.
func TestCatchUp_deleted(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		root := string(w.post(prompt("prompt/E1/2026-11-25/C"), w.place()))
		below := w.Say(w.ines, w.station, root, "all good")
		open := w.Say(w.ines, w.station, "", "E1 all good")
		answered := w.Say(w.ines, w.station, "", "E1 fuel full")
		w.Say(w.ines, w.station, answered, "and the saw")
		time.Sleep(5 * time.Minute)
		w.in.heard()
		w.Lose(true)
		for _, ts := range []string{below, open, answered} {
			w.Delete(w.station, ts)
		}
		w.Cut()
		w.Lose(false)
		time.Sleep(5 * time.Minute)
		var gone []string
		for _, ev := range w.in.heard() {
			if ev.Kind != chat.Deleted {
				t.Errorf("heard %+v", ev)
			}
			gone = append(gone, string(ev.Target))
		}
		if len(gone) != 3 || !slices.Contains(gone, below) || !slices.Contains(gone, open) || !slices.Contains(gone, answered) {
			t.Errorf("gone are %v, want %v", gone, []string{below, open, answered})
		}
		w.Cut()
		time.Sleep(5 * time.Minute)
		if events := w.in.heard(); len(events) != 0 {
			t.Errorf("heard again %+v", events)
		}
	})
}

func TestTrack(t *testing.T) {
	var tr track
	begin := time.Date(2026, 11, 25, 7, 0, 0, 0, time.UTC)
	for i := range 1000 {
		tr = trackOf(tr.String())
		tr.heard(utterance{TS: stampOf(begin.Add(time.Duration(i) * 10 * time.Minute))})
	}
	if n := len(tr.Recent); n != mostRecent || tr.Latest != stampOf(begin.Add(9990*time.Minute)) {
		t.Errorf("%d are remembered, the latest %s", n, tr.Latest)
	}
	tr.heard(utterance{TS: stampOf(begin)})
	tr.heard(utterance{TS: stampOf(begin.Add(9 * 24 * time.Hour))})
	if n := len(tr.Recent); n >= mostRecent || instant(tr.Recent[0].TS).Before(begin.Add(6*24*time.Hour)) {
		t.Errorf("%d are remembered, the oldest %s", n, instant(tr.Recent[0].TS))
	}
}

// TestGap_read: whose replies are read, and from when on.
func TestGap_read(t *testing.T) {
	now := time.Date(2026, 11, 25, 7, 0, 0, 0, time.UTC)
	g := &gap{from: now.Add(-time.Hour), now: now, whole: map[string]bool{}}
	at := func(days int, more time.Duration) string { return stampOf(now.AddDate(0, 0, -days).Add(more)) }
	for name, c := range map[string]struct {
		root wrote
		read bool
		from time.Time
	}{
		"not_answered":         {wrote{TS: at(1, 0)}, false, time.Time{}},
		"young":                {wrote{TS: at(1, 0), Thread: at(1, 0), Replies: 2, Latest: at(1, time.Minute)}, true, now.AddDate(0, 0, -1)},
		"old_and_quiet":        {wrote{TS: at(20, 0), Thread: at(20, 0), Replies: 2, Latest: at(10, 0)}, false, g.from},
		"old_and_answered":     {wrote{TS: at(20, 0), Thread: at(20, 0), Replies: 2, Latest: at(0, -time.Minute)}, true, g.from},
		"old_and_not_known":    {wrote{TS: at(20, 0), Thread: at(20, 0), Replies: 2}, true, g.from},
		"reply_to_the_channel": {wrote{TS: at(1, time.Hour), Thread: at(1, 0)}, false, time.Time{}},
	} {
		t.Run(name, func(t *testing.T) {
			from, read := g.read(c.root)
			if read != c.read || read && !from.Equal(c.from) {
				t.Errorf("read %v from %s, want %v from %s", read, from, c.read, c.from)
			}
		})
	}
}

// TestRoomsByName: what is said in a channel that the file has just named is heard
// in its room.
func TestRoomsByName(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		w.Fail("conversations.list", slackdouble.Status(503), slackdouble.LimitOK())
		w.stop()
		w.listen()
		time.Sleep(time.Minute)
		w.Say(w.ines, w.station, "", "status")
		w.settle()
		if ev := w.only(); ev.Place.Room != "#station-1" {
			t.Errorf("heard in %s", ev.Place.Room)
		}
		shop := w.AddChannel("shop", w.ines)
		w.mu.Lock()
		w.rooms = []string{"#station-1", "#shop"}
		w.mu.Unlock()
		time.Sleep(2 * time.Minute)
		w.Say(w.ines, shop, "", "status")
		w.settle()
		if ev := w.only(); ev.Place.Room != "#shop" {
			t.Errorf("heard in %s", ev.Place.Room)
		}
	})
}

// TestCatchUp_comes_first: what was missed in a channel is heard before what is
// said there next, though the catch-up on all channels takes its time.
func TestCatchUp_comes_first(t *testing.T) {
	onBench(t, slackdouble.Options{}, func(w *bench) {
		time.Sleep(2 * time.Minute)
		w.Lose(true)
		w.Say(w.ines, w.station, "", "started the pump")
		w.Fail("conversations.history", slackdouble.Slow(20*time.Second))
		w.Cut()
		w.Lose(false)
		for w.Sockets() == 0 {
			time.Sleep(time.Millisecond)
		}
		synctest.Wait() // the catch-up has begun, and waits for an answer
		w.Say(w.ines, w.station, "", "off")
		time.Sleep(time.Minute)
		var texts []string
		for _, ev := range w.in.heard() {
			texts = append(texts, ev.Text)
		}
		if want := []string{"started the pump", "off"}; !slices.Equal(texts, want) {
			t.Errorf("heard %q, want %q", texts, want)
		}
	})
}

func TestBehind(t *testing.T) {
	var b behind
	b.add([]string{"C1", "C2"})
	first := b.of("C1")
	b.add([]string{"C1"}) // another gap, while the first is being caught up with
	b.done("C1", first)
	if b.of("C1") == 0 || b.of("C2") != first || b.of("C3") != 0 {
		t.Errorf("gaps %v", b.channels)
	}
	second := b.wait("C1")
	b.inVain(second)
	if second != b.of("C1") || b.wait("C1") != 0 || b.wait("C2") != first {
		t.Errorf("gaps %v, slow %d", b.channels, b.slow)
	}
	b.done("C1", second)
	if b.of("C1") != 0 {
		t.Errorf("gaps %v", b.channels)
	}
}
