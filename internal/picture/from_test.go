package picture

import (
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/config"
	"crosslay/internal/ledger"
)

var setup = sync.OnceValue(func() bot.Setup {
	d := config.Example()
	return bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}
})

// diary writes records of Engine 1 as a shift would leave them.
type diary struct {
	lines []ledger.Line
	date  dept.Date
}

func (d *diary) start() time.Time { return setup().Rota.On(d.date)[0].Start }

func (d *diary) add(hours float64, r bot.Record) *bot.Record {
	r.ID = fmt.Sprintf("r%d", len(d.lines))
	r.At, r.Company = d.start().Add(time.Duration(hours*float64(time.Hour))), "E1"
	d.lines = append(d.lines, ledger.Line{Record: r})
	return &d.lines[len(d.lines)-1].Record
}

func (d *diary) shift(date dept.Date) dept.Platoon {
	d.date = date
	platoon := setup().Rota.On(date)[0].Platoon
	d.add(0, bot.Record{Kind: bot.OnPrompt, Date: date, Platoon: platoon, State: "asked"})
	return platoon
}

func (d *diary) read(hours float64, item dept.ItemID, id check.ID, state check.State, v check.Value) *bot.Record {
	return d.add(hours, bot.Record{Kind: bot.OnReading, Date: d.date, Platoon: setup().Rota.On(d.date)[0].Platoon,
		Item: item, Check: id, State: string(state), Value: v})
}

// good answers every check of an item that is due.
func (d *diary) good(hours float64, item dept.ItemID) {
	book := ledger.New(setup(), nil)
	for _, ref := range book.Due(item, d.date) {
		c, _ := setup().Book.Of(setup().Dept, ref)
		v := check.Value{}
		if c.Answer.Kind == check.Run {
			v = check.Num(7)
			d.add(hours, bot.Record{Kind: bot.OnRun, Date: d.date, Platoon: setup().Rota.On(d.date)[0].Platoon, Item: item, Check: ref.Check, State: "ok", Value: v})
		}
		if c.Answer.Kind == check.Level {
			v = check.Num(1)
		}
		d.read(hours, item, ref.Check, check.OK, v)
	}
}

func (d *diary) defect(hours float64, item dept.ItemID, id check.ID, state string) {
	d.add(hours, bot.Record{Kind: bot.OnDefect, Item: item, Check: id, Defect: "d", State: state, Words: "left one has a nick"})
}

func (d *diary) service(hours float64, item dept.ItemID, state, note string) {
	d.add(hours, bot.Record{Kind: bot.OnService, Item: item, State: state, Note: note})
}

// chips are the first company's items on the board so many hours into the shift.
func (d *diary) chips(hours float64) (Company, map[string]Item) {
	shift := setup().Rota.On(day)[0]
	b := BoardOf(ledger.New(setup(), d.lines), shift, shift.Start.Add(time.Duration(hours*float64(time.Hour))))
	chips := map[string]Item{}
	for _, it := range b.Companies[0].Items {
		chips[it.Number] = it
	}
	return b.Companies[0], chips
}

func TestBoardNeverPassesWhatNobodySaid(t *testing.T) {
	d := &diary{}
	d.shift(day)
	d.good(1, "e1-combi")
	d.good(1, "e1-hose-left")
	d.read(1.5, "e1-hose-left", "cover", check.Fail, check.Value{}).Note = "nick"
	d.good(1, "e1-pump")
	for i := range d.lines { // the run was too short
		if l := &d.lines[i]; l.Item == "e1-pump" && l.Check == "run" {
			l.State, l.Value, l.Note = "fault", check.Num(3), "low"
		}
	}
	d.read(1, "e1-saw", "fuel", check.Unsure, check.Value{})
	c, chips := d.chips(2)
	for number, want := range map[string]Item{
		"CT-01": {"CT-01", OK, ""}, "HH-01": {"HH-01", Fault, "cover nick"}, "HH-02": {"HH-02", Open, "2 open"},
		"PU-01": {"PU-01", Fault, "warm-up run low"}, "CS-01": {"CS-01", Unsure, ""},
	} {
		if chips[number] != want {
			t.Errorf("%s is %+v, want %+v", number, chips[number], want)
		}
	}
	// 4 of the combi, 2 of one hose and 7 of the pump are answered; the other
	// hose and the saw are not, and no engine has run.
	if c.Answered != 4+2+7 || c.Answered >= c.Asked || c.Runs != 2 || c.Ran != 0 {
		t.Errorf("%d of %d answered, %d of %d runs", c.Answered, c.Asked, c.Ran, c.Runs)
	}
}

func TestBoardOutAndRepaired(t *testing.T) {
	d := &diary{}
	d.shift(day)
	d.good(1, "e1-hose-left")
	d.read(1.5, "e1-hose-left", "cover", check.Fail, check.Value{}).Note = "cut"
	d.defect(1.5, "e1-hose-left", "cover", "reported")
	d.service(1.5, "e1-hose-left", "out_of_service", "cut")
	d.defect(6, "e1-hose-left", "cover", "repaired")
	d.service(7, "e1-hose-left", "in_service", "")
	for hours, want := range map[float64]Item{
		2: {"HH-01", Out, "cover cut"}, 6.5: {"HH-01", Out, "cover cut"}, 8: {"HH-01", Open, "repaired, look"},
	} {
		if _, chips := d.chips(hours); chips["HH-01"] != want {
			t.Errorf("after %v h: %+v, want %+v", hours, chips["HH-01"], want)
		}
	}
}

func TestBoardOfCompaniesThatWereNotAsked(t *testing.T) {
	b := BoardOf(ledger.New(setup(), nil), setup().Rota.On(day)[0], setup().Rota.On(day)[0].Start)
	if n := b.sums(); n.checked != 0 || len(b.Companies) == 0 {
		t.Errorf("%d of %d are checked, and nobody was asked", n.checked, len(b.Companies))
	}
	if alt := b.Alt(); !strings.Contains(alt, "nobody was asked") {
		t.Error(alt)
	}
}

func TestYearOfItem(t *testing.T) {
	d := &diary{}
	first := dept.Date{Year: 2026, Month: time.November, Day: 1}
	for i := range 6 {
		d.shift(first.AddDays(i))
		switch i {
		case 0, 1:
			d.good(1, "e1-pump")
		case 2:
			d.read(1, "e1-pump", "run", check.Fail, check.Num(3)).Note = "low"
		case 4:
			d.defect(1, "e1-pump", "throttle", "reported")
			d.service(2, "e1-pump", "out_of_service", "throttle")
		}
	}
	now := d.start().Add(5 * time.Hour)
	y := YearOf(ledger.New(setup(), d.lines), "e1-pump", dept.Date{Year: 2025, Month: time.December, Day: 1}, now)
	want := []DayState{Done, Done, Part, Missed, Missed, Away}
	for i, w := range want {
		if got := y.Days[first.AddDays(i)].State; got != w {
			t.Errorf("day %d is %q, want %q", i+1, got, w)
		}
	}
	if y.OutNow != "since Nov 5: throttle" || y.Shifts != 5 || y.Good != 2 || y.Out != 27*time.Hour || len(y.Defects) != 1 || y.Defects[0].State != Fault || fmt.Sprintf("%.3f", y.Hours) != "0.233" {
		t.Errorf("%d shifts, %d good, out for %v, %v, %v h", y.Shifts, y.Good, y.Out, y.Defects, y.Hours)
	}
	if len(y.Levels.Points) != 2 || y.Levels.Marks[0] != (ScaleMark{0.75, "min 3/4", true}) {
		t.Errorf("levels %+v", y.Levels)
	}
	if day := y.Days[first]; day.Minutes != 7 {
		t.Errorf("the run took %v min", day.Minutes)
	}
}

func TestYearOfItemThatOnlyHasChecks(t *testing.T) {
	d := &diary{}
	first := dept.Date{Year: 2026, Month: time.November, Day: 1}
	for i := range 4 {
		d.shift(first.AddDays(i))
		if i < 3 {
			d.good(1, "e1-hose-left")
		}
		switch i {
		case 1:
			d.read(2, "e1-hose-left", "cover", check.Fail, check.Value{}).Note = "nick"
		case 2:
			d.read(2, "e1-hose-left", "cover", "open", check.Value{}) // taken back
		}
	}
	y := YearOf(ledger.New(setup(), d.lines), "e1-hose-left", dept.Date{Year: 2025, Month: time.December, Day: 1}, d.start().Add(9*time.Hour))
	for i, want := range []DayState{Done, Faulty, Part, Missed} {
		if got := y.Days[first.AddDays(i)].State; got != want {
			t.Errorf("day %d is %q, want %q", i+1, got, want)
		}
	}
	if y.Engine || y.Shifts != 4 || y.Good != 2 || len(y.Levels.Points) != 0 {
		t.Errorf("%+v", y)
	}
}

func TestMonthOfDepartment(t *testing.T) {
	d := &diary{}
	first := dept.Date{Year: 2026, Month: time.November, Day: 1}
	d.shift(first)
	for _, it := range setup().Dept.Carried("E1") {
		d.good(1, it.ID)
	}
	d.shift(first.AddDays(1))
	d.good(1, "e1-pump")
	d.shift(first.AddDays(2))
	d.defect(1, "e1-hose-left", "cover", "reported")
	d.read(-47, "e1-hose-left", "cover", check.Fail, check.Value{}).Date = first // the first day had a fault
	d.lines[len(d.lines)-1].Platoon = setup().Rota.On(first)[0].Platoon
	d.service(1, "e1-hose-left", "out_of_service", "cut")
	m := MonthOf(ledger.New(setup(), d.lines), first, d.start().Add(25*time.Hour))
	row := m.Companies[0]
	for i, want := range []DayState{Faulty, Part, Missed, NotAsked} {
		if got := row.Days[i].state(); got != want {
			t.Errorf("day %d is %q, want %q", i+1, got, want)
		}
	}
	if !row.Days[2].Out || !row.Days[3].Out || row.Days[1].Out || row.Days[4].Out || row.Days[2].Defects != 1 {
		t.Errorf("days %+v", row.Days[:5])
	}
	if m.Runs != 6 || m.Ran != 3 || m.Reported != 1 || m.Repaired != 0 || len(m.Outages) != 1 || !m.Outages[0].Now || m.Outages[0].Days != 1 {
		t.Errorf("runs %d of %d, %d reported, outages %+v", m.Ran, m.Runs, m.Reported, m.Outages)
	}
}

// TestDayAndNightShift: of two shifts of a day the worse one shows.
func TestDayAndNightShift(t *testing.T) {
	d := &diary{}
	first := dept.Date{Year: 2026, Month: time.November, Day: 1}
	d.shift(first)
	d.good(1, "e1-hose-left")
	d.good(1, "e1-pump")
	night := d.add(10, bot.Record{Kind: bot.OnPrompt, Date: first, Platoon: "N"}) // and nobody answers
	book, now := ledger.New(setup(), d.lines), night.At.Add(9*time.Hour)
	for item, want := range map[dept.ItemID]DayState{"e1-hose-left": Missed, "e1-pump": Missed} {
		y := YearOf(book, item, dept.Date{Year: 2025, Month: time.December, Day: 1}, now)
		if got := y.Days[first].State; got != want || y.Shifts != 2 || y.Good != 1 {
			t.Errorf("%s: %q, %d of %d shifts", item, got, y.Good, y.Shifts)
		}
	}
	m := MonthOf(book, first, now)
	if s := m.Companies[0].Days[0]; s.state() != Part || s.Due == 0 || s.Settled != 2+8 {
		t.Errorf("%+v", s)
	}
}

func TestSource(t *testing.T) {
	for _, s := range []Source{
		{Kind: OfBoard, Date: day, Platoon: "A"}, {Kind: OfItem, Date: day, Item: "e1-pump"},
		{Kind: OfMonth, Date: dept.Date{Year: 2026, Month: 11, Day: 1}},
	} {
		got, err := ParseSource(s.String())
		if err != nil || got != s {
			t.Errorf("%s came back as %+v %v", s, got, err)
		}
	}
	for text, want := range map[string]string{
		"draw:board/2026-11-25/A": "board-2026-11-25-A.png", "draw:item/e1-pump/2026-11-25": "item-e1-pump-2026-11-25.png", "draw:month/2026-11": "month-2026-11.png",
	} {
		if s, err := ParseSource(text); err != nil || s.String() != text || s.File() != want {
			t.Errorf("%s: %+v %s %v", text, s, s.File(), err)
		}
	}
	for _, text := range []string{"", "draw:", "board/2026-11-25/A", "draw:board/2026-11-25", "draw:board/2026-13-01/A", "draw:board/2026-11-25/",
		"draw:item//2026-11-25", "draw:month/2026", "draw:cat/2026-11", "draw:month/2026-11/x"} {
		if s, err := ParseSource(text); err == nil {
			t.Errorf("%q was read as %+v", text, s)
		}
	}
}

func FuzzParseSource(f *testing.F) {
	f.Add("draw:board/2026-11-25/A")
	f.Add("draw:item/e1-pump/2026-11-25")
	f.Fuzz(func(t *testing.T, text string) {
		if s, err := ParseSource(text); err == nil && s.String() != text {
			t.Errorf("%q came back as %q", text, s.String())
		}
	})
}
