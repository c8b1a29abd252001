package bot

import (
	"slices"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// engines turns starts and stops into runs, timed by when they were said.
func (d *decision) engines(st *Standing, w *Watch, read reply.Reading) []reply.Result {
	if w.Running == nil {
		w.Running = map[dept.ItemID]Lit{}
	}
	for _, m := range read.Starts {
		for _, id := range d.engineOf(st, w, m.Item, false) {
			if _, lit := w.Running[id]; lit && m.At.IsZero() {
				continue // said again; it runs since the first word
			}
			w.Running[id] = Lit{Since: at(m.At, d.ev.Said), By: d.author()}
			d.engine = id
		}
	}
	var results []reply.Result
	for _, m := range read.Stops {
		for _, id := range d.engineOf(st, w, m.Item, true) {
			if r, ok := d.stopped(w, id, at(m.At, d.ev.Said)); ok {
				results = append(results, r)
				d.engine = id
			} else {
				d.say(chat.Ask, d.ev.Place, string(id), wording.Lines("When was "+d.thing(id).Number+" started?", []string{`Say how long it ran: "ran 7 min".`}))
			}
		}
	}
	return results
}

func at(t, otherwise time.Time) time.Time {
	if t.IsZero() {
		return otherwise
	}
	return t
}

// engineOf is the engine that is meant: the one named, else the only one that it
// can be. Of several running engines, "off" is for all that are running.
func (d *decision) engineOf(st *Standing, w *Watch, named dept.ItemID, running bool) []dept.ItemID {
	if _, lit := w.Running[named]; named != "" && (lit || !running || len(w.Running) != 1) {
		return []dept.ItemID{named}
	}
	var can []dept.ItemID
	for _, id := range d.carried(st.Company) {
		_, lit := w.Running[id]
		if d.runCheck(id) != nil && !d.outNow(id) && lit == running {
			can = append(can, id)
		}
	}
	if len(can) == 1 {
		return can
	}
	d.fresh = append(d.fresh, reply.Doubt{Why: reply.WhichItem, Refs: d.runRefs(can), Choices: d.thingNames(can)})
	return nil
}

func (d *decision) runRefs(ids []dept.ItemID) []check.Ref {
	var refs []check.Ref
	for _, id := range ids {
		refs = append(refs, check.Ref{Item: id, Check: d.runCheck(id).ID})
	}
	return refs
}

func (d *decision) thingNames(ids []dept.ItemID) []string {
	var names []string
	for _, id := range ids {
		t := d.thing(id)
		names = append(names, t.Name+" "+t.Number)
	}
	return names
}

// stopped is the result of a run that ends now. A run of more than twice the
// range was probably not told of in time: it is asked about before it counts.
func (d *decision) stopped(w *Watch, id dept.ItemID, end time.Time) (reply.Result, bool) {
	lit, ok := w.Running[id]
	c := d.runCheck(id)
	if !ok || c == nil {
		return reply.Result{}, false
	}
	delete(w.Running, id)
	ran := end.Sub(lit.Since).Round(time.Minute / 10).Minutes()
	r := reply.Result{Ref: check.Ref{Item: id, Check: c.ID}, Value: check.Num(ran), Words: d.ev.Text, Start: lit.Since, End: end, Ran: true}
	if c.Answer.Max != nil && ran > 2**c.Answer.Max {
		r.State, r.Doubt = check.Unsure, reply.Doubt{Why: "off_late", Refs: []check.Ref{r.Ref}}
		return r, true
	}
	r.State, r.Damage = c.Answer.Within(ran)
	return r, true
}

// ranFor records a run. One that lasted the minimum pays what was owed for it.
func (d *decision) ranFor(st *Standing, w *Watch, ref check.Ref, now, was Mark, r reply.Result) {
	if now.Value.Number != nil && now.State != check.Unsure {
		d.record(Record{ID: "run/" + eventID(d.ev) + "/" + ref.String(), Kind: OnRun, Company: st.Company, Date: w.Date, Platoon: w.Platoon,
			Item: ref.Item, Check: ref.Check, State: word(now.State), Value: now.Value, Who: d.nameOf(now.By), Words: r.Words,
			Note: runNote(now), Supersedes: supersededRun(was, r, ref)})
	}
	if !goodRun(now) {
		return
	}
	if w == st.Prior && !goodRun(was) {
		d.lateRun(ref.Item)
	}
	settle(st, func(o nag.Obligation) bool {
		return (o.Ladder == nag.WarmUp && w == st.Watch || o.Ladder == nag.WarmUpTwice) && o.Item == ref.Item
	})
	st.NoRun = slices.DeleteFunc(st.NoRun, func(id dept.ItemID) bool { return w == st.Prior && id == ref.Item })
}

// hours books the engine hours of a shift: those of every run that was timed or
// has clock times, and of the last that was only said to have lasted so long.
func (d *decision) hours(w *Watch) {
	ran := map[dept.ItemID]float64{}
	told := map[dept.ItemID]float64{}
	began := map[string]bool{}
	for _, s := range w.Statements {
		for _, r := range s.Results {
			key := r.Ref.String() + r.Start.String()
			if s.Gone || !r.Ran || r.State == check.Unsure || !r.Start.IsZero() && began[key] {
				continue
			}
			began[key] = true
			if r.Start.IsZero() {
				told[r.Ref.Item] = *r.Value.Number
				continue
			}
			ran[r.Ref.Item] += *r.Value.Number
		}
	}
	for id, minutes := range told {
		ran[id] += minutes
	}
	d.book(w, ran)
}

// book adds to the items' hours what was not booked before, or takes back what
// was booked and no longer stands.
func (d *decision) book(w *Watch, ran map[dept.ItemID]float64) {
	for id, minutes := range w.Booked {
		if ran[id] == 0 && minutes != 0 {
			d.state(id).Hours -= minutes / 60
			d.ranOn(id, w.Date, -minutes)
		}
	}
	for id, minutes := range ran {
		if more := minutes - w.Booked[id]; more != 0 {
			item := d.state(id)
			item.Hours += more / 60
			d.ranOn(id, w.Date, more)
			if !d.fuelled[id] {
				item.Burned = max(0, item.Burned+more)
			}
		}
	}
	w.Booked = ran
}

// supersededRun is the run record that a new one corrects. A run with a beginning
// of its own corrects none.
func supersededRun(was Mark, r reply.Result, ref check.Ref) string {
	if was.Value.Number == nil || was.State == check.Unsure || !r.Start.IsZero() {
		return ""
	}
	return "run/" + was.Event + "/" + ref.String()
}

func runNote(m Mark) string {
	if m.State == check.Fail && m.Damage != "" {
		return m.Damage + ": " + map[string]string{"low": "too short to count", "over": "counted"}[m.Damage]
	}
	return ""
}
