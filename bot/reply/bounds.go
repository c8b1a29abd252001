package reply

import (
	"crosslay/bot/check"
)

// judgeBounds judges a figure or a range against the limits. A bound settles the
// state and gives no value; one that straddles a limit settles nothing.
func judgeBounds(a *asked, q quantity) verdict {
	ans := a.check.Answer
	switch q.bound {
	case exact, near:
		st, _ := ans.Within(q.lo)
		return verdict{state: st, value: check.Num(q.lo)}
	case rangeB:
		return settled(ans, q.lo, q.hi)
	case underB:
		return under(ans, q.lo)
	case overB:
		return above(ans, q.lo)
	case atLeast:
		return atLeastOf(ans, q.lo)
	case atMost:
		return atMostOf(ans, q.lo)
	}
	return doubt(Straddles)
}

// atLeastOf reads "over 280", "at least 5": from the floor up it is ok, though
// nobody spoke of the ceiling; from below the floor it may be either.
func atLeastOf(ans check.Answer, f float64) verdict {
	st, word := ans.Within(f)
	switch {
	case word == "over" || ans.Max != nil && f >= *ans.Max:
		return fault
	case st == check.OK:
		return pass
	}
	return doubt(Straddles)
}

// atMostOf reads "under 10": at or under the floor it is low; otherwise it passes
// only where the ceiling is the limit next to it.
func atMostOf(ans check.Answer, f float64) verdict {
	switch {
	case ans.Min != nil && f <= *ans.Min:
		return fault
	case ans.Max != nil && f <= *ans.Max && (ans.Min == nil || *ans.Max-f < f-*ans.Min):
		return pass
	}
	return doubt(Straddles)
}

func settled(ans check.Answer, lo, hi float64) verdict {
	a, _ := ans.Within(lo)
	b, _ := ans.Within(hi)
	if a != b || a == check.Fail && ans.Min != nil && ans.Max != nil && lo < *ans.Min && hi > *ans.Max {
		return doubt(Straddles)
	}
	return verdict{state: a}
}

// under reads "just under 3/4": below the floor if the floor is there; a little
// below anything else.
func under(ans check.Answer, f float64) verdict {
	if ans.Min != nil && f <= *ans.Min+1e-9 {
		return fault
	}
	return settled(ans, f*0.9, f*0.999)
}

func above(ans check.Answer, f float64) verdict {
	if ans.Max != nil && f >= *ans.Max-1e-9 {
		return fault
	}
	return settled(ans, f*1.001, f*1.1)
}
