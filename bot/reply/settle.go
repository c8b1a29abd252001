package reply

import (
	"slices"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

// sweepAll lets blanket answers reach what nothing nearer spoke of.
func (r *reader) sweepAll() {
	for _, t := range r.troubles {
		if !r.explained(t.refs) {
			r.each(t.refs, &r.clauses[t.clause], t.clause, doubt(WhichCheck), byItem)
		}
	}
	r.unmeasured()
	for k := range r.sweeps {
		r.sweepOne(&r.sweeps[k])
	}
}

// explained reports whether a fault of one of the checks says what is wrong.
func (r *reader) explained(refs []int) bool {
	return slices.ContainsFunc(refs, func(x int) bool {
		rec := &r.records[x]
		return rec.set && rec.level == byName && rec.v.state == check.Fail
	})
}

// unmeasured makes what needs a running engine unsure where it would not start.
func (r *reader) unmeasured() {
	for _, run := range r.lx.ofKind(r.lx.all(), check.Run) {
		if !r.records[run].v.nostart {
			continue
		}
		for _, x := range r.lx.byItem[r.lx.refs[run].item] {
			a := r.lx.refs[x].check.Answer
			if a.Kind == check.Number && (a.Unit == "V" || a.Unit == "Hz") && (!r.records[x].set || r.records[x].v.state == check.Fail && r.records[x].v.value.IsZero()) {
				rec := r.records[run]
				rec.v, rec.level = doubt(NotChecked), byName
				r.records[x] = rec
			}
		}
	}
}

func (r *reader) sweepOne(s *sweep) {
	for _, ref := range s.refs {
		a := &r.lx.refs[ref]
		if a.check.Answer.Kind.WantsFigure() {
			r.wants = appendNew(r.wants, []int{ref})
			continue
		}
		rec := &r.records[ref]
		if rec.set && (rec.level > s.level || rec.v.state != check.OK && rec.level >= byItem) || r.protected(a, s) {
			continue
		}
		v := pass
		if s.taint != "" {
			v = doubt(s.taint)
		}
		if why := r.tainted(ref); why != "" {
			v = doubt(why)
		}
		if rec.set && rec.v.state == check.Unsure && (rec.level >= s.level || rec.clause > s.clause && rec.v.why == NotChecked) {
			continue
		}
		*rec = record{set: true, v: v, level: s.level, b: s.b, e: s.e, clause: s.clause}
	}
}

// protected reports whether an earlier result stands against a blanket: faults
// and doubts are never wiped away by "all good", and the rest is what is open.
func (r *reader) protected(a *asked, s *sweep) bool {
	st := r.ctx.Settled[a.ref]
	return st == check.Fail || st == check.Unsure || s.level == byRest && (st == check.OK || slices.Contains(r.older, r.lx.at(a)))
}

func (r *reader) tainted(ref int) Why {
	for _, t := range r.taints {
		if slices.Contains(t.refs, ref) {
			return t.why
		}
	}
	return ""
}

// reading puts everything together.
func (r *reader) reading(tk talk, terms []term) Reading {
	out := Reading{About: r.about, Reports: r.reports, NotUnderstood: r.leftover, Busy: r.busy, Back: tk.back}
	r.marks(&out, terms)
	r.timed(&out)
	if tk.retract || tk.takenBack {
		r.retract()
	}
	for ref := range r.records {
		if rec := &r.records[ref]; rec.set {
			out.Results = append(out.Results, r.result(ref, rec))
		}
	}
	r.notUnderstood(&out)
	out.Ask = r.asks()
	if r.held >= 0 && (r.named || r.ctx.Held != "") {
		out.Held = r.lx.items[r.held].ID
	}
	out.Undo = tk.undo && len(out.Results) == 0
	out.Used = r.used(terms)
	tk.question, tk.busy = tk.question || r.asked, r.busy
	out.Intent = intent(&out, tk)
	return out
}

// retract puts what was said last in doubt: the message ends in "wait".
func (r *reader) retract() {
	last := len(r.clauses) - 1
	for ref := range r.records {
		if rec := &r.records[ref]; rec.set && rec.v.state == check.OK && rec.clause == last {
			rec.v = doubt(Conflict)
		}
	}
}

// used are the items said to have been used on a call.
func (r *reader) used(terms []term) []dept.ItemID {
	for i := range terms {
		if !terms[i].is(cUsed) {
			continue
		}
		var ids []dept.ItemID
		for _, id := range r.markedItems(terms, i) {
			if id != "" {
				ids = append(ids, id)
			}
		}
		return ids
	}
	return nil
}

func (r *reader) result(ref int, rec *record) Result {
	a := &r.lx.refs[ref]
	if a.standing() && rec.v.pos == Unknown {
		rec.v.pos = r.position
	}
	if rec.v.pos == Unmet && (rec.v.state == check.Fail && rec.v.value.Word != "over" || rec.v.poured) {
		rec.v.state, rec.v.why = check.Unsure, ToolOpen
	}
	res := Result{
		Ref: a.ref, State: rec.v.state, Value: rec.v.value, Damage: rec.v.damage, Fixed: rec.v.fixed, Poured: rec.v.poured,
		Blanket: rec.level <= byRest, Position: rec.v.pos, Start: rec.v.start, End: rec.v.end, Words: r.words(rec.b, rec.e),
	}
	if rec.v.state == check.Unsure {
		res.Value = check.Value{}
		res.Doubt = r.doubtOf(a, rec)
	}
	return res
}

func (r *reader) doubtOf(a *asked, rec *record) Doubt {
	d := Doubt{Why: rec.v.why, Refs: []check.Ref{a.ref}}
	if len(rec.choice) == 0 {
		return d
	}
	d.Refs, d.State, d.Value, d.Damage = nil, rec.said.state, rec.said.value, rec.said.damage
	for _, x := range rec.choice {
		d.Refs = append(d.Refs, r.lx.refs[x].ref)
		name := r.lx.refs[x].check.Label
		if rec.v.why == WhichItem {
			name = r.nameOf(r.lx.refs[x].item)
		}
		if !slices.Contains(d.Choices, name) {
			d.Choices = append(d.Choices, name)
		}
	}
	return d
}

func (r *reader) nameOf(item int) string {
	if n := r.lx.items[item].Names; len(n) > 0 {
		return n[0]
	}
	return string(r.lx.items[item].ID)
}

func (r *reader) notUnderstood(out *Reading) {
	for i := range r.clauses {
		for _, t := range r.clauses[i].unknown {
			w := r.words(t.b, t.e)
			recent := out.NotUnderstood[max(0, len(out.NotUnderstood)-16):]
			if !slices.ContainsFunc(recent, func(s string) bool { return contains(s, w) }) {
				out.NotUnderstood = append(out.NotUnderstood, w)
			}
		}
	}
}

func contains(s, sub string) bool {
	for i := 0; i+len(sub) <= len(s); i++ {
		if s[i:i+len(sub)] == sub {
			return true
		}
	}
	return false
}

func (r *reader) asks() []check.Ref {
	var out []check.Ref
	for ref := range r.records {
		rec := &r.records[ref]
		if rec.set && rec.v.state == check.Unsure || !rec.set && slices.Contains(r.wants, ref) && r.ctx.Settled[r.lx.refs[ref].ref] == check.Open {
			out = append(out, r.lx.refs[ref].ref)
		}
	}
	return out
}

// intent names the message as a whole.
func intent(out *Reading, tk talk) Intent {
	switch {
	case len(out.Results) > 0:
		return Answer
	case out.Undo:
		return Undo
	case tk.busy:
		return Busy
	case len(out.Reports) > 0 && (tk.request || !tk.question):
		return Report
	case tk.question:
		return Question
	}
	return Chatter
}

// marks finds engines said to be started or shut down just now.
func (r *reader) marks(out *Reading, terms []term) {
	for i := range terms {
		if !terms[i].is(cStarted | cOff) {
			continue
		}
		at := r.markedAt(terms, i)
		for _, item := range r.markedItems(terms, i) {
			m := Mark{Item: item, At: at}
			if terms[i].is(cStarted) {
				out.Starts = append(out.Starts, m)
			} else {
				out.Stops = append(out.Stops, m)
			}
		}
	}
}

// markedAt is the clock time right behind "started" or "off".
func (r *reader) markedAt(terms []term, i int) (at time.Time) {
	for k := i + 1; k < len(terms) && k <= i+4; k++ {
		q := terms[k].q
		if q != nil && q.whole && q.lo >= 1 && q.lo <= 12 && terms[k-1].word == "at" {
			c := minuteOf(int(q.lo), 0)
			q = &c
		}
		if q != nil && q.clock && !q.pair {
			at, _ = clockTimes(q, r.ctx.Now)
			return at
		}
	}
	return at
}

// markedItems are the engines that a mark speaks of: those named behind it, the
// one named before it, or the one that holds.
func (r *reader) markedItems(terms []term, i int) []dept.ItemID {
	var ids []dept.ItemID
	for k := i + 1; k < len(terms) && !terms[k].hard() && !terms[k].predicate(); k++ {
		if items := terms[k].senses.items; len(items) == 1 && len(terms[k].senses.checks) == 0 {
			ids = append(ids, r.itemID(items[0]))
		}
	}
	if len(ids) > 0 {
		return ids
	}
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		if items := terms[k].senses.items; len(items) == 1 {
			return []dept.ItemID{r.itemID(items[0])}
		}
	}
	return []dept.ItemID{r.itemID(r.held)}
}

// timed makes a run of a start and an end that were both given by the clock.
func (r *reader) timed(out *Reading) {
	if len(out.Starts) != 1 || len(out.Stops) != 1 || out.Starts[0].At.IsZero() || out.Stops[0].At.IsZero() {
		return
	}
	a, b := out.Starts[0], out.Stops[0]
	scope := r.lx.all()
	if a.Item != "" {
		scope = r.lx.find([]check.Ref{{Item: a.Item}})
	}
	runs := r.lx.ofKind(scope, check.Run)
	minutes := b.At.Sub(a.At).Minutes()
	if len(runs) != 1 || minutes < 0 {
		return
	}
	st, _ := r.lx.refs[runs[0]].check.Answer.Within(minutes)
	if rec := &r.records[runs[0]]; rec.set {
		if rec.v.value.IsZero() && rec.v.state == check.Fail {
			rec.v.value = check.Num(minutes)
		}
		return
	}
	v := verdict{state: st, value: check.Num(minutes), start: a.At, end: b.At}
	r.records[runs[0]] = record{set: true, v: v, level: byName, e: len(r.text)}
}
