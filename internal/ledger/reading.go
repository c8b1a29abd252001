package ledger

import (
	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// Runs lists an item's engine runs that stand; Value is in minutes.
func (b *Book) Runs(id dept.ItemID) []Line {
	return b.standing(func(l Line) bool { return l.Kind == bot.OnRun && l.Item == id && l.Value.Number != nil })
}

// Figures lists the readings of a check that stand and are figures.
func (b *Book) Figures(ref check.Ref) []Line {
	return b.standing(func(l Line) bool {
		return l.Kind == bot.OnReading && l.Item == ref.Item && l.Check == ref.Check && l.Value.Number != nil
	})
}

func (b *Book) standing(match func(Line) bool) []Line {
	var list []Line
	for _, l := range b.Lines {
		if l.Stands() && match(l) {
			list = append(list, l)
		}
	}
	return list
}

// RunCheck is the check of an item's sheet whose answer is a run; false if the
// item has no engine.
func (b *Book) RunCheck(id dept.ItemID) (*check.Check, bool) {
	it, _ := b.Setup.Dept.Item(id)
	sheet := b.Setup.Book[it.Sheet]
	if sheet == nil {
		return nil, false
	}
	for i := range sheet.Checks {
		if sheet.Checks[i].Answer.Kind == check.Run {
			return &sheet.Checks[i], true
		}
	}
	return nil, false
}

// Owed is what an item owed in a shift: the checks that were due, how many of
// them were settled, and how many of those stand at fault.
type Owed struct {
	Due, Settled, Faults int
	Out                  bool // it was out of service and owed nothing
}

// Owed reckons what an item owed in a shift that was asked.
func (b *Book) Owed(a *Answers, id dept.ItemID) Owed {
	if _, out := b.OutAt(id, a.Asked); out {
		return Owed{Out: true}
	}
	var o Owed
	for _, ref := range b.Due(id, a.Shift.Date) {
		o.Due++
		if b.Settled(a, ref) {
			o.Settled++
			if a.State(ref) == check.Fail && !b.Ran(a.Results[ref]) {
				o.Faults++
			}
		}
	}
	return o
}
