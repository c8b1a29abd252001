package bot

import (
	"slices"

	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
)

func (d *decision) notAFault(f *defect.Defect) {
	f.Closed, f.How, f.AtShop, f.Wanted = d.ev.Said, defect.NotAFault, false, false
	d.settleShop(f, nag.Unseen)
	d.settleShop(f, nag.PartsOverdue)
	out, other := d.state(f.Ref.Item).Out, d.alsoOut(f)
	switch {
	case out != nil && out.Defect == f.ID && other != nil:
		out.Defect, out.Why = other.ID, orElse(other.Damage, d.label(other.Ref)+" fault")
	case other == nil && (out == nil || out.Defect == f.ID):
		d.putBack(f.Ref.Item)
	}
	d.lookAgain(f)
	d.tell(f, "not_a_fault", "not_a_fault")
}

// lookAgain opens the check of a fault that was none: the shop takes the fault back,
// and passes nothing in the crew's place.
func (d *decision) lookAgain(f *defect.Defect) {
	st := d.Standings[f.Company]
	if st == nil || st.Watch == nil {
		return
	}
	if s := st.Watch.Recorded[f.Ref.String()].State; s != check.Fail && s != check.Unsure {
		return
	}
	s := d.statementOf(st)
	s.Ref = "" // an edit of the shop's words is none of the crew's
	s.Results = []reply.Result{{Ref: f.Ref, State: check.Open, Words: "no fault, says the shop"}}
	st.Watch.Statements = append(st.Watch.Statements, s)
	d.reread(st, st.Watch)
	d.redraw(st)
}

// again reports whether the check was at fault in the shift and is open since the
// shop found none.
func (d *decision) again(st *Standing, ref check.Ref) bool {
	if st == nil || st.Watch == nil {
		return false
	}
	m := st.Watch.Recorded[ref.String()]
	return m.State == check.Open && m.Words != "" && d.asksNow(st, ref)
}

func (d *decision) asksNow(st *Standing, ref check.Ref) bool {
	return slices.ContainsFunc(d.asked(st), func(a Asked) bool { return a.Ref == ref })
}
