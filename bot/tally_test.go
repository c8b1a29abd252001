package bot

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"crosslay/bot/dept"
	"crosslay/bot/run"
	"crosslay/bot/service"
)

// TestTallyIsTheRuns holds the kept sums against package service's, which goes by
// the runs themselves: the same days, the same hours.
func TestTallyIsTheRuns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := dept.Date{Year: 2026, Month: 1, Day: 5}
		days := rapid.IntRange(1, 200).Draw(t, "days")
		var tally Tally
		var runs []run.Run
		for i := range days {
			day := first.AddDays(i)
			tally = tally.until(day)
			for range rapid.IntRange(0, 2).Draw(t, "runs") {
				m := float64(rapid.IntRange(1, 20).Draw(t, "minutes"))
				tally.Ran += m
				runs = append(runs, run.Run{Date: day, Minutes: m})
			}
		}
		got := tally.until(first.AddDays(days)).use()
		if want := min(days, blockDays+days%blockDays); got.Days != want && got.Days != days {
			t.Fatalf("%d days are counted of %d, want %d", got.Days, days, want)
		}
		want := service.UseOf(runs, first.AddDays(days-got.Days), first.AddDays(days-1))
		if got.Busy != want.Busy || math.Abs(got.Hours-want.Hours) > 1e-9 || math.Abs(got.Squares-want.Squares) > 1e-9 {
			t.Fatalf("kept %+v, the runs say %+v", got, want)
		}
	})
}

func TestTallyStartsAnewAfterLongSilence(t *testing.T) {
	day := dept.Date{Year: 2026, Month: 1, Day: 5}
	tally := Tally{Day: day, Ran: 7, Recent: service.Use{Days: 20, Busy: 20, Hours: 2}}
	if u := tally.until(day.AddDays(400)).use(); u.Days != 0 {
		t.Errorf("use of a year ago is counted: %+v", u)
	}
}

func TestExplained(t *testing.T) {
	for text, want := range map[string]string{
		"yes": "yes", "Yes.": "yes", "yep, filled it up": "yes", "we topped it off last night": "yes", "topped off this morning": "yes",
		"used on a call": "yes", "no": "no", "nope": "no", "nobody filled it": "no", "it wasn't": "no", "not filled": "no",
		"": "", "full": "", "3/4": "", "yes and the blade is bent": "", "filled the saw, pump is 1/2": "", "topped off the saw": "", "topped off the pump": "yes", "leak at the cap": "",
	} {
		if got := explained(text, []string{"power", "unit", "pump", "pu-01"}); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestPromises(t *testing.T) {
	for text, want := range map[string]bool{
		"ok will look": true, "I'll check": true, "on it": true, "let me look": true,
		"looks fine": false, "ok": false, "ok on it": true, "ok, there is silicone on it": false, "checked it, fine": false, "will not start": false,
	} {
		if promises(text) != want {
			t.Errorf("%q: %v", text, !want)
		}
	}
}

func TestBareFix(t *testing.T) {
	for text, want := range map[string]bool{
		"fixed": true, "Fixed it.": true, "it's fixed now": true, "cleaned them": true, "wiped it down": true, "all fixed": true,
		"fixed the left hose": false, "not fixed": false, "will be fixed": false, "fixed?": false, "cleaned them, one is cracked": false, "it": false,
	} {
		if bareFix(text) != want {
			t.Errorf("%q: %v", text, !want)
		}
	}
}

func TestFirstDay(t *testing.T) {
	for name, c := range map[string]struct {
		days []time.Weekday
		want time.Weekday
	}{
		"around_the_clock": {nil, time.Monday},
		"monday_to_friday": {[]time.Weekday{time.Monday, time.Friday}, time.Monday},
		"from_tuesday":     {[]time.Weekday{time.Sunday, time.Saturday, time.Tuesday}, time.Tuesday},
		"sundays":          {[]time.Weekday{time.Sunday}, time.Sunday},
	} {
		t.Run(name, func(t *testing.T) {
			if got := firstDay(dept.Hours{Days: c.days}); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}
