package bot

import (
	"fmt"
	"slices"
	"strings"

	"crosslay/bot/chat"
	"crosslay/bot/cover"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// officer answers plain words in the officers' room or in direct conversation.
func (d *decision) officer() {
	req, ok := reply.ReadRequest(asked(d.ev.Text), d.local(d.ev.Said), names(d.Setup))
	if !ok {
		if d.unknownCompany() {
			return
		}
		if d.ev.Place.Direct && d.Person.Company != "" {
			st := d.Standings[d.Person.Company]
			d.crewWords(st, d.watchAt(st))
			return
		}
		if d.ev.Place.Direct || d.meansUs() {
			d.say(chat.Answer, d.ev.Place, "", d.officerHelp())
		}
		return
	}
	d.request(req)
}

// meansUs reports whether words in the officers' room that were not understood are
// meant for the bot: silence would look like an order carried out.
func (d *decision) meansUs() bool {
	if strings.Contains(d.ev.Text, "?") || d.numberNamed() != "" || d.companyNamed() || strings.Contains(strings.ToLower(d.ev.Text), "service") {
		return true
	}
	first, _, _ := strings.Cut(bare(d.ev.Text), " ")
	return slices.Contains(strings.Fields("status board picture month fuel history hours runs worst spares spare cover summary overdue due defects"), first)
}

func (d *decision) request(req reply.Request) {
	switch req.Kind {
	case reply.RequestSummary:
		d.summary(chat.Status, d.ev.Place)
	case reply.RequestOutOfService:
		d.list("Out of service", d.outLines(), "nothing is out of service")
	case reply.RequestNotChecked:
		d.list("Not checked", d.notChecked(), "every company has checked")
	case reply.RequestOpenDefects:
		d.list("Open defects", d.openLines(req), "no open defects")
	case reply.RequestFuel:
		d.list("Fuel", d.fuelLines(req), "no fuel readings yet")
	case reply.RequestHistory:
		if req.Item == "" {
			d.say(chat.Ask, d.ev.Place, "", wording.Lines("Which item?", []string{"Say its number, as in: history of " + d.anyOf().number}))
			return
		}
		d.list("History of "+d.thing(req.Item).Number, d.historyLines(), "nothing on record")
	case reply.RequestWhy:
		d.list("Reminders, newest first", d.whyLines(), "no reminder came due")
	case reply.RequestTakeOut, reply.RequestPutBack:
		d.order(req)
	case reply.RequestCover:
		d.covers(req)
	case reply.RequestSpares:
		d.spares()
	case reply.RequestBoard, reply.RequestPicture, reply.RequestMonth:
		d.picture(req)
	case reply.RequestService:
		d.due(req)
	case reply.RequestServiced:
		d.serviced(req)
	case reply.RequestReliability:
		d.condition(req)
	case reply.RequestRuns:
		d.runs(req)
	case reply.RequestHelp:
		d.say(chat.Answer, d.ev.Place, "", d.officerHelp())
	case reply.RequestStatus:
		d.status(req)
	}
}

func (d *decision) list(title string, lines []string, none string) {
	if len(lines) == 0 {
		lines = []string{none}
	}
	d.say(chat.Status, d.ev.Place, "", wording.Lines(title, lines))
}

// status is what is ready and what is not: of an item, a company, a station or
// the whole department.
func (d *decision) status(req reply.Request) {
	switch {
	case req.Item != "":
		d.list("Status of "+d.thing(req.Item).Number, d.itemLines(req.Item), "nothing known yet")
	case req.Company != "":
		d.list("Status of "+d.companyName(req.Company), d.companyLines(req.Company), "nothing known yet")
	default:
		var lines []wording.StatusLine
		for _, c := range d.Dept.Companies {
			if req.Station == "" || c.Station == req.Station {
				lines = append(lines, wording.StatusLine{Company: c.Name, Text: d.inShort(c.ID)})
			}
		}
		d.say(chat.Status, d.ev.Place, "", wording.StatusDepartment(d.Dept.Name, lines, d.totals()))
	}
}

// order takes an item out of service or back, where the speaker may.
func (d *decision) order(req reply.Request) {
	item := d.Items[req.Item]
	switch {
	case req.Item == "" || item == nil:
		d.say(chat.Ask, d.ev.Place, "", wording.Lines("Which item?", []string{"Say its number."}))
	case req.Kind == reply.RequestTakeOut && !d.Person.Has(dept.Officer, dept.Chief, dept.Shop):
		d.say(chat.Refusal, d.ev.Place, string(req.Item), wording.Refusal("officer_only"))
	case req.Kind == reply.RequestTakeOut && item.Out != nil:
		d.list("Out of service already", []string{d.thing(req.Item).Number + ": " + item.Out.Why}, "")
	case req.Kind == reply.RequestTakeOut:
		d.takeOut(req.Item, "by order", nil)
		d.list("Done", []string{d.thing(req.Item).Number + " is out of service"}, "")
	case d.Person.Has(dept.Shop):
		d.putBack(req.Item)
		d.list("Done", []string{d.thing(req.Item).Number + " is in service"}, "")
	case d.Person.Has(dept.Chief) && item.Out != nil && item.Out.Defect == "" && item.Out.By == d.who() && !d.anyOpen(req.Item):
		d.putBack(req.Item)
		d.list("Done", []string{d.thing(req.Item).Number + " is in service"}, "")
	case d.Person.Has(dept.Chief):
		d.say(chat.Refusal, d.ev.Place, string(req.Item), wording.Refusal("chief_own_order"))
	default:
		d.say(chat.Refusal, d.ev.Place, string(req.Item), wording.Refusal("shop_only"))
	}
}

func (d *decision) anyOpen(id dept.ItemID) bool {
	for _, f := range d.Defects {
		if f.Ref.Item == id && f.Open() {
			return true
		}
	}
	return false
}

// shopRoom hears the shop in its room outside a thread.
func (d *decision) shopRoom() {
	if req, ok := reply.ReadRequest(asked(d.ev.Text), d.local(d.ev.Said), names(d.Setup)); ok {
		d.request(req)
		return
	}
	if d.unknownCompany() || d.putOn() {
		return
	}
	var meant []*defect.Defect
	for _, f := range d.Defects {
		if f.State() != defect.Closed && mentions(d.ev.Text, []string{d.thing(f.Ref.Item).Number}) {
			meant = append(meant, f)
		}
	}
	if len(meant) == 1 {
		d.Thread.defect = meant[0].ID
		d.shopWords()
		return
	}
	if len(meant) > 1 {
		var lines []string
		for _, f := range meant {
			lines = append(lines, d.defectLine(f))
		}
		d.say(chat.Ask, d.ev.Place, "", wording.Lines("Which defect? Answer in its thread:", lines))
		return
	}
	if id := d.numberNamed(); id != "" && d.outNow(id) && reply.ReadShop(d.ev.Text, d.local(d.ev.Said), nil).Returned {
		d.order(reply.Request{Kind: reply.RequestPutBack, Item: id})
		return
	}
	if id := d.numberNamed(); id != "" && mentions(d.ev.Text, []string{"serviced", "service done", "annual service"}) {
		d.say(chat.Ask, d.ev.Place, string(id), wording.WhenServiced(d.thing(id)))
		return
	}
	if d.ev.Place.Thread == "" && d.Person.Has(dept.Shop) {
		if w := reply.ReadShop(d.ev.Text, d.local(d.ev.Said), nil); w.Repaired || w.Returned || w.Seen || w.Parts {
			d.say(chat.Ask, d.ev.Place, "", wording.Lines("Which defect? Answer in its thread, or name the item:", d.openLines(reply.Request{})))
		}
	}
}

// companyNamed reports whether the message names a company: it is meant for the bot
// then, not for the others in the room.
func (d *decision) companyNamed() bool {
	return slices.ContainsFunc(d.Dept.Companies, func(c dept.Company) bool { return mentions(d.ev.Text, append([]string{c.Name}, c.Names...)) })
}

// numberNamed is the item whose number the message has, "" if none.
func (d *decision) numberNamed() dept.ItemID {
	for _, word := range strings.FieldsFunc(strings.ToLower(d.ev.Text), apart) {
		if id, ok := names(d.Setup).Items[word]; ok {
			return id
		}
	}
	return ""
}

// summary is the morning summary.
func (d *decision) summary(kind chat.MessageKind, place chat.Place) {
	var lines []wording.StatusLine
	for _, c := range d.Dept.Companies {
		lines = append(lines, wording.StatusLine{Company: c.Name, Text: d.inShort(c.ID)})
	}
	blocks := wording.StatusDepartment("Morning summary, "+d.local(d.now).Format("Mon Jan 2 15:04"), lines, d.totals())
	if out := d.outLines(); len(out) > 0 {
		blocks = append(blocks, wording.Lines("Out of service", out)...)
	}
	if lacking := d.allCannot(); len(lacking) > 0 {
		blocks = append(blocks, wording.Lines("Cannot now", lacking)...)
	}
	if open := d.openLines(reply.Request{}); len(open) > 0 {
		blocks = append(blocks, wording.Lines("Open defects", open)...)
	}
	if late := d.overdue(); len(late) > 0 {
		blocks = append(blocks, wording.Lines("Service overdue", late)...)
	}
	if old := d.oldFuels(d.allItems()); len(old) > 0 {
		blocks = append(blocks, wording.Lines("", old)...)
	}
	d.say(kind, place, "department", blocks)
	source, _ := d.board()
	d.show(source)
}

func (d *decision) allItems() []dept.ItemID {
	var ids []dept.ItemID
	for _, it := range d.Dept.Items {
		ids = append(ids, it.ID)
	}
	return ids
}

// cover says in one line who covers for a company whose item is out.
func (d *decision) cover(it dept.Item, c dept.CompanyID) string {
	home, _ := d.Dept.Company(c)
	still := d.stillHas(it, home)
	from, ok := d.Dept.Station(home.Station)
	if !ok {
		return ""
	}
	best, way := dept.Company{}, cover.Way{}
	for _, other := range d.Dept.Items {
		company, ok := d.Dept.Company(other.Company)
		to, found := d.Dept.Station(company.Station)
		if other.Kind != it.Kind || other.Company == c || d.outNow(other.ID) || !ok || !found || d.needsDead(other) {
			continue
		}
		if w := cover.Between(d.Dept, from, to); best.ID == "" || w.Km < way.Km {
			best, way = company, w
		}
	}
	if best.ID == "" {
		return "nobody else has one in service" + still
	}
	if best.Station == home.Station {
		return best.Name + ", same station" + still
	}
	line := fmt.Sprintf("%s, %s, about %.0f min (an estimate)", best.Name, wording.Distance(way.Km, d.Dept.Units), way.Minutes)
	if way.Rough {
		line = fmt.Sprintf("%s, %s, about %.0f min (a rough estimate)", best.Name, wording.Distance(way.Km, d.Dept.Units), way.Minutes)
	}
	return line + still
}

// stillHas tells of another one of the kind that the company has in service.
func (d *decision) stillHas(it dept.Item, c dept.Company) string {
	for _, id := range d.carried(c.ID) {
		if other, _ := d.Dept.Item(id); id != it.ID && other.Kind == it.Kind && !d.outNow(id) {
			return "; " + c.Name + " still has " + other.Number
		}
	}
	return ""
}

// needsDead reports whether an item hangs on a power unit that is out of service.
func (d *decision) needsDead(it dept.Item) bool {
	return it.HangsOn != "" && d.outNow(it.HangsOn) && !d.hasStandIn(it.HangsOn)
}
