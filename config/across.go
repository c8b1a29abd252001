package config

import (
	"fmt"
	"slices"
	"strings"

	"crosslay/bot/dept"
)

// names finds what is called the same twice.
type names struct {
	what  string // what the names are names of
	taken map[string]int
}

// add takes one name, in any case; a second taker is a problem of its key.
func (n *names) add(o object, key, name string) {
	folded := strings.ToLower(name)
	if folded == "" {
		return
	}
	if n.taken == nil {
		n.taken = map[string]int{}
	}
	if line, ok := n.taken[folded]; ok {
		o.wrong(key, fmt.Sprintf("the %s %q stands twice, first in line %d", n.what, name, line), "Give each one of its own")
		return
	}
	n.taken[folded] = o.lineAt(key)
}

// addAll takes all names of one thing, of which the first stands under key and
// the others under more; one thing may repeat itself.
func (n *names) addAll(o object, key, more string, all []string) {
	own := map[string]bool{}
	for i, name := range all {
		if folded := strings.ToLower(name); !own[folded] {
			own[folded] = true
			n.add(o, key, name)
		}
		if i == 0 {
			key = more
		}
	}
}

// answers are words that crews answer with. Nothing may be called by one of
// them: "fuel good" would name the thing called good, and might pass it.
var answers = strings.Fields("ok okay good fine full empty low over yes no none all rest same done not bad fail failed fault normal clean pass half quarter")

// free refuses names that are answers.
func (o object) free(key string, all ...string) {
	for _, name := range all {
		if contains(answers, strings.ToLower(name)) {
			o.wrong(key, fmt.Sprintf("nothing can be called %q, since crews answer with that word", name), "Use a word that names the thing")
		}
	}
}

// across checks what the blocks say of each other.
func (d *draft) across() {
	d.ids()
	d.companiesStand()
	d.roomsFit()
	d.roadsLead()
	d.peopleBelong()
	d.sheetsFit()
	d.itemsBelong()
	d.hanging()
	d.named()
}

func (d *draft) ids() {
	stations, companies, people := names{what: "station id"}, names{what: "company id"}, names{what: "person id"}
	rooms, sheets, items := names{what: "room id"}, names{what: "sheet id"}, names{what: "item id"}
	for i, s := range d.dept.Stations {
		stations.add(d.stationAt[i], "id", string(s.ID))
	}
	for i, c := range d.dept.Companies {
		companies.add(d.companyAt[i], "id", string(c.ID))
	}
	for i, p := range d.dept.People {
		people.add(d.personAt[i], "id", string(p.ID))
	}
	for i, r := range d.dept.Rooms {
		rooms.add(d.roomAt[i], "id", string(r.ID))
	}
	for i, s := range d.sheets {
		sheets.add(d.sheetAt[i], "id", string(s.ID))
	}
	for i, it := range d.dept.Items {
		items.add(d.itemAt[i], "id", string(it.ID))
	}
}

// refers adds a problem where key names nothing that exists.
func refers[S ~string](o object, key string, id S, what string, known []S) bool {
	if id == "" || contains(known, id) {
		return id != ""
	}
	o.wrong(key, fmt.Sprintf("there is no %s %q", what, id), suggest(string(id), known))
	return false
}

func (d *draft) stationIDs() []dept.StationID {
	var ids []dept.StationID
	for _, s := range d.dept.Stations {
		ids = append(ids, s.ID)
	}
	return ids
}

func (d *draft) companyIDs() []dept.CompanyID {
	var ids []dept.CompanyID
	for _, c := range d.dept.Companies {
		ids = append(ids, c.ID)
	}
	return ids
}

// companiesStand gives every company its room: its own, else its station's.
func (d *draft) companiesStand() {
	stations := d.stationIDs()
	for i := range d.dept.Companies {
		c := &d.dept.Companies[i]
		if !refers(d.companyAt[i], "station", c.Station, "station", stations) {
			continue
		}
		if c.Room = d.roomOf(*c); c.Room == "" {
			d.companyAt[i].wrong("station", fmt.Sprintf("company %s has no room to talk in", c.ID),
				fmt.Sprintf("Add a room with for: station and station: %s, or with for: company and company: %s", c.Station, c.ID))
		}
	}
}

func (d *draft) roomOf(c dept.Company) dept.RoomID {
	var found dept.RoomID
	for _, r := range d.dept.Rooms {
		switch {
		case r.Purpose == dept.ForCompany && r.Company == c.ID:
			return r.ID
		case r.Purpose == dept.ForStation && r.Station == c.Station && found == "":
			found = r.ID
		}
	}
	return found
}

// roomsFit demands one room for each purpose, and each channel once.
func (d *draft) roomsFit() {
	channels, purposes := names{what: "channel"}, names{what: "room for"}
	for i, r := range d.dept.Rooms {
		o := d.roomAt[i]
		refers(o, "station", r.Station, "station", d.stationIDs())
		refers(o, "company", r.Company, "company", d.companyIDs())
		if r.Backend != "" && r.Address != "" {
			channels.add(o, "address", r.Backend+" "+r.Address)
		}
		if r.Purpose != "" {
			purposes.add(o, "for", strings.TrimSpace(string(r.Purpose)+" "+string(r.Station)+string(r.Company)))
		}
	}
	for _, p := range []dept.Purpose{dept.ForShop, dept.ForOfficers} {
		if d.has("rooms") && !slices.ContainsFunc(d.dept.Rooms, func(r dept.Room) bool { return r.Purpose == p }) {
			d.wrong("rooms", fmt.Sprintf("there is no room for the %s", p), fmt.Sprintf("Add one with for: %s", p))
		}
	}
}

func (d *draft) roadsLead() {
	pairs := names{what: "road"}
	for i, road := range d.dept.Roads {
		refers(d.roadAt[i], "between", road.A, "station", d.stationIDs())
		refers(d.roadAt[i], "between", road.B, "station", d.stationIDs())
		if road.A != "" {
			pairs.add(d.roadAt[i], "between", string(min(road.A, road.B))+" - "+string(max(road.A, road.B)))
		}
	}
}

func (d *draft) peopleBelong() {
	accounts := names{what: "account"}
	for i, p := range d.dept.People {
		o := d.personAt[i]
		refers(o, "company", p.Company, "company", d.companyIDs())
		refers(o, "platoon", p.Platoon, "platoon", d.rota.Platoons)
		for _, backend := range backends {
			if a := p.Accounts[backend]; a != "" {
				accounts.add(o, "accounts", backend+" "+a)
			}
		}
	}
}

// named demands that no two companies, kinds or stations answer to one name, and
// no two items of a company or two numbers either.
func (d *draft) named() {
	companies, sheets, stations := names{what: "company name"}, names{what: "sheet name"}, names{what: "station name"}
	for i, c := range d.dept.Companies {
		companies.addAll(d.companyAt[i], "name", "names", append([]string{c.Name, string(c.ID)}, c.Names...))
	}
	for i, s := range d.sheets {
		sheets.add(d.sheetAt[i], "name", s.Name)
		d.sheetAt[i].free("name", s.Name)
		d.sheetAt[i].free("names", s.Names...)
	}
	for i, s := range d.dept.Stations {
		stations.add(d.stationAt[i], "name", s.Name)
	}
	numbers, own := names{what: "item number"}, map[dept.CompanyID]*names{}
	for i, it := range d.dept.Items {
		numbers.add(d.itemAt[i], "number", it.Number)
		if own[it.Company] == nil {
			own[it.Company] = &names{what: "name of an item"}
		}
		d.itemAt[i].free("names", it.Names...)
		d.noNumber(d.itemAt[i], it)
		own[it.Company].addAll(d.itemAt[i], "names", "names", it.Names)
	}
}

// noNumber refuses a name of an item that is another item's number or id: what is
// said of the one would be taken for the other.
func (d *draft) noNumber(o object, it dept.Item) {
	for _, other := range d.dept.Items {
		for _, name := range it.Names {
			if other.ID != it.ID && (strings.EqualFold(name, other.Number) || strings.EqualFold(name, string(other.ID))) {
				o.wrong("names", fmt.Sprintf("the name %q is what item %s is known by", name, other.ID), "Use a name of its own")
			}
		}
	}
}
