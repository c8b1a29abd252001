package export

import (
	"crosslay/bot/check"
	"crosslay/internal/ledger"
)

// Sums is an item's period in figures.
type Sums struct {
	Shifts, Full, Partly, None, Out int // shifts that asked for it, by how they answered
	OK, Fault, Unsure, Open         int // checks that were due
	Blanket                         int // of those that passed, by one word for all
	PutRight                        int // of those that passed, after the crew put it right
	FaultOpen                       int // shifts in which a defect stood open and the item was in service
	Engine                          bool
	RunsDue, RunsGood               int
	Hours                           float64
}

// shift counts a shift by how much of it is open.
func (s *Sums) shift(open, due int) {
	s.Shifts++
	switch open {
	case 0:
		s.Full++
	case due:
		s.None++
	default:
		s.Partly++
	}
}

// count counts a check that was due.
func (s *Sums) count(book *ledger.Book, a *ledger.Answers, c *check.Check, ref check.Ref) {
	switch a.State(ref) {
	case check.OK:
		s.OK++
		if blanket(a.Results[ref]) {
			s.Blanket++
		}
		if a.Results[ref].PutRight() {
			s.PutRight++
		}
	case check.Fail:
		s.Fault++
	case check.Unsure:
		s.Unsure++
	case check.Open:
		s.Open++
	}
	if c.Answer.Kind == check.Run {
		s.RunsDue++
		if book.Settled(a, ref) {
			s.RunsGood++
		}
	}
}
