package reply

import (
	"crosslay/bot/check"
)

// item applies a clause that names an item and none of its checks.
func (r *reader) item(items []int, c *clause, i int) {
	refs := r.lx.ofItems(items)
	r.before, r.prev = r.prev, nil
	if c.soft && !c.past && (c.says(sBad, sHedge, sUndone, sNoStart) || c.doubtful()) && !c.says(sFixed, sPoured) {
		r.unsettle(intersect(r.before, refs)) // "both handles return, cutter's slow"
	}
	if len(c.sigs) == 0 {
		r.bareItem(refs, c, i)
		return
	}
	if like := r.likePrevious(refs); len(like) > 0 && len(c.sigs) == 1 && (c.soft && c.says(sYes, sNo) || c.marked && c.says(sGood)) {
		r.specific(target{refs: like, items: items}, c, i)
		return
	}
	r.parts(refs, c, i, byItem)
}

// parts looks for what each signal of a clause without a check's name speaks
// of, among the refs in scope.
func (r *reader) parts(refs []int, c *clause, i int, l level) {
	var rest []signal
	got := r.figuresInOrder(refs, c, i)
	inOrder := len(got) > 0
	for k := range c.sigs {
		s := &c.sigs[k]
		if inOrder && s.kind == sFigure {
			continue
		}
		to, ok := r.partOf(refs, s, c)
		if !ok {
			rest = append(rest, *s)
			continue
		}
		for _, ref := range to {
			sigs := r.around(c, k)
			v := judge(&r.lx.refs[ref], sigs, r.ctx.Now)
			if v.state == check.OK && c.doubtful() {
				v.state, v.why = check.Unsure, Leftover
			}
			r.hear(ref, v, c, i, byName)
			got = appendNew(got, []int{ref})
		}
	}
	if len(got) > 0 {
		r.prev = got
	}
	r.whole(refs, rest, c, i, l, got)
}

// whole applies what is left to the refs as a whole.
func (r *reader) whole(refs []int, sigs []signal, c *clause, i int, l level, got []int) {
	var good, badly, undone, hedged, lost bool
	if r.stray(sigs, c) {
		r.residue(nil, c, Leftover)
		return
	}
	for k := range sigs {
		switch sigs[k].kind {
		case sGood:
			good = true
		case sYes: // a bare yes says nothing of many checks
		case sNotLow, sNotOver, sNow, sClosedTool, sFull, sMid:
		case sUndone, sSame, sAsk:
			undone = true
		case sHedge:
			hedged = true
		case sFigure:
			lost = lost || sigs[k].t.q.unit != "" || sigs[k].t.q.frac
		case sFixed, sPoured, sOpenTool:
		case sNo:
			badly = badly || c.hasSubject()
		default:
			badly = true
		}
	}
	switch {
	case l == byItem && c.hasSubject() && gone(sigs):
		r.each(answerable(r.lx, refs), c, i, doubt(NotChecked), byName)
	case badly && len(got) > 0 && onlyLevel(sigs):
		for _, ref := range got {
			if v := judge(&r.lx.refs[ref], c.sigs, r.ctx.Now); v.state != check.Open && r.records[ref].set {
				r.records[ref].v = v
			}
		}
	case badly:
		r.trouble(refs, sigs, c, i, l)
	case undone && len(got) == 0 && !c.hasSubject() && !c.all && r.alone(i) && !leftOut(c) && c.says(sUndone):
		r.busy = true // "later"
	case undone && len(got) == 0 && r.everything(c, l):
		r.each(answerable(r.lx, refs), c, i, doubt(NotChecked), l)
		r.taints = append(r.taints, taint{refs: refs, why: NotChecked, b: c.b, e: c.e})
	case undone && !good && len(got) == 0 && !c.hasSubject() && leftOut(c) && !r.busy:
		r.residue(refs, c, NotChecked)
	case hedged && !good && !badly && l == byItem && c.hasSubject() && len(got) == 0:
		r.each(r.lx.ofKind(refs, check.Condition, check.YesNo, check.Gauge), c, i, doubt(Hedged), l)
	case hedged && !good && !badly && l == byBlanket && !c.hasSubject():
		r.residue(refs, c, Hedged)
	case good && l == byBlanket && c.thats && !c.all:
	case good && l == byItem && r.started && c.soft && !c.hasSubject() && onlyGeneral(sigs): // of the run
	case good && c.part && len(got) == 0:
		r.residue(nil, c, Leftover) // a part that nobody asked about
	case good && l == byBlanket && (c.partial || !c.all && (c.will || r.started)):
	case good && l == byBlanket && !c.all && (len(c.unknown) > 0 && c.unknown[0].b < sigs[0].b || !plainlyGood(sigs)),
		good && l == byItem && !c.all && (!c.hasSubject() && !plainlyGood(sigs) || onlyPartly(sigs) || onlyStarts(sigs) || onlyDenied(sigs)),
		good && l == byItem && !c.all && c.started:
		r.residue(nil, c, Leftover) // something else is said to be good
	case good && (hedged || c.doubtful()):
		why := Leftover
		if hedged {
			why = Hedged
		}
		r.sweeps = append(r.sweeps, sweep{refs: refs, level: l, b: c.b, e: c.e, clause: i, taint: why})
	case good:
		r.sweeps = append(r.sweeps, sweep{refs: refs, level: l, b: c.b, e: c.e, clause: i})
	case lost || len(c.unknown) > 0:
		r.residue(refs, c, Leftover)
	}
}

// alone reports whether no other clause says anything.
func (r *reader) alone(i int) bool {
	for k := range r.clauses {
		if c := &r.clauses[k]; k != i && (c.hasSubject() || len(c.sigs) > 0) {
			return false
		}
	}
	return true
}

// leftOut reports whether the clause says that something was not looked at, rather
// than forgotten to be said or put off.
func leftOut(c *clause) bool {
	for k := range c.sigs {
		if s := &c.sigs[k]; s.kind == sUndone && !isAny(s.t.word, "forgot", "later", "pending", "tbd", "will", "still", "gotta") {
			return true
		}
	}
	return false
}

// plainlyGood reports whether one of the words may stand for everything by
// itself: "good", "no issues", but not "ready" or "strong".
func plainlyGood(sigs []signal) bool {
	for k := range sigs {
		if s := &sigs[k]; s.kind == sGood && (s.neg && s.t.is(cGeneral|cBlanket) || !s.neg && s.t.is(cFine|cBlanket)) {
			return true
		}
	}
	return false
}

// gone reports whether the item itself is said not to be there.
func gone(sigs []signal) bool {
	for k := range sigs {
		if s := &sigs[k]; s.neg && s.kind == sBad && isAny(s.t.word, "aboard", "on", "present", "here", "there", "accounted") {
			return true
		}
	}
	return false
}

// onlyGeneral reports whether all that is said is that there was no trouble.
func onlyGeneral(sigs []signal) bool {
	for k := range sigs {
		if s := &sigs[k]; s.kind == sGood && !s.t.is(cGeneral) && !isAny(s.t.word, "no") {
			return false
		}
	}
	return true
}

// onlyPartly reports whether the good that is said is of one side of a thing only:
// that it is loud, bright or sharp does not pass all of it.
func onlyPartly(sigs []signal) bool {
	for k := range sigs {
		if s := &sigs[k]; s.kind == sGood && !isAny(s.t.word, "loud", "louder", "bright", "brite", "shiny", "shiney", "sharp", "tight", "snug", "straight", "sealed", "latched", "loud", "rewind", "rewinds", "strong", "crisp", "legible") {
			return false
		}
	}
	return true
}

// onlyDenied reports whether all the good that is said is one bad thing denied:
// "no knocking" does not pass the whole pump.
func onlyDenied(sigs []signal) bool {
	for k := range sigs {
		if s := &sigs[k]; s.kind == sGood && (!s.neg || s.t.is(cGeneral|cBlanket)) {
			return false
		}
	}
	return true
}

// stray reports whether "ok" is said of a number that no check has: "25 ok" is
// not a blanket answer.
func (r *reader) stray(sigs []signal, c *clause) bool {
	return !c.all && !c.rest && len(sigs) > 1 && sigs[0].kind == sFigure && sigs[0].t.q.unit == "" && sigs[0].t.q.whole && sigs[1].kind == sGood
}

// onlyLevel reports whether all that is left says low or over.
func onlyLevel(sigs []signal) bool {
	for k := range sigs {
		switch sigs[k].kind {
		case sBad, sNoStart, sNo, sGood, sYes, sUndone:
			return false
		}
	}
	return true
}

// everything reports whether a "not checked" without a subject means all of it.
func (r *reader) everything(c *clause, l level) bool {
	return l == byItem && c.hasSubject() || c.all || c.rest || len(r.clauses) == 1 && !r.busy
}

// answerable leaves out notes and photos, of which nothing can be wrong.
func answerable(lx *lexicon, refs []int) []int {
	var out []int
	for _, x := range refs {
		if k := lx.refs[x].check.Answer.Kind; k != check.Text && k != check.Photo {
			out = append(out, x)
		}
	}
	return out
}

func (r *reader) residue(refs []int, c *clause, why Why) {
	r.taints = append(r.taints, taint{refs: refs, why: why, b: c.b, e: c.e})
	if w := r.words(c.b, c.e); w != "" {
		r.leftover = append(r.leftover, w)
	}
}

// subjectless applies a clause that names nothing.
func (r *reader) subjectless(c *clause, i int) {
	if c.except && len(c.sigs) == 0 {
		r.exceptUnnamed(c)
		return
	}
	if len(c.places) > 0 && !c.all && !c.rest {
		if c.except {
			r.unsettle(intersect(r.prev, r.lx.ofItems(c.places))) // "packs above 270 except driver"
		}
		r.residue(r.lx.ofItems(c.places), c, Leftover) // of what rides there, or who sits there
		return
	}
	if !c.spoken() && !c.says(sHedge) {
		r.silent(c, i)
		return
	}
	if r.stray(c.sigs, c) {
		r.residue(nil, c, Leftover)
		return
	}
	if n := len(r.recent); c.both && len(r.group) == 0 && n > 1 {
		r.group = r.recent[n-2:]
	}
	if c.plural && len(r.group) > 1 && (c.says(sFigure, sFull) || c.both && c.says(sGood)) {
		r.item(r.group, &clause{items: r.group, all: c.all, sigs: c.sigs, b: c.b, e: c.e, plural: true, unknown: c.unknown}, i)
		return
	}
	if r.busy && onlyFigures(c) {
		return
	}
	if c.rest {
		scope := r.lx.all()
		if (c.pronoun || c.soft && r.itemBefore(i)) && r.held >= 0 {
			scope = r.lx.byItem[r.held]
		}
		r.parts(scope, c, i, byRest)
		return
	}
	if len(c.unknown) > 0 && c.says(sBad) && !c.pronoun && (c.unknown[0].b < c.sigs[0].b || onlyThings(c.unknown)) && len(r.lx.refs) > 1 {
		r.report(c)
		if c.soft && !onlyThings(c.unknown) {
			r.unsettle(r.prev)
		}
		if onlyThings(c.unknown) {
			r.residue(nil, c, Leftover)
			return
		}
		r.residue(r.lx.ofKind(r.defaultScope(c), check.Condition, check.YesNo), c, Leftover)
		return
	}
	if r.onPrevious(c, i) {
		return
	}
	if c.pronoun && !c.all && c.says(sGood) && i > 0 && r.held < 0 && len(r.group) < 2 && len(r.focus) == 0 && len(r.lx.refs) > 1 {
		r.residue(nil, c, Leftover) // "it" is nothing that was named here
		return
	}
	scope, l := r.defaultScope(c), byBlanket
	if r.held >= 0 && len(scope) < len(r.lx.refs) {
		l = byItem
	}
	if len(r.lx.refs) == 1 || len(r.focus) > 0 && len(c.sigs) > 0 && !c.all {
		r.onFocus(c, i)
		return
	}
	r.partsWide(scope, c, i, l)
}

func onlyFigures(c *clause) bool {
	for k := range c.sigs {
		if c.sigs[k].kind != sFigure {
			return false
		}
	}
	return true
}

// partsWide tries the item that holds first, and everything where nothing of it
// fits.
func (r *reader) partsWide(scope []int, c *clause, i int, l level) {
	if l == byItem {
		for k := range c.sigs {
			if _, ok := r.partOf(scope, &c.sigs[k], c); !ok && r.wideOnly(scope, &c.sigs[k]) {
				scope, l = r.lx.all(), byBlanket
				break
			}
		}
	}
	r.parts(scope, c, i, l)
}

func (r *reader) wideOnly(scope []int, s *signal) bool {
	if s.kind == sBad && len(s.t.senses.damages) > 0 {
		return len(damaged(scope, s.t)) == 0 && len(damaged(r.lx.all(), s.t)) == 1
	}
	return s.kind == sFigure && len(r.lx.takers(scope, s.t.q)) == 0 && len(r.lx.takers(r.lx.all(), s.t.q)) == 1
}
