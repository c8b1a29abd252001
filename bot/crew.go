package bot

import (
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// said is a message that somebody wrote, or a button that says the same.
func (d *decision) said() {
	switch {
	case d.Thread.defect != "":
		d.shopWords()
	case d.Thread.company != "":
		d.crewWords(d.Standings[d.Thread.company], d.watchOf(d.Thread))
	case d.All && d.Room.Purpose == dept.ForShop:
		d.shopRoom()
	case d.All:
		d.officer()
	default:
		d.openRoom()
	}
}

// watchOf is the shift that a thread speaks for: a late message belongs to its
// thread's shift.
func (d *decision) watchOf(t thread) *Watch {
	st := d.Standings[t.company]
	if st == nil {
		return nil
	}
	for _, w := range []*Watch{st.Watch, st.Prior} {
		if w != nil && w.Date == t.date && w.Platoon == t.platoon {
			return w
		}
	}
	return nil
}

// crewWords takes a message for a shift of a company.
func (d *decision) crewWords(st *Standing, w *Watch) {
	if st == nil || w == nil {
		d.noShift()
		return
	}
	for _, s := range w.Statements {
		if s.Event == eventID(d.ev) || s.Ref != "" && s.Ref == d.ev.Ref && d.ev.Kind == chat.Said {
			return // the service delivered it again under another id
		}
	}
	d.touch(st.Company)
	if n := len(d.ev.Text); n > tooLong {
		d.record(Record{ID: "words/" + eventID(d.ev), Kind: OnWords, Company: st.Company, Words: short(d.ev.Text), Who: d.who(), State: "too_long"})
		d.sayHere(chat.Ask, st, wording.Lines("Too long to read: "+itoa(n/1000)+" kB.", []string{"Nothing of it was taken. Say the checks in a few lines."}))
		return
	}
	if d.shopByCrew(st) {
		return
	}
	if other, ok := d.foreign(st); ok {
		d.sayHere(chat.Ask, st, wording.NotCarried(d.companyName(st.Company), d.thing(other).Number))
		return
	}
	d.ev.Text = d.withoutCompany(d.ev.Text, st.Company)
	read, answered := d.asAnswer(st, w)
	if !answered {
		read, answered = d.aboutShot(st, w)
	}
	if !answered {
		if w.ShopAsks == "" && (d.okToWhat(st, w) || d.fixedWhat(st, w)) {
			return
		}
		if read = d.understand(st, w); d.answersShop(st, w, read) || d.handedOver(st, read) {
			return
		}
	}
	if len(d.ev.Pics) > 0 && d.caption(w, read) {
		return
	}
	if kind := d.foreignTalk(st, read); kind != "" {
		d.sayHere(chat.Ask, st, wording.NotCarried(d.companyName(st.Company), "a "+kind))
		return
	}
	d.take(st, w, read)
}

// tooLong is the length past which a message is kept and not read: nobody answers
// a check at that length.
const tooLong = 8000

// foreign is an item that the message names by its number and that the company
// does not carry: what is said of it is not taken for anything else.
func (d *decision) foreign(st *Standing) (dept.ItemID, bool) {
	carried, numbers := d.carried(st.Company), names(d.Setup).Items
	for _, word := range strings.FieldsFunc(strings.ToLower(d.ev.Text), apart) {
		if id, ok := numbers[word]; ok && !contains(carried, id) {
			return id, true
		}
	}
	return "", false
}

// foreignTalk is the kind of item that talk which was not understood is about, if
// only others carry it.
func (d *decision) foreignTalk(st *Standing, read reply.Reading) string {
	if read.Intent != reply.Chatter || len(read.NotUnderstood) == 0 {
		return ""
	}
	return d.foreignKind(st)
}

// foreignKind is a kind of item that the message names and that others carry, "" if
// the company carries one or none is named.
func (d *decision) foreignKind(st *Standing) string {
	kind := ""
	carried := d.carried(st.Company)
	for _, it := range d.Dept.Items {
		sheet := d.Book[it.Sheet]
		if sheet == nil || !mentions(d.ev.Text, append([]string{sheet.Name}, sheet.Names...)) {
			continue
		}
		if contains(carried, it.ID) {
			return ""
		}
		kind = sheet.Name
	}
	return kind
}

// apart are the marks between words. A dash is part of a number: PU-07.
func apart(r rune) bool { return strings.ContainsRune(" ,.;:!?\n\t()", r) }

// noShift answers words for a shift that is closed, or before the first one.
func (d *decision) noShift() {
	d.record(Record{ID: "words/" + eventID(d.ev), Kind: OnWords, Company: d.Thread.company, Words: d.ev.Text, Who: d.who(), State: "late"})
	d.say(chat.Answer, d.ev.Place, "", wording.Lines("That shift is closed", []string{"Kept on record. For today, answer in today's thread."}))
}

// context is what the company was asked and what has been settled.
func (d *decision) context(st *Standing, w *Watch) reply.Context {
	ctx := reply.Context{Now: d.local(d.ev.Said), Asked: w.Doubts, Held: w.Held.by(d.author(), d.ev.Said), Company: reply.Called(d.Dept, st.Company),
		Settled: map[check.Ref]check.State{}, Running: map[dept.ItemID]time.Time{}}
	for _, a := range w.Asked {
		if m, ok := w.Recorded[a.Ref.String()]; ok {
			ctx.Settled[a.Ref] = m.State
		}
	}
	for id, lit := range w.Running {
		ctx.Running[id] = lit.Since
	}
	for _, id := range d.carried(st.Company) {
		if item := d.askedItem(w, id); len(item.Checks) > 0 {
			ctx.Items = append(ctx.Items, item)
		}
	}
	return ctx
}

// askedItem is an item with its checks as they were asked. Those that are not due
// today have no number, but may be spoken of.
func (d *decision) askedItem(w *Watch, id dept.ItemID) reply.Item {
	it, _ := d.Dept.Item(id)
	sheet := d.Book[it.Sheet]
	item := reply.Item{ID: id}
	if sheet == nil {
		return item
	}
	item.Names, item.Place = reply.NamesOf(it, sheet), it.Place
	numbers := map[check.ID]int{}
	for _, a := range w.Asked {
		if a.Ref.Item == id {
			numbers[a.Ref.Check] = a.N
		}
	}
	for i := range sheet.Checks {
		if n := numbers[sheet.Checks[i].ID]; n > 0 {
			item.Checks = append(item.Checks, reply.Asked{N: n, Check: &sheet.Checks[i]})
		}
	}
	if len(item.Checks) == 0 { // out of service: its faults may still be spoken of
		for i := range sheet.Checks {
			item.Checks = append(item.Checks, reply.Asked{Check: &sheet.Checks[i]})
		}
	}
	return item
}

// take does what a message means.
func (d *decision) take(st *Standing, w *Watch, read reply.Reading) {
	w.Held = Held{Item: read.Held, By: d.author(), At: d.ev.Said}
	switch {
	case read.Undo && len(read.Results) == 0:
		d.undo(st, w)
		return
	case read.Intent == reply.Question:
		w.Statements = append(w.Statements, d.statementOf(st)) // an edit may make it an answer
		d.explain(st, read)
		return
	}
	d.takeShot(w, read)
	d.hear(st, w, read)
	if read.Held == "" {
		w.Held.Item = d.engine
	}
	read = d.acknowledged(read)
	d.answer(st, w, read)
	if read.Busy {
		d.away(st, w)
	} else if read.Back || read.Intent == reply.Answer {
		d.back(st, w, read.Back)
	}
	d.used(st, w, read.Used)
	for _, c := range read.Reports {
		d.complain(st, c)
	}
	if len(d.ev.Pics) > 0 && !d.reported() {
		d.holdShot(st, w)
	}
}

// away notes that a company is on a call.
func (d *decision) away(st *Standing, w *Watch) {
	if w != st.Watch {
		return
	}
	w.Busy = d.ev.Said
	settle(st, func(o nag.Obligation) bool { return o.Ladder == nag.OnCall })
	open(st, nag.Obligation{Key: "on_call/" + string(st.Company) + "/" + eventID(d.ev), Ladder: nag.OnCall, Company: st.Company, Opened: d.ev.Said})
	d.sayHere(chat.Answer, st, wording.BusyNoted(d.local(d.ev.Said.Add(busyFor))))
}

func (d *decision) back(st *Standing, w *Watch, said bool) {
	if w.Busy.IsZero() || w != st.Watch {
		return
	}
	w.Busy = time.Time{}
	settle(st, func(o nag.Obligation) bool { return o.Ladder == nag.OnCall })
	if said {
		d.sayHere(chat.Answer, st, wording.BackNoted(len(d.unanswered(st))))
	}
}

// sayHere answers where the company's words were said: in its thread, or to the
// person in direct conversation.
func (d *decision) sayHere(kind chat.MessageKind, st *Standing, blocks []chat.Block) {
	if d.ev.Place.Direct || d.ev.Place.Thread != "" {
		d.say(kind, d.ev.Place, string(st.Company), blocks)
		return
	}
	d.sayCompany(kind, st, string(st.Company), blocks)
}

// explain answers a question: how a check is done, or how to answer.
func (d *decision) explain(st *Standing, read reply.Reading) {
	for _, ref := range read.About {
		if c, ok := d.Book.Of(d.Dept, ref); ok {
			d.sayHere(chat.Answer, st, wording.Hint(d.thing(ref.Item), c))
			return
		}
	}
	d.sayHere(chat.Answer, st, d.crewHelp(st))
}
