package bot

import (
	"math"
	"testing"

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
