package reply

import (
	"slices"

	"crosslay/bot/check"
)

// target is what a clause speaks of.
type target struct {
	refs   []int
	choice []int // the words fit several: ask which
	item   bool  // an item as a whole
	miss   bool  // an item was named, and a check that it does not have
	items  []int
	why    Why
}

// scope finds the checks that the clause's own subject means. Held is the item
// that holds, -1 for none.
func (lx *lexicon) scope(c *clause, held int) target {
	var tg target
	items := c.items
	if c.other && len(items) >= 2 && slices.Contains(items, held) {
		items = slices.DeleteFunc(slices.Clone(items), func(i int) bool { return i == held })
	}
	items = lx.placed(items, c, held)
	if len(items) > 1 && !c.plural && c.pos > 0 {
		if held >= 0 && slices.Contains(items, held) {
			items = []int{held}
		} else {
			tg.why = WhichItem
		}
	}
	if len(items) == 0 {
		for _, t := range c.names {
			if len(t.senses.checks)+len(t.senses.hints) == 0 {
				items = appendNew(items, t.senses.traits)
			}
		}
	}
	tg.items = items
	if c.both && len(c.items) == 0 {
		held = -1
	}
	if one := lx.common(c.names, items, held); len(one) > 0 && !c.listed {
		tg.refs = one
		return tg
	}
	for _, t := range c.names {
		lx.resolve(t, items, held, c.plural, &tg)
	}
	for _, r := range c.numbers {
		tg.refs = appendNew(tg.refs, []int{r})
	}
	if !c.hasCheck() && len(items) > 0 {
		tg.item = true
	}
	return tg
}

// placed narrows the items to those that ride where the words say. A place alone
// stands for an item only beside one like it that holds.
func (lx *lexicon) placed(items []int, c *clause, held int) []int {
	if len(c.places) == 0 {
		return items
	}
	if both := intersect(items, c.places); len(both) > 0 {
		return both
	}
	if len(items) > 0 {
		return items
	}
	for _, p := range c.places {
		if held == p || held >= 0 && lx.sameSheet(held, p) {
			return []int{p}
		}
	}
	for _, t := range c.names {
		if in := lx.within(t.senses.checks, c.places); len(in) > 0 {
			return c.places
		}
	}
	return items
}

// common is the one check that all of several names fit: "pressure front", "light
// on the handle".
func (lx *lexicon) common(names []*term, items []int, held int) []int {
	if len(names) < 2 {
		return nil
	}
	var out []int
	for k, t := range names {
		all := appendNew(append([]int{}, t.senses.checks...), t.senses.hints)
		if k == 0 {
			out = all
		} else {
			out = intersect(out, all)
		}
	}
	if len(items) > 0 {
		out = lx.within(out, items)
	} else if in := lx.within(out, []int{held}); len(in) > 0 {
		out = in
	}
	if len(out) > 1 && !(len(items) > 1 && lx.onePerItem(out)) {
		return nil
	}
	return out
}

// resolve adds the refs that one name means.
func (lx *lexicon) resolve(t *term, items []int, held int, plural bool, tg *target) {
	cands := t.senses.checks
	exactName := len(cands) > 0
	if !exactName {
		cands = t.senses.hints
	}
	if len(cands) == 0 {
		lx.resolveTrait(t, items, tg)
		return
	}
	pick := lx.within(cands, items)
	if len(pick) == 0 && len(items) > 0 && exactName {
		if pick = lx.within(t.senses.hints, items); len(pick) > 0 {
			exactName = false
			plural = plural || len(pick) > 1 && t.is(cPlural)
		}
	}
	if len(pick) == 0 && held >= 0 && len(items) == 0 {
		pick = lx.within(cands, []int{held})
		if hints := lx.within(t.senses.hints, []int{held}); len(pick) == 0 && exactName && len(hints) == 1 {
			pick = hints
		}
	}
	if len(pick) == 0 && len(tg.refs) > 0 && !exactName {
		return
	}
	if len(pick) == 0 && len(items) > 0 {
		tg.miss = true
		return
	}
	if len(pick) == 0 {
		pick = cands
	}
	if len(pick) > 1 && !exactName {
		if both := intersect(pick, tg.refs); len(both) > 0 {
			tg.refs = both
			return
		}
		if both := intersect(pick, tg.choice); len(both) > 0 {
			tg.choice = nil
			pick = both
		}
	}
	if len(pick) == 1 || plural || len(items) > 1 && lx.onePerItem(pick) {
		tg.refs = appendNew(tg.refs, pick)
		return
	}
	if both := intersect(pick, tg.refs); len(both) > 0 && len(both) < len(tg.refs) {
		tg.refs = both
		return
	}
	tg.choice = appendNew(tg.choice, pick)
}

func (lx *lexicon) resolveTrait(t *term, items []int, tg *target) {
	if len(t.senses.traits) == 0 {
		return
	}
	if both := intersect(t.senses.traits, items); len(both) > 0 {
		tg.items = both
		return
	}
	if len(items) == 0 {
		tg.items = appendNew(tg.items, t.senses.traits)
		if len(tg.refs) == 0 {
			tg.item = true
		}
	}
}

func (lx *lexicon) within(cands, items []int) []int {
	var out []int
	for _, r := range cands {
		if slices.Contains(items, lx.refs[r].item) {
			out = append(out, r)
		}
	}
	return out
}

func (lx *lexicon) onePerItem(refs []int) bool {
	seen := map[int]bool{}
	for _, r := range refs {
		if seen[lx.refs[r].item] {
			return false
		}
		seen[lx.refs[r].item] = true
	}
	return true
}

func intersect(a, b []int) []int {
	var out []int
	for _, x := range a {
		if slices.Contains(b, x) {
			out = append(out, x)
		}
	}
	return out
}

// takes reports whether a check can be answered by the figure at all, judged by
// its unit and form.
func takes(a *asked, q *quantity) bool {
	switch a.check.Answer.Kind {
	case check.Level:
		_, ok := fraction(q)
		return ok
	case check.Number:
		_, ok := inUnit(q, a.check.Answer.Unit)
		return ok && q.unit != ""
	case check.Run:
		f, ok := inUnit(q, "min")
		return q.pair || ok && f.unit != "" && !q.clock
	case check.DateAhead:
		_, ok := dateOf(*q)
		return ok
	}
	return false
}

// takers are the refs among the given that can be answered by the figure.
func (lx *lexicon) takers(refs []int, q *quantity) []int {
	var out []int
	for _, r := range refs {
		if takes(&lx.refs[r], q) {
			out = append(out, r)
		}
	}
	return out
}

// damaged are the refs among the given whose sheet names the damage.
func damaged(refs []int, t *term) []int {
	var out []int
	for _, d := range t.senses.damages {
		if slices.Contains(refs, d.ref) {
			out = appendNew(out, []int{d.ref})
		}
	}
	return out
}

func (lx *lexicon) at(a *asked) int {
	for i := range lx.refs {
		if &lx.refs[i] == a {
			return i
		}
	}
	return -1
}

func (lx *lexicon) ofItems(items []int) []int {
	var out []int
	for _, i := range items {
		out = append(out, lx.byItem[i]...)
	}
	return out
}

func (lx *lexicon) ofKind(refs []int, kinds ...check.AnswerKind) []int {
	var out []int
	for _, r := range refs {
		if slices.Contains(kinds, lx.refs[r].check.Answer.Kind) {
			out = append(out, r)
		}
	}
	return out
}

func (lx *lexicon) all() []int {
	out := make([]int, len(lx.refs))
	for i := range out {
		out[i] = i
	}
	return out
}
