package reply

import (
	"slices"
	"strings"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// redirected sends bad news that is a check of its own to that check: fluid that
// is leaking is a leak, not a level.
func (r *reader) redirected(tg target, c *clause) []int {
	if len(tg.refs) != len(r.lx.ofKind(tg.refs, check.Level, check.Gauge, check.Number)) {
		return tg.refs
	}
	items := tg.items
	if len(items) == 0 {
		items = r.itemsOf(tg.refs)
	}
	for k := range c.sigs {
		if s := &c.sigs[k]; s.kind == sBad && len(s.t.senses.checks) > 0 {
			if to := r.lx.within(s.t.senses.checks, items); len(to) == 1 {
				return to
			}
		}
	}
	return tg.refs
}

// fitting are the signals of the clause that can bear on the check, with the
// check's own name where it is itself bad news ("leaks").
func (r *reader) fitting(ref int, c *clause) []signal {
	if c.spoken() || c.question {
		for k := range c.sigs {
			if s := &c.sigs[k]; s.kind == sGood && s.neg && isAny(s.t.word, "bad", "terrible", "awful") && len(c.names) > 0 && c.names[len(c.names)-1].is(cBad) {
				return append(slices.Clone(c.sigs), signal{kind: sHedge, t: s.t, b: s.b, e: s.e}) // "the leak isn't bad"
			}
		}
		return c.sigs
	}
	for _, t := range c.names {
		if t.is(cBad) && !t.is(cFiller) {
			bad := signal{kind: sBad, t: t, b: t.b, e: t.e}
			if len(c.sigs) > 0 && c.sigs[0].b > t.b {
				return append([]signal{bad}, c.sigs...) // "leaks a bit, good enough"
			}
			return append(slices.Clone(c.sigs), bad)
		}
	}
	if !c.spoken() && len(c.sigs) == 0 && r.labelSaid(ref, c) {
		return []signal{{kind: sGood, t: c.names[0], b: c.b, e: c.e}}
	}
	if r.saysIt(ref, c) {
		return []signal{{kind: sGood, t: c.names[0], b: c.b, e: c.e}}
	}
	for k, t := range c.names {
		if t.is(cGood) && (k > 0 || len(c.items) > 0 || c.pronoun || strings.HasSuffix(t.word, "ed") || t.word != t.last) {
			return append(slices.Clone(c.sigs), signal{kind: sGood, t: t, b: t.b, e: t.e})
		}
	}
	return c.sigs
}

// saysIt reports whether the clause is just the check's own word for how it should be,
// said of the item that holds: "radio 96 clear", "dial .5, flushed".
func (r *reader) saysIt(ref int, c *clause) bool {
	a := &r.lx.refs[ref]
	if !c.soft || c.all || c.rest || len(c.names) != 1 || len(c.sigs) > 0 || len(c.items)+len(c.unknown) > 0 || c.ifs || c.past || c.except || c.question || r.held != a.item || a.check.Answer.Good == "no" {
		return false
	}
	t := c.names[0]
	return t.word == t.last && !t.is(cBad) && (t.is(cGood) || strings.HasSuffix(t.word, "ed") && len(t.word) > 4) &&
		len(r.lx.ofKind([]int{ref}, check.Condition, check.YesNo)) == 1
}

// labelSaid reports whether the clause says the whole of the check's label, as "the
// spares are in the charger" does of "spares in charger": such a label says how it
// should be.
func (r *reader) labelSaid(ref int, c *clause) bool {
	a := &r.lx.refs[ref]
	if k := a.check.Answer.Kind; k != check.YesNo && k != check.Condition || a.check.Answer.Good == "no" || c.ifs || c.except || c.past || len(c.unknown) > 0 {
		return false
	}
	label, said := words(a.check.Label), words(r.stretch(c))
	if n := len(said); n > 1 && isAny(said[n-1], "on", "in", "closed", "off") && a.goodW[said[n-1]] {
		return true // "caps on", where the method wants them on
	}
	links := 0
	for _, w := range label {
		if !slices.Contains(said, w) {
			return false
		}
		if isAny(w, "in", "on", "aboard", "holds", "is", "are", "works", "closes", "opens") {
			links++
		}
	}
	return len(label) > 1 && links > 0
}

// stretch is the text of a clause with the words behind it that say nothing, up to the
// next mark or clause.
func (r *reader) stretch(c *clause) string {
	end := len(r.text)
	for k := range r.clauses {
		if b := r.clauses[k].b; b > c.b && b < end {
			end = b
		}
	}
	text := r.words(c.b, end)
	if at := strings.IndexAny(text, ".,;!?\n"); at >= 0 {
		text = text[:at]
	}
	return text
}

func excepted(a *asked) verdict {
	switch a.check.Answer.Kind {
	case check.Condition, check.YesNo, check.Gauge, check.Level, check.Choice:
		return fault
	}
	return doubt(NotChecked)
}

// strays sends figures that the named checks cannot take to the one check that
// can: "chain good 3 min".
func (r *reader) strays(refs []int, c *clause, i int) {
	for k := range c.sigs {
		s := &c.sigs[k]
		if levels := r.open(r.lx.ofKind(r.lx.ofItems(r.itemsOf(refs)), check.Level)); s.kind == sFull && len(levels) == 1 && len(r.lx.ofKind(refs, check.Run, check.Number)) == len(refs) {
			r.hear(levels[0], judge(&r.lx.refs[levels[0]], c.sigs[k:k+1], r.ctx.Now), c, i, byName)
		}
		if own := r.lx.within(s.t.senses.checks, r.itemsOf(refs)); (s.kind == sGood && s.neg || s.kind == sBad) && s.t.is(cBad) && len(own) == 1 && !slices.Contains(refs, own[0]) {
			r.hear(own[0], judge(&r.lx.refs[own[0]], c.sigs[k:k+1], r.ctx.Now), c, i, byName)
		}
		if s.kind == sOption && len(options(refs, s.t)) == 0 {
			if to := options(r.open(r.lx.ofItems(r.itemsOf(refs))), s.t); len(to) == 1 {
				r.hear(to[0], judge(&r.lx.refs[to[0]], c.sigs[k:k+1], r.ctx.Now), c, i, byName)
			}
		}
		if s.kind != sFigure || len(r.lx.takers(refs, s.t.q)) > 0 || r.figured(refs, s) {
			continue
		}
		if s.t.q.unit == "" && !s.t.q.frac && !s.t.q.pair {
			if fit := r.plausible(r.open(r.lx.ofItems(r.itemsOf(refs))), s.t.q); len(fit) == 1 && len(r.lx.ofKind(refs, check.Number, check.Run, check.Text)) == 0 {
				r.hear(fit[0], judge(&r.lx.refs[fit[0]], c.sigs[k:k+1], r.ctx.Now), c, i, byName)
			}
			continue
		}
		if r.anyNumber(refs, s.t.q) {
			continue
		}
		items := r.itemsOf(refs)
		takers := r.open(r.lx.takers(r.lx.ofItems(items), s.t.q))
		if len(takers) == 1 {
			r.hear(takers[0], judge(&r.lx.refs[takers[0]], c.sigs[k:k+1], r.ctx.Now), c, i, byName)
		}
	}
}

// figured reports whether one of the refs has an answer in the figure, as a gauge has
// in a fraction.
func (r *reader) figured(refs []int, s *signal) bool {
	for _, ref := range refs {
		if judge(&r.lx.refs[ref], []signal{*s}, r.ctx.Now).state != check.Open {
			return true
		}
	}
	return false
}

// anyNumber reports whether one of the refs takes bare numbers.
func (r *reader) anyNumber(refs []int, q *quantity) bool {
	return q.unit == "" && len(r.lx.ofKind(refs, check.Number, check.Run)) > 0
}

func (r *reader) itemsOf(refs []int) []int {
	var out []int
	for _, x := range refs {
		out = appendNew(out, []int{r.lx.refs[x].item})
	}
	return out
}

func (r *reader) open(refs []int) []int {
	var out []int
	for _, x := range refs {
		if !r.records[x].set {
			out = append(out, x)
		}
	}
	return out
}

// hear joins a new verdict with what was heard before of the check.
func (r *reader) hear(ref int, v verdict, c *clause, i int, l level) {
	if v.wants {
		r.wants = appendNew(r.wants, []int{ref})
	}
	if v.fixed {
		r.mendedAt = append(r.mendedAt, ref)
	}
	if v.state == check.Open {
		return
	}
	rec := &r.records[ref]
	if rec.set && rec.level > l {
		return
	}
	if rec.set && rec.level == l {
		v = r.joined(ref, v, c, i)
	}
	*rec = record{set: true, v: v, level: l, b: c.b, e: c.e, clause: i}
}

// joined settles a second word about the same check: the latest wins where it
// corrects, mends or worsens; a bare contradiction is asked about.
func (r *reader) joined(ref int, v verdict, c *clause, i int) verdict {
	rec := &r.records[ref]
	old := rec.v
	switch {
	case old.fixed && v.state == check.Fail && v.value.Number == nil && strings.Contains(r.words(max(rec.e, 0), c.e), "was"):
		return old
	case old.state == check.Unsure && old.why == NotChecked && rec.clause == i && v.state == check.OK:
		return old // "need to run it 6 min"
	case old.nostart && v.state == check.OK && !c.says(sFixed, sNow):
		return old // "would not start, pulled on it for ten minutes"
	case old.assumed:
		v.pos = old.pos
		return v
	case r.corrected(rec.clause, i), v.now:
		return v
	case v.fixed && old.state == check.Fail:
		return v
	case old.fixed && v.state == check.OK && old.state == check.OK:
		v.fixed, v.poured = true, old.poured
		if v.value.IsZero() {
			v.value = old.value
		}
		return v
	case old.state == v.state:
		if v.value.IsZero() || v.value.Word != "" && old.value.Number != nil {
			v.value = old.value
		} else if !old.value.IsZero() && !old.value.Equal(v.value) && old.value.Number != nil {
			return verdict{state: check.Unsure, why: Conflict}
		}
		if v.damage == "" {
			v.damage = old.damage
		}
		return v
	case old.state == check.Fail && v.state == check.OK && v.door && c.soft:
		v.fixed = true
		return v
	case old.state == check.Fail && v.state == check.OK && (v.weak || c.soft && v.value.IsZero()):
		return old
	case old.state == check.Fail && v.state == check.OK && v.value.Number != nil && slices.Contains(r.mendedAt, ref):
		v.fixed = true
		return v
	case old.state == check.Fail && v.state == check.OK:
		if v.value.Number != nil && old.value.Number == nil && c.hasCheck() {
			return v
		}
		return verdict{state: check.Unsure, why: Conflict}
	case v.state == check.Fail && v.value.IsZero() && old.state == check.OK && old.value.Number != nil:
		v.value = old.value
	case old.state == check.Fail && v.state == check.Unsure:
		return old
	case old.state == check.Unsure && old.why == Leftover, old.state == check.Unsure && old.why == Hedged && v.value.IsZero():
		if v.state == check.OK {
			return old
		}
	}
	return v
}

// corrected reports whether a correction stands between two clauses.
func (r *reader) corrected(from, to int) bool {
	for k := from + 1; k <= to; k++ {
		if r.clauses[k].corrects {
			return true
		}
	}
	return false
}

func (r *reader) each(refs []int, c *clause, i int, v verdict, l level) {
	for _, ref := range refs {
		r.hear(ref, v, c, i, l)
	}
}

func (r *reader) words(b, e int) string {
	if b < 0 || e > len(r.text) || b >= e {
		return ""
	}
	return strings.TrimSpace(r.text[b:e])
}

func (r *reader) itemID(i int) dept.ItemID {
	if i < 0 {
		return ""
	}
	return r.lx.items[i].ID
}
