package bot

import (
	"slices"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// answer says back what was understood, and asks about faults and doubts once.
func (d *decision) answer(st *Standing, w *Watch, read reply.Reading) {
	told, started := d.told(w), append(d.startedLines(read), d.asides...)
	if len(told) > 0 && w == st.Watch {
		started = append(started, d.openNumbers(st))
	}
	if len(told) > 0 || len(started) > 0 || len(read.NotUnderstood) > 0 && read.Intent == reply.Answer {
		d.sayHere(chat.Echo, st, wording.Echo(told, started, read.NotUnderstood))
	}
	if len(w.Statements[len(w.Statements)-1].Results) > 0 || len(started) > 0 {
		d.redraw(st)
	}
	if len(told)+len(started) == 0 {
		d.fresh = append(d.fresh, d.wanted(w, read)...)
	}
	d.doubts(st, w)
}

// openNumbers tells what is still open, by number.
func (d *decision) openNumbers(st *Standing) string { return wording.StillOpen(d.openOnes(st)) }

func (d *decision) openOnes(st *Standing) []int {
	var open []int
	for _, a := range d.left(st) {
		open = append(open, a.N)
	}
	return open
}

// wanted are the readings that the words reach without giving them.
func (d *decision) wanted(w *Watch, read reply.Reading) []reply.Doubt {
	var doubts []reply.Doubt
	for _, ref := range read.Ask {
		if w.Recorded[ref.String()].State == check.Open && numberOf(w, ref) > 0 {
			doubts = append(doubts, reply.Doubt{Why: reply.NoReading, Refs: []check.Ref{ref}})
		}
	}
	return doubts
}

// told lists what the message came to, as it stands after the rules.
func (d *decision) told(w *Watch) []wording.Told {
	var told []wording.Told
	last := w.Statements[len(w.Statements)-1]
	for _, r := range last.Results {
		c, ok := d.Book.Of(d.Dept, r.Ref)
		if !ok || d.mended[r.Ref] {
			continue
		}
		m := w.Recorded[r.Ref.String()]
		if r.State == check.Unsure && m.State != check.Unsure {
			continue // a doubt that did not unsettle what was settled
		}
		if m.State == check.Unsure && w.Put[string(r.Doubt.Why)+"/"+r.Ref.String()].IsZero() {
			continue // it is asked about now, which says enough
		}
		t := wording.Told{N: numberOf(w, r.Ref), Thing: d.thing(r.Ref.Item), Check: c, State: m.State, Value: m.Value, Damage: r.Damage,
			Fixed: m.Fixed, Words: m.Words}
		if m.State == check.Fail {
			t.Act = d.actFor(c, r)
		}
		told = append(told, t)
	}
	return told
}

func numberOf(w *Watch, ref check.Ref) int {
	for _, a := range w.Asked {
		if a.Ref == ref {
			return a.N
		}
	}
	return 0
}

func (d *decision) startedLines(read reply.Reading) []string {
	var lines []string
	for _, m := range read.Starts {
		if m.Item == "" {
			continue
		}
		if c := d.runCheck(m.Item); c != nil {
			lines = append(lines, d.thing(m.Item).Number+" running since "+d.local(at(m.At, d.ev.Said)).Format("15:04"))
		}
	}
	return lines
}

// doubts asks about what is unsure, about the same doubt once a shift. What was
// asked stays open for an answer until it is settled.
func (d *decision) doubts(st *Standing, w *Watch) {
	if w.Put == nil {
		w.Put = map[string]time.Time{}
	}
	w.Doubts = slices.DeleteFunc(w.Doubts, func(old reply.Doubt) bool { return d.settled(w, old) })
	var views []wording.DoubtView
	var first reply.Doubt
	for _, doubt := range append(d.fresh, d.unsure(w)...) {
		key := string(doubt.Why) + "/" + doubt.Refs0()
		if !w.Put[key].IsZero() {
			continue
		}
		w.Put[key] = d.ev.Said
		w.Doubts = append(w.Doubts, doubt)
		views = append(views, d.doubtView(w, doubt))
		if len(views) == 1 {
			first = doubt
		}
	}
	if len(views) == 0 {
		return
	}
	d.sayHere(chat.Ask, st, wording.Doubts(views))
	if n := len(d.out.Messages); len(views) == 1 && n > 0 {
		d.out.Messages[n-1].Choices = taps(first)
	}
}

// taps are the answers to a single question that can be tapped.
func taps(doubt reply.Doubt) []chat.Choice {
	switch doubt.Why {
	case proviso:
		return []chat.Choice{{Label: "Closed", Say: "closed"}, {Label: "Open", Say: "open"}}
	case fuelHigher:
		return []chat.Choice{{Label: "Filled", Say: "yes, filled"}, {Label: "Not filled", Say: "no"}}
	case fuelLower:
		return []chat.Choice{{Label: "Used or drained", Say: "yes, used"}, {Label: "No", Say: "no"}}
	}
	return nil
}

// settled reports whether nothing that a doubt is about is unsure any more.
func (d *decision) settled(w *Watch, doubt reply.Doubt) bool {
	return !slices.ContainsFunc(doubt.Refs, func(r check.Ref) bool {
		s := w.Recorded[r.String()].State
		return s == check.Unsure || s == check.Open
	})
}

// unsure lists the doubts of the last message: its own, and where it only made
// something unsure, that it was heard both ways.
func (d *decision) unsure(w *Watch) []reply.Doubt {
	var doubts []reply.Doubt
	for _, r := range w.Statements[len(w.Statements)-1].Results {
		if w.Recorded[r.Ref.String()].State != check.Unsure {
			continue
		}
		doubt := r.Doubt
		if r.State != check.Unsure || doubt.Why == "" {
			doubt = reply.Doubt{Why: reply.Conflict}
		}
		if len(doubt.Refs) == 0 {
			doubt.Refs = []check.Ref{r.Ref}
		}
		doubts = append(doubts, doubt)
	}
	return doubts
}

func (d *decision) doubtView(w *Watch, doubt reply.Doubt) wording.DoubtView {
	v := wording.DoubtView{Why: string(doubt.Why), Choices: doubt.Choices}
	if len(doubt.Refs) == 0 {
		return v
	}
	ref := doubt.Refs[0]
	v.N, v.Thing = numberOf(w, ref), d.thing(ref.Item)
	v.Check, _ = d.Book.Of(d.Dept, ref)
	v.Words = w.Recorded[ref.String()].Words
	if it := d.Items[ref.Item]; it != nil && (doubt.Why == fuelHigher || doubt.Why == fuelLower) {
		last := it.Last[ref.Check]
		v.Now, v.Was, v.WasAt, v.Ran = doubt.Value, last.Value, d.local(last.At), it.Burned
	}
	v.Overfill, v.Closed = d.toolOpen(ref, doubt.Value)
	if doubt.Why == reply.WhichItem && len(v.Choices) == 0 {
		for _, r := range doubt.Refs {
			v.Choices = append(v.Choices, d.thing(r.Item).Name+" "+d.thing(r.Item).Number)
		}
	}
	return v
}
