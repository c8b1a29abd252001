package ledger

import (
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
)

// Life is a defect as the records tell it, step by step.
type Life struct {
	ID      defect.ID
	Ref     check.Ref
	Company dept.CompanyID
	Steps   []Line
}

// The steps that end a defect, for the shop and for good.
var ended = map[string]bool{"repaired": true, "confirmed": true, "not_a_fault": true}

func lives(lines []Line) []*Life {
	var list []*Life
	found := map[defect.ID]*Life{}
	for _, l := range lines {
		if l.Kind != bot.OnDefect || l.Defect == "" {
			continue
		}
		life := found[l.Defect]
		if life == nil {
			life = &Life{ID: l.Defect, Ref: check.Ref{Item: l.Item, Check: l.Check}, Company: l.Company}
			found[l.Defect] = life
			list = append(list, life)
		}
		life.Steps = append(life.Steps, l)
	}
	return list
}

// Began is when the first of its steps was taken.
func (l *Life) Began() time.Time { return l.Steps[0].At }

// At is when a step was last taken; zero if never.
func (l *Life) At(step string) time.Time {
	for i := len(l.Steps) - 1; i >= 0; i-- {
		if l.Steps[i].State == step {
			return l.Steps[i].At
		}
	}
	return time.Time{}
}

// Words is what was said when it was first reported.
func (l *Life) Words() string { return l.Steps[0].Words }

// OpenAt reports whether the defect was reported and not yet repaired at t. A
// second report after the repair, which reopens it, counts from then.
func (l *Life) OpenAt(t time.Time) bool {
	open := false
	for _, s := range l.Steps {
		switch {
		case s.At.After(t):
			return open
		case ended[s.State]:
			open = false
		case s.State == "reported" || s.State == "reopened":
			open = true
		}
	}
	return open
}

// Ended is when the defect was closed or, failing that, repaired; zero while it
// is open.
func (l *Life) Ended() time.Time {
	var at time.Time
	for _, s := range l.Steps {
		switch {
		case ended[s.State]:
			if at.IsZero() || s.State != "confirmed" {
				at = s.At
			}
		case s.State == "reopened":
			at = time.Time{}
		}
	}
	return at
}
