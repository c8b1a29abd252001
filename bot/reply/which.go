package reply

import (
	"crosslay/bot/check"
)

// which records that the words fit several checks.
func (r *reader) which(tg target, c *clause, i int, why Why) {
	sigs := r.fitting(tg.choice[0], c)
	said := judge(&r.lx.refs[tg.choice[0]], sigs, r.ctx.Now)
	if len(sigs) == 0 && !c.except {
		return
	}
	if len(c.unknown) > 0 && len(c.names) > 0 && len(c.items) == 0 && c.unknown[0].b < c.names[0].b {
		r.residue(nil, c, Leftover) // of an item that nobody knows here
		return
	}
	if len(r.itemsOf(tg.choice)) == 1 {
		why = WhichCheck
	}
	for _, ref := range tg.choice {
		if r.records[ref].set && r.records[ref].level == byName {
			continue
		}
		r.hear(ref, doubt(why), c, i, byName)
		if rec := &r.records[ref]; rec.v.why == why {
			rec.choice, rec.said = tg.choice, said
		}
	}
	r.prev = tg.choice
}

// whichItem records that an item's name fits several.
func (r *reader) whichItem(tg target, c *clause, i int) {
	if len(tg.refs) == 0 && len(tg.choice) == 0 {
		if len(c.sigs) == 0 && !c.except {
			return
		}
		tg.choice = r.blamed(r.lx.ofItems(tg.items), c)
	}
	tg.choice = appendNew(tg.choice, tg.refs)
	r.which(tg, c, i, WhichItem)
}

// blamed narrows the refs to those whose sheet names a damage that was said.
func (r *reader) blamed(refs []int, c *clause) []int {
	var out []int
	for k := range c.sigs {
		out = appendNew(out, damaged(refs, c.sigs[k].t))
		if c.sigs[k].kind == sBad {
			out = appendNew(out, intersect(c.sigs[k].t.senses.checks, refs))
		}
	}
	if len(out) > 0 {
		return out
	}
	if c.says(sFull, sEmpty) {
		return r.lx.ofKind(refs, check.Level)
	}
	if c.says(sNoStart) {
		return r.lx.ofKind(refs, check.Run)
	}
	if c.says(sGood) && !c.says(sBad, sFigure) {
		return r.lx.ofKind(refs, check.Condition, check.YesNo, check.Gauge)
	}
	for k := range c.sigs {
		if s := &c.sigs[k]; s.kind == sFigure {
			if in := r.lx.takers(refs, s.t.q); len(in) > 0 {
				return in
			}
			if in := r.plausible(refs, s.t.q); len(in) > 0 {
				return in
			}
		}
	}
	return answerable(r.lx, refs)
}

// chosen takes a bare name as the answer to "which one?".
func (r *reader) chosen(tg target, c *clause, i int) bool {
	items := tg.items
	if c.plural && !c.hasSubject() {
		items = r.itemsOf(r.focus)
	}
	nth := r.nthChoice(c)
	if nth >= 0 {
		items = []int{nth}
	}
	if nth < 0 && len(c.sigs) > 0 && !(c.both && !c.hasSubject()) || len(items) != 1 && !c.plural || c.question || c.except {
		return false
	}
	done := false
	for _, d := range r.ctx.Asked {
		if d.Why != WhichItem {
			continue
		}
		for _, ref := range intersect(r.lx.find(d.Refs), r.lx.ofItems(items)) {
			v := verdict{state: d.State, value: d.Value, damage: d.Damage}
			if anew := r.saidAnew(ref, c, i); anew.state != check.Open {
				v = anew // "full, both of them"
			}
			if v.state == check.Open {
				v = doubt(NoReading)
			}
			r.hear(ref, v, c, i, byName)
			done = true
		}
	}
	return done
}

// nthChoice is the item that a bare "2" picks from the choice that the bot gave,
// -1 for none.
func (r *reader) nthChoice(c *clause) int {
	if len(r.ctx.Asked) != 1 || r.ctx.Asked[0].Why != WhichItem || len(c.sigs) != 1 || c.hasSubject() || c.sigs[0].kind != sFigure {
		return -1
	}
	items, q := r.itemsOf(r.focus), c.sigs[0].t.q
	if !q.whole || q.lo < 1 || int(q.lo) > len(items) {
		return -1
	}
	return items[int(q.lo)-1]
}

// saidAnew is what the clause itself, or the one before, says of the check, where it speaks of nothing else:
// it overtakes what was asked about.
func (r *reader) saidAnew(ref int, c *clause, i int) verdict {
	if c.both && len(c.sigs) > 0 {
		return judge(&r.lx.refs[ref], c.sigs, r.ctx.Now)
	}
	if i == 0 || r.clauses[i-1].hasSubject() || !r.clauses[i-1].spoken() {
		return verdict{}
	}
	return judge(&r.lx.refs[ref], r.clauses[i-1].sigs, r.ctx.Now)
}
