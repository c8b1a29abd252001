// Package storetest is what any implementation of bot.Store and outbox.Queue
// must pass, whatever database is behind it.
package storetest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/internal/outbox"
)

// Full is a store with its queue.
type Full interface {
	bot.Store
	outbox.Queue
}

// Noon is the instant around which the suite's events happen.
var Noon = time.Date(2026, 3, 8, 12, 0, 0, 0, time.UTC)

// Said makes an event that somebody said.
func Said(id, text string) chat.Event {
	return chat.Event{
		Backend: "fake", ID: id, Kind: chat.Said, Said: Noon, Arrived: Noon.Add(time.Second),
		Place: chat.Place{Backend: "fake", Room: "#st1"}, Author: "ana", Text: text,
	}
}

// Do stores an event and decides on it with the outcome.
func Do(t *testing.T, s bot.Store, id string, out bot.Outcome) {
	t.Helper()
	receive(t, s, Said(id, id))
	decide(t, s, func(bot.Tx, chat.Event) (bot.Outcome, error) { return out, nil })
}

// Look runs f in a decision that changes nothing.
func Look(t *testing.T, s bot.Store, f func(bot.Tx)) {
	t.Helper()
	looks++
	receive(t, s, Said(fmt.Sprintf("look-%d", looks), ""))
	decide(t, s, func(tx bot.Tx, _ chat.Event) (bot.Outcome, error) {
		f(tx)
		return bot.Outcome{}, nil
	})
}

var looks int

func receive(t *testing.T, s bot.Store, events ...chat.Event) int {
	t.Helper()
	n, err := s.Receive(t.Context(), "fake", chat.Batch{Events: events})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func decide(t *testing.T, s bot.Store, f func(bot.Tx, chat.Event) (bot.Outcome, error)) bool {
	t.Helper()
	ok, err := s.Decide(t.Context(), f)
	if err != nil {
		t.Fatal(err)
	}
	return ok
}

func got[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Error(err)
		}
		return v
	}
}

func same(t *testing.T, what string, have, want any) {
	t.Helper()
	if diff := cmp.Diff(want, have); diff != "" {
		t.Errorf("%s (-want +got):\n%s", what, diff)
	}
}

// Store runs the suite of bot.Store; open makes an empty one.
func Store(t *testing.T, open func(t *testing.T) Full) {
	cases := map[string]func(*testing.T, Full){
		"events_arrive_once":            eventsArriveOnce,
		"events_keep_their_order":       eventsKeepTheirOrder,
		"cursors_go_with_events":        cursorsGoWithEvents,
		"failed_decision_parks":         failedDecisionParks,
		"panic_parks":                   panicParks,
		"outcome_applies_or_not":        outcomeAppliesOrNot,
		"states_come_back_whole":        statesComeBackWhole,
		"records_are_never_overwritten": recordsAreNeverOverwritten,
		"defects_by_item_and_kind":      defectsByItemAndKind,
		"wakes":                         wakes,
		"followups_come_by_the_door":    followups,
		"nothing_is_found_in_nothing":   nothingInNothing,
		"ended_context_changes_nothing": endedContext,
	}
	for name, f := range cases {
		t.Run(name, func(t *testing.T) { f(t, open(t)) })
	}
}

func eventsArriveOnce(t *testing.T, s Full) {
	a, b := Said("1", "all good"), Said("2", "saw full")
	same(t, "new", receive(t, s, a), 1)
	same(t, "new the second time", receive(t, s, a, b), 1)
	other := a
	other.Backend = "matrix"
	same(t, "new of another backend", receive(t, s, other), 1)
	n := 0
	for decide(t, s, func(bot.Tx, chat.Event) (bot.Outcome, error) { n++; return bot.Outcome{}, nil }) {
	}
	same(t, "decided", n, 3)
	same(t, "new after it was handled", receive(t, s, a), 0)
}

func eventsKeepTheirOrder(t *testing.T, s Full) {
	late := Said("b", "said earlier, arrived later")
	late.Said = Noon.Add(-time.Hour)
	want := []chat.Event{Said("c", "first"), Said("a", "second"), late}
	receive(t, s, want...)
	var have []chat.Event
	for decide(t, s, func(_ bot.Tx, e chat.Event) (bot.Outcome, error) {
		have = append(have, e)
		return bot.Outcome{}, nil
	}) {
	}
	same(t, "events", have, want)
}

func cursorsGoWithEvents(t *testing.T, s Full) {
	ctx := t.Context()
	same(t, "no cursor", got[string](t)(s.Cursor(ctx, "fake", "sync")), "")
	for _, token := range []string{"s1", "s2", "s2"} {
		_, err := s.Receive(ctx, "fake", chat.Batch{Cursors: map[string]string{"sync": token}})
		if err != nil {
			t.Fatal(err)
		}
	}
	same(t, "cursor", got[string](t)(s.Cursor(ctx, "fake", "sync")), "s2")
	same(t, "cursor of another", got[string](t)(s.Cursor(ctx, "slack", "sync")), "")
}

func failedDecisionParks(t *testing.T, s Full) {
	receive(t, s, Said("1", "bad"), Said("2", "good"))
	ok := decide(t, s, func(bot.Tx, chat.Event) (bot.Outcome, error) {
		return bot.Outcome{Meta: map[string]string{"bad": "yes"}}, errors.New("no idea")
	})
	same(t, "there was an event", ok, true)
	var next string
	decide(t, s, func(tx bot.Tx, e chat.Event) (bot.Outcome, error) {
		next = e.ID
		same(t, "meta", got[string](t)(tx.Meta("bad")), "")
		return bot.Outcome{}, nil
	})
	same(t, "the queue goes on with", next, "2")
	same(t, "more", decide(t, s, nil), false)
}

func panicParks(t *testing.T, s Full) {
	receive(t, s, Said("1", "bad"))
	decide(t, s, func(bot.Tx, chat.Event) (bot.Outcome, error) { panic("at the disco") })
	same(t, "more", decide(t, s, nil), false)
}

// outcomeAppliesOrNot: the second message cannot be stored, so nothing is.
func outcomeAppliesOrNot(t *testing.T, s Full) {
	receive(t, s, Said("1", ""))
	decide(t, s, func(bot.Tx, chat.Event) (bot.Outcome, error) {
		return bot.Outcome{
			Standings: []*bot.Standing{{Company: "E1"}},
			Records:   []bot.Record{{ID: "r", Item: "saw", At: Noon}},
			Messages:  []chat.Message{Message("m", "#st1"), {Key: "lost", Edits: "nobody"}},
		}, nil
	})
	Look(t, s, func(tx bot.Tx) {
		same(t, "standing", got[*bot.Standing](t)(tx.Standing("E1")), (*bot.Standing)(nil))
		same(t, "history", len(got[[]bot.Record](t)(tx.History("saw", 9))), 0)
	})
	_, ok, err := s.Claim(t.Context(), Noon)
	same(t, "a message", ok, false)
	same(t, "error", err, nil)
}

func statesComeBackWhole(t *testing.T, s Full) {
	n := 0.75
	standing := &bot.Standing{Company: "E1", Watch: &bot.Watch{
		Date: dept.Date{Year: 2026, Month: 3, Day: 8}, Platoon: "A", Start: Noon,
		Asked:    []bot.Asked{{N: 1, Ref: check.Ref{Item: "saw", Check: "fuel"}}},
		Recorded: map[string]bot.Mark{"saw.fuel": {Record: "r", State: check.OK, Value: check.Value{Number: &n}}},
	}}
	item := &bot.ItemState{Item: "saw", Hours: 31.5, Out: &bot.Outage{Since: Noon, Why: "crack"}}
	Do(t, s, "1", bot.Outcome{
		Standings: []*bot.Standing{{Company: "E1"}, {Company: "T9"}}, Items: []*bot.ItemState{item},
		Meta: map[string]string{"first_start": "a"},
	})
	Do(t, s, "2", bot.Outcome{Standings: []*bot.Standing{standing}, Meta: map[string]string{"first_start": "b"}})
	Look(t, s, func(tx bot.Tx) {
		same(t, "standing", got[*bot.Standing](t)(tx.Standing("E1")), standing)
		same(t, "standings", len(got[map[dept.CompanyID]*bot.Standing](t)(tx.Standings())), 2)
		same(t, "item", got[*bot.ItemState](t)(tx.Item("saw")), item)
		same(t, "items", got[map[dept.ItemID]*bot.ItemState](t)(tx.Items()), map[dept.ItemID]*bot.ItemState{"saw": item})
		same(t, "meta", got[string](t)(tx.Meta("first_start")), "b")
	})
}

func recordsAreNeverOverwritten(t *testing.T, s Full) {
	full := 1.0
	first := bot.Record{
		ID: "reading/1/saw.fuel", Kind: bot.OnReading, At: Noon, Arrived: Noon.Add(time.Second), Company: "E1",
		Date: dept.Date{Year: 2026, Month: 3, Day: 8}, Platoon: "A", Item: "saw", Check: "fuel", State: "ok",
		Value: check.Value{Number: &full}, Words: "saw füll", Who: "ana", Message: "fake/1", Note: "n",
	}
	changed := first
	changed.State = "fault"
	low := bot.Record{ID: "2", Kind: bot.OnReading, At: Noon.Add(time.Minute), Item: "saw", Value: check.Word("low"), Supersedes: first.ID}
	early := bot.Record{ID: "3", Kind: bot.OnReminder, At: Noon.Add(-time.Minute), Item: "saw", Company: "E1"}
	later := bot.Record{ID: "4", Kind: bot.OnReminder, At: Noon.Add(time.Hour), Company: "E1"}
	Do(t, s, "1", bot.Outcome{Records: []bot.Record{first, changed}})
	Do(t, s, "2", bot.Outcome{Records: []bot.Record{low, changed, early, later}})
	Look(t, s, func(tx bot.Tx) {
		same(t, "history", got[[]bot.Record](t)(tx.History("saw", 9)), []bot.Record{low, first, early})
		same(t, "newest", got[[]bot.Record](t)(tx.History("saw", 1)), []bot.Record{low})
		same(t, "rungs", got[[]bot.Record](t)(tx.Rungs("E1", 9)), []bot.Record{later, early})
		same(t, "newest rung", got[[]bot.Record](t)(tx.Rungs("E1", 1)), []bot.Record{later})
	})
}

func defectsByItemAndKind(t *testing.T, s Full) {
	day := func(n int) time.Time { return Noon.AddDate(0, 0, n) }
	build := func(id string, item dept.ItemID, reported int) *defect.Defect {
		return &defect.Defect{ID: defect.ID(id), Ref: check.Ref{Item: item, Check: "chain"}, Kind: "saw", Reported: day(reported)}
	}
	open, seen := build("open", "saw", 5), build("seen", "saw", 3)
	seen.Seen = day(4)
	old, recent, unfounded := build("old", "saw", -90), build("recent", "saw", -30), build("unfounded", "saw", 1)
	old.Repaired, old.Closed = day(-80), day(-79)
	recent.Repaired, recent.Closed = day(-20), day(-19)
	unfounded.Closed, unfounded.How = day(2), defect.NotAFault
	other := build("other", "saw-2", -60)
	other.Reports = []defect.Report{{At: day(-60)}, {At: day(4)}}
	Do(t, s, "1", bot.Outcome{Defects: []*defect.Defect{build("seen", "saw", 3), old, recent, unfounded, other}})
	Do(t, s, "2", bot.Outcome{Defects: []*defect.Defect{seen, open}})
	ids := func(list []*defect.Defect, err error) (names []string) {
		for _, d := range got[[]*defect.Defect](t)(list, err) {
			names = append(names, string(d.ID))
		}
		return names
	}
	Look(t, s, func(tx bot.Tx) {
		same(t, "one", got[*defect.Defect](t)(tx.Defect("seen")), seen)
		same(t, "of the item", ids(tx.DefectsOf("saw", day(-25))), []string{"recent", "seen", "open"})
		same(t, "at the very instant", ids(tx.DefectsOf("saw", day(-20))), []string{"recent", "seen", "open"})
		same(t, "of the item, lately", ids(tx.DefectsOf("saw", day(-10))), []string{"seen", "open"})
		same(t, "open", ids(tx.DefectsOpen()), []string{"other", "seen", "open"})
		same(t, "of the kind", ids(tx.DefectsOfKind("saw", "chain", day(-40))), []string{"other", "recent", "unfounded", "seen", "open"})
		same(t, "of another check", ids(tx.DefectsOfKind("saw", "fuel", day(-40))), []string(nil))
	})
}

func wakes(t *testing.T, s Full) {
	ctx := t.Context()
	same(t, "none", got[time.Time](t)(s.NextWake(ctx)), time.Time{})
	Do(t, s, "1", bot.Outcome{Wakes: []bot.Wake{wake("shop", Noon.Add(time.Hour)), wake("company/E1", Noon), wake("officers", Noon.Add(2*time.Hour))}})
	Do(t, s, "2", bot.Outcome{Wakes: []bot.Wake{wake("company/E1", Noon.Add(time.Minute)), wake("officers", time.Time{}), wake("unknown", time.Time{})}})
	same(t, "next", got[time.Time](t)(s.NextWake(ctx)), Noon.Add(time.Minute))
	same(t, "too early", len(got[[]bot.Wake](t)(s.Wakes(ctx, Noon))), 0)
	same(t, "come", got[[]bot.Wake](t)(s.Wakes(ctx, Noon.Add(time.Hour))),
		[]bot.Wake{wake("company/E1", Noon.Add(time.Minute)), wake("shop", Noon.Add(time.Hour))})
}

func wake(scope string, at time.Time) bot.Wake { return bot.Wake{Scope: scope, At: at} }

func followups(t *testing.T, s Full) {
	f := chat.Event{Backend: "bot", ID: "again", Kind: chat.Followup, Scope: "shop", Said: Noon, Arrived: Noon}
	Do(t, s, "1", bot.Outcome{Followups: []chat.Event{f, f}})
	var have []chat.Event
	for decide(t, s, func(_ bot.Tx, e chat.Event) (bot.Outcome, error) {
		have = append(have, e)
		return bot.Outcome{Followups: []chat.Event{f}}, nil
	}) {
	}
	same(t, "followups", have, []chat.Event{f})
}

func nothingInNothing(t *testing.T, s Full) {
	same(t, "an event", decide(t, s, nil), false)
	Look(t, s, func(tx bot.Tx) {
		same(t, "key", got[chat.Key](t)(tx.KeyOf("fake", "#st1", "r")), chat.Key(""))
		same(t, "key of no ref", got[chat.Key](t)(tx.KeyOf("fake", "#st1", "")), chat.Key(""))
		same(t, "item", got[*bot.ItemState](t)(tx.Item("saw")), (*bot.ItemState)(nil))
		same(t, "defect", got[*defect.Defect](t)(tx.Defect("d")), (*defect.Defect)(nil))
		same(t, "standings", len(got[map[dept.CompanyID]*bot.Standing](t)(tx.Standings())), 0)
		same(t, "meta", got[string](t)(tx.Meta("first_start")), "")
	})
}

func endedContext(t *testing.T, s Full) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := s.Receive(ctx, "fake", chat.Batch{Events: []chat.Event{Said("1", "")}}); !errors.Is(err, context.Canceled) {
		t.Errorf("receive: %v", err)
	}
	same(t, "an event", decide(t, s, nil), false)
}

// Message makes a short message.
func Message(key chat.Key, room string) chat.Message {
	return chat.Message{
		Key: key, Kind: chat.Echo, Place: chat.Place{Backend: "fake", Room: room},
		Blocks: []chat.Block{chat.Text(chat.Body, string(key))},
	}
}

// Keys lists the keys of messages.
func Keys(list []chat.Message) []chat.Key {
	return slices.Collect(func(yield func(chat.Key) bool) {
		for _, m := range list {
			if !yield(m.Key) {
				return
			}
		}
	})
}
