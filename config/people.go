package config

import (
	"fmt"
	"strings"

	"crosslay/bot/dept"
)

func (d *draft) readStations() {
	d.blocks("stations", []string{"id", "name", "lat", "lon"}, func(o object) {
		o.need("id", "name", "lat", "lon")
		s := dept.Station{ID: dept.StationID(o.id("id")), Name: o.text("name"), Lat: o.degrees("lat", 90), Lon: o.degrees("lon", 180)}
		d.dept.Stations = append(d.dept.Stations, s)
		d.stationAt = append(d.stationAt, o)
	})
}

func (o object) degrees(key string, most float64) float64 {
	f, ok := o.number(key)
	if ok && (f < -most || f > most) {
		o.wrong(key, fmt.Sprintf("the position must lie within -%g and %g degrees", most, most), "Write degrees as a decimal, west and south negative, as in -105.2")
	}
	return f
}

const kmPerMile = 1.609344

func (d *draft) readRoads() {
	d.blocks("roads", []string{"between", "miles", "km"}, func(o object) {
		o.need("between")
		var road dept.Road
		if ends := o.texts("between"); len(ends) == 2 && ends[0] != ends[1] {
			road.A, road.B = dept.StationID(ends[0]), dept.StationID(ends[1])
		} else if o.has("between") {
			o.wrong("between", "a road joins two stations", "Write two station ids, as in [st1, st2]")
		}
		if o.has("miles") == o.has("km") {
			o.wrong("miles", "a road has one length", "Write either miles: or km:")
		}
		for key, factor := range map[string]float64{"miles": kmPerMile, "km": 1} {
			if f, ok := o.number(key); ok {
				road.Km = f * factor
				if f <= 0 {
					o.wrong(key, "the length must be above zero", "Write the road distance, as in 3.4")
				}
			}
		}
		d.dept.Roads = append(d.dept.Roads, road)
		d.roadAt = append(d.roadAt, o)
	})
}

var backends = []string{"terminal", "slack", "matrix"}

func (d *draft) readRooms() {
	d.blocks("rooms", []string{"id", "for", "station", "company", "backend", "address", "quiet"}, func(o object) {
		o.need("id", "for", "backend", "address")
		room := dept.Room{
			ID:      dept.RoomID(o.id("id")),
			Purpose: word(o, "for", dept.ForStation, dept.ForCompany, dept.ForShop, dept.ForOfficers),
			Station: dept.StationID(o.text("station")),
			Company: dept.CompanyID(o.text("company")),
			Backend: word(o, "backend", backends...),
			Address: o.text("address"),
			Quiet:   o.spans("quiet"),
		}
		o.belongs(room.Purpose)
		switch room.Backend {
		case "slack":
			o.onSlack(room.Address)
		case "matrix":
			o.onMatrix(room.Address)
		}
		d.dept.Rooms = append(d.dept.Rooms, room)
		d.roomAt = append(d.roomAt, o)
	})
}

// belongs demands the key that goes with a room's purpose, and no other.
func (o object) belongs(p dept.Purpose) {
	for key, wanted := range map[string]dept.Purpose{"station": dept.ForStation, "company": dept.ForCompany} {
		switch {
		case p == wanted:
			o.need(key)
		case p != "" && o.has(key):
			o.wrong(key, fmt.Sprintf("a room for the %s has no %s of its own", p, key), fmt.Sprintf("Take it out, or write for: %s", key))
		}
	}
}

// spans are parts of the day like 22:00-06:30.
func (o object) spans(key string) []dept.Span {
	var spans []dept.Span
	for _, s := range o.texts(key) {
		from, to, ok := strings.Cut(s, "-")
		a, errA := dept.ParseClock(strings.TrimSpace(from))
		b, errB := dept.ParseClock(strings.TrimSpace(to))
		if !ok || errA != nil || errB != nil || a == b {
			o.wrong(key, fmt.Sprintf("%q is not a part of the day", s), `Write it like "22:00-06:30"`)
			continue
		}
		spans = append(spans, dept.Span{From: a, To: b})
	}
	return spans
}

func (d *draft) readCompanies() {
	d.blocks("companies", []string{"id", "name", "names", "station"}, func(o object) {
		o.need("id", "name", "station")
		c := dept.Company{ID: dept.CompanyID(o.id("id")), Name: o.text("name"), Names: o.texts("names"), Station: dept.StationID(o.text("station"))}
		d.dept.Companies = append(d.dept.Companies, c)
		d.companyAt = append(d.companyAt, o)
	})
}

func (d *draft) readPeople() {
	d.blocks("people", []string{"id", "name", "roles", "company", "platoon", "accounts"}, func(o object) {
		o.need("id", "name", "roles")
		p := dept.Person{
			ID: dept.PersonID(o.id("id")), Name: o.text("name"), Roles: o.roles(),
			Company: dept.CompanyID(o.text("company")), Platoon: dept.Platoon(o.text("platoon")), Accounts: o.accounts(),
		}
		if p.Has(dept.Crew, dept.Officer) {
			o.need("company")
		}
		d.dept.People = append(d.dept.People, p)
		d.personAt = append(d.personAt, o)
	})
}

func (o object) roles() []dept.Role {
	known := []dept.Role{dept.Crew, dept.Officer, dept.Chief, dept.Shop}
	var roles []dept.Role
	for _, s := range o.texts("roles") {
		if !contains(known, dept.Role(s)) {
			o.wrong("roles", fmt.Sprintf("%q is not a role", s), oneOf(known))
			continue
		}
		roles = append(roles, dept.Role(s))
	}
	return roles
}

func (o object) accounts() map[string]string {
	block, ok := o.block("accounts", backends...)
	if !ok {
		return nil
	}
	accounts := map[string]string{}
	for _, backend := range backends {
		if s := block.text(backend); s != "" {
			accounts[backend] = s
		}
	}
	block.ofSlack(accounts["slack"])
	block.ofMatrix(accounts["matrix"])
	return accounts
}

func (d *draft) readItems() {
	known := []string{"id", "number", "kind", "sheet", "company", "spare", "place", "in_service", "names", "hangs_on", "hours", "last_service", "last_service_hours", "figures"}
	d.blocks("items", known, func(o object) {
		o.need("id", "number", "kind")
		it := dept.Item{
			ID: dept.ItemID(o.id("id")), Number: o.text("number"), Names: o.texts("names"),
			Kind: dept.KindID(o.text("kind")), Sheet: dept.SheetID(o.text("sheet")),
			Company: dept.CompanyID(o.text("company")), Spare: o.yes("spare"), Place: o.text("place"),
			InService: o.date("in_service"), LastService: o.date("last_service"), HangsOn: dept.ItemID(o.text("hangs_on")),
			Figures: o.figures(),
		}
		if hours, ok := o.number("hours"); ok && hours < 0 {
			o.wrong("hours", "engine hours cannot be below zero", "Write what the hour meter shows")
		} else {
			it.StartHours, it.ServiceHours = hours, hours
		}
		if at, ok := o.number("last_service_hours"); ok {
			it.ServiceHours = at
			if at < 0 || at > it.StartHours {
				o.wrong("last_service_hours", "the hours at the last service are not between zero and hours", "Write what the hour meter showed then")
			}
		}
		d.dept.Items = append(d.dept.Items, it)
		d.itemAt = append(d.itemAt, o)
	})
}

func (o object) figures() dept.Figures {
	f, ok := o.block("figures", "tank_endurance", "rod_diameter", "stroke", "gauge_band")
	if !ok {
		return dept.Figures{}
	}
	endurance, given := f.duration("tank_endurance")
	if given && endurance == 0 {
		f.wrong("tank_endurance", "the figure must be above zero", "Write the maker's figure or take the key out")
	}
	return dept.Figures{
		TankEndurance: endurance,
		RodMM:         f.positive("rod_diameter", "mm"),
		StrokeMM:      f.positive("stroke", "mm"),
		GaugeBandML:   f.positive("gauge_band", "mL"),
	}
}
