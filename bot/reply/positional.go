package reply

import "crosslay/bot/check"

// positional reads a list of bare answers in the order asked: "saw full, good,
// tight, 3 min". It counts only where there are as many answers as open checks
// and every answer suits its check. It returns the number of clauses used.
func (r *reader) positional(i int) int {
	var sigs []signal
	first := &r.clauses[i]
	if first.hasCheck() || len(first.items) > 1 || len(first.sigs) == 0 || first.all || first.rest || first.except {
		return 0
	}
	n := 0
	for k := i; k < len(r.clauses); k++ {
		c := &r.clauses[k]
		if k > i && (c.hasSubject() || c.but || c.pronoun && c.says(sUndone)) || len(c.sigs) == 0 || len(c.unknown) > 0 || c.all || c.rest || c.except || c.past || c.question || c.ifs || c.corrects {
			break
		}
		sigs = append(sigs, c.sigs...)
		n++
	}
	if n < 2 || i+n < len(r.clauses) && len(first.items) == 0 {
		return 0
	}
	refs := r.listed(first)
	if len(refs) == 2 && sigs[1].kind == sUndone {
		return 0 // "ram good, not looked at"
	}
	if len(refs) == len(sigs) && r.suits(refs, sigs) {
		r.inOrder(refs, sigs, i)
		return n
	}
	if len(sigs) >= 3 && len(sigs) < len(refs) && len(first.items) == 1 && r.pinned(refs, sigs) {
		r.inOrder(refs[:len(sigs)], sigs, i)
		return n
	}
	if refs := r.firstItem(refs); len(first.items) == 0 && len(sigs) >= 4 && len(refs) == len(sigs) && i+n == len(r.clauses) && r.suits(refs, sigs) {
		r.inOrder(refs, sigs, i)
		return n
	}
	return r.readings(refs, sigs, i, n)
}

// firstItem are those of the refs that belong to the first one's item: a list of
// as many answers may be meant for it alone.
func (r *reader) firstItem(refs []int) []int {
	var out []int
	for _, x := range refs {
		if r.lx.refs[x].item == r.lx.refs[refs[0]].item {
			out = append(out, x)
		}
	}
	return answerable(r.lx, out)
}

// pinned reports whether a shorter list still lies in order: it suits, and a
// figure with a unit sits on the check that wants it.
func (r *reader) pinned(refs []int, sigs []signal) bool {
	if !r.suits(refs[:len(sigs)], sigs) {
		return false
	}
	for k := range sigs {
		if sigs[k].kind == sFigure && sigs[k].t.q.unit != "" && takes(&r.lx.refs[refs[k]], sigs[k].t.q) {
			return true
		}
	}
	return false
}

// listed are the checks that a list of answers goes through.
func (r *reader) listed(first *clause) []int {
	if len(first.items) == 1 {
		return answerable(r.lx, r.lx.byItem[first.items[0]])
	}
	if len(r.focus) > 0 {
		return r.focus
	}
	if r.held >= 0 {
		return r.lx.byItem[r.held]
	}
	var out []int
	for _, ref := range r.lx.all() {
		if r.ctx.Settled[r.lx.refs[ref].ref] == check.Open {
			out = append(out, ref)
		}
	}
	return out
}

func (r *reader) suits(refs []int, sigs []signal) bool {
	for k, ref := range refs {
		switch sigs[k].kind {
		case sHedge, sNow, sFixed, sPoured, sSame:
			return false
		}
		if v := judge(&r.lx.refs[ref], sigs[k:k+1], r.ctx.Now); v.state == check.Open {
			return false
		}
	}
	return true
}

func (r *reader) inOrder(refs []int, sigs []signal, i int) {
	if i < len(r.clauses) && len(r.clauses[i].items) == 1 {
		c := &r.clauses[i]
		r.held, r.named = c.items[0], true
	}
	for k, ref := range refs {
		v := judge(&r.lx.refs[ref], sigs[k:k+1], r.ctx.Now)
		c := clause{b: sigs[k].b, e: sigs[k].e}
		r.hear(ref, v, &c, i, byName)
	}
	r.prev = refs[len(refs)-1:]
}

// readings takes a list of figures alone for the checks that want one, in order.
func (r *reader) readings(refs []int, sigs []signal, i, n int) int {
	var want []int
	for _, ref := range refs {
		if k := r.lx.refs[ref].check.Answer.Kind; k.WantsFigure() && k != check.Text && k != check.Photo {
			want = append(want, ref)
		}
	}
	if len(want) != len(sigs) || len(want) < 2 || !r.suits(want, sigs) {
		return 0
	}
	for k := range sigs {
		if sigs[k].kind != sFigure && sigs[k].kind != sFull && sigs[k].kind != sEmpty && sigs[k].kind != sOption {
			return 0
		}
	}
	r.inOrder(want, sigs, i)
	return n
}
