package wording

import (
	"testing"

	"crosslay/bot/check"
)

func TestPromptForm_asks_what_is_open(t *testing.T) {
	v := fresh()
	set(&v, 1, reads(check.OK, 0.75))
	set(&v, 2, func(c *PromptCheck) { c.State, c.Value = check.Unsure, check.Word("low") })
	set(&v, 3, fault)
	set(&v, 5, unsure)
	form := PromptForm(v)
	want := map[int]string{2: "low", 4: "", 5: "", 6: "", 7: "", 8: "", 9: ""}
	if len(form.Fields) != len(want) {
		t.Fatalf("%d fields, want %d: %+v", len(form.Fields), len(want), form.Fields)
	}
	for _, f := range form.Fields {
		if filled, ok := want[f.N]; !ok || filled != f.Filled {
			t.Errorf("field %d is filled %q, want %q (asked: %v)", f.N, f.Filled, filled, ok)
		}
	}
	if f := form.Fields[1]; f.N != 4 || f.Unit != "min" || len(f.Say) != 0 {
		t.Errorf("the run is asked as %+v", f)
	}
	if f := form.Fields[0]; f.Under != "Power unit PU-07" || f.Label != "hydraulic fluid" {
		t.Errorf("the gauge is asked as %+v", f)
	}
}

// TestPromptForm_never_filled_in_as_good: an input that came filled in with a
// pass would be sent without being looked at.
func TestPromptForm_never_filled_in_as_good(t *testing.T) {
	v := fresh()
	for n := range 10 {
		set(&v, n, func(c *PromptCheck) { c.Value = check.Word("ok") }) // of the shift before
	}
	for _, f := range PromptForm(v).Fields {
		if f.Filled != "" {
			t.Errorf("check %d comes filled in with %q", f.N, f.Filled)
		}
	}
}

func TestPromptForm_none_when_nothing_is_open(t *testing.T) {
	v := fresh()
	for n := range 10 {
		set(&v, n, ok)
	}
	if form := PromptForm(v); form != nil {
		t.Errorf("%+v", form)
	}
}
