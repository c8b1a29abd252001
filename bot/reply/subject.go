package reply

import (
	"strings"

	"crosslay/bot/check"
)

// item applies a clause that names an item and none of its checks.
func (r *reader) item(items []int, c *clause, i int) {
	refs := r.lx.ofItems(items)
	r.before, r.prev = r.prev, nil
	if len(c.sigs) == 0 {
		r.bareItem(refs, c, i)
		return
	}
	r.parts(refs, c, i, byItem)
}

// foreign is an item with a part that is none of its checks: trouble with it is a
// report, and nothing of it passes on a blanket.
func (r *reader) foreign(tg target, c *clause, i int) {
	refs := r.lx.ofItems(tg.items)
	bad := c.says(sBad, sNoStart, sLow, sOver, sEmpty)
	for _, t := range c.names {
		bad = bad || t.is(cBad) && len(c.sigs) == 0
	}
	switch {
	case bad:
		r.complain(tg.items, c)
		r.residue(refs, c, Leftover)
	case c.says(sGood):
	default:
		r.residue(refs, c, Leftover)
	}
}

func (r *reader) complain(items []int, c *clause) {
	for _, it := range items {
		r.reports = append(r.reports, Complaint{Item: r.itemID(it), Words: r.words(c.b, c.e)})
	}
}

// bareItem is an item with nothing said of it: an exception, or only a name.
func (r *reader) bareItem(refs []int, c *clause, i int) {
	switch {
	case c.except:
		r.each(answerable(r.lx, refs), c, i, doubt(WhichCheck), byItem)
	case len(c.unknown) > 0:
		r.residue(refs, c, Leftover)
	}
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
			if v.state == check.OK && len(c.unknown) > 0 {
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

// figuresInOrder takes several bare figures of an item for its checks that want
// one, in order, where there are as many: "packs 300 and 295".
func (r *reader) figuresInOrder(refs []int, c *clause, i int) []int {
	var figures []signal
	for k := range c.sigs {
		if c.sigs[k].kind == sFigure {
			figures = append(figures, c.sigs[k])
		}
	}
	if len(figures) < 2 {
		return nil
	}
	want := r.open(r.lx.ofKind(refs, check.Number))
	if len(want) != len(figures) {
		return nil
	}
	for k, ref := range want {
		if judge(&r.lx.refs[ref], figures[k:k+1], r.ctx.Now).state == check.Open || len(c.unknown) > 0 {
			return nil
		}
	}
	for k, ref := range want {
		r.hear(ref, judge(&r.lx.refs[ref], figures[k:k+1], r.ctx.Now), c, i, byName)
	}
	return want
}

// around is the signal k with those that qualify it: fixed, now, hedge, tool
// position.
func (r *reader) around(c *clause, k int) []signal {
	var out []signal
	for j := range c.sigs {
		switch c.sigs[j].kind {
		case sFixed, sPoured, sNow, sHedge, sOpenTool, sClosedTool:
			out = append(out, c.sigs[j])
		default:
			if j == k {
				out = append(out, c.sigs[j])
			}
		}
	}
	return out
}

// partOf finds the checks that a signal speaks of by its kind: a figure with its
// unit, a damage of the sheet, an engine that would not start.
func (r *reader) partOf(refs []int, s *signal, c *clause) ([]int, bool) {
	switch s.kind {
	case sFigure:
		return r.figureOf(refs, s, c)
	case sUndone:
		if w := r.words(s.b, s.e); strings.Contains(w, "run") || strings.Contains(w, "start") {
			return one(r.lx.ofKind(refs, check.Run))
		}
	case sNoStart:
		if runs := r.lx.ofKind(refs, check.Run); len(runs) > 0 && len(r.itemsOf(runs)) == 1 {
			return runs, true
		}
	case sOption:
		return one(options(refs, s.t))
	case sFull, sEmpty, sNotFull, sLow, sPoured, sOver:
		if in := intersect(r.namedIn(s), r.lx.ofKind(refs, check.Level, check.Gauge)); len(in) == 1 {
			return in, true
		}
		if s.kind == sPoured {
			return one(r.filledUp(r.lx.ofKind(refs, check.Level, check.Gauge)))
		}
		if s.kind == sLow || s.kind == sOver {
			return one(r.lx.ofKind(refs, check.Level, check.Gauge))
		}
		return one(r.lx.ofKind(refs, check.Level))
	case sGood, sBad, sNo:
		if s.kind == sNo {
			if asked := r.justAsked(refs); len(asked) > 0 {
				return asked, true
			}
		}
		if named := r.lx.within2(s.t.senses.checks, refs); len(named) > 0 && s.t.is(cBad) {
			return named, s.kind == sGood || len(named) == 1
		}
		if d := damaged(refs, s.t); s.kind == sGood && s.neg && len(d) > 0 && !s.t.is(cGeneral) {
			return d, true
		}
		if s.kind != sBad {
			return nil, false
		}
		if d := damaged(refs, s.t); len(d) == 1 {
			return d, true
		}
	}
	return nil, false
}

// namedIn are the checks that the words of a phrase name: "filled the tank".
func (r *reader) namedIn(s *signal) []int {
	var out []int
	for _, w := range words(r.words(s.b, s.e)) {
		for _, p := range r.lx.names[w] {
			if len(p.words) == 1 {
				out = appendNew(out, p.senses.checks)
			}
		}
	}
	return out
}

func one(refs []int) ([]int, bool) { return refs, len(refs) == 1 }

// perItem accepts one check of each item in scope: "both packs over 280".
func (r *reader) perItem(refs, scope []int) ([]int, bool) {
	items := r.itemsOf(scope)
	return refs, len(refs) == 1 || len(items) > 1 && len(refs) == len(items) && r.lx.onePerItem(refs)
}

func options(refs []int, t *term) []int {
	var out []int
	for _, o := range t.senses.options {
		for _, x := range refs {
			if x == o.ref {
				out = appendNew(out, []int{x})
			}
		}
	}
	return out
}

func (r *reader) figureOf(refs []int, s *signal, c *clause) ([]int, bool) {
	takers := r.lx.takers(refs, s.t.q)
	if len(takers) > 1 {
		if open := r.open(takers); len(open) == 1 {
			takers = open
		}
	}
	if len(takers) == 0 && s.t.q.unit == "" && !s.t.q.frac && !s.t.q.clock {
		takers = r.open(r.lx.ofKind(refs, check.Number, check.Run))
	}
	if len(takers) > 1 {
		if alike := r.likePrevious(takers); len(alike) > 0 {
			takers = alike
		}
	}
	if c.hasSubject() {
		return r.perItem(takers, refs)
	}
	return one(takers)
}

// filledUp narrows what was topped off to what was said to be low.
func (r *reader) filledUp(refs []int) []int {
	var low []int
	for _, x := range refs {
		if r.records[x].set && r.records[x].v.state == check.Fail || r.ctx.Settled[r.lx.refs[x].ref] == check.Fail {
			low = append(low, x)
		}
	}
	if len(low) == 1 {
		return low
	}
	return refs
}

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

// whole applies what is left to the refs as a whole.
func (r *reader) whole(refs []int, sigs []signal, c *clause, i int, l level, got []int) {
	var good, badly, undone, hedged, lost bool
	if r.stray(sigs, c) {
		r.residue(nil, c, Leftover)
		return
	}
	for k := range sigs {
		switch sigs[k].kind {
		case sGood, sYes:
			good = true
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
	case badly && len(got) > 0 && onlyLevel(sigs):
		for _, ref := range got {
			v := judge(&r.lx.refs[ref], c.sigs, r.ctx.Now)
			r.records[ref].v = v
		}
	case badly:
		r.trouble(refs, sigs, c, i, l)
	case undone && len(got) == 0 && r.everything(c, l):
		r.each(answerable(r.lx, refs), c, i, doubt(NotChecked), l)
	case good && l == byBlanket && !c.all && (c.will || r.started):
	case good && l == byBlanket && !c.all && (len(c.unknown) > 0 && c.unknown[0].b < sigs[0].b || !plainlyGood(sigs)),
		good && l == byItem && !c.all && (!c.hasSubject() && !plainlyGood(sigs) || onlyDenied(sigs)),
		good && l == byItem && !c.all && c.started:
		r.residue(nil, c, Leftover) // something else is said to be good
	case good && (hedged || len(c.unknown) > 0):
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

// trouble is something wrong with an item, and the words do not say which check:
// the item is asked about, and nothing of it passes on a blanket.
func (r *reader) trouble(refs []int, sigs []signal, c *clause, i int, l level) {
	for k := range sigs {
		if d := r.lx.within2(sigs[k].t.senses.checks, refs); len(d) > 1 && sigs[k].kind == sBad {
			r.which(target{choice: d}, c, i, WhichItem)
			return
		}
		if d := damaged(refs, sigs[k].t); len(d) > 1 {
			r.which(target{choice: d}, c, i, WhichCheck)
			return
		}
		if sigs[k].kind == sLow || sigs[k].kind == sOver || sigs[k].kind == sEmpty {
			if d := r.lx.ofKind(refs, check.Level, check.Gauge); len(d) > 1 {
				r.which(target{choice: d}, c, i, WhichCheck)
				return
			}
		}
	}
	if conds := r.lx.ofKind(refs, check.Condition); len(conds) == 1 && len(refs) == 1 {
		r.hear(conds[0], bad(&r.lx.refs[conds[0]], &sigs[0]), c, i, byName)
		return
	}
	if l == byItem && (c.noun || len(c.unknown) > 0) && c.hasSubject() && !c.except {
		r.complain(c.items, c)
		r.residue(refs, c, Leftover)
		return
	}
	if l == byItem {
		r.troubles = append(r.troubles, trouble{answerable(r.lx, refs), i})
		return
	}
	r.report(c)
	r.residue(refs, c, WhichCheck)
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

func (r *reader) report(c *clause) {
	r.reports = append(r.reports, Complaint{Item: r.itemID(r.held), Words: r.words(c.b, c.e)})
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
		if len(c.unknown) > 0 {
			r.residue(r.defaultScope(c), c, Leftover)
			r.report(c)
		}
		return
	}
	if len(c.sigs) == 0 {
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
	if c.plural && len(r.group) > 1 && c.says(sFigure, sFull) {
		r.item(r.group, &clause{items: r.group, sigs: c.sigs, b: c.b, e: c.e, plural: true, unknown: c.unknown}, i)
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
	if len(c.unknown) > 0 && c.says(sBad) && !c.pronoun && c.unknown[0].b < c.sigs[0].b && len(r.lx.refs) > 1 {
		r.report(c)
		r.residue(r.lx.ofKind(r.defaultScope(c), check.Condition, check.YesNo), c, Leftover)
		return
	}
	if r.onPrevious(c, i) {
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

// itemBefore reports whether the clause just before, in the same sentence, named
// an item or went on about one.
func (r *reader) itemBefore(i int) bool {
	for k := i - 1; k >= 0; k-- {
		if c := &r.clauses[k]; len(c.items) == 1 && !c.hasCheck() && len(c.sigs) == 0 {
			return true
		}
		return false
	}
	return false
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

// silent is a clause in which nothing was said: leftovers stay with what they
// follow.
func (r *reader) silent(c *clause, i int) {
	if len(c.unknown) == 0 {
		return
	}
	if len(r.lx.refs) == 1 {
		r.hear(0, doubt(Leftover), c, i, byName)
		return
	}
	if c.soft && len(r.prev) > 0 {
		for _, ref := range r.prev {
			if rec := &r.records[ref]; rec.set && rec.v.state == check.OK {
				rec.v.state, rec.v.why = check.Unsure, Leftover
			}
		}
	}
	r.residue(r.defaultScope(c), c, Leftover)
}

// onPrevious lets a clause go on about the checks of the clause before:
// "chain was loose, snugged it up".
func (r *reader) onPrevious(c *clause, i int) bool {
	if len(r.prev) == 0 || c.all || len(r.focus) > 0 && !r.anySet(r.prev) {
		return false
	}
	if c.noun && c.says(sBad) && !c.pronoun {
		return false
	}
	mends := c.says(sClosed, sFixed, sPoured, sNow, sHedge, sUndone, sSame) || c.corrects || c.pronoun
	if !c.soft && !mends {
		return false
	}
	to := r.prev
	for k := range c.sigs {
		s := &c.sigs[k]
		if s.kind == sFigure {
			if t := r.lx.takers(r.prev, s.t.q); len(t) > 0 {
				to = t
			} else if !r.anyNumber(r.prev, s.t.q) {
				return false
			}
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
		if v.state == check.OK && len(c.unknown) > 0 {
			v.state, v.why = check.Unsure, Leftover
		}
		if v.fixed && r.records[ref].set {
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
	if v.state == check.OK && len(c.unknown) > 0 {
		v.state, v.why = check.Unsure, Leftover
	}
	r.prev = refs
	r.hear(refs[0], v, c, i, byName)
}

// defaultScope is what a clause without a subject covers: the item that was
// named in this message, unless a new sentence says "all".
func (r *reader) defaultScope(c *clause) []int {
	if r.held < 0 || !r.named && r.ctx.Held == "" {
		return r.lx.all()
	}
	if c.all && !c.soft {
		return r.lx.all()
	}
	return r.lx.byItem[r.held]
}
