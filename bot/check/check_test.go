package check_test

import (
	"testing"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

func num(f float64) *float64 { return &f }

func TestWithin(t *testing.T) {
	fuel := check.Answer{Kind: check.Level, Min: num(0.5)}
	warmUp := check.Answer{Kind: check.Run, Min: num(5), Max: num(10)}
	pressure := check.Answer{Kind: check.Number, Unit: "psi", Max: num(10500)}
	converted, ok := check.Convert(723.9495, "bar", "psi") // 10,500 psi RECOMPUTED, to seven digits just under
	if !ok {
		t.Fatal("bar does not convert")
	}
	tests := []struct {
		name  string
		a     check.Answer
		f     float64
		state check.State
		word  string
	}{
		{"floor_itself", fuel, 0.5, check.OK, ""},
		{"under_the_floor", fuel, 0.4999, check.Fail, "low"},
		{"no_ceiling", fuel, 1, check.OK, ""},
		{"crumb_under_the_floor", fuel, 0.5 - 1e-12, check.OK, ""},
		{"short_run", warmUp, 4, check.Fail, "low"},
		{"shortest_run", warmUp, 5, check.OK, ""},
		{"longest_run", warmUp, 10, check.OK, ""},
		{"long_run", warmUp, 11, check.Fail, "over"},
		{"converted_limit", pressure, converted, check.OK, ""},
		{"over_the_limit", pressure, 10501, check.Fail, "over"},
		{"no_limits", check.Answer{Kind: check.Number}, -1e6, check.OK, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if state, word := tt.a.Within(tt.f); state != tt.state || word != tt.word {
				t.Errorf("%v: %s %q, want %s %q", tt.f, state, word, tt.state, tt.word)
			}
		})
	}
}

func TestWhenDue(t *testing.T) {
	tests := []struct {
		name string
		when check.When
		date string
		want bool
	}{
		{"each_shift", check.When{Every: check.EachShift}, "2026-03-04", true},
		{"no_rhythm_is_each_shift", check.When{}, "2026-03-04", true},
		{"its_weekday", check.When{Every: check.OnWeekday, Weekdays: []time.Weekday{time.Monday, time.Friday}}, "2026-03-06", true},
		{"another_weekday", check.When{Every: check.OnWeekday, Weekdays: []time.Weekday{time.Monday, time.Friday}}, "2026-03-07", false},
		{"its_day", check.When{Every: check.OnMonthDay, Days: []int{1, 15}}, "2026-03-15", true},
		{"another_day", check.When{Every: check.OnMonthDay, Days: []int{1, 15}}, "2026-03-14", false},
		{"the_31st_in_a_short_month", check.When{Every: check.OnMonthDay, Days: []int{31}}, "2026-04-30", true},
		{"the_31st_in_february", check.When{Every: check.OnMonthDay, Days: []int{31}}, "2026-02-28", true},
		{"the_31st_in_a_leap_february", check.When{Every: check.OnMonthDay, Days: []int{31}}, "2028-02-28", false},
		{"the_31st_in_december", check.When{Every: check.OnMonthDay, Days: []int{31}}, "2026-12-31", true},
		{"not_the_30th_of_a_long_month", check.When{Every: check.OnMonthDay, Days: []int{31}}, "2026-12-30", false},
		{"after_use_never_by_date", check.When{Every: check.AfterUse}, "2026-03-04", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := dept.ParseDate(tt.date)
			if err != nil {
				t.Fatal(err)
			}
			if got := tt.when.Due(d); got != tt.want {
				t.Errorf("due on %s: %v", tt.date, got)
			}
		})
	}
}

func TestActs(t *testing.T) {
	rising := []check.Act{"", check.Crew, check.Shop, check.Out}
	for i, a := range rising {
		for j, b := range rising {
			if a.Worse(b) != (i > j) {
				t.Errorf("%q worse than %q: %v", a, b, a.Worse(b))
			}
		}
	}
	hose := check.Fault{Default: check.Shop, Damages: []check.Damage{{Name: "cut", Act: check.Out}, {Name: "scuff", Act: check.Crew}}}
	for damage, want := range map[string]check.Act{"": check.Shop, "cut": check.Out, "scuff": check.Crew, "burn": check.Shop} {
		if got := hose.ActFor(damage); got != want {
			t.Errorf("%q: %s, want %s", damage, got, want)
		}
	}
}

// A blanket answers none of the kinds that want a reading; of a kind that is not
// known, the safe answer is that it wants one.
func TestWantsFigure(t *testing.T) {
	for kind, want := range map[check.AnswerKind]bool{
		check.Condition: false, check.YesNo: false, check.Gauge: false, check.Level: true, check.Number: true, check.Run: true,
		check.Choice: true, check.DateAhead: true, check.Text: true, check.Photo: true, "no such kind": true,
	} {
		if got := kind.WantsFigure(); got != want {
			t.Errorf("%s: %v", kind, got)
		}
	}
}

func TestValueEqual(t *testing.T) {
	values := []check.Value{{}, check.Num(0), check.Num(0.5), check.Word("low"), check.Word("over")}
	for i, a := range values {
		for j, b := range values {
			if a.Equal(b) != (i == j) {
				t.Errorf("%+v equal to %+v: %v", a, b, a.Equal(b))
			}
		}
		if a.IsZero() != (i == 0) {
			t.Errorf("%+v is zero: %v", a, a.IsZero())
		}
	}
	if !check.Num(0.75).Equal(check.Num(0.75)) {
		t.Error("two readings of one figure differ")
	}
}

func TestBook(t *testing.T) {
	d := &dept.Department{Items: []dept.Item{{ID: "saw", Sheet: "saw"}, {ID: "stray", Sheet: "none"}}}
	d.Index()
	book := check.Book{"saw": {ID: "saw", Checks: []check.Check{{ID: "fuel", Label: "fuel"}}}}
	if c, ok := book.Of(d, check.Ref{Item: "saw", Check: "fuel"}); !ok || c.Label != "fuel" {
		t.Errorf("saw.fuel: %+v %v", c, ok)
	}
	for _, ref := range []check.Ref{{Item: "saw", Check: "oil"}, {Item: "stray", Check: "fuel"}, {Item: "gone", Check: "fuel"}} {
		if _, ok := book.Of(d, ref); ok {
			t.Errorf("%s was found", ref)
		}
	}
	if s := (check.Ref{Item: "saw", Check: "fuel"}).String(); s != "saw.fuel" {
		t.Errorf("its text is %s", s)
	}
}
