package export

import (
	"slices"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/internal/ledger"
)

// The columns, by what they say. Those of names are empty without a department.
var (
	colSaid    = column{"said", 20, func(_ Names, l ledger.Line) any { return l.At }}
	colLearnt  = column{"learnt", 20, func(_ Names, l ledger.Line) any { return l.Arrived }}
	colDate    = column{"shift date", 12, func(_ Names, l ledger.Line) any { return l.Date }}
	colPlatoon = column{"platoon", 9, func(_ Names, l ledger.Line) any { return string(l.Platoon) }}
	colCompany = column{"company", 18, func(n Names, l ledger.Line) any { return n.company(l.Company) }}
	colItem    = column{"item", 12, func(n Names, l ledger.Line) any { return n.item(l.Item) }}
	colCheck   = column{"check", 20, func(n Names, l ledger.Line) any { return with(n, l, func(c *check.Check) any { return c.Label }) }}
	colState   = column{"result", 16, func(_ Names, l ledger.Line) any { return l.State }}
	colStep    = column{"step", 16, func(_ Names, l ledger.Line) any { return l.State }}
	colFigure  = column{"figure", 10, func(_ Names, l ledger.Line) any { return l.Value.Number }}
	colMinutes = column{"minutes", 10, func(_ Names, l ledger.Line) any { return l.Value.Number }}
	colUnit    = column{"unit", 9, func(n Names, l ledger.Line) any { return with(n, l, func(c *check.Check) any { return unit(c) }) }}
	colMin     = column{"lower limit", 12, func(n Names, l ledger.Line) any { return with(n, l, func(c *check.Check) any { return c.Answer.Min }) }}
	colMax     = column{"upper limit", 12, func(n Names, l ledger.Line) any { return with(n, l, func(c *check.Check) any { return c.Answer.Max }) }}
	colWord    = column{"reading in words", 18, func(_ Names, l ledger.Line) any { return l.Value.Word }}
	colWords   = column{"what was written", 48, func(_ Names, l ledger.Line) any { return l.Words }}
	colWho     = column{"who", 22, func(_ Names, l ledger.Line) any { return l.Who }}
	colNote    = column{"note", 24, func(_ Names, l ledger.Line) any { return l.Note }}
	colDefect  = column{"defect id", 34, func(_ Names, l ledger.Line) any { return string(l.Defect) }}
	colBy      = column{"superseded by", 40, func(_ Names, l ledger.Line) any { return l.SupersededBy }}
	colOver    = column{"supersedes", 40, func(_ Names, l ledger.Line) any { return l.Supersedes }}
	colItemID  = column{"item id", 16, func(_ Names, l ledger.Line) any { return string(l.Item) }}
	colCheckID = column{"check id", 14, func(_ Names, l ledger.Line) any { return string(l.Check) }}
	colCompID  = column{"company id", 12, func(_ Names, l ledger.Line) any { return string(l.Company) }}
	colMessage = column{"message", 24, func(_ Names, l ledger.Line) any { return l.Message }}
	colID      = column{"record", 40, func(_ Names, l ledger.Line) any { return l.ID }}
)

// with asks the check of a record, if there is one.
func with(n Names, l ledger.Line, f func(*check.Check) any) any {
	c := n.check(refOf(l))
	if c == nil {
		return nil
	}
	return f(c)
}

// columnsOf are the columns of a kind: what people ask first stands first, the
// ids by which records name one another stand last.
func columnsOf(kind bot.RecordKind) []column {
	last := []column{colLearnt, colCompID, colItemID, colCheckID, colMessage, colID}
	corrected := []column{colBy, colOver}
	switch kind {
	case bot.OnReading:
		return slices.Concat([]column{colSaid, colDate, colPlatoon, colCompany, colItem, colCheck, colState, colFigure, colUnit,
			colMin, colMax, colWord, colNote, colWho, colWords}, corrected, last)
	case bot.OnRun:
		return slices.Concat([]column{colSaid, colDate, colPlatoon, colCompany, colItem, colMinutes, colState, colMin, colMax, colNote, colWho, colWords}, corrected, last)
	case bot.OnDefect:
		return slices.Concat([]column{colSaid, colCompany, colItem, colCheck, colStep, colWho, colWords, colNote, colDefect}, last)
	case bot.OnService:
		return slices.Concat([]column{colSaid, colCompany, colItem, colStep, colNote, colWho, colDefect}, last)
	case bot.OnReminder:
		return slices.Concat([]column{colSaid, colCompany, colItem, colCheck, colState, colNote, colDefect}, last)
	case bot.OnPrompt:
		return slices.Concat([]column{colSaid, colDate, colPlatoon, colCompany, colState, colNote}, last)
	case bot.OnWords:
		return slices.Concat([]column{colSaid, colDate, colPlatoon, colCompany, colState, colWho, colWords}, last)
	}
	return last
}
