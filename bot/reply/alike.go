package reply

import (
	"slices"
	"strings"

	"crosslay/bot/check"
)

// likewise copies to an item what was just said of one like it: "red: cover ok,
// no leaks. blue same". Readings are each item's own and stay open.
func (r *reader) likewise(tg target, c *clause, i int) bool {
	if !c.same || c.spoken() || len(tg.items) != 1 || len(tg.refs)+len(tg.choice) > 0 {
		return false
	}
	n := len(r.recent)
	if n > 0 && r.recent[n-1] == tg.items[0] {
		n-- // hold has put it there already
	}
	if n == 0 || !r.lx.sameSheet(r.recent[n-1], tg.items[0]) {
		return false
	}
	r.copyAll(r.recent[n-1], tg.items[0], c, i)
	return true
}

func (r *reader) copyAll(from, to int, c *clause, i int) {
	for k, ref := range r.lx.byItem[to] {
		rec := &r.records[r.lx.byItem[from][k]]
		if !rec.set || rec.v.state == check.OK && r.lx.refs[ref].check.Answer.Kind.WantsFigure() {
			continue
		}
		v := rec.v
		if v.state == check.OK && c.doubtful() {
			v = doubt(Leftover)
		}
		v.fixed, v.poured = false, false
		r.hear(ref, v, c, i, rec.level)
	}
	for _, s := range r.sweeps {
		if s.level == byItem && slices.Equal(s.refs, r.lx.byItem[from]) {
			s.refs, s.b, s.e, s.clause = r.lx.byItem[to], c.b, c.e, i
			r.sweeps = append(r.sweeps, s)
		}
	}
}

// alike gives checks what was just said of another: "fluid not low, oil same". It
// carries words and no figures.
func (r *reader) alike(refs []int, c *clause, i int) {
	from := &r.records[r.before[0]]
	for _, ref := range refs {
		switch k := r.lx.refs[ref].check.Answer.Kind; {
		case !from.set || len(c.unknown) > 0 || from.v.value.Number != nil || from.v.damage != "":
			r.hear(ref, doubt(Leftover), c, i, byName)
		case k == r.lx.refs[r.before[0]].check.Answer.Kind:
			v := from.v
			v.fixed, v.poured = false, false
			r.hear(ref, v, c, i, byName)
		default:
			r.hear(ref, doubt(NoReading), c, i, byName)
		}
	}
}

// sameSheet reports whether two items are asked the same checks.
func (lx *lexicon) sameSheet(a, b int) bool {
	return a != b && slices.EqualFunc(lx.items[a].Checks, lx.items[b].Checks, func(x, y Asked) bool { return x.Check == y.Check })
}

// siblings are the items of the same sheet as the one that holds.
func (r *reader) siblings() []int {
	var out []int
	for i := range r.lx.items {
		if r.held >= 0 && i != r.held && r.lx.sameSheet(r.held, i) {
			out = append(out, i)
		}
	}
	return out
}

// theOther reads "the other one is fine" behind something of which there are two:
// the item's twin where it has one, and else the other half of the same check,
// which mends nothing that was said of the first half.
func (r *reader) theOther(tg target, c *clause, i int) bool {
	if !c.other || len(tg.items) > 0 || len(tg.choice) > 0 || !c.spoken() || len(r.prev) == 0 {
		return false
	}
	if all := r.siblings(); c.others > 1 && len(tg.refs) == 0 {
		if len(all) != c.others {
			return false
		}
		r.item(all, c, i)
		return true
	}
	if len(tg.refs) == 0 {
		if twin := r.twin(); twin >= 0 {
			r.held = twin
			r.item([]int{twin}, c, i)
			return true
		}
	}
	refs := tg.refs
	if len(refs) == 0 {
		refs = r.prev
	}
	for _, ref := range refs {
		v := judge(&r.lx.refs[ref], c.sigs, r.ctx.Now)
		switch {
		case v.state == check.OK && r.records[ref].set:
			continue
		case v.state == check.OK:
			v = doubt(Leftover)
		}
		r.hear(ref, v, c, i, byName)
	}
	return true
}

// exceptOne reads "all good except the one on the roof": one of what was just
// named does not pass.
func (r *reader) exceptOne(tg target, c *clause, i int) bool {
	if !c.except || !c.ones || len(tg.refs)+len(tg.choice) > 0 || len(r.prev) == 0 || c.hasCheck() {
		return false
	}
	for _, ref := range r.prev {
		v := judge(&r.lx.refs[ref], c.sigs, r.ctx.Now)
		if onlyFigures(c) || v.state == check.OK || v.state == check.Open {
			v = excepted(&r.lx.refs[ref])
		}
		r.records[ref] = record{set: true, v: v, level: byName, b: c.b, e: c.e, clause: i}
	}
	return true
}

// oneOfThem reads "one pole is split, the others are fine" as word of the same
// check: the others mend nothing.
func (r *reader) oneOfThem(c *clause, i int) {
	for _, ref := range r.prev {
		if v := judge(&r.lx.refs[ref], c.sigs, r.ctx.Now); v.state != check.OK {
			r.hear(ref, v, c, i, byName)
		}
	}
}

// ofTwins extends a check that was named in the plural to every alike item of this
// message that has not been told of yet: "officer 4400, driver 4300, straps good".
func (r *reader) ofTwins(refs []int, c *clause) []int {
	if len(refs) != 1 || len(c.items)+len(c.places) > 0 || len(c.names) != 1 || !c.plural || c.except {
		return refs
	}
	own := r.lx.refs[refs[0]]
	for _, i := range r.recent {
		for _, x := range r.lx.byItem[i] {
			if i != own.item && r.lx.refs[x].check == own.check && !r.records[x].set {
				refs = appendNew(refs, []int{x})
			}
		}
	}
	return refs
}

// twin is the one item that is asked the same checks as the item that holds, -1
// where there is none or more than one.
func (r *reader) twin() int {
	twin := -1
	if r.held < 0 {
		return -1
	}
	for i := range r.lx.items {
		if r.lx.sameSheet(r.held, i) {
			if twin >= 0 {
				return -1
			}
			twin = i
		}
	}
	return twin
}

// they reports whether the clause goes on about the items named together before it in
// the sentence: "both saws started, they're full".
func (r *reader) they(c *clause, i int) bool {
	if !c.pronoun && !c.soft {
		return false
	}
	for k := i - 1; k >= 0; k-- {
		if p := &r.clauses[k]; p.both {
			w := r.words(r.clauses[i-1].e, c.e)
			return strings.Contains(w, "they") || strings.Contains(w, "them")
		} else if !p.soft {
			return false
		}
	}
	return false
}

// fullToo are the levels of the items named together just before: "both saws good and
// full".
func (r *reader) fullToo(c *clause, i int) []int {
	if i == 0 || !c.soft || c.hasSubject() || len(c.sigs) != 1 || !c.says(sFull) || len(r.group) < 2 || !r.clauses[i-1].plural {
		return nil
	}
	if levels := r.lx.ofKind(r.lx.ofItems(r.group), check.Level); r.lx.onePerItem(levels) {
		return levels
	}
	return nil
}
