package bot

import (
	"slices"
	"strings"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
)

// hear adds a message to what was said in the shift and records what changed.
func (d *decision) hear(st *Standing, w *Watch, read reply.Reading) {
	s := d.statementOf(st)
	w.Reminded, w.Told = time.Time{}, time.Time{}
	d.atWork = d.tellsOfWork(w, read)
	for _, r := range read.Results {
		if kept, ok := d.settleResult(w, r); ok {
			s.Results = append(s.Results, kept)
			if kept.State == check.OK && !kept.Blanket && d.awaits(kept.Ref) != nil {
				s.Confirms = append(s.Confirms, kept.Ref)
			}
		}
	}
	for _, r := range d.engines(st, w, read) {
		if !slices.ContainsFunc(s.Results, func(have reply.Result) bool { return have.Ref == r.Ref }) {
			s.Results = append(s.Results, r)
		}
	}
	s.Results = append(s.Results, d.pictured(w)...)
	d.plausible(st, w, s.Results)
	w.Statements = append(w.Statements, s)
	d.reread(st, w)
	d.complainAll(st, s)
	if len(read.NotUnderstood) > 0 {
		d.keepWords(st, w, read)
	}
}

// statementOf is the message as the shift keeps it, without results.
func (d *decision) statementOf(st *Standing) Statement {
	return Statement{Event: eventID(d.ev), Ref: d.ev.Ref, Author: d.author(), Officer: d.speaksWithWeight(st), Said: d.ev.Said, Text: short(d.ev.Text)}
}

// short is a message as a standing keeps it, which is read and written at every
// decision. The whole of it stands in the inbox.
func short(text string) string {
	const most = 1000
	if len(text) <= most {
		return text
	}
	return strings.ToValidUTF8(text[:most], "") + "…"
}

// author is the stable id of the speaker.
func (d *decision) author() string {
	if d.Known {
		return string(d.Person.ID)
	}
	return d.ev.Backend + ":" + d.ev.Author
}

func (d *decision) speaksWithWeight(st *Standing) bool {
	return d.Person.Has(dept.Shop) || d.Person.Has(dept.Officer) && d.Person.Company == st.Company
}

func (d *decision) keepWords(st *Standing, w *Watch, read reply.Reading) {
	for i, words := range read.NotUnderstood {
		d.record(Record{ID: "words/" + eventID(d.ev) + "/" + itoa(i), Kind: OnWords, Company: st.Company, Date: w.Date, Platoon: w.Platoon,
			Words: words, Who: d.who(), State: "not_understood"})
	}
}

// settleResult fits one result to the sheet: what a blanket does not reach, what
// the crew may not fix, a low reading that hangs on the tool's position.
func (d *decision) settleResult(w *Watch, r reply.Result) (reply.Result, bool) {
	c, ok := d.Book.Of(d.Dept, r.Ref)
	if !ok {
		return r, false
	}
	if c.Answer.Kind == check.Run && r.Value.Number != nil && r.State != check.Unsure {
		r.Ran = true
		state, how := d.runState(c, *r.Value.Number)
		if !c.Fault.Names(r.Damage) {
			r.State, r.Damage = state, how
		}
	}
	if r.Blanket && r.State == check.OK && (d.openOn(r.Ref) != nil || d.awaits(r.Ref) != nil || d.outNow(r.Ref.Item)) {
		return r, false
	}
	if r.Fixed && r.State == check.OK && c.Fault.ActFor(r.Damage) != check.Crew {
		r.State = check.Fail
	}
	if r.Fixed && r.State == check.Fail {
		r = d.mendedByCrew(w, r)
	}
	return d.hangs(c, r), true
}

// mendedByCrew is a fault that the crew may not fix and says it did. Where the shop
// has it already, it stays as it was told: what the crew did is a note to the shop,
// not another report.
func (d *decision) mendedByCrew(w *Watch, r reply.Result) reply.Result {
	r.Fixed = false
	f := d.openOn(r.Ref)
	if f == nil || r.Damage != "" && r.Damage != f.Damage {
		return r
	}
	if d.mended == nil {
		d.mended = map[check.Ref]bool{}
	}
	d.mended[r.Ref] = true
	r.Damage = f.Damage
	if was := w.Recorded[r.Ref.String()]; was.State == check.Fail {
		r.Value, r.Damage, r.Words = was.Value, was.Damage, was.Words
	}
	return r
}

// onCall are words for an engine that ran at work, where it runs as long as it is
// needed.
var onCall = []string{"on a call", "on the call", "on call", "on scene", "at the scene", "on the job", "on a job", "at a fire", "at the fire", "on the wreck", "on a wreck"}

func (d *decision) tellsOfWork(w *Watch, read reply.Reading) bool {
	return !w.Busy.IsZero() || len(read.Used) > 0 || mentions(d.ev.Text, onCall)
}

// runState judges the minutes of a run; at work no length is too long.
func (d *decision) runState(c *check.Check, ran float64) (check.State, string) {
	state, how := c.Answer.Within(ran)
	if how == "over" && d.atWork {
		return check.OK, ""
	}
	return state, how
}

// hangs makes a doubt of a low reading, and of fluid that was poured in, unless
// the tool is known to have stood closed.
func (d *decision) hangs(c *check.Check, r reply.Result) reply.Result {
	low := r.State == check.Fail && (r.Value.Word == "low" || r.Value.Number != nil && c.Answer.Min != nil && *r.Value.Number < *c.Answer.Min)
	if c.Proviso == "" || r.Position == reply.Met || !low && !r.Poured {
		return r
	}
	doubt := reply.Doubt{Why: proviso, Refs: []check.Ref{r.Ref}, Choices: []string{"closed", "open"}, Value: r.Value}
	switch {
	case r.Position != reply.Unmet:
	case r.Poured:
		doubt = reply.Doubt{Why: pouredOpen, Refs: doubt.Refs}
	default:
		doubt.Why = reply.ToolOpen
	}
	r.State, r.Fixed, r.Doubt = check.Unsure, false, doubt
	return r
}

// proviso is the doubt of a low reading whose tool may have stood open.
const proviso reply.Why = "proviso"

// reread folds all statements of the shift anew and records what changed by it.
func (d *decision) reread(st *Standing, w *Watch) {
	stands := fold(w.Statements)
	for _, a := range d.reach(st, w, stands) {
		now, was := stands[a], w.Recorded[a.String()]
		if now.result.State == was.State && now.result.Value.Equal(was.Value) && now.result.Damage == was.Damage && now.result.Fixed == was.Fixed {
			continue
		}
		d.put(st, w, a, now, was)
	}
	d.hours(w)
	d.touch(st.Company)
	if w == st.Watch {
		d.owe(st)
	}
}

// reach lists the checks of a shift in order, and behind them others spoken of.
func (d *decision) reach(st *Standing, w *Watch, stands map[check.Ref]stand) []check.Ref {
	var refs []check.Ref
	seen := map[check.Ref]bool{}
	add := func(r check.Ref) {
		_, spoken := stands[r]
		_, recorded := w.Recorded[r.String()]
		if !seen[r] && (spoken || recorded) {
			seen[r] = true
			refs = append(refs, r)
		}
	}
	for _, a := range w.Asked {
		add(a.Ref)
	}
	for _, id := range d.carried(st.Company) {
		it, _ := d.Dept.Item(id)
		if sheet := d.Book[it.Sheet]; sheet != nil {
			for _, c := range sheet.Checks {
				add(check.Ref{Item: id, Check: c.ID})
			}
		}
	}
	return refs
}

// put records one changed result and does what follows from it.
func (d *decision) put(st *Standing, w *Watch, ref check.Ref, now stand, was Mark) {
	r := now.result
	id := "reading/" + eventID(d.ev) + "/" + ref.String()
	d.record(Record{ID: id, Kind: OnReading, Company: st.Company, Date: w.Date, Platoon: w.Platoon, Item: ref.Item, Check: ref.Check,
		State: word(r.State), Value: r.Value, Words: r.Words, Who: d.nameOf(now.by), Message: orElse(now.event, eventID(d.ev)),
		Supersedes: was.Record, Note: noteOf(r)})
	if w.Recorded == nil {
		w.Recorded = map[string]Mark{}
	}
	m := Mark{Record: id, State: r.State, Value: r.Value, Damage: r.Damage, Fixed: r.Fixed, Words: r.Words, By: now.by, Event: now.event}
	w.Recorded[ref.String()] = m
	item := d.state(ref.Item)
	if item.Last == nil {
		item.Last = map[check.ID]Reading{}
	}
	if r.State == check.Open {
		delete(item.Last, ref.Check) // taken back: it is not known any more
	}
	d.filledUp(ref, r, was)
	if r.State == check.OK || r.State == check.Fail {
		item.Last[ref.Check] = Reading{At: d.ev.Said, State: r.State, Value: r.Value, Words: r.Words}
	}
	if c, ok := d.Book.Of(d.Dept, ref); ok && c.Use == check.UseFuel && r.Value.Number != nil {
		item.Burned = 0
		d.fuelled[ref.Item] = true
		if r.Fixed || r.Poured {
			item.Filled = d.ev.Said
		}
	}
	d.follow(st, w, ref, m, was, r)
	d.losing(st, w, ref, r)
}

func noteOf(r reply.Result) string {
	switch {
	case r.Fixed:
		return "fixed by the crew"
	case r.Poured && r.State == check.OK:
		return "filled by the crew"
	case r.Blanket:
		return "by a blanket answer"
	case r.State == check.Unsure:
		return string(r.Doubt.Why)
	}
	return r.Damage
}

// word is a state as records show it.
func word(s check.State) string {
	if s == check.Open {
		return "open"
	}
	return string(s)
}

func orElse(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

func (d *decision) nameOf(author string) string {
	if p, ok := d.Dept.Person(dept.PersonID(author)); ok {
		return p.Name
	}
	if author == d.author() {
		return d.who()
	}
	return author
}
