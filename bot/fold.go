package bot

import (
	"slices"
	"sort"

	"crosslay/bot/check"
	"crosslay/bot/reply"
)

// stand is what the words of a shift come to for one check.
type stand struct {
	result    reply.Result
	by        string // who said it
	event     string
	others    bool // somebody else said the fault too
	contested bool // a fault that somebody not entitled called ok
}

// fold replays the statements of a shift in the order in which they were said.
// An edit stands in the place of the old words; what was taken back counts for
// nothing.
func fold(statements []Statement) map[check.Ref]stand {
	ordered := append([]Statement(nil), statements...)
	sort.SliceStable(ordered, func(i, j int) bool { return ordered[i].Said.Before(ordered[j].Said) })
	stands := map[check.Ref]stand{}
	for _, s := range ordered {
		if s.Gone {
			continue
		}
		for _, r := range s.Results {
			if next, ok := overrule(stands[r.Ref], s, r); ok {
				stands[r.Ref] = next
			}
		}
	}
	return stands
}

// overrule decides one word against what stands. Pass to fault is taken from
// anybody. Fault to pass is taken from the one who said it, while nobody else
// confirmed it, from the company's officer and from the shop; from anybody else
// it makes the check unsure. A blanket never overrules a fault or a doubt.
func overrule(cur stand, s Statement, r reply.Result) (stand, bool) {
	next := stand{result: r, by: s.Author, event: s.Event}
	if r.Ran && cur.result.Ran {
		return rerun(cur, next)
	}
	switch cur.result.State {
	case check.Open:
		return next, true
	case check.OK:
		if r.State == check.Unsure && weak(r.Doubt.Why) {
			return cur, false
		}
		if r.State == check.OK && r.Blanket {
			return cur, false
		}
		return next, true
	case check.Fail:
		return overFault(cur, next, s, r)
	case check.Unsure:
		return overDoubt(cur, next, s, r)
	}
	return next, true
}

// rerun decides between two runs of an engine. Runs are no opinions: a good one
// stands, whoever tells of another, and a run told of again is corrected.
func rerun(cur, next stand) (stand, bool) {
	another := !next.result.Start.Equal(cur.result.Start)
	if another && next.result.Damage == "low" && cur.result.Damage != "low" {
		return cur, false
	}
	return next, true
}

func overFault(cur, next stand, s Statement, r reply.Result) (stand, bool) {
	switch {
	case r.State == check.Fail:
		next.others = cur.others || s.Author != cur.by
		return next, true
	case r.State == check.Unsure, r.Blanket:
		return cur, false
	case r.State == check.OK && r.Fixed: // where the crew may fix it, any of them may
		return next, true
	case s.Officer, slices.Contains(s.Confirms, r.Ref), s.Author == cur.by && !cur.others:
		return next, true
	}
	cur.result.State = check.Unsure
	cur.result.Doubt = reply.Doubt{Why: reply.Conflict, Refs: []check.Ref{r.Ref}}
	cur.contested = true
	return cur, true
}

// overDoubt decides a word against a doubt. A fault that somebody not entitled
// called ok stays in doubt until one who is entitled settles it.
func overDoubt(cur, next stand, s Statement, r reply.Result) (stand, bool) {
	switch {
	case r.Blanket:
		return cur, false
	case !cur.contested, r.State == check.Open && s.Officer:
		return next, true
	case r.State == check.Fail:
		next.others = cur.others || s.Author != cur.by
		return next, true
	case r.State == check.OK && (s.Officer || r.Fixed || slices.Contains(s.Confirms, r.Ref) || s.Author == cur.by && !cur.others):
		return next, true
	}
	return cur, false
}

// weak doubts do not unsettle what was settled: they only fail to add to it.
func weak(w reply.Why) bool {
	return w == reply.WhichItem || w == reply.NoReading || w == reply.WhichCheck
}
