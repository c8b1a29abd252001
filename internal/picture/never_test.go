package picture

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/ledger"
)

// TestNoFalsePass: whatever is on record, in whatever order, an item is shown as
// ok only if each of its checks that is due has a passing word that stands, and
// the last word about it; and a company as checked only if all its items are.
func TestNoFalsePass(t *testing.T) {
	shift := setup().Rota.On(day)[0]
	items := setup().Dept.Carried("E1")
	due := ledger.New(setup(), nil)
	rapid.Check(t, func(t *rapid.T) {
		d := &diary{}
		d.shift(day)
		for _, it := range items { // mostly answered well, so that passes do occur
			for _, ref := range due.Due(it.ID, day) {
				c, _ := setup().Book.Of(setup().Dept, ref)
				for n := rapid.IntRange(0, 8).Draw(t, "words"); n > 0; n -= 4 {
					state := rapid.SampledFrom([]string{"ok", "ok", "ok", "ok", "ok", "ok", "fault", "unsure", "open"}).Draw(t, "state")
					r := d.read(rapid.Float64Range(0, 5).Draw(t, "when"), ref.Item, ref.Check, check.State(state), check.Value{})
					if c.Answer.Kind == check.Run {
						r.Value = check.Num(rapid.Float64Range(0, 30).Draw(t, "minutes"))
					}
					if rapid.IntRange(0, 9).Draw(t, "gone") == 0 {
						d.lines[len(d.lines)-1].SupersededBy = "later"
					}
				}
			}
		}
		if rapid.Bool().Draw(t, "out") {
			d.service(1, rapid.SampledFrom(items).Draw(t, "item").ID, "out_of_service", "")
		}
		b := BoardOf(ledger.New(setup(), d.lines), shift, shift.Start.Add(6*time.Hour))
		for i, it := range items {
			if chip := b.Companies[0].Items[i]; chip.State == OK && !passes(d.lines, due.Due(it.ID, day)) {
				t.Fatalf("%s is shown as ok", it.Number)
			}
		}
		if c := b.Companies[0]; c.state() == OK && c.Answered+c.Ran < c.Asked+c.Runs {
			t.Fatalf("the company is shown as ok with %+v", c)
		}
	})
}

// passes reports, by looking at the lines alone, whether the last standing word
// about every one of the checks is a pass.
func passes(lines []ledger.Line, refs []check.Ref) bool {
	for _, ref := range refs {
		var last ledger.Line
		for _, l := range lines {
			if l.Kind == bot.OnReading && l.Item == ref.Item && l.Check == ref.Check && l.SupersededBy == "" && !l.At.Before(last.At) {
				last = l
			}
		}
		long := last.Value.Number != nil && *last.Value.Number > 5 && last.State == "fault" // a long run is one
		if last.State != "ok" && !long {
			return false
		}
	}
	return len(refs) > 0
}

// TestOutOfServiceIsNeverOK, also long after and whatever the shift says.
func TestOutOfServiceIsNeverOK(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &diary{}
		d.shift(day)
		d.good(1, "e1-pump")
		d.service(-rapid.Float64Range(0, 24*900).Draw(t, "hours"), "e1-pump", "out_of_service", "pump seized")
		_, chips := d.chips(rapid.Float64Range(0, 23).Draw(t, "later"))
		if chips["PU-01"].State != Out {
			t.Fatalf("%+v", chips["PU-01"])
		}
	})
}

// TestYearAddsUp: the days of a year never show more good shifts than there were,
// nor a day that was not.
func TestYearAddsUp(t *testing.T) {
	first := dept.Date{Year: 2026, Month: time.January, Day: 1}
	rapid.Check(t, func(t *rapid.T) {
		d := &diary{}
		ran := 0
		for i := range rapid.IntRange(0, 40).Draw(t, "days") {
			d.shift(first.AddDays(i))
			if rapid.Bool().Draw(t, "ran") {
				d.good(1, "e1-pump")
				ran++
			}
		}
		y := YearOf(ledger.New(setup(), d.lines), "e1-pump", first, at)
		done := 0
		for _, day := range y.Days {
			if day.State == Done {
				done++
			}
		}
		if y.Good != ran || done != ran || y.Shifts < ran {
			t.Fatalf("%d of %d shifts, %d days, and it ran in %d", y.Good, y.Shifts, done, ran)
		}
	})
}
