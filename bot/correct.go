package bot

import (
	"slices"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// corrected is an edit or a deletion. The new words stand in the place of the
// old ones; they do not outrank what others said later.
func (d *decision) corrected() {
	st, w, i := d.statement(d.ev.Target)
	if i < 0 {
		d.madeAnswer()
		return
	}
	s := &w.Statements[i]
	if d.ev.Kind == chat.Edited && (s.Text == short(d.ev.Text) || d.ev.Author != "" && s.Author != d.author()) {
		return
	}
	d.touch(st.Company)
	if d.ev.Kind == chat.Deleted {
		d.revoke(st, w, s)
		d.reread(st, w)
		d.redraw(st)
		return
	}
	d.replace(st, w, i)
}

// madeAnswer is an edit of words that meant nothing before. In a shift's thread
// they are heard now; elsewhere nobody can tell which day they were for, so they
// are asked for again.
func (d *decision) madeAnswer() {
	if d.ev.Kind != chat.Edited || d.Target != "" || d.Thread.defect != "" {
		return
	}
	_, order := reply.ReadRequest(d.ev.Text, d.local(d.ev.Said), names(d.Setup))
	st := d.Standings[d.Thread.company]
	switch w := d.watchOf(d.Thread); {
	case order:
	case w != nil && !reply.Read(d.context(st, w), d.ev.Text).Undo:
		d.ev.Ref = d.ev.Target
		d.said()
	case d.Thread.company == "" && d.speaksOfChecks():
		d.say(chat.Ask, d.ev.Place, "", wording.Lines("An edit of older words is not read here.", []string{"Say it again as a new message."}))
	}
}

// replace reads an edited message again, against what the others have said.
func (d *decision) replace(st *Standing, w *Watch, i int) {
	ctx := d.context(st, w)
	ctx.Now = d.local(w.Statements[i].Said)
	read := reply.Read(ctx, d.ev.Text)
	d.atWork = d.tellsOfWork(w, read)
	s := &w.Statements[i]
	timed := slices.DeleteFunc(slices.Clone(s.Results), func(r reply.Result) bool { return !r.Ran || r.Start.IsZero() })
	if len(s.Results) == 0 && (read.Busy || len(read.Starts)+len(read.Stops)+len(read.Reports) > 0) {
		w.Statements = slices.Delete(w.Statements, i, i+1) // talk that was edited into an answer
		d.ev.Ref = d.ev.Target
		d.take(st, w, read)
		return
	}
	s.Text, s.Results, s.Gone = short(d.ev.Text), nil, false
	if len(read.Stops) > 0 {
		s.Results = timed
	}
	for _, r := range read.Results {
		if kept, ok := d.settleResult(w, r); ok {
			s.Results = append(s.Results, kept)
		}
	}
	d.plausible(st, w, s.Results)
	d.reread(st, w)
	edited := *s
	d.complainAll(st, edited)
	w.Statements = append(slices.Delete(w.Statements, i, i+1), edited) // the last is what is answered
	d.answer(st, w, read)
	d.redraw(st)
}

// statement finds the words that a message of a crew was kept as.
func (d *decision) statement(ref chat.Ref) (*Standing, *Watch, int) {
	for _, c := range d.Dept.Companies {
		st := d.Standings[c.ID]
		if st == nil {
			continue
		}
		for _, w := range []*Watch{st.Watch, st.Prior} {
			if w == nil {
				continue
			}
			i := slices.IndexFunc(w.Statements, func(s Statement) bool { return s.Ref == ref && ref != "" })
			if i >= 0 {
				return st, w, i
			}
		}
	}
	return nil, nil, -1
}

// undo takes back the speaker's last words of the shift, whatever they did.
func (d *decision) undo(st *Standing, w *Watch) {
	last := -1
	for i, s := range w.Statements {
		if s.Author == d.author() && !s.Gone {
			last = i
		}
	}
	if last < 0 || !d.revoke(st, w, &w.Statements[last]) {
		d.sayHere(chat.Answer, st, wording.NothingToUndo())
		return
	}
	d.reread(st, w)
	d.redraw(st)
	d.sayHere(chat.Echo, st, wording.Lines("Taken back:", []string{quote(w.Statements[last].Text)}))
}

// revoke undoes what a statement did; false if it did nothing.
func (d *decision) revoke(st *Standing, w *Watch, s *Statement) bool {
	did := len(s.Results) > 0
	s.Gone = true
	for id, lit := range w.Running {
		if lit.By == s.Author && lit.Since.Equal(s.Said) {
			delete(w.Running, id)
			did = true
		}
	}
	if !w.Busy.IsZero() && w.Busy.Equal(s.Said) {
		w.Busy = time.Time{}
		settle(st, func(o nag.Obligation) bool { return o.Ladder == nag.OnCall })
		did = true
	}
	return did
}

// thumbs are the reactions that say "all good".
var thumbs = []string{"👍", "✅", "✔", "✔️", "👌"}

// reacted takes a thumbs-up on the prompt for "all good", and its removal for an
// undo.
func (d *decision) reacted() {
	st := d.Standings[d.Thread.company]
	w := d.watchOf(d.Thread)
	plain := slices.IndexFunc(thumbs, func(t string) bool { return len(d.ev.Emoji) >= len(t) && d.ev.Emoji[:len(t)] == t }) >= 0
	if st == nil || w == nil || !plain || threadOf(d.Target).company != d.Thread.company {
		return
	}
	mark := chat.Ref("thumb/" + d.author())
	d.touch(st.Company)
	if d.ev.Kind == chat.Unreacted {
		for i := range w.Statements {
			if w.Statements[i].Ref == mark && !w.Statements[i].Gone {
				w.Statements[i].Gone = true
				d.reread(st, w)
				d.redraw(st)
			}
		}
		return
	}
	d.ev.Ref, d.ev.Text = mark, "all good"
	read := reply.Read(d.context(st, w), d.ev.Text)
	d.hear(st, w, read)
	d.back(st, w, false)
	d.redraw(st)
}

// used asks the after-use checks of the items that were used on a call.
func (d *decision) used(st *Standing, w *Watch, ids []dept.ItemID) {
	var lines []string
	for _, id := range ids {
		for _, a := range d.askUsed(st, w, id) {
			lines = append(lines, d.numbered(a))
		}
	}
	if len(lines) == 0 {
		return
	}
	d.owe(st)
	d.sayHere(chat.Ask, st, wording.Lines("After use:", lines))
	d.redraw(st)
}

// askUsed numbers the after-use checks of an item. Used again, it is looked at
// again: what was said after the first use does not stand.
func (d *decision) askUsed(st *Standing, w *Watch, id dept.ItemID) []Asked {
	if _, ok := d.Dept.Item(id); !ok || w != st.Watch {
		return nil
	}
	d.worked(id)
	asked := d.afterUse(w, id)
	if len(asked) > 0 {
		d.forget(st, w, asked)
		return asked
	}
	before := len(w.Asked)
	d.numberItem(w, id, true)
	return w.Asked[before:]
}

// worked notes that an item was used, and with it the engine that drives it:
// nobody knows how much fuel that took, unless its level was told with it.
func (d *decision) worked(id dept.ItemID) {
	it, _ := d.Dept.Item(id)
	for _, id := range []dept.ItemID{id, it.HangsOn} {
		if id != "" && !d.fuelled[id] {
			d.state(id).Used = d.ev.Said
		}
	}
}

// afterUse lists the after-use checks of an item that were asked in the shift.
func (d *decision) afterUse(w *Watch, id dept.ItemID) []Asked {
	var asked []Asked
	for _, a := range w.Asked {
		if c, ok := d.Book.Of(d.Dept, a.Ref); ok && a.Ref.Item == id && c.When.Every == check.AfterUse {
			asked = append(asked, a)
		}
	}
	return asked
}

// forget opens checks again; what is on record stays there, superseded. What the
// present message says of them holds.
func (d *decision) forget(st *Standing, w *Watch, asked []Asked) {
	for i := range w.Statements {
		s := &w.Statements[i]
		if s.Event == eventID(d.ev) {
			continue
		}
		s.Results = slices.DeleteFunc(s.Results, func(r reply.Result) bool {
			return slices.ContainsFunc(asked, func(a Asked) bool { return a.Ref == r.Ref })
		})
	}
	d.reread(st, w)
}

// caption takes a picture for part of the report that its sender made last, in
// this shift. A caption that tells of another fault is a report of its own.
func (d *decision) caption(w *Watch, read reply.Reading) bool {
	f := d.lastReport(w)
	if f != nil && d.speaksOfAnother(w, f, read) {
		f = nil
	}
	if f == nil && read.Intent != reply.Answer {
		f = d.shown(w)
	}
	more := len(read.Reports) + len(read.Starts) + len(read.Stops) + len(read.Used)
	if f == nil || read.Busy || read.Back || read.Undo || more > 0 {
		return false
	}
	for _, r := range read.Results {
		if r.Ref != f.Ref && r.State != check.Open {
			return false
		}
	}
	f.Reports[len(f.Reports)-1].Pics += len(d.ev.Pics)
	d.step(f, "photo", d.who(), d.ev.Text)
	d.underDefect(chat.Report, f, wording.DefectJoin(d.stepView(f), orElse(d.ev.Text, "photo"), d.local(d.ev.Said)))
	d.forward(f)
	return true
}

// lastReport is the open defect that the speaker reported last in the shift.
func (d *decision) lastReport(w *Watch) *defect.Defect {
	var last *defect.Defect
	for _, f := range d.Defects {
		n := len(f.Reports)
		if !f.Open() || n == 0 || f.Reports[n-1].Who != d.who() || f.Reports[n-1].At.Before(w.Start) {
			continue
		}
		if last == nil || !f.Last().Before(last.Last()) {
			last = f
		}
	}
	return last
}

// shown is the one open defect, reported in the shift by anybody, whose item and
// check the message names.
func (d *decision) shown(w *Watch) *defect.Defect {
	var found *defect.Defect
	for _, f := range d.Defects {
		it, _ := d.Dept.Item(f.Ref.Item)
		c, ok := d.Book.Of(d.Dept, f.Ref)
		if !ok || !f.Open() || f.Last().Before(w.Start) || !mentions(d.ev.Text, append([]string{c.Label}, c.Names...)) ||
			!mentions(d.ev.Text, reply.NamesOf(it, d.Book[it.Sheet])) {
			continue
		}
		if found != nil {
			return nil
		}
		found = f
	}
	return found
}

// reported tells whether this message made a report that its picture goes with.
func (d *decision) reported() bool {
	return slices.ContainsFunc(d.Defects, func(f *defect.Defect) bool {
		n := len(f.Reports)
		return f.Open() && n > 0 && f.Reports[n-1].Event == eventID(d.ev)
	})
}
