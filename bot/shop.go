package bot

import (
	"slices"
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

// shopWords is what was said in a defect's thread.
func (d *decision) shopWords() {
	f := d.defect(d.Thread.defect)
	if f == nil {
		return
	}
	words := reply.ReadShop(d.ev.Text, d.local(d.ev.Said), d.shopNames(f))
	if !d.Person.Has(dept.Shop) {
		d.notShop(f, words)
		return
	}
	words.NotAFault = words.NotAFault || fineAsItIs(d.ev.Text)
	d.shopSteps(f, words)
}

// notShop hears others in the shop's thread: they may add words, not steps.
func (d *decision) notShop(f *defect.Defect, words reply.ShopWords) {
	if words.Repaired || words.Returned || words.NotAFault || words.SparePlaced {
		d.say(chat.Refusal, d.ev.Place, f.Ref.String(), wording.Refusal("shop_only"))
		return
	}
	d.step(f, "said", d.who(), d.ev.Text)
}

// shopNames are the items that the shop may name: the defect's own and the
// spares of its kind.
func (d *decision) shopNames(f *defect.Defect) []reply.NamedItem {
	var named []reply.NamedItem
	for _, it := range d.Dept.Items {
		if it.Spare && it.Kind == f.Kind {
			named = append(named, reply.NamedItem{ID: it.ID, Names: append([]string{it.Number, string(it.ID)}, it.Names...)})
		}
	}
	return named
}

// shopSteps takes a defect through what its words say, in the order of its life.
func (d *decision) shopSteps(f *defect.Defect, words reply.ShopWords) {
	before := len(d.out.Records)
	if (words.Seen || words.Parts || words.Wanted || words.AtShop || words.SparePlaced || words.OutOfService) && f.State() == defect.Reported {
		d.seen(f)
	}
	if f.Open() && (words.Parts || !words.Until.IsZero() && f.Parts) {
		d.parts(f, words)
	}
	if words.OutOfService && !d.outNow(f.Ref.Item) {
		d.takeOut(f.Ref.Item, d.label(f.Ref), f)
		d.tell(f, "out_of_service", "out_of_service")
	}
	if words.Wanted && !words.AtShop && f.Open() {
		f.Wanted = true
		d.tell(f, "wanted", "wanted")
	}
	if words.AtShop {
		d.atShop(f)
	}
	if words.SparePlaced {
		d.placeSpare(f, words.Spare)
	}
	switch {
	case words.NotAFault:
		d.notAFault(f)
	case words.Repaired && f.Open():
		d.repaired(f)
	}
	if words.Returned {
		d.returned(f)
	}
	d.tellSteps(f)
	switch {
	case len(d.out.Records) > before:
	case words.Question || d.ev.Text == "":
		d.passQuestion(f)
	default:
		d.step(f, "said", d.who(), d.ev.Text)
		d.say(chat.Answer, d.ev.Place, f.Ref.String(), wording.ShopHelp(d.aSpare(f)))
	}
}

// passQuestion carries the shop's question back to the company.
func (d *decision) passQuestion(f *defect.Defect) {
	d.step(f, "asked", d.who(), d.ev.Text)
	d.tellCompany(f, wording.Lines("The shop asks about "+d.thing(f.Ref.Item).Number+":", []string{d.ev.Text}))
	if st := d.Standings[f.Company]; st != nil && st.Watch != nil {
		st.Watch.ShopAsks = f.ID
	}
}

// tell records a step that is told to the company, and back to the shop, when all
// that the message says has been done.
func (d *decision) tell(f *defect.Defect, kind, state string) {
	d.step(f, state, d.who(), d.ev.Text)
	d.steps = append(d.steps, kind)
}

// tellSteps tells the steps in one message to each. That it was seen goes without
// saying where more was done; so does the repair where the item is back.
func (d *decision) tellSteps(f *defect.Defect) {
	steps := d.steps
	if d.steps = nil; len(steps) == 0 {
		return
	}
	if len(steps) > 1 {
		steps = slices.DeleteFunc(steps, func(kind string) bool { return kind == "seen" })
	}
	var blocks []chat.Block
	for _, kind := range steps {
		if kind != "repaired" || !slices.Contains(steps, "returned") {
			blocks = append(blocks, wording.ShopSays(kind, d.stepView(f))...)
		}
	}
	d.tellCompany(f, blocks)
	d.say(chat.Echo, d.ev.Place, f.Ref.String(), wording.ShopDone(steps, d.stepView(f)))
}

func (d *decision) tellCompany(f *defect.Defect, blocks []chat.Block) {
	if st := d.Standings[f.Company]; st != nil {
		d.sayCompany(chat.News, st, f.Ref.String(), blocks)
		if st.Watch != nil {
			st.Watch.Reminded, st.Watch.Told = time.Time{}, d.now
			d.touch(st.Company)
		}
	}
}

func (d *decision) seen(f *defect.Defect) {
	f.Seen = d.ev.Said
	d.settleShop(f, nag.Unseen)
	d.tell(f, "seen", "seen")
}

func (d *decision) settleShop(f *defect.Defect, l nag.LadderID) {
	d.touch(shopDesk)
	settle(d.Standings[shopDesk], func(o nag.Obligation) bool { return o.Ladder == l && o.Defect == string(f.ID) })
}

// parts notes what the defect waits for. "Until Friday" is the end of that
// working day; then the ladder of overdue parts opens.
func (d *decision) parts(f *defect.Defect, words reply.ShopWords) {
	f.Parts = true
	d.settleShop(f, nag.PartsOverdue)
	if !words.Until.IsZero() {
		f.Until = d.Dept.ShopHours.EndOfDay(words.Until, d.Dept.Zone)
		open(d.Standings[shopDesk], nag.Obligation{Key: "parts_overdue/" + string(f.ID) + "/" + words.Until.String(), Ladder: nag.PartsOverdue,
			Defect: string(f.ID), Company: f.Company, Item: f.Ref.Item, Check: string(f.Ref.Check), Opened: f.Until})
	}
	d.tell(f, "parts", "parts")
}

func (d *decision) atShop(f *defect.Defect) {
	f.AtShop, f.Wanted = true, false
	if !d.outNow(f.Ref.Item) {
		d.takeOut(f.Ref.Item, "at the shop", f)
	}
	d.tell(f, "at_shop", "at_shop")
}

// placeSpare puts a spare in the place of the item; it is checked from now on.
func (d *decision) placeSpare(f *defect.Defect, spare dept.ItemID) {
	if spare == "" {
		spare = d.onlySpare(f)
	}
	st := d.Standings[f.Company]
	if spare == "" || st == nil {
		d.say(chat.Ask, d.ev.Place, f.Ref.String(), wording.Lines("Which spare? Say its number:", d.freeSpares(f)))
		return
	}
	s, item := d.state(spare), d.state(f.Ref.Item)
	if f.Spare == spare && item.StandIn == spare {
		return // said again
	}
	if s.Out != nil || s.For != "" && s.For != f.Ref.Item {
		d.say(chat.Ask, d.ev.Place, f.Ref.String(), wording.Lines(d.thing(spare).Number+" is not free. Which spare?", d.freeSpares(f)))
		return
	}
	if item.StandIn != "" { // another one was there
		old := d.state(item.StandIn)
		old.For, old.With = "", ""
	}
	f.Spare = spare
	s.For, s.With, item.StandIn = f.Ref.Item, f.Company, spare
	if st.Watch != nil {
		d.numberItem(st.Watch, spare, false)
		d.owe(st)
	}
	d.record(Record{ID: "spare/" + string(spare) + "/" + eventID(d.ev), Kind: OnService, Company: f.Company, Item: spare, Defect: f.ID,
		State: "placed", Who: d.who(), Note: "for " + string(f.Ref.Item)})
	d.tell(f, "spare", "spare_placed")
	d.redraw(st)
}

func (d *decision) onlySpare(f *defect.Defect) dept.ItemID {
	var free []dept.ItemID
	for _, n := range d.shopNames(f) {
		if s := d.Items[n.ID]; s == nil || s.For == "" && s.Out == nil {
			free = append(free, n.ID)
		}
	}
	if len(free) == 1 {
		return free[0]
	}
	return ""
}

func (d *decision) freeSpares(f *defect.Defect) []string {
	var numbers []string
	for _, n := range d.shopNames(f) {
		if s := d.Items[n.ID]; s == nil || s.For == "" && s.Out == nil {
			numbers = append(numbers, d.thing(n.ID).Number)
		}
	}
	if len(numbers) == 0 {
		return []string{"no spare of the kind is free"}
	}
	return numbers
}

func (d *decision) repaired(f *defect.Defect) {
	f.Repaired = d.ev.Said
	if _, asked := d.Book.Of(d.Dept, f.Ref); !asked { // no check will ever confirm it
		f.Closed, f.How = d.ev.Said, defect.Confirmed
	}
	d.settleShop(f, nag.Unseen)
	d.settleShop(f, nag.PartsOverdue)
	d.tell(f, "repaired", "repaired")
}

// returned puts the item back in service, as only the shop may. The next check
// confirms the repair.
func (d *decision) returned(f *defect.Defect) {
	if f.Open() {
		d.repaired(f)
	}
	f.Returned, f.AtShop, f.Wanted = d.ev.Said, false, false
	d.putBack(f.Ref.Item)
	d.tell(f, "returned", "returned")
	if other := d.alsoOut(f); other != nil {
		d.say(chat.Ask, d.ev.Place, f.Ref.String(), wording.Lines("Still open on "+d.thing(f.Ref.Item).Number+":", []string{d.defectLine(other)}))
	}
	if st := d.Standings[f.Company]; st != nil {
		d.redraw(st)
	}
}

// alsoOut is another open defect that keeps the item out of service.
func (d *decision) alsoOut(f *defect.Defect) *defect.Defect {
	for _, other := range d.Defects {
		if other.ID != f.ID && other.Ref.Item == f.Ref.Item && other.Open() && (other.Act == check.Out || other.AtShop) {
			return other
		}
	}
	return nil
}

// takeOut takes an item out of service and tells the officers at once.
func (d *decision) takeOut(id dept.ItemID, why string, f *defect.Defect) {
	item := d.state(id)
	if item.Out != nil {
		return
	}
	item.Tally.Spells++
	item.Out = &Outage{Since: d.ev.Said, By: d.who(), Why: why}
	it, _ := d.Dept.Item(id)
	company := orElse(string(it.Company), string(item.With))
	if f != nil {
		item.Out.Defect = f.ID
	}
	d.record(Record{ID: "out/" + string(id) + "/" + eventID(d.ev), Kind: OnService, Company: dept.CompanyID(company), Item: id, State: "out_of_service",
		Who: d.who(), Note: why})
	d.ask("out/"+string(id), "out")
	if st := d.Standings[dept.CompanyID(company)]; st != nil {
		d.redraw(st)
	}
}

func (d *decision) putBack(id dept.ItemID) {
	item := d.state(id)
	if spare := item.StandIn; spare != "" {
		s := d.state(spare)
		if s.For == id {
			s.For, s.With = "", ""
		}
		item.StandIn = ""
		d.record(Record{ID: "spare/" + string(spare) + "/" + eventID(d.ev), Kind: OnService, Item: spare, State: "taken_back", Who: d.who()})
	}
	if item.Out == nil {
		return
	}
	item.Tally.Out += max(0, d.ev.Said.Sub(item.Out.Since))
	item.Out = nil
	it, _ := d.Dept.Item(id)
	d.record(Record{ID: "back/" + string(id) + "/" + eventID(d.ev), Kind: OnService, Company: it.Company, Item: id, State: "in_service", Who: d.who()})
	d.sayTo(chat.Outage, dept.ForOfficers, string(id), wording.BackNow(d.thing(id), d.companyName(it.Company), d.who()))
	d.askAgain(id, it.Company)
}

// askAgain gives numbers to the checks of an item that comes back in mid-shift.
func (d *decision) askAgain(id dept.ItemID, c dept.CompanyID) {
	st := d.Standings[c]
	if st == nil || st.Watch == nil {
		return
	}
	for _, a := range st.Watch.Asked {
		if a.Ref.Item == id {
			return
		}
	}
	d.numberItem(st.Watch, id, false)
	d.owe(st)
	d.touch(c)
}

// followup decides what needed a wider view than the event that asked for it.
func (d *decision) followup() {
	switch d.ev.Text {
	case "fleet":
		d.fleet(d.defect(d.Thread.defect))
	case "escalate":
		d.escalate()
	case "out":
		d.outTold(dept.ItemID(strings.TrimPrefix(d.ev.Scope, "out/")))
	}
}

func (d *decision) fleet(f *defect.Defect) {
	if f == nil || f.Ref.Check == "other" {
		return
	}
	for _, other := range d.Defects {
		if other.Kind == f.Kind && other.Ref.Check == f.Ref.Check && other.Fleet && !other.Last().Before(d.now.AddDate(0, 0, -defect.FleetDays)) {
			return // said once
		}
	}
	ids := defect.FleetItems(d.Defects, f.Kind, f.Ref.Check, d.ev.Said)
	if len(ids) < defect.FleetCount {
		return
	}
	f.Fleet = true
	d.step(f, "fleet", "crosslay", "")
	var things []wording.Thing
	for _, id := range ids {
		things = append(things, d.thing(id))
	}
	d.sayTo(chat.Fleet, dept.ForShop, string(f.Kind)+"."+string(f.Ref.Check), wording.Fleet(d.thing(f.Ref.Item).Name, d.label(f.Ref), things, defect.FleetDays))
}

// outTold tells the officers that an item is out of service, and who covers.
func (d *decision) outTold(id dept.ItemID) {
	it, ok := d.Dept.Item(id)
	item := d.Items[id]
	if !ok || item == nil || item.Out == nil {
		return
	}
	company := it.Company
	if company == "" {
		company = item.With
	}
	d.sayTo(chat.Outage, dept.ForOfficers, string(id), wording.OutNow(d.thing(id), d.companyName(company), item.Out.Why, item.Out.By, d.cover(it, company)))
}
