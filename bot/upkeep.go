package bot

import (
	"fmt"
	"slices"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/reply"
	"crosslay/bot/service"
	"crosslay/bot/wording"
)

// weekDays is how far ahead the shop's list looks.
const weekDays = 7

// due answers what falls due at the shop: of an item, of a company, of all.
func (d *decision) due(req reply.Request) {
	if req.Item != "" {
		d.list("Service of "+d.thing(req.Item).Number, d.serviceLine(req.Item), "its sheet asks for no service")
		return
	}
	d.say(chat.Status, d.ev.Place, "service", wording.WeekAhead(d.weekAhead(req)))
}

func (d *decision) serviceLine(id dept.ItemID) []string {
	if line := wording.NextService(service.Next(d.serviceOf(id), d.today())); line != "" {
		return []string{line}
	}
	return nil
}

func (d *decision) weekAhead(req reply.Request) []wording.ServiceView {
	var items []service.Item
	for _, it := range d.Dept.Items {
		company, _ := d.Dept.Company(it.Company)
		if (req.Company == "" || it.Company == req.Company) && (req.Station == "" || company.Station == req.Station) {
			items = append(items, d.serviceOf(it.ID))
		}
	}
	var views []wording.ServiceView
	for _, e := range service.Ahead(items, d.today(), weekDays) {
		it, _ := d.Dept.Item(e.Item)
		views = append(views, wording.ServiceView{Thing: d.thing(e.Item), Company: d.companyName(it.Company), Due: e.Due, When: e.When})
	}
	return views
}

// serviced records that an item has had its service, as only the shop says.
func (d *decision) serviced(req reply.Request) {
	if !d.Person.Has(dept.Shop) {
		d.say(chat.Refusal, d.ev.Place, string(req.Item), wording.Refusal("shop_only"))
		return
	}
	item := d.state(req.Item)
	item.Tally.Served = Served{Day: d.today(), Hours: item.Hours}
	if req.Check == "yesterday" {
		item.Tally.Served.Day = d.today().AddDays(-1)
	}
	d.record(Record{ID: "serviced/" + string(req.Item) + "/" + eventID(d.ev), Kind: OnService, Item: req.Item, State: "serviced",
		Who: d.who(), Words: d.ev.Text, Note: fmt.Sprintf("on %s at %.1f engine hours", item.Tally.Served.Day, item.Hours)})
	d.touch(shopDesk)
	settle(d.Standings[shopDesk], func(o nag.Obligation) bool { return o.Ladder == nag.ServiceOverdue && o.Item == req.Item })
	next := service.Next(d.serviceOf(req.Item), d.today())
	d.say(chat.Echo, d.ev.Place, string(req.Item), wording.Serviced(d.thing(req.Item), item.Hours, d.runCheck(req.Item) != nil, next))
}

// oweService opens the shop's ladder for what is overdue, once a day, and closes
// it for what is not any more.
func (d *decision) oweService() {
	desk := d.Standings[shopDesk]
	over := map[dept.ItemID]service.Due{}
	for _, it := range d.Dept.Items {
		if due := service.Next(d.serviceOf(it.ID), d.today()); due.Silent == service.Spoken && due.Overdue > 0 {
			over[it.ID] = due
		}
	}
	before := len(desk.Obligations)
	settle(desk, func(o nag.Obligation) bool {
		_, still := over[o.Item]
		return o.Ladder == nag.ServiceOverdue && !still
	})
	for _, it := range d.Dept.Items {
		if _, ok := over[it.ID]; ok {
			open(desk, nag.Obligation{Key: "service_overdue/" + string(it.ID) + "/" + d.lastService(it.ID).String(), Ladder: nag.ServiceOverdue,
				Company: it.Company, Item: it.ID, Opened: d.now})
		}
	}
	if len(desk.Obligations) != before {
		d.touch(shopDesk)
	}
}

// tellWeek gives the shop its list on the first working day of the week.
func (d *decision) tellWeek() {
	if d.local(d.now).Weekday() != firstDay(d.Dept.ShopHours) {
		return
	}
	if views := d.weekAhead(reply.Request{}); len(views) > 0 {
		d.sayTo(chat.Summary, dept.ForShop, "service", wording.WeekAhead(views))
	}
}

// firstDay is the first working day from Monday on.
func firstDay(h dept.Hours) time.Weekday {
	for i := range 7 {
		if day := time.Weekday((1 + i) % 7); slices.Contains(h.Days, day) {
			return day
		}
	}
	return time.Monday
}
