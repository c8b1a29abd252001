package reply

import (
	"strings"

	"crosslay/bot/check"
)

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
		if at := r.located(refs, c); len(at) > 0 {
			r.each(at, c, i, doubt(WhichCheck), byName) // "hose weeping at the coupler"
			return
		}
		r.complain(tg.items, c)
		r.residue(refs, c, Leftover)
	case c.says(sGood):
	default:
		r.residue(refs, c, Leftover)
	}
}

// located are those of the refs that the words behind the clause name as the place of
// the trouble.
func (r *reader) located(refs []int, c *clause) []int {
	var out []int
	for _, w := range words(r.stretch(c)) {
		for _, p := range r.lx.names[w] {
			if len(p.words) == 1 {
				out = appendNew(out, intersect(p.senses.checks, refs))
			}
		}
	}
	return out
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
	case len(r.sweeps) > 0 && i == len(r.clauses)-1 && !c.done:
		r.taints = append(r.taints, taint{refs: refs, why: Leftover, b: c.b, e: c.e}) // "all good, fyi fan"
	}
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
			runs := r.lx.ofKind(refs, check.Run)
			return runs, len(runs) > 0
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
		if len(r.lx.ofKind(refs, check.Level, check.Gauge)) == 0 && (s.kind == sLow || s.kind == sEmpty) && !c.says(sFigure) {
			return one(r.lx.ofKind(refs, check.Number))
		}
		if s.kind == sLow || s.kind == sOver {
			return one(r.lx.ofKind(refs, check.Level, check.Gauge))
		}
		if c.plural && c.hasSubject() {
			return r.perItem(r.lx.ofKind(refs, check.Level), refs)
		}
		return one(r.lx.ofKind(refs, check.Level))
	case sGood, sBad, sNo:
		if s.kind == sNo {
			if asked := r.justAsked(refs); len(asked) > 0 {
				return asked, true
			}
		}
		if named := intersect(s.t.senses.checks, refs); len(named) > 0 && s.t.is(cBad) {
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
	if len(takers) == 0 && s.t.q.unit == "" && !s.t.q.frac && (!s.t.q.clock || s.t.q.alt) {
		takers = r.open(r.lx.ofKind(refs, check.Number, check.Run))
	}
	if fit := r.plausible(takers, s.t.q); len(takers) > 1 && len(fit) == 1 {
		takers = fit
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

// plausible are those of the refs that a bare figure, too large or too fine to be a
// count or minutes, would be in limits for.
func (r *reader) plausible(refs []int, q *quantity) []int {
	var out []int
	if q.unit != "" || q.frac || q.clock || q.lo < 18 && q.whole {
		return nil
	}
	for _, x := range r.lx.ofKind(refs, check.Number) {
		if st, _ := r.lx.refs[x].check.Answer.Within(q.lo); st == check.OK {
			out = append(out, x)
		}
	}
	if len(out) == 0 && !q.whole {
		return r.nearly(refs, q.lo)
	}
	return out
}

// nearly are those of the refs whose limits the figure misses by a twentieth at most.
func (r *reader) nearly(refs []int, f float64) []int {
	var out []int
	for _, x := range r.lx.ofKind(refs, check.Number) {
		a := r.lx.refs[x].check.Answer
		if a.Min != nil && f < *a.Min && f >= *a.Min*0.95 || a.Max != nil && f > *a.Max && f <= *a.Max*1.05 {
			out = append(out, x)
		}
	}
	return out
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

// secondFigure reports whether the clause gives another figure for the one reading just
// given: "fronts 110 and 90".
func (r *reader) secondFigure(c *clause, i int) bool {
	if !c.soft || i == 0 || c.hasSubject() || len(c.sigs) != 1 || c.sigs[0].kind != sFigure || len(r.prev) != 1 || len(r.lx.ofKind(r.prev, check.Number)) == 0 {
		return false
	}
	q, was := c.sigs[0].t.q, r.records[r.prev[0]].v.value.Number
	if was == nil || q.unit != "" || q.frac || q.pair || q.clock || q.lo == *was || q.lo < *was/4 || q.lo > *was*4 {
		return false
	}
	return strings.TrimSpace(r.words(r.clauses[i-1].e, c.b)) == "and"
}

// secondOfTwo gives the second of two alike items its own figure: "radios 100 and 95".
func (r *reader) secondOfTwo(c *clause, i int) bool {
	if !c.soft || i == 0 || c.hasSubject() || len(c.sigs) != 1 || c.sigs[0].kind != sFigure || len(r.prev) != 2 || len(r.lx.ofKind(r.prev, check.Number)) != 2 {
		return false
	}
	a, b := &r.lx.refs[r.prev[0]], &r.lx.refs[r.prev[1]]
	if a.check != b.check || strings.TrimSpace(r.words(r.clauses[i-1].e, c.b)) != "and" || !r.records[r.prev[1]].set || r.records[r.prev[1]].clause != i-1 {
		return false
	}
	v := judge(b, c.sigs, r.ctx.Now)
	if v.state == check.Open {
		return false
	}
	r.records[r.prev[1]] = record{set: true, v: v, level: byName, b: c.b, e: c.e, clause: i}
	return true
}

// byFigure takes the one check of several of that name that the figure suits: of two
// that answer to "hydro", a date is of the one that falls due.
func (r *reader) byFigure(tg target, c *clause) target {
	if len(tg.choice) < 2 || len(tg.refs) > 0 {
		return tg
	}
	for k := range c.sigs {
		if s := &c.sigs[k]; s.kind == sFigure {
			if in := r.lx.ofKind(r.lx.takers(tg.choice, s.t.q), check.DateAhead); len(in) == 1 {
				tg.refs, tg.choice, tg.why = in, nil, ""
			}
			return tg
		}
	}
	return tg
}
