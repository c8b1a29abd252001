package run_test

import (
	"math"
	"testing"

	"crosslay/bot/reliability"
	"crosslay/bot/run"
)

// Wilson's interval at 95 %: pairs of Newcombe 1998 (81/263 and 15/148 FOUND as
// his) and others, RECOMPUTED with scipy 1.10.1.
func TestRate(t *testing.T) {
	for _, c := range []struct {
		good, shifts int
		lower, upper float64
	}{{81, 263, .255289, .366210}, {15, 148, .062386, .160487}, {0, 20, 0, .161125}, {1, 29, .006113, .171755}, {4, 20, .080658, .416017},
		{8, 30, .141827, .444480}, {0, 10, 0, .277533}, {10, 10, .722467, 1}} {
		r, ok := run.Record{Shifts: c.shifts, Good: c.good}.Rate(0.95)
		if !ok || math.Abs(r.Lower-c.lower) > 5.1e-7 || math.Abs(r.Upper-c.upper) > 5.1e-7 || r.Share != float64(c.good)/float64(c.shifts) {
			t.Errorf("%d of %d: %+v, want %v to %v", c.good, c.shifts, r, c.lower, c.upper)
		}
		if w := reliability.Wilson(c.good, c.shifts, 0.95); math.Abs(w.Lower-r.Lower) > 1e-15 || math.Abs(w.Upper-r.Upper) > 1e-15 {
			t.Errorf("%d of %d: %+v here, %+v in reliability", c.good, c.shifts, r, w)
		}
	}
	if r, ok := (run.Record{Shifts: 1, Good: 1}).Rate(0.95); !ok || math.Abs(r.Lower-0.206549) > 5e-7 || r.Upper != 1 { // 1/(1+z²)
		t.Errorf("of one shift: %+v %v", r, ok)
	}
	if r, ok := (run.Record{}).Rate(0.95); ok || r.Lower != 0 || r.Upper != 1 {
		t.Errorf("of no shift: %+v %v", r, ok)
	}
}

func TestAgainst(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b run.Record
		want run.Comparison
	}{
		{"never_and_always", run.Record{Shifts: 20}, run.Record{Shifts: 20, Good: 20}, run.Worse},
		{"always_and_half", run.Record{Shifts: 60, Good: 60}, run.Record{Shifts: 60, Good: 30}, run.Better},
		{"a_few_shifts_prove_nothing", run.Record{Shifts: 3}, run.Record{Shifts: 3, Good: 3}, run.Alike},
		{"nearly_alike", run.Record{Shifts: 90, Good: 80}, run.Record{Shifts: 90, Good: 84}, run.Alike},
		{"no_shift", run.Record{}, run.Record{Shifts: 90, Good: 84}, run.Alike},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.a.Against(c.b); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

// A record kept shift by shift is the record of the row.
func TestAdd(t *testing.T) {
	var kept run.Record
	var row []run.Shift
	for _, c := range "g---gg-gx--" {
		if c != 'x' {
			kept = kept.Add(c == 'g')
		}
		row = append(row, run.Shift{Good: c == 'g', Exempt: c == 'x'})
	}
	if want := run.RecordOf(row); kept != want || kept.Longest != 3 || kept.Current != 2 {
		t.Errorf("%+v, want %+v", kept, want)
	}
	both := kept.Plus(run.Record{Shifts: 4, Good: 1, Longest: 2, Current: 1})
	if both != (run.Record{Shifts: 14, Good: 5, Longest: 3, Current: 2}) {
		t.Errorf("%+v", both)
	}
}
