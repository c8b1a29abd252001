package dept

import "slices"

type index struct {
	companies map[CompanyID]int
	items     map[ItemID]int
	people    map[PersonID]int
	rooms     map[RoomID]int
	accounts  map[[2]string]int // backend, account -> person
	addresses map[[2]string]int // backend, address -> room
	carried   map[CompanyID][]int
}

// Index makes the look-ups below ready. Call it once, after the last field is
// set; package config does.
func (d *Department) Index() {
	d.index = index{
		companies: map[CompanyID]int{}, items: map[ItemID]int{}, people: map[PersonID]int{}, rooms: map[RoomID]int{},
		accounts: map[[2]string]int{}, addresses: map[[2]string]int{}, carried: map[CompanyID][]int{},
	}
	for i, c := range d.Companies {
		d.index.companies[c.ID] = i
	}
	for i, it := range d.Items {
		d.index.items[it.ID] = i
		if it.Company != "" {
			d.index.carried[it.Company] = append(d.index.carried[it.Company], i)
		}
	}
	for i, p := range d.People {
		d.index.people[p.ID] = i
		for backend, account := range p.Accounts {
			d.index.accounts[[2]string{backend, account}] = i
		}
	}
	for i, r := range d.Rooms {
		d.index.rooms[r.ID] = i
		d.index.addresses[[2]string{r.Backend, r.Address}] = i
	}
}

// Company looks up a company by id.
func (d *Department) Company(id CompanyID) (Company, bool) {
	i, ok := d.index.companies[id]
	if !ok {
		return Company{}, false
	}
	return d.Companies[i], true
}

// Item looks up an item by id.
func (d *Department) Item(id ItemID) (Item, bool) {
	i, ok := d.index.items[id]
	if !ok {
		return Item{}, false
	}
	return d.Items[i], true
}

// Person looks up a person by id.
func (d *Department) Person(id PersonID) (Person, bool) {
	i, ok := d.index.people[id]
	if !ok {
		return Person{}, false
	}
	return d.People[i], true
}

// PersonAt looks up the person whom a backend knows by account.
func (d *Department) PersonAt(backend, account string) (Person, bool) {
	i, ok := d.index.accounts[[2]string{backend, account}]
	if !ok {
		return Person{}, false
	}
	return d.People[i], true
}

// Room looks up a room by id.
func (d *Department) Room(id RoomID) (Room, bool) {
	i, ok := d.index.rooms[id]
	if !ok {
		return Room{}, false
	}
	return d.Rooms[i], true
}

// RoomAt looks up the room that a backend knows by address.
func (d *Department) RoomAt(backend, address string) (Room, bool) {
	i, ok := d.index.addresses[[2]string{backend, address}]
	if !ok {
		return Room{}, false
	}
	return d.Rooms[i], true
}

// RoomFor returns the first room of the purpose: the shop's, the officers'.
func (d *Department) RoomFor(p Purpose) (Room, bool) {
	i := slices.IndexFunc(d.Rooms, func(r Room) bool { return r.Purpose == p })
	if i < 0 {
		return Room{}, false
	}
	return d.Rooms[i], true
}

// Carried lists the items of a company by the file, in the file's order; where
// spares stand at the moment is the bot's knowledge, not the file's.
func (d *Department) Carried(id CompanyID) []Item {
	items := make([]Item, 0, len(d.index.carried[id]))
	for _, i := range d.index.carried[id] {
		items = append(items, d.Items[i])
	}
	return items
}

// CompaniesIn lists the companies whose prompt goes to a room.
func (d *Department) CompaniesIn(room RoomID) []Company {
	var in []Company
	for _, c := range d.Companies {
		if c.Room == room {
			in = append(in, c)
		}
	}
	return in
}

// Station looks up a station by id.
func (d *Department) Station(id StationID) (Station, bool) {
	i := slices.IndexFunc(d.Stations, func(s Station) bool { return s.ID == id })
	if i < 0 {
		return Station{}, false
	}
	return d.Stations[i], true
}

// RoadKm is the road distance between two stations in kilometres, both ways alike,
// and whether the file states it.
func (d *Department) RoadKm(a, b StationID) (float64, bool) {
	for _, r := range d.Roads {
		if r.A == a && r.B == b || r.A == b && r.B == a {
			return r.Km, true
		}
	}
	return 0, false
}
