package picture

import (
	"fmt"
	"time"

	"crosslay/bot/dept"
)

// samples are pages of every kind, with few and with many of everything.
func samples() map[string]*page {
	return map[string]*page{
		"board":       smallBoard().page(),
		"board_many":  bigBoard(40, 6).page(),
		"board_dawn":  dawnBoard().page(),
		"board_long":  longBoard().page(),
		"year":        smallYear().page(),
		"year_long":   longYear().page(),
		"year_hose":   hoseYear().page(),
		"year_bare":   Year{Number: "PU-09", First: year(2026), Last: day}.page(),
		"month":       bigMonth(8, "Engine %d").page(),
		"month_many":  bigMonth(40, "Engine %d").page(),
		"month_long":  bigMonth(40, "Heavy Technical Rescue and Hazardous Materials Company %d, North Annex").page(),
		"month_bare":  Month{Department: "Dunmere", First: dept.Date{Year: 2026, Month: 2, Day: 1}, AsOf: at}.page(),
		"board_mixed": mixedBoard().page(),
		"month_mixed": mixedMonth().page(),
		"board_bare":  Board{Department: "Dunmere", Date: day, Platoon: "A", AsOf: at}.page(),
	}
}

var (
	day = dept.Date{Year: 2026, Month: time.November, Day: 25}
	at  = time.Date(2026, time.November, 25, 8, 30, 0, 0, time.UTC)
)

func smallBoard() Board {
	return Board{Department: "Dunmere Fire Department", Date: day, Platoon: "C", AsOf: at, Companies: []Company{
		{"Engine 1", 21, 21, 2, 2, []Item{{"PU-01", OK, ""}, {"CT-01", OK, ""}, {"HH-01", Fault, "cover nick"}, {"HH-02", OK, ""}, {"CS-01", OK, ""}}},
		{"Truck 1", 27, 20, 2, 1, []Item{{"PU-02", Open, "no run"}, {"CT-02", Out, "crack"}, {"HH-03", OK, ""}, {"CS-02", Open, "3 open"}, {"RS-01", Unsure, "asked back"}, {"FN-01", OK, ""}, {"GN-01", OK, ""}}},
		{"Engine 2", 17, 0, 2, 0, []Item{{"CS-03", Open, "5 open"}, {"FN-02", Open, "4 open"}, {"GM-01", Open, "3 open"}, {"TC-01", Open, "2 open"}, {"AE-01", Open, "3 open"}}},
		{"Rescue 2", 24, 24, 2, 2, []Item{{"PU-03", OK, ""}, {"CT-03", OK, ""}, {"HH-04", OK, ""}, {"HH-05", OK, ""}, {"RS-02", OK, ""}, {"GN-02", OK, ""}, {"GM-02", OK, ""}}},
		{"Engine 3", 20, 20, 2, 2, []Item{{"PU-04", Fault, "fuel low"}, {"CT-04", OK, ""}, {"HH-06", OK, ""}, {"AP-31", OK, ""}, {"AP-32", OK, ""}, {"AE-02", OK, ""}}},
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

func year(y int) dept.Date { return dept.Date{Year: y, Month: time.January, Day: 1} }

func smallYear() Year {
	y := Year{Department: "Dunmere Fire Department", Number: "PU-01", What: "power unit", Company: "Engine 1", First: year(2026), Last: day,
		Engine: true, Min: 5, Hours: 37.5, Shifts: 328, Good: 290, Out: 100 * time.Hour, Days: map[dept.Date]Day{}}
	y.Levels = Levels{Label: "Fuel", Top: 1, Marks: []ScaleMark{{0.75, "min 3/4", true}, {0, "empty", false}, {1, "full", false}}}
	for i := range 328 {
		d := Day{State: Done, Minutes: float64(5 + i%6)}
		switch i % 23 {
		case 3:
			d = Day{State: Missed}
		case 11:
			d = Day{State: Part, Minutes: 2}
		}
		if i >= 120 && i < 124 {
			d = Day{State: Away, Out: true}
		}
		if i >= 250 {
			if d.Fault = true; d.State == Done {
				d.State = Faulty
			}
		}
		d.Defect = i == 119 || i == 250
		y.Days[y.First.AddDays(i)] = d
		level := 1 - float64(i%9)/20
		y.Levels.Points = append(y.Levels.Points, Level{At: at.AddDate(0, 0, i-328), Is: level, Bad: level < 0.75})
	}
	y.Faults = []string{"throttle loose open since Sep 8"}
	y.Defects = []Defect{{Fault, "throttle: “loose”", "reported Sep 8, open"}, {OK, "leaks: “drips from the hose”", "reported Apr 30, repaired May 3, confirmed May 4"}}
	return y
}

func longYear() Year {
	y := smallYear()
	y.Department, y.Company = longBoard().Department, longBoard().Companies[0].Name
	y.Number, y.What = "Hydraulic power unit, officer side 21/7", "hydraulic power unit with two outlets and a reel"
	y.Hours, y.Levels.Label = 12345.6, "Fuel in the tank that stands nearest to the officer's side compartment"
	y.Levels.Marks = []ScaleMark{{0.75, "min 7.50 US gallons", true}, {0.8, "max 8.00 US gallons", true}, {0, "0.00 US gallons", false}, {1, "10.00 US gallons", false}}
	y.OutNow = "since Sep 8: the throttle moves by hand and nobody knows what became of the bolt that held it"
	for range 12 {
		y.Defects = append(y.Defects, Defect{OK, "hose connection: “will not go on however hard anybody pushes, tried twice with both hoses”",
			"reported Jan 3, waiting for parts Jan 4, at the shop Jan 9, repaired Jan 20, again Feb 2, repaired Feb 9, confirmed Feb 10"})
	}
	return y
}

// hoseYear is an item without an engine and without figures.
func hoseYear() Year {
	y := smallYear()
	y.Number, y.What, y.Engine, y.Levels, y.Defects = "HH-01", "hydraulic hose", false, Levels{}, nil
	for i := 250; i < 260; i++ {
		y.Days[y.First.AddDays(i)] = Day{State: Faulty, Defect: i == 250}
	}
	return y
}

func bigMonth(companies int, name string) Month {
	m := Month{Department: "Dunmere Fire Department", First: dept.Date{Year: 2026, Month: time.November, Day: 1}, AsOf: at, Runs: 800, Ran: 760, Reported: 9, Repaired: 7,
		Recorded: 23, Begun: 25, Faults: []OpenFault{{"RS-03 · Ladder 3", "blade chip, open since Nov 8"}, {"PU-04 · Engine 3", "fuel low, open since Nov 21"}},
		Outages: []OutItem{{"CT-02 · Truck 1", "crack", 6.4, false}, {"AP-42 · Engine 4", "leak", 25, true}}}
	for i := range companies {
		r := MonthRow{Name: fmt.Sprintf(name, i+1)}
		for d := range 25 {
			r.Days[d] = Square{Due: 20, Settled: 20, Out: (d+i)%17 == 5}
			switch (d*7 + i*3) % 19 {
			case 0:
				r.Days[d].Settled = 0
			case 1, 2:
				r.Days[d].Settled = 13
			case 3:
				r.Days[d].Defects, r.Days[d].Faults = 1, 1
			case 10:
				r.Days[d].Faults = 2
			case 11:
				r.Days[d].Open = 1
			}
		}
		m.Companies = append(m.Companies, r)
	}
	return m
}

// mixedBoard has short names and long ones side by side, as most departments do.
func mixedBoard() Board {
	b := bigBoard(40, 6)
	for i := range b.Companies {
		if i%3 == 0 {
			b.Companies[i].Name += " Technical Rescue Support"
		}
		if i%5 == 0 {
			b.Companies[i].Items[4].Number += " officer side rear"
		}
	}
	return b
}

func mixedMonth() Month {
	m := bigMonth(40, "Engine %d")
	for i := range m.Companies {
		if i%3 == 0 {
			m.Companies[i].Name += " Technical Rescue Support"
		}
	}
	return m
}
