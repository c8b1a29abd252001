package bot

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

func itoa(n int) string { return strconv.Itoa(n) }

// follow does what a changed result of a check brings with it.
func (d *decision) follow(st *Standing, w *Watch, ref check.Ref, now, was Mark, r reply.Result) {
	c, ok := d.Book.Of(d.Dept, ref)
	if !ok {
		return
	}
	if c.Answer.Kind == check.Run {
		d.ranFor(st, w, ref, now, was, r)
	}
	switch now.State {
	case check.OK:
		d.passed(st, w, ref, now, was)
	case check.Fail:
		d.owesFix(st, w, ref, c, r)
		d.trapped(c, now)
	case check.Open:
		d.paid(st, ref)
		if was.Fixed { // a top-up too many, which the shop was told of
			was.State = check.Fail
		}
		d.takenBack(ref, was)
	case check.Unsure:
		d.takenBack(ref, was)
	}
	if len(d.unanswered(st)) == 0 && w == st.Watch {
		settle(st, func(o nag.Obligation) bool { return o.Ladder == nag.Unanswered })
	}
}

// passed closes what was owed for the check, and confirms a repair. A fault that
// was told to the shop in this shift stays with the shop.
func (d *decision) passed(st *Standing, w *Watch, ref check.Ref, now, was Mark) {
	if w == st.Watch {
		d.paid(st, ref)
	}
	if f := d.awaits(ref); f != nil && !d.saidAt(w, now.Event).Before(f.Repaired) {
		f.Closed, f.How = d.ev.Said, defect.Confirmed
		d.step(f, "confirmed", d.who(), "")
		d.underDefect(chat.Report, f, wording.Confirmed(d.stepView(f)))
		return
	}
	d.takenBack(ref, was)
	d.overruled(ref, was)
}

// saidAt is when the words were said that a result comes from: an edit of words
// said before a repair confirms nothing.
func (d *decision) saidAt(w *Watch, event string) time.Time {
	for _, s := range w.Statements {
		if s.Event == event {
			return s.Said
		}
	}
	return d.ev.Said
}

// paid closes what the crew owed for a fault of theirs.
func (d *decision) paid(st *Standing, ref check.Ref) {
	settle(st, func(o nag.Obligation) bool {
		return (o.Ladder == nag.LowFuel || o.Ladder == nag.CrewFix) && o.Item == ref.Item && o.Check == string(ref.Check)
	})
}

// takenBack tells the shop that a report was withdrawn by the one who made it.
// The defect stays theirs to decide.
func (d *decision) takenBack(ref check.Ref, was Mark) {
	f := d.openOn(ref)
	if was.State != check.Fail || f == nil || was.By != d.author() {
		return
	}
	for i := range f.Reports {
		if f.Reports[i].Who == d.who() && !f.Reports[i].Undone {
			f.Reports[i].Undone = true
			d.step(f, "withdrawn", d.who(), f.Reports[i].Words)
			d.underDefect(chat.Report, f, wording.DefectWithdrawn(d.stepView(f), d.ev.Text))
		}
	}
}

// overruled tells the shop that somebody with a say in it calls a fault fine.
func (d *decision) overruled(ref check.Ref, was Mark) {
	f := d.openOn(ref)
	if was.State != check.Fail && was.State != check.Unsure || f == nil || was.By == d.author() {
		return
	}
	d.step(f, "said", d.who(), d.ev.Text)
	d.underDefect(chat.Report, f, wording.Lines(d.who()+" says it is fine:", []string{quote(d.ev.Text), "The shop decides."}))
}

// actFor is who acts on a fault. A run that was merely too short or too long is
// the crew's and needs nobody else.
func (d *decision) actFor(c *check.Check, r reply.Result) check.Act {
	if c.Answer.Kind == check.Run && r.Value.Number != nil && !c.Fault.Names(r.Damage) {
		return check.Crew
	}
	act := c.Fault.ActFor(r.Damage)
	if act == "" {
		act = check.Shop
	}
	if act == check.Crew && d.repeats(c, r) {
		act = check.Shop
	}
	return act
}

// repeats reports whether a fault that the crew may fix has come back so often
// that it went somewhere: it is the shop's then.
func (d *decision) repeats(c *check.Check, r reply.Result) bool {
	if c.Fault.Repeat.Times == 0 {
		return false
	}
	since, n := d.ev.Said.AddDate(0, 0, -c.Fault.Repeat.Days), 0
	for _, t := range d.state(r.Ref.Item).Lows {
		if t.After(since) {
			n++
		}
	}
	return n >= c.Fault.Repeat.Times
}

// toppedSince reports whether the check passed between an earlier low and now:
// the same low said twice is no second low.
func (d *decision) toppedSince(w *Watch, ref check.Ref, low time.Time) bool {
	for _, s := range w.Statements {
		for _, r := range s.Results {
			if r.Ref == ref && r.State == check.OK && s.Said.After(low) && !s.Gone {
				return true
			}
		}
	}
	return false
}

// owesFix opens the crew's own ladder for a fault that is theirs.
func (d *decision) owesFix(st *Standing, w *Watch, ref check.Ref, c *check.Check, r reply.Result) {
	if c.Fault.Repeat.Times > 0 {
		item := d.state(ref.Item)
		if n := len(item.Lows); n == 0 || item.Lows[n-1].Before(w.Start) || d.toppedSince(w, ref, item.Lows[n-1]) {
			item.Lows = append(item.Lows, d.ev.Said)
		}
		if n := len(item.Lows); n > 8 {
			item.Lows = item.Lows[n-8:]
		}
	}
	if act := d.actFor(c, r); act != check.Crew || c.Answer.Kind == check.Run || w != st.Watch && st.Watch.Recorded[ref.String()].State != check.Open {
		return
	}
	o := nag.Obligation{Ladder: nag.CrewFix, Company: st.Company, Item: ref.Item, Check: string(ref.Check), Opened: d.now}
	if c.Use == check.UseFuel {
		o.Ladder = nag.LowFuel
	}
	o.Key = string(o.Ladder) + "/" + ref.String() + "/" + w.Date.String() + "/" + string(w.Platoon)
	open(st, o)
}

// complainAll tells the shop of each fault of a statement that is theirs.
func (d *decision) complainAll(st *Standing, s Statement) {
	for _, r := range s.Results {
		c, ok := d.Book.Of(d.Dept, r.Ref)
		if !ok || r.State != check.Fail || st.Watch == nil {
			continue
		}
		if d.mended[r.Ref] {
			d.noteMended(st, d.openOn(r.Ref))
			continue
		}
		act := d.actFor(c, r)
		if act == check.Crew {
			continue
		}
		words := orElse(r.Words, s.Text)
		if len(s.Results) == 1 {
			words = orElse(d.whole(words), words)
		}
		d.toShop(st, r.Ref, act, r.Damage, words)
	}
}

// noteMended tells the shop, once, what a crew did about a fault that the shop closes,
// and the crew that it stays a fault until then.
func (d *decision) noteMended(st *Standing, f *defect.Defect) {
	if f == nil {
		return
	}
	d.step(f, "said", d.who(), d.ev.Text)
	d.underDefect(chat.Report, f, wording.CrewSays(d.who(), d.companyName(st.Company), d.ev.Text))
	d.forward(f)
	d.asides = append(d.asides, wording.Mended(d.thing(f.Ref.Item), d.label(f.Ref)))
}

// complain is a fault on something that no check asks about.
func (d *decision) complain(st *Standing, c reply.Complaint) {
	if c.Item == "" {
		d.sayHere(chat.Ask, st, wording.Lines("On which item?", []string{"Say it with the item's name or number:", quote(d.whole(c.Words))}))
		return
	}
	d.toShop(st, check.Ref{Item: c.Item, Check: "other"}, check.Shop, "", d.whole(c.Words))
}

// acknowledged has the crew told of the faults that go to the shop without a check;
// the words of these are no words that were not understood.
func (d *decision) acknowledged(read reply.Reading) reply.Reading {
	for _, c := range read.Reports {
		if c.Item == "" {
			continue
		}
		words := d.whole(c.Words)
		d.asides = append(d.asides, wording.ToShop(d.thing(c.Item), words))
		read.NotUnderstood = slices.DeleteFunc(slices.Clone(read.NotUnderstood), func(s string) bool { return strings.Contains(words, s) })
	}
	return read
}

// whole is the message that has the words, as long as it is short: no sheet tells
// which of its words the shop can do without.
func (d *decision) whole(words string) string {
	const most = 200
	if len(d.ev.Text) > most {
		return words
	}
	return orElse(d.ev.Text, words)
}

func quote(s string) string { return "\"" + s + "\"" }

// toShop opens, joins or reopens the defect of a fault.
func (d *decision) toShop(st *Standing, ref check.Ref, act check.Act, damage, words string) {
	fate, f := defect.Match(d.Defects, ref, d.local(d.ev.Said))
	report := defect.Report{Event: eventID(d.ev), Who: d.who(), Words: words, At: d.ev.Said, Pics: len(d.ev.Pics)}
	if fate == defect.Joins {
		d.join(st, f, report, act, damage)
		return
	}
	if fate == defect.Begins {
		it, _ := d.Dept.Item(ref.Item)
		f = &defect.Defect{ID: defectID(ref, d.local(d.ev.Said)), Ref: ref, Kind: it.Kind, Company: st.Company, Reported: d.ev.Said}
		d.Defects = append(d.Defects, f)
	} else {
		f.Reopen()
	}
	f.Company, f.Act, f.Damage = st.Company, act, damage
	f.Reports = append(f.Reports, report)
	d.step(f, map[defect.Fate]string{defect.Begins: "reported", defect.Reopens: "reopened"}[fate], report.Who, words)
	d.root(st, f, fate)
	if act == check.Out {
		d.takeOut(ref.Item, orElse(damage, d.label(ref)+" fault"), f)
	}
	d.ask("defect/"+string(f.ID), "fleet")
}

// join adds a report to an open defect. A worse word raises it. The same words
// of the same person again, or an edit of them, are no second report.
func (d *decision) join(st *Standing, f *defect.Defect, report defect.Report, act check.Act, damage string) {
	if i := f.Said(report); i >= 0 && !f.Reports[i].Undone {
		f.Reports[i].Words = report.Words
		d.defects[f.ID] = true
	} else {
		f.Reports = append(f.Reports, report)
		d.step(f, "joined", report.Who, report.Words)
		d.underDefect(chat.Report, f, wording.DefectJoin(d.stepView(f), report.Words, d.local(report.At)))
		d.forward(f)
	}
	if !act.Worse(f.Act) {
		return
	}
	f.Act, f.Damage = act, damage
	d.step(f, "raised", report.Who, report.Words)
	d.underDefect(chat.Report, f, wording.DefectRaised(d.stepView(f), damage))
	if act == check.Out {
		d.takeOut(f.Ref.Item, orElse(damage, d.label(f.Ref)+" fault"), f)
	}
}

// root posts the thread of a defect in the shop's room; a reopened one goes on in
// its old thread.
func (d *decision) root(st *Standing, f *defect.Defect, fate defect.Fate) {
	blocks := wording.DefectRoot(d.defectView(st, f, fate))
	if fate == defect.Reopens {
		d.underDefect(chat.Defect, f, blocks)
		d.touch(shopDesk)
		open(d.Standings[shopDesk], nag.Obligation{Key: "unseen/" + string(f.ID) + "/" + itoa(f.Reopened), Ladder: nag.Unseen, Defect: string(f.ID),
			Company: f.Company, Item: f.Ref.Item, Check: string(f.Ref.Check), Opened: d.now})
		return
	}
	room, ok := d.Dept.RoomFor(dept.ForShop)
	if !ok {
		return
	}
	d.out.Messages = append(d.out.Messages, chat.Message{Key: defectKey(f.ID), Kind: chat.Defect, About: f.Ref.String(), Tell: true,
		Place: chat.Place{Backend: room.Backend, Room: room.Address}, Blocks: blocks, Pics: d.ev.Pics, Choices: wording.DefectChoices()})
}

func (d *decision) defectView(st *Standing, f *defect.Defect, fate defect.Fate) wording.DefectView {
	company, _ := d.Dept.Company(st.Company)
	station, _ := d.Dept.Station(company.Station)
	v := wording.DefectView{Thing: d.thing(f.Ref.Item), Company: company.Name, Station: station.Name, Label: d.label(f.Ref),
		Damage: f.Damage, Words: f.Reports[len(f.Reports)-1].Words, Who: d.who(), At: d.local(d.ev.Said), Pics: len(d.ev.Pics),
		Out: f.Act == check.Out, Fate: string(fate), Reopened: f.Reopened, LastReadings: d.lastReadings(f.Ref.Item), History: d.past(f)}
	if c, ok := d.Book.Of(d.Dept, f.Ref); ok {
		v.Caution = c.Caution
		if c.Use == check.UseFluid {
			v.Loss = d.loss(f.Ref.Item)
		}
	}
	return v
}

// lastReadings are the figures last read on an item.
func (d *decision) lastReadings(id dept.ItemID) []string {
	it, _ := d.Dept.Item(id)
	sheet := d.Book[it.Sheet]
	if sheet == nil || d.Items[id] == nil {
		return nil
	}
	var lines []string
	for i := range sheet.Checks {
		c := &sheet.Checks[i]
		last, ok := d.Items[id].Last[c.ID]
		if ok && !last.Value.IsZero() {
			lines = append(lines, c.Label+" "+wording.Figure(c, last.Value))
		}
	}
	return lines
}

// past is an item's history in at most three lines, newest first.
func (d *decision) past(f *defect.Defect) []string {
	var lines []string
	for i := len(d.Defects) - 1; i >= 0 && len(lines) < 3; i-- {
		old := d.Defects[i]
		if old.Ref.Item == f.Ref.Item && old.ID != f.ID {
			lines = append(lines, d.local(old.Reported).Format("Jan 2")+" "+d.label(old.Ref)+": "+string(old.State()))
		}
	}
	return lines
}

// step records a step of a defect's life and marks it as changed.
func (d *decision) step(f *defect.Defect, state, who, words string) {
	d.defects[f.ID] = true
	d.state(f.Ref.Item).Ailed = true
	d.record(Record{ID: "defect/" + string(f.ID) + "/" + state + "/" + eventID(d.ev), Kind: OnDefect, Company: f.Company, Item: f.Ref.Item,
		Check: f.Ref.Check, Defect: f.ID, State: state, Who: who, Words: words})
}

func (d *decision) stepView(f *defect.Defect) wording.Step {
	return wording.Step{Thing: d.thing(f.Ref.Item), Label: d.label(f.Ref), Who: d.who(), Until: d.local(f.Until),
		Spare: d.spareNumber(f), Company: d.companyName(f.Company), Words: d.ev.Text,
		Again: d.again(d.Standings[f.Company], f.Ref)}
}

func (d *decision) spareNumber(f *defect.Defect) string {
	if f.Spare == "" {
		return ""
	}
	return d.thing(f.Spare).Number
}

func (d *decision) underDefect(kind chat.MessageKind, f *defect.Defect, blocks []chat.Block) {
	if room, ok := d.Dept.RoomFor(dept.ForShop); ok {
		d.sayUnder(kind, defectKey(f.ID), room, f.Ref.String(), blocks)
	}
}

// forward sends the event's pictures on to the defect's thread.
func (d *decision) forward(f *defect.Defect) {
	if len(d.ev.Pics) == 0 || len(d.out.Messages) == 0 {
		return
	}
	d.out.Messages[len(d.out.Messages)-1].Pics = d.ev.Pics
}
