package reply_test

import (
	"testing"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/config"
)

// engine is the first company of the example department: power unit 1-8 (fuel,
// fluid, oil, throttle, run, valve, connection, leaks), combination tool 9-12,
// two hoses 13-16, chain saw 17-20, numbered as its prompt would be.
func engine() reply.Context {
	ex := config.Example()
	ctx := reply.Context{Now: time.Date(2026, 11, 25, 7, 30, 0, 0, ex.Dept.Zone)}
	n := 0
	for _, it := range ex.Dept.Carried(ex.Dept.Companies[0].ID) {
		sheet := ex.Book[it.Sheet]
		item := reply.Item{ID: it.ID, Names: reply.NamesOf(it, sheet)}
		for i := range sheet.Checks {
			if sheet.Checks[i].When.Due(dept.Date{Year: 2026, Month: 11, Day: 25}) {
				n++
				item.Checks = append(item.Checks, reply.Asked{N: n, Check: &sheet.Checks[i]})
			}
		}
		ctx.Items = append(ctx.Items, item)
	}
	return ctx
}

func ref(item, id string) check.Ref {
	return check.Ref{Item: dept.ItemID(item), Check: check.ID(id)}
}

// Words that name a number nobody asked, or a damage, are no blanket; an answer to
// a question back is read in its light.
func TestInTheShift(t *testing.T) {
	cover := ref("e1-hose-left", "cover")
	right := ref("e1-hose-right", "cover")
	fluid := ref("e1-pump", "fluid")
	conflict := reply.Doubt{Why: reply.Conflict, Refs: []check.Ref{cover}}
	which := reply.Doubt{Why: reply.WhichItem, Refs: []check.Ref{cover, right}, Choices: []string{"left hose", "right hose"}}
	for name, c := range map[string]struct {
		text  string
		asked *reply.Doubt
		held  dept.ItemID
		want  map[check.Ref]check.State // these, and nothing else may be ok
	}{
		"number_beyond_the_prompt":       {"25 ok", nil, "", nil},
		"range_beyond_the_prompt":        {"8-25 ok", nil, "", nil},
		"range_beyond_with_held_item":    {"8-25 ok", nil, "e1-saw", nil},
		"no_leaks_is_no_blanket":         {"no leaks", nil, "", map[check.Ref]check.State{ref("e1-pump", "leaks"): check.OK}},
		"no_still_nicked_after_a_doubt":  {"no its still nicked", &conflict, "", map[check.Ref]check.State{cover: check.Fail}},
		"its_fine_after_a_doubt":         {"its fine", &conflict, "", map[check.Ref]check.State{cover: check.OK}},
		"which_hose_has_the_nick":        {"hose has a nick", nil, "", map[check.Ref]check.State{cover: check.Unsure, right: check.Unsure}},
		"left_answers_which_hose":        {"left", &which, "", map[check.Ref]check.State{cover: check.Unsure}},
		"started_two":                    {"started the pump and the saw", nil, "", nil},
		"low_without_position_stays_low": {"hydraulic fluid low", nil, "", map[check.Ref]check.State{fluid: check.Fail}},
		"isnt_without_apostrophe":        {"left hose cover isnt nicked", nil, "", map[check.Ref]check.State{cover: check.OK}},
	} {
		t.Run(name, func(t *testing.T) {
			ctx := engine()
			ctx.Held = c.held
			if c.asked != nil {
				ctx.Asked = []reply.Doubt{*c.asked}
			}
			got := map[check.Ref]check.State{}
			read := reply.Read(ctx, c.text)
			for _, r := range read.Results {
				got[r.Ref] = r.State
				if r.State == check.OK && c.want[r.Ref] != check.OK {
					t.Errorf("%q passes %s", c.text, r.Ref)
				}
			}
			for want, state := range c.want {
				if got[want] != state && (name != "left_answers_which_hose" || got[want] == check.OK) {
					t.Errorf("%q: %s is %q, want %q", c.text, want, got[want], state)
				}
			}
		})
	}
	if read := reply.Read(engine(), "started the pump and the saw"); len(read.Starts) != 2 {
		t.Errorf("started the pump and the saw: %v", read.Starts)
	}
	ctx := engine()
	ctx.Settled = map[check.Ref]check.State{ref("e1-pump", "fuel"): check.Fail}
	fuel := false
	for _, r := range reply.Read(ctx, "topped off the pump").Results {
		fuel = fuel || r.Ref == ref("e1-pump", "fuel") && r.State == check.OK && r.Fixed
	}
	if !fuel {
		t.Error("topped off the pump, after its fuel was low: not taken for fixed")
	}
}

// The answer to "which one?" completes what was said before.
func TestWhichOneIsCompleted(t *testing.T) {
	for name, c := range map[string]struct {
		said, answer string
		ref          check.Ref
		state        check.State
	}{
		"left":         {"hose has a nick", "left", ref("e1-hose-left", "cover"), check.Fail},
		"the_right":    {"hose has a nick", "the right one", ref("e1-hose-right", "cover"), check.Fail},
		"both":         {"hose has a nick", "both", ref("e1-hose-right", "cover"), check.Fail},
		"by_number":    {"hose has a nick", "HH-01", ref("e1-hose-left", "cover"), check.Fail},
		"fuel_of_pump": {"fuel is full", "pump", ref("e1-pump", "fuel"), check.OK},
	} {
		t.Run(name, func(t *testing.T) {
			ctx := engine()
			first := reply.Read(ctx, c.said)
			if len(first.Results) == 0 || first.Results[0].State != check.Unsure {
				t.Fatalf("%q is not in doubt: %+v", c.said, first.Results)
			}
			ctx.Asked = []reply.Doubt{first.Results[0].Doubt}
			second := reply.Read(ctx, c.answer)
			for _, r := range second.Results {
				if r.Ref == c.ref && r.State == c.state {
					return
				}
			}
			t.Errorf("%q, then %q: %+v; want %s %s", c.said, c.answer, second.Results, c.ref, c.state)
		})
	}
}
