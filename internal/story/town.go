package story

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"crosslay/bot"
	"crosslay/bot/dept"
	"crosslay/internal/terminal"
)

// OnTerminal is the setup with every room and person moved to the terminal
// backend, so that any department can be played without accounts.
func OnTerminal(setup bot.Setup) bot.Setup {
	d := *setup.Dept
	d.Rooms = slices.Clone(d.Rooms)
	for i, r := range d.Rooms {
		if r.Backend != terminal.Name {
			d.Rooms[i].Backend, d.Rooms[i].Address = terminal.Name, "#"+string(r.ID)
		}
	}
	d.People = slices.Clone(d.People)
	for i, p := range d.People {
		if p.Accounts[terminal.Name] == "" {
			accounts := maps.Clone(p.Accounts)
			if accounts == nil {
				accounts = map[string]string{}
			}
			accounts[terminal.Name] = string(p.ID)
			d.People[i].Accounts = accounts
		}
	}
	d.Index()
	setup.Dept = &d
	return setup
}

// NewHall shows a department's rooms and people on a terminal service. The setup
// has been through OnTerminal, or uses the terminal by itself.
func NewHall(d *dept.Department, svc *terminal.Service) *terminal.Hall {
	h := &terminal.Hall{Service: svc}
	for _, r := range d.Rooms {
		if r.Backend == terminal.Name {
			h.Rooms = append(h.Rooms, terminal.Room{Address: r.Address, About: roomAbout(d, r)})
		}
	}
	for _, p := range d.People {
		if account := p.Accounts[terminal.Name]; account != "" {
			h.People = append(h.People, terminal.Person{Account: account, Name: p.Name, About: personAbout(d, p)})
		}
	}
	for _, c := range d.Companies {
		room, _ := d.Room(c.Room)
		h.Companies = append(h.Companies, terminal.Company{ID: string(c.ID), Name: c.Name, Names: c.Names, Room: room.Address})
	}
	return h
}

func roomAbout(d *dept.Department, r dept.Room) string {
	switch r.Purpose {
	case dept.ForShop:
		return "the shop"
	case dept.ForOfficers:
		return "the officers"
	}
	var names []string
	for _, c := range d.CompaniesIn(r.ID) {
		names = append(names, fmt.Sprintf("%s (%s)", c.Name, c.ID))
	}
	return strings.Join(names, ", ")
}

func personAbout(d *dept.Department, p dept.Person) string {
	var roles []string
	for _, r := range p.Roles {
		roles = append(roles, string(r))
	}
	about := strings.Join(roles, " and ")
	if c, ok := d.Company(p.Company); ok {
		about += ", " + c.Name
	}
	if p.Platoon != "" {
		about += ", " + string(p.Platoon) + " shift"
	}
	return about
}
