package bot

import (
	"fmt"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/wording"
)

// redraw edits the prompt in place, so that what is missing stays visible.
func (d *decision) redraw(st *Standing) {
	w := st.Watch
	room, ok := d.roomOf(st.Company)
	if w == nil || !ok {
		return
	}
	w.Edition++
	d.touch(st.Company)
	v := d.promptView(st)
	d.out.Messages = append(d.out.Messages, chat.Message{Key: chat.Key(fmt.Sprintf("%s/edit/%d", w.Prompt, w.Edition)),
		Kind: chat.Prompt, Edits: w.Prompt, About: string(st.Company), Choices: wording.PromptChoices(), Form: wording.PromptForm(v),
		Place: chat.Place{Backend: room.Backend, Room: room.Address}, Blocks: wording.Prompt(v)})
}

func (d *decision) promptView(st *Standing) wording.PromptView {
	w := st.Watch
	v := wording.PromptView{Company: d.companyName(st.Company), Platoon: w.Platoon, Date: w.Date}
	for _, id := range d.carried(st.Company) {
		if d.outNow(id) {
			v.Out = append(v.Out, d.outLine(id))
			continue
		}
		if item := d.promptItem(w, id); len(item.Checks) > 0 {
			v.Items = append(v.Items, item)
		}
	}
	for _, f := range d.Defects {
		if it, ok := d.Dept.Item(f.Ref.Item); ok && it.Company == st.Company && f.State() != defect.Closed && !d.outNow(f.Ref.Item) {
			v.PassOn = append(v.PassOn, d.openLine(f))
		}
	}
	for _, ref := range st.Missed {
		v.Missed = append(v.Missed, d.thing(ref.Item).Number+" "+d.label(ref))
	}
	for _, o := range st.Obligations {
		if (o.Ladder == nag.LowFuel || o.Ladder == nag.CrewFix) && o.Opened.Before(w.Start) {
			v.Missed = append(v.Missed, d.thing(o.Item).Number+" "+d.label(check.Ref{Item: o.Item, Check: check.ID(o.Check)})+" (fault, not fixed)")
		}
	}
	v.Notes = d.oldFuels(d.carried(st.Company))
	for _, id := range st.NoRun {
		v.NoRun = append(v.NoRun, d.thing(id).Number)
	}
	v.Done = len(d.unanswered(st)) == 0 && d.runsDone(st)
	return v
}

func (d *decision) runsDone(st *Standing) bool {
	for _, a := range d.asked(st) {
		c, ok := d.Book.Of(d.Dept, a.Ref)
		if ok && c.Answer.Kind == check.Run && !goodRun(st.Watch.Recorded[a.Ref.String()]) {
			return false
		}
	}
	return true
}

func (d *decision) promptItem(w *Watch, id dept.ItemID) wording.PromptItem {
	item := wording.PromptItem{Thing: d.thing(id)}
	it, _ := d.Dept.Item(id)
	if sheet := d.Book[it.Sheet]; sheet != nil {
		item.Caution = sheet.Caution
	}
	if s := d.Items[id]; s != nil && s.For != "" {
		item.StandsIn = d.thing(s.For).Number
	}
	for _, a := range w.Asked {
		if a.Ref.Item != id {
			continue
		}
		c, ok := d.Book.Of(d.Dept, a.Ref)
		if !ok {
			continue
		}
		m := w.Recorded[a.Ref.String()]
		item.Checks = append(item.Checks, wording.PromptCheck{N: a.N, Check: c, State: m.State, Value: m.Value, Damage: m.Damage, Fixed: m.Fixed,
			Confirm: d.awaits(a.Ref) != nil})
	}
	return item
}

func (d *decision) outLine(id dept.ItemID) wording.OutLine {
	s := d.Items[id]
	line := wording.OutLine{Thing: d.thing(id), Why: s.Out.Why}
	if s.StandIn != "" {
		line.Spare = d.thing(s.StandIn).Number
	}
	return line
}

func (d *decision) openLine(f *defect.Defect) wording.Open {
	line := wording.Open{Thing: d.thing(f.Ref.Item), Label: d.label(f.Ref), State: d.stage(f)}
	if n := len(f.Reports); n > 0 {
		line.Words = f.Reports[n-1].Words
	}
	return line
}

// stage is the stage of a defect in a few words.
func (d *decision) stage(f *defect.Defect) string {
	switch {
	case f.AwaitsCheck():
		return "repaired: look at it"
	case f.AtShop:
		return "at the shop"
	case f.Wanted:
		return "the shop wants it brought in"
	case f.Parts && !f.Until.IsZero():
		return "parts until " + d.local(f.Until).Format("Mon Jan 2")
	case f.Parts:
		return "waiting for parts"
	case f.State() == defect.Seen:
		return "seen by the shop"
	}
	return "reported"
}

// awaits is the repaired defect that the next check of ref confirms.
func (d *decision) awaits(ref check.Ref) *defect.Defect {
	for _, f := range d.Defects {
		if f.Ref == ref && f.AwaitsCheck() {
			return f
		}
	}
	return nil
}

// openOn is the open defect of ref.
func (d *decision) openOn(ref check.Ref) *defect.Defect {
	for _, f := range d.Defects {
		if f.Ref == ref && f.Open() {
			return f
		}
	}
	return nil
}

// numbered is a check as it is called in a list: "3 saw S-01 chain".
func (d *decision) numbered(a Asked) string {
	return fmt.Sprintf("%d %s %s", a.N, d.thing(a.Ref.Item).Number, d.label(a.Ref))
}
