package bot

import (
	"slices"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/wording"
)

// climb deals with the rungs that have come, of everything that a company or the
// shop owes. What is not sent is put on record with the reason.
func (d *decision) climb(st *Standing) {
	if st.Watch != nil {
		carried := d.carried(st.Company)
		done := len(d.unanswered(st)) == 0
		settle(st, func(o nag.Obligation) bool {
			return done && o.Ladder == nag.Unanswered || o.Item != "" && !contains(carried, o.Item)
		})
	}
	var sends []due
	for i := range st.Obligations {
		o := &st.Obligations[i]
		ladder := d.Ladders[o.Ladder]
		steps := ladder.Due(*o, d.now, d.passing(o.Ladder), func(r nag.Rung) nag.Mute { return d.mute(st, *o, r) })
		for _, step := range steps {
			o.Climbed = step.Rung
			d.note(*o, step)
			switch {
			case step.Mute != nag.Sent:
			case step.To == nag.Officers:
				d.raise(st, *o, step)
			default:
				sends = append(sends, due{*o, step})
			}
		}
	}
	for _, together := range bundle(sends) {
		d.remind(st, together)
	}
	settle(st, func(o nag.Obligation) bool { return o.Ladder == nag.OnCall && o.Climbed >= len(d.Ladders[nag.OnCall]) })
}

// due is a rung that is sent.
type due struct {
	nag.Obligation
	step nag.Step
}

// bundle puts the reminders for several engines of a company, or for several
// services, due at the same time for the same reason, into one message.
func bundle(sends []due) [][]due {
	var bundles [][]due
	for _, s := range sends {
		i := slices.IndexFunc(bundles, func(b []due) bool {
			return (s.Ladder == nag.WarmUp || s.Ladder == nag.ServiceOverdue) &&
				b[0].Ladder == s.Ladder && b[0].step.Rung == s.step.Rung && b[0].step.To == s.step.To
		})
		if i < 0 {
			bundles = append(bundles, []due{s})
			continue
		}
		bundles[i] = append(bundles[i], s)
	}
	return bundles
}

// mute is why a rung is not sent now, nag.Sent if it is.
func (d *decision) mute(st *Standing, o nag.Obligation, r nag.Rung) nag.Mute {
	switch {
	case o.Item != "" && !o.Ladder.InShopTime() && d.outNow(o.Item):
		return nag.OutOfService
	case r.To == nag.Company && o.Ladder != nag.OnCall && d.busy(st):
		return nag.Busy
	}
	room, ok := d.audience(st, r.To)
	if !ok {
		return nag.Sent
	}
	for _, q := range room.Quiet {
		if q.Holds(d.local(d.now)) {
			return nag.QuietHours
		}
	}
	return nag.Sent
}

// busyFor is how long "on a call" is taken to last if nobody says "back".
const busyFor = 2 * time.Hour

func (d *decision) busy(st *Standing) bool {
	return st.Watch != nil && !st.Watch.Busy.IsZero() && !d.now.After(st.Watch.Busy.Add(busyFor))
}

func (d *decision) audience(st *Standing, to nag.Audience) (dept.Room, bool) {
	switch to {
	case nag.Company:
		return d.roomOf(st.Company)
	case nag.Officers:
		return d.Dept.RoomFor(dept.ForOfficers)
	case nag.ShopRoom:
		return d.Dept.RoomFor(dept.ForShop)
	}
	return dept.Room{}, false
}

// note puts a rung on record, sent or not, with the reason.
func (d *decision) note(o nag.Obligation, step nag.Step) {
	r := Record{ID: o.RungKey(step.Rung), Kind: OnReminder, Company: o.Company, Item: o.Item, Check: check.ID(o.Check), Defect: defect.ID(o.Defect),
		State: "sent", Note: string(step.To)}
	if step.Mute != nag.Sent {
		r.State = string(step.Mute)
	}
	d.record(r)
}

// remind sends one message for rungs that go out together, under the key of the
// first.
func (d *decision) remind(st *Standing, together []due) {
	o, step := together[0].Obligation, together[0].step
	view := d.nagView(st, o, step)
	for _, more := range together[1:] {
		view.Also = append(view.Also, d.thing(more.Item))
	}
	d.deliver(st, o, step, chat.Message{Key: chat.Key(o.RungKey(step.Rung)), Kind: chat.Nag, About: about(o), Blocks: wording.Nag(view)})
}

func about(o nag.Obligation) string {
	switch {
	case o.Check != "":
		return string(o.Item) + "." + o.Check
	case o.Item != "":
		return string(o.Item)
	}
	return string(o.Company)
}

// deliver sends a reminder where its audience will see it: the company in the
// thread of its shift, the shop in the defect's.
func (d *decision) deliver(st *Standing, o nag.Obligation, step nag.Step, m chat.Message) {
	room, ok := d.audience(st, step.To)
	if !ok {
		return
	}
	m.Place = chat.Place{Backend: room.Backend, Room: room.Address}
	switch {
	case step.To == nag.Company && st.Watch != nil:
		m.Under = st.Watch.Prompt
		st.Watch.Reminded, st.Watch.Told = d.now, time.Time{}
	case step.To == nag.ShopRoom && o.Defect != "":
		m.Under = defectKey(defect.ID(o.Defect))
	}
	d.out.Messages = append(d.out.Messages, m)
}

func (d *decision) nagView(st *Standing, o nag.Obligation, step nag.Step) wording.NagView {
	v := wording.NagView{Ladder: o.Ladder, Rung: step.Rung, Company: d.companyName(o.Company), Since: d.local(o.Opened), Audience: step.To}
	if o.Item != "" {
		v.Thing, v.Label = d.thing(o.Item), d.label(check.Ref{Item: o.Item, Check: check.ID(o.Check)})
	}
	if o.Ladder == nag.Unanswered && st.Watch != nil {
		for _, a := range d.unanswered(st) {
			v.Missing = append(v.Missing, d.numbered(a))
		}
	}
	if o.Ladder == nag.LowFuel && d.Items[o.Item] != nil {
		if last := d.Items[o.Item].Last[check.ID(o.Check)]; last.Value.Number != nil {
			v.Level = wording.Level(*last.Value.Number)
		}
	}
	if f := d.defect(defect.ID(o.Defect)); f != nil {
		v.Until = d.local(f.Until)
	}
	return v
}
