package bot

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/rota"
	"crosslay/bot/wording"
)

// begin plans what was never planned. The very first start, in mid-shift, waits
// for the next change and says so.
func (d *decision) begin() {
	next := d.Rota.Next(d.now)
	for _, c := range d.Dept.Companies {
		if d.Standings[c.ID].Watch == nil {
			d.out.Wakes = append(d.out.Wakes, Wake{Scope: companyScope + string(c.ID), At: next})
		}
	}
	d.out.Wakes = append(d.out.Wakes, Wake{Scope: officersScope, At: d.nextSummary()})
	if d.FirstTime {
		d.out.Meta = map[string]string{"first_start": d.now.UTC().Format(time.RFC3339)}
		d.sayTo(chat.Notice, dept.ForOfficers, "crosslay", wording.FirstStart(d.local(next)))
	}
	if d.ev.Kind == chat.Reloaded && d.ev.Text != "" {
		d.sayTo(chat.Notice, dept.ForOfficers, "crosslay", wording.Reloaded(d.ev.Text))
	}
}

func (d *decision) nextSummary() time.Time {
	today := dept.DateOf(d.local(d.now))
	if at := d.Dept.Summary.On(today, d.Dept.Zone); at.After(d.now) {
		return at
	}
	return d.Dept.Summary.On(today.AddDays(1), d.Dept.Zone)
}

// plan sets the next instant of a company or of the shop.
func (d *decision) plan(id dept.CompanyID) {
	st := d.Standings[id]
	scope, next := shopScope, time.Time{}
	if id != shopDesk {
		if st.Watch == nil {
			return // its first shift change is planned already
		}
		scope, next = companyScope+string(id), d.Rota.Next(d.now)
		if !d.onDuty(st) {
			next = d.now // the change has come and was not dealt with yet
		}
	}
	sooner := func(t time.Time) {
		if next.IsZero() || t.Before(next) {
			next = t
		}
	}
	for _, o := range st.Obligations {
		if t, ok := d.Ladders[o.Ladder].Next(o, d.passing(o.Ladder)); ok {
			sooner(t)
		}
	}
	if w := st.Watch; w != nil {
		for item, lit := range w.Running {
			if c := d.runCheck(item); c != nil && c.Answer.Max != nil && !lit.Nudged {
				sooner(lit.Since.Add(minutes(*c.Answer.Max)))
			}
		}
	}
	d.out.Wakes = append(d.out.Wakes, Wake{Scope: scope, At: next})
}

// onDuty reports whether the shift that was prompted is the one on duty now.
func (d *decision) onDuty(st *Standing) bool {
	shift := d.Rota.At(d.now)
	return st.Watch.Date == shift.Date && st.Watch.Platoon == shift.Platoon
}

func minutes(f float64) time.Duration { return time.Duration(f * float64(time.Minute)) }

func (d *decision) passing(l nag.LadderID) nag.Passing {
	if !l.InShopTime() {
		return nag.WallClock
	}
	return func(t time.Time, dur time.Duration) time.Time { return d.Dept.ShopHours.Add(t, dur, d.Dept.Zone) }
}

// tick is the planned instant of a scope.
func (d *decision) tick() {
	switch {
	case d.ev.Scope == officersScope:
		d.out.Wakes = append(d.out.Wakes, Wake{Scope: officersScope, At: d.nextSummary()})
		d.summary(chat.Summary, d.officersPlace())
		d.oweService()
		d.tellWeek()
	case d.ev.Scope == shopScope:
		d.touch(shopDesk)
		d.climb(d.Standings[shopDesk])
	default:
		st := d.Standings[dept.CompanyID(strings.TrimPrefix(d.ev.Scope, companyScope))]
		if st == nil { // the company is no longer in the file
			d.out.Wakes = append(d.out.Wakes, Wake{Scope: d.ev.Scope})
			return
		}
		d.touch(st.Company)
		if st.Watch == nil || !d.onDuty(st) {
			d.turn(st, d.Rota.At(d.now))
		}
		d.nudge(st)
		d.climb(st)
	}
}

func (d *decision) officersPlace() chat.Place {
	room, _ := d.Dept.RoomFor(dept.ForOfficers)
	return chat.Place{Backend: room.Backend, Room: room.Address}
}

// turn is the shift change: what was left open is passed on, and the new shift
// gets its prompt.
func (d *decision) turn(st *Standing, shift rota.Shift) {
	st.Missed, st.NoRun = d.leftovers(st)
	d.warmed(st)
	st.Prior = st.Watch
	var kept []nag.Obligation
	for _, o := range st.Obligations {
		if o.Ladder == nag.LowFuel || o.Ladder == nag.CrewFix {
			kept = append(kept, o)
		}
	}
	st.Obligations = kept
	st.Watch = &Watch{Date: shift.Date, Platoon: shift.Platoon, Start: shift.Start, End: shift.End,
		Prompt: promptKey(st.Company, shift.Date, shift.Platoon), Recorded: map[string]Mark{}, Put: map[string]time.Time{}}
	d.watchFrom(st)
	d.number(st)
	room, ok := d.roomOf(st.Company)
	if !ok {
		return
	}
	v := d.promptView(st)
	d.out.Messages = append(d.out.Messages, chat.Message{Key: st.Watch.Prompt, Kind: chat.Prompt, About: string(st.Company), Tell: true,
		Place: chat.Place{Backend: room.Backend, Room: room.Address}, Blocks: wording.Prompt(v), Choices: wording.PromptChoices(), Form: wording.PromptForm(v)})
	d.record(Record{ID: string(st.Watch.Prompt), Kind: OnPrompt, Company: st.Company, Date: shift.Date, Platoon: shift.Platoon,
		State: "asked", Note: fmt.Sprintf("%d checks", len(st.Watch.Asked))})
}

// number lists the checks that are due, in order; the numbers hold for the shift.
func (d *decision) number(st *Standing) {
	w := st.Watch
	for _, id := range d.carried(st.Company) {
		if d.Items[id] != nil && d.Items[id].Out != nil {
			w.Left = append(w.Left, id)
			continue
		}
		d.numberItem(w, id, false)
	}
}

func (d *decision) numberItem(w *Watch, id dept.ItemID, used bool) {
	it, _ := d.Dept.Item(id)
	sheet := d.Book[it.Sheet]
	if sheet == nil {
		return
	}
	for _, c := range sheet.Checks {
		due := c.When.Due(w.Date) && !used || used && c.When.Every == check.AfterUse
		ref := check.Ref{Item: id, Check: c.ID}
		if numberOf(w, ref) > 0 && !used {
			continue
		}
		if due || d.awaits(ref) != nil && !used {
			w.Asked = append(w.Asked, Asked{N: len(w.Asked) + 1, Ref: ref})
		}
	}
}

// carried lists what a company carries now: its items, and behind each the spare
// that stands in for it.
func (d *decision) carried(c dept.CompanyID) []dept.ItemID {
	var ids []dept.ItemID
	for _, it := range d.Dept.Carried(c) {
		ids = append(ids, it.ID)
		if s := d.Items[it.ID]; s != nil && s.StandIn != "" {
			ids = append(ids, s.StandIn)
		}
	}
	return ids
}

// leftovers are the checks of a shift that nobody settled, and its engines that
// had no run.
func (d *decision) leftovers(st *Standing) (missed []check.Ref, noRun []dept.ItemID) {
	w := st.Watch
	if w == nil || w.Accepted.IsZero() {
		return nil, nil
	}
	for _, a := range d.asked(st) {
		m := w.Recorded[a.Ref.String()]
		c, ok := d.Book.Of(d.Dept, a.Ref)
		switch {
		case !ok:
		case c.Answer.Kind == check.Run:
			if !goodRun(m) {
				noRun = append(noRun, a.Ref.Item)
			}
		case m.State == check.Open || m.State == check.Unsure:
			missed = append(missed, a.Ref)
		}
	}
	return missed, noRun
}

// goodRun reports whether a run counts as the shift's warm-up: one that lasted
// the minimum, also one that lasted too long.
func goodRun(m Mark) bool {
	return m.State == check.OK || m.State == check.Fail && m.Value.Number != nil && m.Damage == "over"
}

// accepted opens what hangs on a message once the service has taken it.
func (d *decision) accepted() {
	switch {
	case d.Thread.defect != "":
		d.defectAccepted()
	case d.Thread.company != "":
		st := d.Standings[d.Thread.company]
		if st == nil || st.Watch == nil || st.Watch.Prompt != d.ev.MsgKey || !st.Watch.Accepted.IsZero() {
			return
		}
		d.touch(st.Company)
		st.Watch.Accepted = d.ev.Said
		d.owe(st)
	}
}

func (d *decision) defectAccepted() {
	f, desk := d.defect(d.Thread.defect), d.Standings[shopDesk]
	if f == nil || desk == nil || f.State() != "reported" {
		return
	}
	d.touch(shopDesk)
	open(desk, nag.Obligation{Key: "unseen/" + string(f.ID), Ladder: nag.Unseen, Defect: string(f.ID),
		Company: f.Company, Item: f.Ref.Item, Check: string(f.Ref.Check), Opened: d.ev.Said})
}

// owe opens the obligations of a shift: when its prompt was accepted, and again
// for what is taken back or asked later, from then on.
func (d *decision) owe(st *Standing) {
	w := st.Watch
	if w == nil || w.Accepted.IsZero() {
		return
	}
	if len(d.unanswered(st)) > 0 {
		d.oweOnce(st, nag.Obligation{Ladder: nag.Unanswered, Company: st.Company}, string(st.Company))
	}
	for _, a := range d.asked(st) {
		c, ok := d.Book.Of(d.Dept, a.Ref)
		if !ok || c.Answer.Kind != check.Run || goodRun(w.Recorded[a.Ref.String()]) {
			continue
		}
		o := nag.Obligation{Ladder: nag.WarmUp, Company: st.Company, Item: a.Ref.Item, Check: string(a.Ref.Check)}
		d.oweOnce(st, o, string(o.Item))
		if contains(st.NoRun, a.Ref.Item) {
			o.Ladder = nag.WarmUpTwice
			d.oweOnce(st, o, string(o.Item))
		}
	}
}

// oweOnce opens an obligation of the shift unless one of its kind is open. One
// that was paid and is owed anew has a key of its own and counts from now.
func (d *decision) oweOnce(st *Standing, o nag.Obligation, what string) {
	w := st.Watch
	for _, have := range st.Obligations {
		if have.Ladder == o.Ladder && have.Item == o.Item {
			return
		}
	}
	o.Key = fmt.Sprintf("%s/%s/%s/%s", o.Ladder, what, w.Date, w.Platoon)
	o.Opened = w.Accepted
	if !w.Accepted.Equal(d.ev.Said) || d.ev.Kind != chat.Accepted {
		o.Key += "/" + eventID(d.ev)
		o.Opened = d.now
	}
	open(st, o)
}

func contains(ids []dept.ItemID, id dept.ItemID) bool {
	for _, have := range ids {
		if have == id {
			return true
		}
	}
	return false
}

// open adds an obligation unless it is there.
func open(st *Standing, o nag.Obligation) {
	for _, have := range st.Obligations {
		if have.Key == o.Key {
			return
		}
	}
	st.Obligations = append(st.Obligations, o)
}

// settle closes the obligations that match.
func settle(st *Standing, match func(nag.Obligation) bool) {
	var kept []nag.Obligation
	for _, o := range st.Obligations {
		if !match(o) {
			kept = append(kept, o)
		}
	}
	st.Obligations = kept
}

// unanswered lists the numbers of a shift's checks that are still open, without
// runs, which have a ladder of their own.
func (d *decision) unanswered(st *Standing) []Asked {
	var open []Asked
	for _, a := range d.asked(st) {
		c, ok := d.Book.Of(d.Dept, a.Ref)
		if !ok || c.Answer.Kind == check.Run {
			continue
		}
		if s := st.Watch.Recorded[a.Ref.String()].State; s == check.Open || s == check.Unsure {
			open = append(open, a)
		}
	}
	return open
}

// left lists what a shift still has to do: open checks and runs that do not count
// yet.
func (d *decision) left(st *Standing) []Asked {
	return slices.DeleteFunc(d.asked(st), func(a Asked) bool {
		m := st.Watch.Recorded[a.Ref.String()]
		c, ok := d.Book.Of(d.Dept, a.Ref)
		if ok && c.Answer.Kind == check.Run {
			return goodRun(m)
		}
		return !ok || m.State == check.OK || m.State == check.Fail
	})
}

// asked lists the checks of a shift that can still be answered: those of items
// that the company carries now and that are in service.
func (d *decision) asked(st *Standing) []Asked {
	carried := d.carried(st.Company)
	return slices.DeleteFunc(slices.Clone(st.Watch.Asked), func(a Asked) bool {
		return d.outNow(a.Ref.Item) || !contains(carried, a.Ref.Item)
	})
}

func (d *decision) outNow(id dept.ItemID) bool { return d.Items[id] != nil && d.Items[id].Out != nil }

// runCheck is the warm-up check of an item's sheet, nil if it has none.
func (d *decision) runCheck(id dept.ItemID) *check.Check {
	it, _ := d.Dept.Item(id)
	sheet := d.Book[it.Sheet]
	if sheet == nil {
		return nil
	}
	for i := range sheet.Checks {
		if sheet.Checks[i].Answer.Kind == check.Run {
			return &sheet.Checks[i]
		}
	}
	return nil
}

// nudge tells a crew whose engine has run to the end of its range.
func (d *decision) nudge(st *Standing) {
	for _, it := range slices.Sorted(maps.Keys(st.Watch.Running)) {
		lit := st.Watch.Running[it]
		c := d.runCheck(it)
		if lit.Nudged || c == nil || c.Answer.Max == nil || d.now.Before(lit.Since.Add(minutes(*c.Answer.Max))) {
			continue
		}
		lit.Nudged = true
		st.Watch.Running[it] = lit
		d.sayCompany(chat.Nudge, st, string(it), wording.Nudge(d.thing(it), d.now.Sub(lit.Since).Minutes(), *c.Answer.Max))
	}
}
