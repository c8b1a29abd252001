package reply

import (
	"slices"

	"crosslay/bot/check"
)

// settlePlaces takes a place for the item that rides there where an item like it was
// just spoken of, or where a figure says so: "driver 4300 ok ok", "jump not checked".
func (r *reader) settlePlaces(c *clause) {
	if len(c.places) != 1 || c.hasSubject() {
		return
	}
	p := c.places[0]
	near := r.held >= 0 && (r.held == p || r.lx.sameSheet(r.held, p))
	for _, i := range r.group {
		near = near || i == p || r.lx.sameSheet(i, p)
	}
	for k := range c.sigs {
		if s := &c.sigs[k]; s.kind == sFigure {
			near = near || len(r.plausible(r.lx.byItem[p], s.t.q)) > 0 || len(r.lx.takers(r.lx.ofKind(r.lx.byItem[p], check.Number), s.t.q)) > 0 ||
				s.t.q.whole && s.t.q.lo >= 100 && len(r.lx.ofKind(r.lx.byItem[p], check.Number)) == 1
		}
	}
	if near {
		c.items, c.marked = []int{p}, true
	}
}

// toolStands takes "spreader is wide open" behind a reading that hangs on the tool's
// position as word of that position.
func (r *reader) toolStands(tg target, c *clause) bool {
	if !tg.item || len(tg.items) != 1 || len(tg.refs) > 0 || !c.says(sOpen, sClosed) || c.says(sGood, sBad, sFigure, sLow) {
		return false
	}
	for _, ref := range r.prev {
		a := &r.lx.refs[ref]
		if a.item == tg.items[0] || !a.standing() {
			continue
		}
		r.position = Met
		if c.says(sOpen) {
			r.position = Unmet
		}
		return true
	}
	return false
}

// standing reports whether what the check reads hangs on how a tool stands.
func (a *asked) standing() bool {
	return a.check.Proviso != "" || a.check.Answer.Kind == check.Gauge && a.goodW["closed"]
}

// nothingElse puts in doubt what a blanket says of all that was not looked at: "I only
// looked at the fan".
func (r *reader) nothingElse(tg target, c *clause) {
	seen := append(slices.Clone(tg.refs), r.lx.ofItems(tg.items)...)
	var rest []int
	for _, x := range r.lx.all() {
		if !slices.Contains(seen, x) {
			rest = append(rest, x)
		}
	}
	r.taints = append(r.taints, taint{refs: rest, why: NotChecked, b: c.b, e: c.e})
	c.sigs = slices.DeleteFunc(c.sigs, func(s signal) bool { return s.kind == sHedge && s.t.word == "only" })
}

// notePosition keeps what was said of the tool's position; it bears on every
// reading of the message that hangs on it.
func (r *reader) notePosition(c *clause) {
	for k := range c.sigs {
		switch c.sigs[k].kind {
		case sOpenTool:
			r.position = Unmet
		case sClosedTool:
			r.position = Met
		}
	}
}

// hold remembers the item that holds for what follows.
func (r *reader) hold(tg target) {
	if len(tg.items) == 1 {
		r.held, r.named = tg.items[0], true
		r.recent = appendNew(r.recent, tg.items)
		return
	}
	if own := r.itemsOf(tg.refs); len(tg.items) == 0 && len(own) == 1 && len(r.lx.items) > 1 {
		r.held = own[0]
	}
	if len(tg.items) > 1 {
		r.group = tg.items
		r.held = -1
	}
}
