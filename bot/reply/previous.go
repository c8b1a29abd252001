package reply

import (
	"slices"
	"strings"

	"crosslay/bot/check"
)

// justAsked are the refs that the clause before put as a question, which this
// one answers: "leaks? none on either hose".
func (r *reader) justAsked(refs []int) []int {
	var out []int
	for _, x := range intersect(r.before, refs) {
		if r.records[x].v.why == Asking || r.records[x].v.why == WhichItem {
			out = append(out, x)
		}
	}
	return out
}

// likePrevious are the refs whose check is the one just spoken of, of another
// item: "ran the saw three minutes and the fan seven".
func (r *reader) likePrevious(refs []int) []int {
	var out []int
	for _, x := range refs {
		for _, p := range r.before {
			if r.lx.refs[p].check.ID == r.lx.refs[x].check.ID {
				out = appendNew(out, []int{x})
			}
		}
	}
	return out
}

// itemBefore reports whether the clause just before, in the same sentence, named
// an item or went on about one.
func (r *reader) itemBefore(i int) bool {
	if i == 0 {
		return false
	}
	c := &r.clauses[i-1]
	return len(c.items) == 1 && !c.hasCheck() && len(c.sigs) == 0
}

// silent is a clause in which nothing was said: leftovers stay with what they
// follow.
func (r *reader) silent(c *clause, i int) {
	if len(c.unknown) == 0 {
		return
	}
	if len(r.lx.refs) > 1 && onlyThings(c.unknown) {
		r.residue(nil, c, Leftover)
		return
	}
	if len(r.lx.refs) == 1 {
		r.hear(0, doubt(Leftover), c, i, byName)
		return
	}
	if c.soft && r.noneOK(r.prev) {
		r.residue(nil, c, Leftover) // says why of what does not pass anyway
		return
	}
	if c.soft && len(r.prev) > 0 {
		r.unsettle(r.prev)
	}
	r.residue(r.defaultScope(c), c, Leftover)
}

// crewMends reports whether the crew may put right what is wrong with all of the refs.
func (r *reader) crewMends(refs []int) bool {
	for _, x := range refs {
		if r.lx.refs[x].check.Fault.Default != check.Crew {
			return false
		}
	}
	return true
}

// levelOfPrevious takes "it's full" behind a run or a reading for the one level of the
// same item.
func (r *reader) levelOfPrevious(c *clause, i int) bool {
	if len(c.sigs) != 1 || len(c.unknown) > 0 || !c.says(sFull, sEmpty) || len(r.lx.ofKind(r.prev, check.Level, check.Gauge, check.Condition, check.YesNo)) > 0 {
		return false
	}
	levels := r.lx.ofKind(r.lx.ofItems(r.itemsOf(r.prev)), check.Level)
	if len(levels) != 1 {
		return false
	}
	r.hear(levels[0], judge(&r.lx.refs[levels[0]], c.sigs, r.ctx.Now), c, i, byName)
	return true
}

// bareNot reports whether all that is said is "not", of what went before.
func bareNot(c *clause) bool {
	return len(c.sigs) == 1 && c.sigs[0].kind == sBad && c.sigs[0].t.word == "not" && !c.hasSubject()
}

// unsettle puts passes in doubt that something behind them speaks against.
func (r *reader) unsettle(refs []int) {
	for _, ref := range refs {
		if rec := &r.records[ref]; rec.set && rec.v.state == check.OK {
			rec.v.state, rec.v.why = check.Unsure, Leftover
		}
	}
}

// noneOK reports whether all of the refs were spoken of and none passes.
func (r *reader) noneOK(refs []int) bool {
	for _, x := range refs {
		if !r.records[x].set || r.records[x].v.state == check.OK {
			return false
		}
	}
	return len(refs) > 0
}

// onPrevious lets a clause go on about the checks of the clause before:
// "chain was loose, snugged it up".
func (r *reader) onPrevious(c *clause, i int) bool {
	if len(r.prev) == 0 || c.all || len(r.focus) > 0 && !r.anySet(r.prev) {
		return false
	}
	if c.says(sNoStart) && len(r.lx.ofKind(r.prev, check.Run)) == 0 {
		return false
	}
	if k := len(c.sigs); k > 0 && c.sigs[k-1].kind == sGood && c.sigs[k-1].t.is(cGeneral|cBlanket) && len(r.wanting(r.prev)) == len(r.prev) {
		return false
	}
	if c.free && c.says(sBad) && !c.pronoun {
		if c.soft {
			r.unsettle(r.prev) // "guard good, one bolt missing"
		}
		return false
	}
	mends := r.mending && c.says(sFigure, sGood) || c.says(sClosed, sFixed, sPoured, sNow, sHedge, sUndone, sSame) || c.corrects || c.pronoun
	if !c.soft && !mends && !bareNot(c) && !(i > 0 && r.clauses[i-1].question && c.says(sYes, sNo, sGood, sFigure)) {
		return false
	}
	if c.says(sFixed) && !c.says(sGood, sBad, sClosed, sOpen) && !r.crewMends(r.prev) && len(intersect(r.prev, r.older)) == len(r.prev) && !r.anySet(r.prev) {
		return true // mended after trouble of another day
	}
	if r.levelOfPrevious(c, i) {
		return true
	}
	to := r.prev
	for k := range c.sigs {
		s := &c.sigs[k]
		if s.kind == sFigure {
			if t := r.lx.takers(r.prev, s.t.q); len(t) > 0 {
				to = t
			} else if !r.anyNumber(r.prev, s.t.q) || s.t.q.frac && len(r.lx.takers(r.lx.ofItems(r.itemsOf(r.prev)), s.t.q)) == 1 {
				return false
			}
		}
		if s.kind == sUndone && len(r.lx.ofKind(r.prev, check.Run)) == 0 && strings.Contains(r.words(s.b, s.e), "run") {
			return false
		}
		if in := r.namedIn(s); s.kind == sPoured && len(in) > 0 && len(intersect(in, r.prev)) == 0 {
			return false
		}
		if s.kind == sBad && len(s.t.senses.damages) > 0 && len(damaged(r.prev, s.t)) == 0 && len(damaged(r.lx.all(), s.t)) == 1 {
			return false
		}
		if s.kind == sFigure && s.t.q.unit == "" && r.otherNumber() {
			return false
		}
		if s.t.is(cBad) && len(s.t.senses.checks) > 0 && len(intersect(s.t.senses.checks, r.prev)) == 0 {
			return false
		}
		if s.kind == sOption && len(options(r.prev, s.t)) == 0 {
			return false
		}
	}
	for _, ref := range to {
		if rec := &r.records[ref]; rec.set && len(rec.choice) > 0 {
			rec.said = judge(&r.lx.refs[ref], c.sigs, r.ctx.Now)
			continue
		}
		v := judge(&r.lx.refs[ref], c.sigs, r.ctx.Now)
		if v.state == check.OK && c.doubtful() {
			v.state, v.why = check.Unsure, Leftover
		}
		if c.says(sFixed, sPoured) && r.records[ref].set {
			v = r.mended(ref, v, c)
		}
		r.hear(ref, v, c, i, byName)
		r.records[ref].b = min(r.records[ref].b, c.b)
		if r.records[ref].set && i > 0 && r.clauses[i-1].b >= 0 {
			r.records[ref].b = min(r.records[ref].b, r.clauses[i-1].b)
		}
	}
	return true
}

// wanting are those of the refs that want a figure.
func (r *reader) wanting(refs []int) []int {
	var out []int
	for _, x := range refs {
		if r.lx.refs[x].check.Answer.Kind.WantsFigure() {
			out = append(out, x)
		}
	}
	return out
}

// otherNumber reports whether the checks spoken of have their figures, and one
// other number of the item is open.
func (r *reader) otherNumber() bool {
	for _, x := range r.prev {
		if r.records[x].v.value.Number == nil {
			return false
		}
	}
	return len(r.open(r.lx.ofKind(r.lx.ofItems(r.itemsOf(r.prev)), check.Number))) == 1
}

// mended judges a repair in the light of the fault heard before.
func (r *reader) mended(ref int, v verdict, c *clause) verdict {
	before := r.records[ref].v
	sigs := c.sigs
	w := before
	for k := range sigs {
		w = step(&r.lx.refs[ref], w, &sigs[k], r.ctx.Now)
	}
	if w.fixed {
		return w
	}
	return v
}

func (r *reader) anySet(refs []int) bool {
	for _, x := range refs {
		if r.records[x].set {
			return true
		}
	}
	return false
}

// onFocus reads a clause as the answer to what the bot asked back, or to the
// only check there is.
func (r *reader) onFocus(c *clause, i int) {
	refs := r.focus
	if len(refs) == 0 {
		refs = r.lx.all()
	}
	if len(refs) > 1 {
		r.parts(refs, c, i, byItem)
		return
	}
	v := judge(&r.lx.refs[refs[0]], c.sigs, r.ctx.Now)
	if w, ok := r.answered(refs[0], c); ok {
		v = w
	}
	if v.state == check.OK && c.doubtful() {
		v.state, v.why = check.Unsure, Leftover
	}
	r.prev = refs
	r.hear(refs[0], v, c, i, byName)
}

// defaultScope is what a clause without a subject covers: the item that was
// named in this message, unless a new sentence says "all".
func (r *reader) defaultScope(c *clause) []int {
	if r.held < 0 && (c.soft || c.pronoun) && len(r.group) > 1 && !c.all && !c.rest {
		return r.lx.ofItems(r.group)
	}
	if r.held >= 0 && c.pronoun && c.all && !c.rest {
		return r.lx.byItem[r.held] // "nothing wrong with it"
	}
	if r.held < 0 || !r.named && r.ctx.Held == "" {
		return r.lx.all()
	}
	if c.all && (!c.soft && !r.bare || c.wide && !c.pronoun) {
		return r.lx.all()
	}
	return r.lx.byItem[r.held]
}

// onlyThings reports whether the words are all names, or of things that nobody
// asked about.
func onlyThings(unknown []*term) bool {
	for _, t := range unknown {
		if !t.is(cThing) && !t.capital {
			return false
		}
	}
	return true
}

// answered reads yes, no, open and closed in the light of the question: whether
// the tool was closed, which keeps the low reading standing, or for a figure,
// which they do not give.
func (r *reader) answered(ref int, c *clause) (verdict, bool) {
	for _, d := range r.ctx.Asked {
		if !slices.Contains(r.lx.find(d.Refs), ref) {
			continue
		}
		yes, no := c.says(sYes, sClosed, sClosedTool), c.says(sNo, sOpen, sOpenTool)
		switch {
		case c.says(sFigure, sLow, sOver, sFull, sMid, sBad, sPoured) || yes == no:
			return verdict{}, false
		case d.Why == ToolOpen && yes:
			return verdict{state: check.Fail, value: check.Word("low"), pos: Met, assumed: true}, true
		case d.Why == ToolOpen:
			return verdict{state: check.Unsure, why: ToolOpen, pos: Unmet}, true
		case (d.Why == NoReading || d.Why == Straddles) && !c.says(sClosed, sOpen):
			return doubt(d.Why), true
		}
	}
	return verdict{}, false
}
