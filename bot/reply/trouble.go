package reply

import (
	"crosslay/bot/check"
)

// trouble is something wrong with an item, and the words do not say which check:
// the item is asked about, and nothing of it passes on a blanket.
func (r *reader) trouble(refs []int, sigs []signal, c *clause, i int, l level) {
	for k := range sigs {
		if d := intersect(sigs[k].t.senses.checks, refs); len(d) > 1 && sigs[k].kind == sBad {
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
	if len(sigs) > 0 && sigs[0].kind == sNoStart && len(r.lx.ofKind(refs, check.Run)) == 0 && len(c.items) > 0 {
		r.complain(c.items, c)
		r.each(r.lx.powered(refs), c, i, doubt(NotChecked), byName)
		return
	}
	conds := r.lx.ofKind(refs, check.Condition, check.YesNo, check.Gauge)
	if len(conds) == 1 && (len(refs) == 1 || l == byItem && c.hasSubject() && !c.noun && len(c.unknown) == 0 && !c.except) {
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

// powered are the checks that need the engine running.
func (lx *lexicon) powered(refs []int) []int {
	var out []int
	for _, x := range refs {
		if a := lx.refs[x].check.Answer; a.Kind == check.Number && (a.Unit == "V" || a.Unit == "Hz") {
			out = append(out, x)
		}
	}
	return out
}

func (r *reader) report(c *clause) {
	r.reports = append(r.reports, Complaint{Item: r.itemID(r.held), Words: r.words(c.b, c.e)})
}

// exceptUnnamed is an exception of which nobody can say what it is: what went
// before it does not pass.
func (r *reader) exceptUnnamed(c *clause) {
	r.unsettle(r.prev)
	if len(c.unknown) > 0 && onlyThings(c.unknown) && len(r.lx.refs) > 1 {
		r.residue(nil, c, Leftover)
		return
	}
	r.residue(r.defaultScope(c), c, Leftover)
	if len(c.unknown) > 0 {
		r.report(c)
	}
}
