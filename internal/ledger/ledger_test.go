package ledger

import (
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/config"
)

var setup = sync.OnceValue(func() bot.Setup {
	d := config.Example()
	return bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}
})

var day = dept.Date{Year: 2026, Month: time.November, Day: 25}

// at is an instant so many hours after the shift of the day began.
func at(hours float64) time.Time {
	return setup().Rota.On(day)[0].Start.Add(time.Duration(hours * float64(time.Hour)))
}

func line(hours float64, kind bot.RecordKind, item dept.ItemID, state, note string) Line {
	return Line{Record: bot.Record{ID: fmt.Sprintf("%s/%s/%s/%v", kind, item, state, hours), Kind: kind, At: at(hours),
		Company: "E1", Item: item, State: state, Note: note, Who: "Wim"}}
}

func reading(id string, hours float64, ref check.Ref, state string, v check.Value, by string) Line {
	return Line{Record: bot.Record{ID: id, Kind: bot.OnReading, At: at(hours), Company: "E1", Date: day, Platoon: "C",
		Item: ref.Item, Check: ref.Check, State: state, Value: v}, SupersededBy: by}
}

func TestOutages(t *testing.T) {
	b := New(setup(), []Line{ // not in order: the book puts them right
		line(5, bot.OnService, "e1-pump", "in_service", ""),
		line(1, bot.OnService, "e1-pump", "out_of_service", "leak"),
		line(2, bot.OnService, "e1-pump", "out_of_service", "said again"),
		line(3, bot.OnService, "e1-saw", "in_service", ""),
		line(6, bot.OnService, "e1-combi", "out_of_service", "crack"),
	})
	type span struct {
		item     dept.ItemID
		from, to time.Time
		why      string
	}
	var got []span
	for _, o := range b.Outages {
		got = append(got, span{o.Item, o.From, o.To, o.Why})
	}
	want := []span{{"e1-saw", time.Time{}, at(3), ""}, {"e1-pump", at(1), at(5), "leak"}, {"e1-combi", at(6), time.Time{}, "crack"}}
	if !slices.Equal(got, want) {
		t.Errorf("outages %v, want %v", got, want)
	}
	for _, c := range []struct {
		item  dept.ItemID
		hours float64
		out   bool
	}{{"e1-pump", 0.9, false}, {"e1-pump", 1, true}, {"e1-pump", 4.9, true}, {"e1-pump", 5, false}, {"e1-combi", 900, true}, {"e1-saw", -900, true}, {"e1-saw", 3, false}} {
		if _, out := b.OutAt(c.item, at(c.hours)); out != c.out {
			t.Errorf("%s is out after %v h: %v", c.item, c.hours, out)
		}
	}
	if got := b.Outages[1].Within(at(3), at(30)); got != 2*time.Hour {
		t.Errorf("out for %v of the span", got)
	}
}

func TestLife(t *testing.T) {
	var lines []Line
	for i, state := range []string{"reported", "seen", "repaired", "returned", "confirmed", "reopened", "repaired", "not_a_fault"} {
		l := line(float64(i), bot.OnDefect, "e1-pump", state, "")
		l.Defect, l.Check, l.Words = "d1", "throttle", "moves by hand"
		lines = append(lines, l)
	}
	life := New(setup(), append(lines, lines...)).Lives[0]
	if len(life.Steps) != len(lines) {
		t.Errorf("what came twice counts twice: %d steps", len(life.Steps))
	}
	var open []bool
	for i := range lines {
		open = append(open, life.OpenAt(at(float64(i)+0.5)))
	}
	if want := []bool{true, true, false, false, false, true, false, false}; !slices.Equal(open, want) {
		t.Errorf("open %v, want %v", open, want)
	}
	if life.OpenAt(at(-1)) || !life.Ended().Equal(at(7)) || life.Words() != "moves by hand" {
		t.Errorf("ended %v, words %q", life.Ended(), life.Words())
	}
}

func TestAnswersKeepWhatStands(t *testing.T) {
	fuel, oil, valve := check.Ref{Item: "e1-pump", Check: "fuel"}, check.Ref{Item: "e1-pump", Check: "oil"}, check.Ref{Item: "e1-pump", Check: "valve"}
	b := New(setup(), []Line{
		{Record: bot.Record{ID: "prompt", Kind: bot.OnPrompt, At: at(0), Company: "E1", Date: day, Platoon: "C"}},
		reading("1", 1, fuel, "ok", check.Num(1), "2"), reading("2", 2, fuel, "fault", check.Num(0.5), ""),
		reading("3", 1, oil, "ok", check.Value{}, "4"), reading("4", 2, oil, "open", check.Value{}, ""),
	})
	all := b.Answers()
	if len(all) != 1 || !all[0].Asked.Equal(at(0)) {
		t.Fatalf("%d shifts", len(all))
	}
	for ref, want := range map[check.Ref]check.State{fuel: check.Fail, oil: check.Open, valve: check.Open} {
		if got := all[0].State(ref); got != want {
			t.Errorf("%s is %q, want %q", ref, got, want)
		}
	}
	if o := b.Owed(all[0], "e1-pump"); o.Due != 8 || o.Settled != 1 || o.Out {
		t.Errorf("owed %+v", o)
	}
}

// TestWhatCountsAsARun: a short run, or one after which the engine died, is none.
func TestWhatCountsAsARun(t *testing.T) {
	ref := check.Ref{Item: "e1-pump", Check: "run"}
	dies := reading("d", 1, ref, "fault", check.Num(12), "")
	dies.Note = "dies"
	over := reading("o", 1, ref, "fault", check.Num(12), "")
	over.Note = "over"
	for name, c := range map[string]struct {
		l    Line
		want bool
	}{
		"good":  {reading("g", 1, ref, "ok", check.Num(7), ""), true},
		"over":  {over, true},
		"short": {reading("s", 1, ref, "fault", check.Num(3), ""), false},
		"dies":  {dies, false},
		"open":  {reading("x", 1, ref, "open", check.Value{}, ""), false},
		"doubt": {reading("u", 1, ref, "unsure", check.Num(40), ""), false},
	} {
		b := New(setup(), []Line{c.l})
		if got := b.Settled(b.Answers()[0], ref); got != c.want {
			t.Errorf("%s counts: %v", name, got)
		}
	}
}

func TestSpares(t *testing.T) {
	d := setup().Dept
	i := slices.IndexFunc(d.Items, func(it dept.Item) bool { return it.Spare })
	spare := d.Items[i].ID
	b := New(setup(), []Line{line(1, bot.OnService, spare, "placed", "for e1-pump"), line(4, bot.OnService, spare, "taken_back", "")})
	for hours, want := range map[float64]bool{0.5: false, 1: true, 3.9: true, 4: false} {
		carried := b.CarriedAt("E1", at(hours))
		if got := slices.Contains(carried, spare); got != want {
			t.Errorf("after %v h the spare is carried: %v", hours, got)
		}
		if want && carried[1] != spare {
			t.Errorf("the spare stands at %v", carried)
		}
	}
}
