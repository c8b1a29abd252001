package storetest

import (
	"errors"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/outbox"
)

// Queue runs the suite of outbox.Queue; open makes an empty one.
func Queue(t *testing.T, open func(t *testing.T) Full) {
	cases := map[string]func(*testing.T, Full){
		"oldest_first_one_per_room":     oldestFirst,
		"key_is_queued_once":            keyOnce,
		"reply_waits_for_its_root":      replyWaits,
		"root_within_a_thread":          rootWithin,
		"root_in_another_room":          rootElsewhere,
		"edit_waits_and_newest_goes":    newestEdit,
		"edit_in_flight_is_overtaken":   editInFlight,
		"edit_without_place":            editWithoutPlace,
		"room_is_left_alone":            roomAlone,
		"what_hangs_on_the_refused":     hangsOnRefused,
		"what_hangs_on_the_uncertain":   hangsOnUncertain,
		"root_that_does_not_exist":      rootMissing,
		"dropped_is_not_sent":           dropped,
		"sending_is_in_doubt_at_start":  inDoubt,
		"doubt_stays_until_settled":     doubtStays,
		"accepted_is_told_once":         acceptedTold,
		"only_what_is_sent_is_settled":  settleNothing,
		"own_messages_are_known_by_ref": keyOf,
		"next":                          nextInstant,
	}
	for name, f := range cases {
		t.Run(name, func(t *testing.T) { f(t, open(t)) })
	}
}

func queue(t *testing.T, s Full, messages ...chat.Message) {
	t.Helper()
	queued++
	Do(t, s, "queue-"+time.Duration(queued).String(), bot.Outcome{Messages: messages})
}

var queued int

// want claims the next job, which must be of the key; "" for none.
func want(t *testing.T, s Full, now time.Time, key chat.Key) outbox.Job {
	t.Helper()
	job, ok, err := s.Claim(t.Context(), now)
	if err != nil {
		t.Fatal(err)
	}
	if job.Message.Key != key || ok != (key != "") {
		t.Fatalf("claimed %q %v, want %q", job.Message.Key, ok, key)
	}
	return job
}

func settle(t *testing.T, s Full, key chat.Key, v outbox.Verdict) {
	t.Helper()
	v.Now = Noon
	if err := s.Settle(t.Context(), key, v); err != nil {
		t.Fatal(err)
	}
}

// send claims the key, which must be next, and settles it as sent.
func send(t *testing.T, s Full, key chat.Key, ref chat.Ref) outbox.Job {
	t.Helper()
	job := want(t, s, Noon, key)
	settle(t, s, key, outbox.Verdict{State: outbox.Sent, Ref: ref})
	return job
}

func under(key, root chat.Key) chat.Message {
	m := Message(key, "#st1")
	m.Under = root
	return m
}

func editing(key, target chat.Key) chat.Message {
	m := Message(key, "#st1")
	m.Edits = target
	return m
}

func oldestFirst(t *testing.T, s Full) {
	queue(t, s, Message("a1", "#a"), Message("a2", "#a"), Message("b1", "#b"), Message("b2", "#b"))
	job := want(t, s, Noon, "a1")
	same(t, "message", job.Message, Message("a1", "#a"))
	same(t, "place", job.Place, chat.Place{Backend: "fake", Room: "#a"})
	same(t, "doubt", job.Doubt, false)
	want(t, s, Noon, "b1")
	want(t, s, Noon, "")
	settle(t, s, "b1", outbox.Verdict{State: outbox.Sent, Ref: "r1"})
	want(t, s, Noon, "b2")
	settle(t, s, "a1", outbox.Verdict{State: outbox.Refused, Reason: "no"})
	want(t, s, Noon, "a2")
	want(t, s, Noon, "")
}

func keyOnce(t *testing.T, s Full) {
	queue(t, s, Message("a", "#a"), Message("a", "#a"))
	queue(t, s, Message("a", "#a"))
	send(t, s, "a", "r")
	queue(t, s, Message("a", "#a"))
	want(t, s, Noon, "")
}

func replyWaits(t *testing.T, s Full) {
	queue(t, s, under("reply", "root"), Message("root", "#st1"), Message("next", "#st1"))
	send(t, s, "root", "r1")
	same(t, "thread", send(t, s, "reply", "r2").Place.Thread, chat.Ref("r1"))
	send(t, s, "next", "r3")
}

func rootWithin(t *testing.T, s Full) {
	m := Message("root", "#st1")
	m.Place.Thread = "r0"
	queue(t, s, m, under("reply", "root"), under("below", "reply"))
	same(t, "thread", send(t, s, "root", "r1").Place.Thread, chat.Ref("r0"))
	same(t, "thread", send(t, s, "reply", "r2").Place.Thread, chat.Ref("r0"))
	same(t, "thread", send(t, s, "below", "r3").Place.Thread, chat.Ref("r0"))
}

// rootElsewhere: a ref of one room means nothing in another.
func rootElsewhere(t *testing.T, s Full) {
	m := Message("reply", "#shop")
	m.Under = "root"
	queue(t, s, Message("root", "#st1"), m)
	send(t, s, "root", "r1")
	same(t, "thread", send(t, s, "reply", "r2").Place.Thread, chat.Ref(""))
}

func newestEdit(t *testing.T, s Full) {
	queue(t, s, editing("e1", "root"), Message("root", "#st1"), editing("e2", "root"))
	want(t, s, Noon, "root")
	queue(t, s, editing("e3", "root"))
	want(t, s, Noon, "")
	settle(t, s, "root", outbox.Verdict{State: outbox.Sent, Ref: "r1"})
	same(t, "target", send(t, s, "e3", "r1").Target, chat.Ref("r1"))
	want(t, s, Noon, "")
	queue(t, s, editing("e4", "root"))
	send(t, s, "e4", "r1")
}

// editInFlight: an edit that may not have arrived need not be repeated if a
// newer one waits.
func editInFlight(t *testing.T, s Full) {
	queue(t, s, Message("root", "#st1"), editing("e1", "root"))
	send(t, s, "root", "r1")
	want(t, s, Noon, "e1")
	queue(t, s, editing("e2", "root"))
	settle(t, s, "e1", outbox.Verdict{State: outbox.Sending, Next: Noon.Add(time.Second)})
	want(t, s, Noon, "")
	if next := want(t, s, Noon.Add(time.Second), "e2"); next.Target != "r1" {
		t.Errorf("target %q, want r1", next.Target)
	}
}

func editWithoutPlace(t *testing.T, s Full) {
	m := editing("e1", "root")
	m.Place = chat.Place{}
	queue(t, s, Message("root", "#st1"), m)
	send(t, s, "root", "r1")
	same(t, "place", send(t, s, "e1", "r1").Place, chat.Place{Backend: "fake", Room: "#st1"})
}

func roomAlone(t *testing.T, s Full) {
	queue(t, s, Message("a1", "#a"), Message("a2", "#a"), Message("b1", "#b"))
	want(t, s, Noon, "a1")
	until := Noon.Add(time.Minute)
	settle(t, s, "a1", outbox.Verdict{State: outbox.Ready, Next: until, Reason: "busy"})
	send(t, s, "b1", "r1")
	want(t, s, until.Add(-time.Millisecond), "")
	same(t, "tries", want(t, s, until, "a1").Tries, 1)
}

func hangsOnRefused(t *testing.T, s Full) {
	queue(t, s, Message("root", "#st1"), under("reply", "root"), editing("edit", "root"), under("below", "reply"), Message("next", "#st1"))
	want(t, s, Noon, "root")
	settle(t, s, "root", outbox.Verdict{State: outbox.Refused, Reason: "gone"})
	want(t, s, Noon, "next")
}

func hangsOnUncertain(t *testing.T, s Full) {
	queue(t, s, Message("root", "#st1"), under("reply", "root"), Message("next", "#st1"))
	want(t, s, Noon, "root")
	settle(t, s, "root", outbox.Verdict{State: outbox.Uncertain, Reason: "broken"})
	send(t, s, "next", "r1")
	want(t, s, Noon, "")
}

func rootMissing(t *testing.T, s Full) {
	queue(t, s, under("reply", "nobody"), Message("next", "#st1"))
	want(t, s, Noon, "next")
	settle(t, s, "next", outbox.Verdict{State: outbox.Sent, Ref: "r"})
	queue(t, s, Message("nobody", "#st1"))
	send(t, s, "nobody", "r2")
	want(t, s, Noon, "")
}

func dropped(t *testing.T, s Full) {
	queue(t, s, Message("gone", "#a"), Message("out", "#b"))
	want(t, s, Noon, "gone")
	Do(t, s, "drop", bot.Outcome{Drop: []chat.Key{"out", "gone", "unknown"}})
	want(t, s, Noon, "")
	settle(t, s, "gone", outbox.Verdict{State: outbox.Sent, Ref: "r"}) // it was on its way
	queue(t, s, Message("out", "#b"))
	want(t, s, Noon, "")
}

func inDoubt(t *testing.T, s Full) {
	ctx := t.Context()
	queue(t, s, Message("a1", "#a"), Message("a2", "#a"))
	want(t, s, Noon, "a1")
	same(t, "in doubt", got[int](t)(s.Recover(ctx)), 1)
	later := Noon.Add(time.Minute)
	job := want(t, s, later, "a1")
	same(t, "doubt", job.Doubt, true)
	same(t, "first", job.First, Noon)
	same(t, "last", job.Last, Noon)
	want(t, s, later, "")
	settle(t, s, "a1", outbox.Verdict{State: outbox.Sent, Ref: "r"})
	send(t, s, "a2", "r2")
	same(t, "in doubt", got[int](t)(s.Recover(ctx)), 0)
}

func doubtStays(t *testing.T, s Full) {
	queue(t, s, Message("a1", "#a"), under("a2", "a1"))
	want(t, s, Noon, "a1")
	until := Noon.Add(time.Minute)
	settle(t, s, "a1", outbox.Verdict{State: outbox.Sending, Next: until, Reason: "unsure"})
	want(t, s, Noon, "")
	job := want(t, s, until, "a1")
	same(t, "doubt", job.Doubt, true)
	settle(t, s, "a1", outbox.Verdict{State: outbox.Ready, Next: until, Reason: "not there, and refused the connection"})
	same(t, "doubt", want(t, s, until, "a1").Doubt, false)
}

func acceptedTold(t *testing.T, s Full) {
	m := Message("prompt", "#st1")
	m.Tell = true
	m.Pics = []chat.Picture{{Name: "board.png", Data: []byte("png")}}
	queue(t, s, m, Message("echo", "#st1"))
	send(t, s, "prompt", "r1")
	send(t, s, "echo", "r2")
	var have []chat.Event
	for decide(t, s, func(_ bot.Tx, e chat.Event) (bot.Outcome, error) {
		have = append(have, e)
		return bot.Outcome{}, nil
	}) {
	}
	same(t, "events", have, []chat.Event{{
		Backend: "outbox", ID: "prompt", Kind: chat.Accepted, Said: Noon, Arrived: Noon,
		Place: m.Place, Target: "r1", MsgKey: "prompt",
	}})
}

func settleNothing(t *testing.T, s Full) {
	queue(t, s, Message("a", "#a"))
	for _, key := range []chat.Key{"a", "unknown"} {
		if err := s.Settle(t.Context(), key, outbox.Verdict{State: outbox.Sent, Ref: "r", Now: Noon}); !errors.Is(err, outbox.ErrNotClaimed) {
			t.Errorf("%s was settled with %v, and nobody had claimed it", key, err)
		}
	}
	send(t, s, "a", "r")
	if err := s.Settle(t.Context(), "a", outbox.Verdict{State: outbox.Ready}); err == nil {
		t.Error("a sent message was made ready again")
	}
}

func keyOf(t *testing.T, s Full) {
	queue(t, s, Message("root", "#st1"), editing("edit", "root"))
	send(t, s, "root", "r1")
	send(t, s, "edit", "r1")
	Look(t, s, func(tx bot.Tx) {
		same(t, "ours", got[chat.Key](t)(tx.KeyOf("fake", "#st1", "r1")), chat.Key("root"))
		same(t, "in another room", got[chat.Key](t)(tx.KeyOf("fake", "#st2", "r1")), chat.Key(""))
		same(t, "not ours", got[chat.Key](t)(tx.KeyOf("fake", "#st1", "r9")), chat.Key(""))
	})
}

func nextInstant(t *testing.T, s Full) {
	ctx := t.Context()
	same(t, "nothing", got[time.Time](t)(s.Next(ctx)), time.Time{})
	queue(t, s, Message("a", "#a"), Message("b", "#b"))
	if next := got[time.Time](t)(s.Next(ctx)); next.IsZero() || next.After(Noon) {
		t.Errorf("next is %v, want some instant until now", next)
	}
	want(t, s, Noon, "a")
	settle(t, s, "a", outbox.Verdict{State: outbox.Ready, Next: Noon.Add(time.Minute)})
	want(t, s, Noon, "b")
	same(t, "a", got[time.Time](t)(s.Next(ctx)), Noon.Add(time.Minute))
	settle(t, s, "b", outbox.Verdict{State: outbox.Sending, Next: Noon.Add(time.Second)})
	same(t, "b", got[time.Time](t)(s.Next(ctx)), Noon.Add(time.Second))
}
