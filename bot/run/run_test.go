package run_test

import (
	"math"
	"testing"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/run"
)

// The range of 5 to 10 minutes a shift is common practice, no source.
var warmUp = run.Limits{Min: 5, Max: 10}

func TestJudge(t *testing.T) {
	tests := []struct {
		name    string
		minutes float64
		want    run.Verdict
		counts  bool
		records bool
	}{
		{"none", 0, run.Short, false, true},
		{"just_short", 4.99, run.Short, false, true},
		{"at_the_minimum", 5, run.Good, true, true},
		{"inside", 7.5, run.Good, true, true},
		{"at_the_end", 10, run.Good, true, true},
		{"crumb_of_a_conversion", 10 + 1e-12, run.Good, true, true},
		{"over", 10.5, run.Over, true, true},
		{"told_far_over", 45, run.Over, true, true},
		{"before_it_began", -3, run.Ask, false, false},
		{"no_number", math.NaN(), run.Ask, false, false},
		{"longer_than_a_day", 24*60 + 1, run.Ask, false, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := run.Judge(warmUp.Min, warmUp.Max, tt.minutes)
			if v != tt.want || v.Counts() != tt.counts || v.Records() != tt.records {
				t.Errorf("%v min: %s, counts %v, records %v", tt.minutes, v, v.Counts(), v.Records())
			}
		})
	}
}

func TestOff(t *testing.T) {
	start := time.Date(2026, 3, 8, 1, 55, 0, 0, time.UTC)
	tests := []struct {
		name string
		ran  time.Duration
		want run.Verdict
	}{
		{"short", 4 * time.Minute, run.Short},
		{"good", 6 * time.Minute, run.Good},
		{"over", 11 * time.Minute, run.Over},
		{"twice_the_range", 20 * time.Minute, run.Over},
		{"later_than_twice", 20*time.Minute + time.Second, run.Ask},
		{"off_before_start", -time.Minute, run.Ask},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			minutes, v := warmUp.Off(start, start.Add(tt.ran))
			if v != tt.want || minutes != tt.ran.Minutes() {
				t.Errorf("%v: %v min, %s", tt.ran, minutes, v)
			}
		})
	}
}

func TestOffAcrossChangedClocks(t *testing.T) {
	zone, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	// The wall clock goes from 01:59 to 03:00 on 2026-03-08; the engine ran six minutes.
	start, off := time.Date(2026, 3, 8, 1, 57, 0, 0, zone), time.Date(2026, 3, 8, 3, 3, 0, 0, zone)
	if minutes, v := warmUp.Off(start, off); minutes != 6 || v != run.Good {
		t.Errorf("%v min, %s", minutes, v)
	}
}

func TestOnCall(t *testing.T) {
	for minutes, want := range map[float64]run.Verdict{4: run.Short, 5: run.Good, 90: run.Good} {
		if got := (run.Run{Minutes: minutes, OnCall: true}).Judge(warmUp); got != want {
			t.Errorf("%v min on a call: %s, want %s", minutes, got, want)
		}
	}
	if got := (run.Run{Minutes: 90}).Judge(warmUp); got != run.Over {
		t.Errorf("90 min not on a call: %s", got)
	}
}

func TestLimitsOf(t *testing.T) {
	low := 5.0
	l := run.LimitsOf(check.Answer{Kind: check.Run, Min: &low})
	if l != (run.Limits{Min: 5}) {
		t.Fatalf("limits %+v", l)
	}
	if v := (run.Run{Minutes: 300}).Judge(l); v != run.Good {
		t.Errorf("without an upper limit: %s", v)
	}
}

func TestShortRunsAddHoursButNoWarmUp(t *testing.T) {
	day := dept.Date{Year: 2026, Month: 3, Day: 1}
	runs := []run.Run{{Date: day, Platoon: "A", Minutes: 3}, {Date: day, Platoon: "A", Minutes: 3}}
	if h := run.Hours(runs); math.Abs(h-0.1) > 1e-12 {
		t.Errorf("%v hours", h)
	}
	marked := run.Mark([]run.Shift{{Date: day, Platoon: "A"}}, runs, warmUp)
	if r := run.RecordOf(marked); r.Good != 0 {
		t.Errorf("two short runs made a good one: %+v", r)
	}
}

func TestRecord(t *testing.T) {
	tests := []struct {
		name   string
		shifts string // g good, - none, x out of service
		want   run.Record
		loud   bool
	}{
		{"nothing", "", run.Record{}, false},
		{"always", "gggg", run.Record{Shifts: 4, Good: 4}, false},
		{"one_missed", "gg-g", run.Record{Shifts: 4, Good: 3, Longest: 1}, false},
		{"gap_in_the_middle", "g---g-", run.Record{Shifts: 6, Good: 2, Longest: 3, Current: 1}, false},
		{"two_at_the_end", "g--", run.Record{Shifts: 3, Good: 1, Longest: 2, Current: 2}, true},
		{"out_of_service_is_left_out", "g-xx-g", run.Record{Shifts: 4, Good: 2, Longest: 2}, false},
		{"only_out_of_service", "xx", run.Record{}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var shifts []run.Shift
			for _, c := range tt.shifts {
				shifts = append(shifts, run.Shift{Good: c == 'g', Exempt: c == 'x'})
			}
			if got := run.RecordOf(shifts); got != tt.want || got.Loud() != tt.loud {
				t.Errorf("%s: %+v, loud %v", tt.shifts, got, got.Loud())
			}
		})
	}
}

func TestMarkGoesByShift(t *testing.T) {
	day := dept.Date{Year: 2026, Month: 3, Day: 1}
	shifts := []run.Shift{{Date: day, Platoon: "A"}, {Date: day, Platoon: "B"}, {Date: day.AddDays(1), Platoon: "A"}}
	runs := []run.Run{{Date: day, Platoon: "B", Minutes: 12}, {Date: day, Platoon: "A", Minutes: 2}}
	marked := run.Mark(shifts, runs, warmUp)
	if marked[0].Good || !marked[1].Good || marked[2].Good {
		t.Errorf("%+v", marked)
	}
	if shifts[1].Good {
		t.Error("the shifts handed in were changed")
	}
}
