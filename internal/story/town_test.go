package story

import (
	"testing"

	"crosslay/bot"
	"crosslay/bot/dept"
	"crosslay/internal/terminal"
)

func TestOnTerminal_moves_rooms_and_people(t *testing.T) {
	d := &dept.Department{
		Rooms: []dept.Room{
			{ID: "shop", Purpose: dept.ForShop, Backend: "elsewhere", Address: "C0001"},
			{ID: "officers", Purpose: dept.ForOfficers, Backend: terminal.Name, Address: "#chiefs"},
		},
		People: []dept.Person{
			{ID: "ana", Accounts: map[string]string{"elsewhere": "U0001"}},
			{ID: "wim", Accounts: map[string]string{terminal.Name: "wimt"}},
			{ID: "bo"},
		},
	}
	d.Index()
	moved := OnTerminal(bot.Setup{Dept: d}).Dept
	for address, id := range map[string]dept.RoomID{"#shop": "shop", "#chiefs": "officers"} {
		if r, ok := moved.RoomAt(terminal.Name, address); !ok || r.ID != id {
			t.Errorf("%s is %+v", address, r)
		}
	}
	for account, id := range map[string]dept.PersonID{"ana": "ana", "wimt": "wim", "bo": "bo"} {
		if p, ok := moved.PersonAt(terminal.Name, account); !ok || p.ID != id {
			t.Errorf("%s is %+v", account, p)
		}
	}
	if d.Rooms[0].Backend != "elsewhere" || len(d.People[0].Accounts) != 1 {
		t.Error("the department that was handed in is changed")
	}
	if hall := NewHall(moved, terminal.NewService("t", nil)); len(hall.Rooms) != 2 || len(hall.People) != 3 {
		t.Errorf("hall %+v", hall)
	}
}
