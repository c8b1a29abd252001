package config

import (
	"fmt"
	"strings"
	"time"

	"github.com/goccy/go-yaml/ast"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/bot/rota"
)

// draft is a department in the making. Beside each thing stands the block it was
// read from, so that the second pass can name lines.
type draft struct {
	object
	dept    dept.Department
	rota    rota.Rota
	ladders nag.Book
	sheets  []*check.Sheet

	stationAt, companyAt, personAt, roomAt, roadAt, itemAt, sheetAt []object
}

// department reads the whole file.
func (r *reader) department(root ast.Node) *draft {
	d := &draft{ladders: nag.Defaults()}
	o, ok := r.object(root, "", lineOfBlock(root), "department", "zone", "units", "shift_change", "summary", "rota",
		"shop_hours", "stations", "roads", "rooms", "companies", "people", "sheets", "items", "reminders")
	if !ok {
		return d
	}
	d.object = o
	o.need("department", "zone", "shift_change", "rota", "stations", "rooms", "companies", "sheets", "items")
	d.general()
	d.readRota()
	d.shopHours()
	d.readStations()
	d.readRoads()
	d.readRooms()
	d.readCompanies()
	d.readPeople()
	d.readSheets()
	d.readItems()
	d.reminders()
	d.across()
	return d
}

// finish indexes the department; only for a draft without problems.
func (d *draft) finish() *Department {
	book := check.Book{}
	for _, s := range d.sheets {
		book[s.ID] = s
	}
	d.dept.Index()
	return &Department{Dept: &d.dept, Book: book, Rota: d.rota, Ladders: d.ladders}
}

func (d *draft) general() {
	d.dept.Name = d.text("department")
	d.dept.Zone = d.zone()
	d.dept.Units = dept.US
	if u := word(d.object, "units", dept.US, dept.Metric); u != "" {
		d.dept.Units = u
	}
	d.dept.Summary = dept.Clock(8*60 + 30)
	if c, ok := d.clock("summary"); ok {
		d.dept.Summary = c
	}
}

// zone is UTC after a problem. "Local" is refused: it would change with the
// machine.
func (d *draft) zone() *time.Location {
	s := d.text("zone")
	if s == "" {
		return time.UTC
	}
	zone, err := time.LoadLocation(s)
	if err != nil || s == "Local" {
		d.wrong("zone", fmt.Sprintf("%q is not a time zone", s), "Write region and city, as in America/Denver")
		return time.UTC
	}
	return zone
}

func (d *draft) readRota() {
	d.rota.Zone = d.dept.Zone
	for _, s := range d.texts("shift_change") {
		if c, ok := d.clockOf("shift_change", s); ok {
			d.rota.Changes = append(d.rota.Changes, c)
		}
	}
	o, ok := d.block("rota", "platoons", "cycle", "starts")
	if !ok {
		return
	}
	o.need("platoons", "cycle", "starts")
	for _, s := range o.texts("platoons") {
		d.rota.Platoons = append(d.rota.Platoons, dept.Platoon(s))
	}
	for _, s := range o.texts("cycle") {
		d.rota.Cycle = append(d.rota.Cycle, dept.Platoon(s))
	}
	d.rota.Starts = o.date("starts")
	d.fits(o)
}

func (d *draft) fits(o object) {
	for _, wrong := range d.rota.Fits() {
		text, instead, _ := strings.Cut(wrong, ": ")
		if instead != "" {
			instead = strings.ToUpper(instead[:1]) + instead[1:]
		}
		o.wrong("cycle", text, instead)
	}
	for i := 1; i < len(d.rota.Changes); i++ {
		if d.rota.Changes[i] == d.rota.Changes[i-1] {
			d.wrong("shift_change", fmt.Sprintf("%s stands twice", d.rota.Changes[i]), "Write each shift change once")
		}
	}
	unique := names{what: "platoon"}
	for _, p := range d.rota.Platoons {
		unique.add(o, "platoons", string(p))
	}
}

var weekdays = []string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}

// weekday reads mon or monday, in any case.
func weekday(s string) (time.Weekday, bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	for i, short := range weekdays {
		if day := time.Weekday(i); s == short || s == strings.ToLower(day.String()) {
			return day, true
		}
	}
	return 0, false
}

// shopHours demands that work ends after it begins: hours of the shop do not run
// past midnight, and ladders that wait for them would never come.
func (d *draft) shopHours() {
	o, ok := d.block("shop_hours", "days", "from", "to")
	if !ok {
		return
	}
	o.need("days", "from", "to")
	h := &d.dept.ShopHours
	for _, s := range o.texts("days") {
		day, ok := weekday(s)
		if !ok {
			o.wrong("days", fmt.Sprintf("%q is not a day of the week", s), oneOf(weekdays))
			continue
		}
		h.Days = append(h.Days, day)
	}
	var okFrom, okTo bool
	h.Span.From, okFrom = o.clock("from")
	h.Span.To, okTo = o.clock("to")
	if okFrom && okTo && h.Span.To <= h.Span.From {
		o.wrong("to", "the shop would close before it opens", "Write a time after from")
	}
}

func (d *draft) reminders() {
	known := make([]string, len(nag.Ladders))
	for i, l := range nag.Ladders {
		known[i] = string(l)
	}
	o, ok := d.block("reminders", known...)
	if !ok {
		return
	}
	for _, l := range nag.Ladders {
		if o.has(string(l)) {
			d.ladders[l] = ladder(o, string(l))
		}
	}
}

func ladder(o object, key string) nag.Ladder {
	l := nag.Ladder{}
	o.blocks(key, []string{"after", "to"}, func(rung object) {
		rung.need("after", "to")
		after, ok := rung.duration("after")
		to := word(rung, "to", nag.Company, nag.Officers, nag.ShopRoom)
		if n := len(l); ok && n > 0 && after <= l[n-1].After {
			rung.wrong("after", "this step comes no later than the one above it", "Order the steps from the first to the last")
		}
		l = append(l, nag.Rung{After: after, To: to})
	})
	return l
}
