package defect

import (
	"testing"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

var noon = time.Date(2026, 3, 8, 12, 0, 0, 0, time.UTC)

func day(n int) time.Time { return noon.AddDate(0, 0, n) }

func TestMatch(t *testing.T) {
	cover := check.Ref{Item: "hose", Check: "cover"}
	for name, c := range map[string]struct {
		known []*Defect
		fate  Fate
	}{
		"first_report_begins":               {nil, Begins},
		"second_report_joins_the_open_one":  {[]*Defect{{ID: "a", Ref: cover, Reported: day(-1)}}, Joins},
		"another_check_is_another_fault":    {[]*Defect{{ID: "a", Ref: check.Ref{Item: "hose", Check: "couplers"}}}, Begins},
		"another_item_is_another_fault":     {[]*Defect{{ID: "a", Ref: check.Ref{Item: "hose2", Check: "cover"}}}, Begins},
		"ruling_14_reopens_on_the_30th_day": {[]*Defect{{ID: "a", Ref: cover, Repaired: day(-30)}}, Reopens},
		"ruling_14_not_after_30_days":       {[]*Defect{{ID: "a", Ref: cover, Repaired: day(-31)}}, Begins},
		"confirmed_repair_reopens_too":      {[]*Defect{{ID: "a", Ref: cover, Repaired: day(-5), Closed: day(-4), How: Confirmed}}, Reopens},
		"not_a_fault_is_not_reopened":       {[]*Defect{{ID: "a", Ref: cover, Seen: day(-5), Closed: day(-4), How: NotAFault}}, Begins},
		"open_beats_recently_repaired":      {[]*Defect{{ID: "a", Ref: cover, Repaired: day(-5), Closed: day(-4)}, {ID: "b", Ref: cover}}, Joins},
	} {
		t.Run(name, func(t *testing.T) {
			if fate, _ := Match(c.known, cover, noon); fate != c.fate {
				t.Errorf("fate %s, want %s", fate, c.fate)
			}
		})
	}
}

func TestReopenKeepsReports(t *testing.T) {
	d := Defect{Reports: []Report{{Words: "nick"}}, Seen: day(-9), Repaired: day(-8), Returned: day(-8), AtShop: true}
	d.Reopen()
	if d.State() != Reported || d.Reopened != 1 || len(d.Reports) != 1 || d.AtShop {
		t.Errorf("after reopening: %+v", d)
	}
}

func TestFleetItems(t *testing.T) {
	report := func(item dept.ItemID, at time.Time, how Ending) *Defect {
		return &Defect{Ref: check.Ref{Item: item, Check: "cover"}, Kind: "hose", Reported: at, How: how}
	}
	for name, c := range map[string]struct {
		known []*Defect
		want  int
	}{
		"ruling_15_three_different_items":   {[]*Defect{report("a", noon, ""), report("b", day(-10), ""), report("c", day(-30), Confirmed)}, 3},
		"ruling_15_same_item_counts_once":   {[]*Defect{report("a", noon, ""), report("a", day(-1), Confirmed), report("b", noon, "")}, 2},
		"ruling_15_older_than_30_days":      {[]*Defect{report("a", noon, ""), report("b", noon, ""), report("c", day(-31), "")}, 2},
		"ruling_15_not_a_fault_not_counted": {[]*Defect{report("a", noon, ""), report("b", noon, NotAFault)}, 1},
	} {
		t.Run(name, func(t *testing.T) {
			if got := FleetItems(c.known, "hose", "cover", noon); len(got) != c.want {
				t.Errorf("items %v, want %d", got, c.want)
			}
		})
	}
}

func TestState(t *testing.T) {
	d := Defect{}
	for _, step := range []struct {
		do   func()
		want State
		open bool
	}{
		{func() {}, Reported, true},
		{func() { d.Seen = noon }, Seen, true},
		{func() { d.Parts, d.AtShop = true, true }, Seen, true},
		{func() { d.Repaired = noon }, Repaired, false},
		{func() { d.Returned = noon }, Returned, false},
		{func() { d.Closed = noon }, Closed, false},
	} {
		step.do()
		if d.State() != step.want || d.Open() != step.open {
			t.Errorf("state %s open %v, want %s %v", d.State(), d.Open(), step.want, step.open)
		}
	}
}
