package bot

import (
	"slices"

	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/wording"
)

// Escalation is a rung that waits to be told to the officers, together with what
// other companies owe at the same instant.
type Escalation struct {
	nag.Obligation
	Rung int `json:"rung"`
}

// raise keeps a rung for the officers and asks for the decision that tells them:
// it comes after the ticks of all companies whose instant is the same.
func (d *decision) raise(st *Standing, o nag.Obligation, step nag.Step) {
	st.Raised = append(st.Raised, Escalation{o, step.Rung})
	if len(st.Raised) == 1 {
		d.ask("officers/raised", "escalate")
	}
}

// escalate tells the officers, in one message, what was raised by now.
func (d *decision) escalate() {
	var views []wording.NagView
	var first nag.Obligation
	var key chat.Key
	for _, c := range append(companyIDs(d.Dept), shopDesk) {
		st := d.Standings[c]
		if st == nil || len(st.Raised) == 0 {
			continue
		}
		for _, e := range st.Raised {
			if d.paidSince(st, e) {
				continue
			}
			if len(views) == 0 {
				first, key = e.Obligation, chat.Key(e.RungKey(e.Rung))
			}
			views = append(views, d.nagView(st, e.Obligation, nag.Step{Rung: e.Rung, To: nag.Officers}))
		}
		st.Raised = nil
		d.touch(c)
	}
	room, ok := d.Dept.RoomFor(dept.ForOfficers)
	if len(views) == 0 || !ok {
		return
	}
	what := about(first)
	if len(views) > 1 {
		what = "department"
	}
	d.out.Messages = append(d.out.Messages, chat.Message{Key: key, Kind: chat.Escalation, About: what,
		Place: chat.Place{Backend: room.Backend, Room: room.Address}, Blocks: wording.Escalations(views, d.local(d.now))})
}

// paidSince reports whether what was raised has been paid before it was told.
func (d *decision) paidSince(st *Standing, e Escalation) bool {
	return e.Ladder != nag.OnCall && !slices.ContainsFunc(st.Obligations, func(o nag.Obligation) bool { return o.Key == e.Key })
}
