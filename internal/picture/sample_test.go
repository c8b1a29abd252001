package picture

import (
	"fmt"
	"time"

	"crosslay/bot/dept"
)

// samples are pages of every kind, with few and with many of everything.
func samples() map[string]*page {
	return map[string]*page{
		"board":      smallBoard().page(),
		"board_many": bigBoard(40, 6).page(),
		"board_dawn": dawnBoard().page(),
		"board_long": longBoard().page(),
		"board_bare": Board{Department: "Dunmere", Date: day, Platoon: "A", AsOf: at}.page(),
	}
}

var (
	day = dept.Date{Year: 2026, Month: time.November, Day: 25}
	at  = time.Date(2026, time.November, 25, 8, 30, 0, 0, time.UTC)
)

func smallBoard() Board {
	return Board{Department: "Dunmere Fire Department", Date: day, Platoon: "C", AsOf: at, Companies: []Company{
		{"Engine 1", 21, 21, []Item{{"PU-01", OK, ""}, {"CT-01", OK, ""}, {"HH-01", Fault, "cover nick"}, {"HH-02", OK, ""}, {"CS-01", OK, ""}}},
		{"Truck 1", 27, 20, []Item{{"PU-02", Open, "no run"}, {"CT-02", Out, "crack"}, {"HH-03", OK, ""}, {"CS-02", Open, "3 open"}, {"RS-01", Unsure, "asked back"}, {"FN-01", OK, ""}, {"GN-01", OK, ""}}},
		{"Engine 2", 17, 0, []Item{{"CS-03", Open, "5 open"}, {"FN-02", Open, "4 open"}, {"GM-01", Open, "3 open"}, {"TC-01", Open, "2 open"}, {"AE-01", Open, "3 open"}}},
		{"Rescue 2", 24, 24, []Item{{"PU-03", OK, ""}, {"CT-03", OK, ""}, {"HH-04", OK, ""}, {"HH-05", OK, ""}, {"RS-02", OK, ""}, {"GN-02", OK, ""}, {"GM-02", OK, ""}}},
		{"Engine 3", 20, 20, []Item{{"PU-04", Fault, "fuel low"}, {"CT-04", OK, ""}, {"HH-06", OK, ""}, {"AP-31", OK, ""}, {"AP-32", OK, ""}, {"AE-02", OK, ""}}},
	}}
}

func bigBoard(companies, items int) Board {
	b := Board{Department: "Dunmere Fire Department", Date: day, Platoon: "A", AsOf: at}
	for i := range companies {
		c := Company{Name: fmt.Sprintf("Engine %d", i+1), Asked: 20, Answered: 20}
		for j := range items {
			c.Items = append(c.Items, Item{Number: fmt.Sprintf("PU-%d%d", i+1, j+1), State: OK})
		}
		switch i % 8 {
		case 3:
			c.Items[1] = Item{c.Items[1].Number, Out, "cut"}
		case 5:
			c.Items[0] = Item{c.Items[0].Number, Fault, "throttle loose"}
			c.Answered = 19
		case 6:
			c.Answered = 0
			for j := range c.Items {
				c.Items[j].State, c.Items[j].Word = Open, "4 open"
			}
		}
		b.Companies = append(b.Companies, c)
	}
	return b
}

// dawnBoard is the first minute of a shift: nobody has answered.
func dawnBoard() Board {
	b := bigBoard(40, 5)
	for i := range b.Companies {
		b.Companies[i].Answered = 0
		for j := range b.Companies[i].Items {
			b.Companies[i].Items[j].State, b.Companies[i].Items[j].Word = Open, ""
		}
	}
	return b
}

// longBoard has names as departments with a sense of history give them.
func longBoard() Board {
	b := bigBoard(40, 6)
	b.Department = "Consolidated Fire and Rescue District of Upper Dunmere, Quillwater and the Seven Parishes"
	for i := range b.Companies {
		c := &b.Companies[i]
		c.Name = fmt.Sprintf("Heavy Technical Rescue and Hazardous Materials Company %d, North Annex", i+1)
		for j := range c.Items {
			c.Items[j].Number = fmt.Sprintf("Hydraulic power unit, officer side %d/%d", i+1, j+1)
			if c.Items[j].State == Fault {
				c.Items[j].Word = "hydraulic fluid low for the second time in fourteen days, hose connection will not lock"
			}
		}
	}
	return b
}
