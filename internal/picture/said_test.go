package picture

import (
	"strings"
	"testing"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/ledger"
)

// words are all texts of a page, one a line.
func (p *page) words() string {
	var all []string
	for _, t := range p.texts {
		all = append(all, t.words)
	}
	return strings.Join(all, "\n")
}

func TestBoardThatNobodyWasAskedForHasNoTicks(t *testing.T) {
	b := BoardOf(ledger.New(setup(), nil), setup().Rota.On(day)[0], setup().Rota.On(day)[0].Start)
	for _, tile := range b.tallies() {
		if tile.state != None || tile.figure != "–" && tile.figure != "0/8" {
			t.Errorf("%+v", tile)
		}
	}
}

func TestBoardNamesWhatIsOut(t *testing.T) {
	if words := smallBoard().page().words(); !strings.Contains(words, "OUT: CT-02, Truck 1, crack") {
		t.Error(words)
	}
}

// TestSignAndWordsOfACard speak of the same thing.
func TestSignAndWordsOfACard(t *testing.T) {
	var got []string
	for _, c := range smallBoard().Companies {
		got = append(got, string(c.state())+": "+c.says())
	}
	late := Company{Asked: 3, Answered: 3, Runs: 2, Items: []Item{{"PU-01", Open, "no run"}}}
	for i, want := range []string{"fault: 1 fault, 21 of 21 answered", "out of service: 1 out, 20 of 27 answered", "open: 0 of 17 answered",
		"ok: 24 of 24 answered", "fault: 1 fault, 20 of 20 answered", "open: 2 runs missing, 3 of 3 answered"} {
		if got = append(got, string(late.state())+": "+late.says()); got[i] != want {
			t.Errorf("%q, want %q", got[i], want)
		}
	}
}

// TestOpenDefectKeepsItsWord, also when the shift says nothing of it.
func TestOpenDefectKeepsItsWord(t *testing.T) {
	d := &diary{}
	d.shift(day)
	d.defect(-40, "e1-pump", "oil", "reported")
	d.lines[1].Words = "1 oil low"
	d.good(1, "e1-pump")
	if _, chips := d.chips(2); chips["PU-01"] != (Item{"PU-01", Fault, "engine oil low"}) {
		t.Errorf("%+v", chips["PU-01"])
	}
}

func TestReadingsThatWerePutRight(t *testing.T) {
	d := &diary{}
	d.shift(day)
	d.read(1, "e1-pump", "fuel", check.OK, check.Num(1)).Note = "fixed by the crew"
	y := YearOf(ledger.New(setup(), d.lines), "e1-pump", year(2026), at.AddDate(0, 0, 1))
	if words := y.page().words(); !strings.Contains(words, "every reading in limits, 1 after the crew put it right") {
		t.Error(words)
	}
	if alt := y.Alt(); !strings.Contains(alt, "Fuel: 1 reading, all in limits, 1 after the crew put it right.") {
		t.Error(alt)
	}
}

// TestOpenFaultIsNoGreenDay: checks that are answered ok do not hide a defect that
// stands open, on the month, the year and the board alike.
func TestOpenFaultIsNoGreenDay(t *testing.T) {
	d := &diary{}
	first := dept.Date{Year: 2026, Month: time.November, Day: 1}
	for i := range 4 {
		d.shift(first.AddDays(i))
		for _, it := range setup().Dept.Carried("E1") {
			d.good(1, it.ID)
		}
		if i == 1 {
			d.defect(2, "e1-hose-left", "cover", "reported")
		}
	}
	book, now := ledger.New(setup(), d.lines), d.start().Add(40*time.Hour)
	y := YearOf(book, "e1-hose-left", dept.Date{Year: 2025, Month: time.December, Day: 1}, now)
	m := MonthOf(book, first, now)
	for i, want := range []DayState{Done, Faulty, Faulty, Faulty, NotAsked} {
		date := first.AddDays(i)
		if got := y.Days[date]; got.State != want || got.Fault != (i > 0) {
			t.Errorf("year, day %d: %+v, want %s", i+1, got, want)
		}
		if got := m.Companies[0].Days[i]; got.state() != want || got.Open != min(i, 1) {
			t.Errorf("month, day %d: %+v is %q, want %q", i+1, got, got.state(), want)
		}
	}
	if got := m.page().words(); !strings.Contains(got, "HH-01 · Engine 1\ncover nick, open since Nov 2") || !strings.Contains(got, "4 of 5 days on record") {
		t.Error(got)
	}
	if got := y.page().words(); !strings.Contains(got, "IN SERVICE, cover nick open since Nov 2") {
		t.Error(got)
	}
	b := BoardOf(book, setup().Rota.On(d.date)[0], now)
	if it := b.Companies[0].Items[2]; it.State != Fault || it.Word != "cover nick" {
		t.Errorf("board: %+v", it)
	}
}

// TestNothingIsAllInOrderWithAnItemOut, and days out are counted by the hour.
func TestNothingIsAllInOrderWithAnItemOut(t *testing.T) {
	d := &diary{}
	first := dept.Date{Year: 2026, Month: time.November, Day: 1}
	d.shift(first)
	for _, it := range setup().Dept.Carried("E1") {
		d.good(1, it.ID)
	}
	d.service(2, "e1-pump", "out_of_service", "seized")
	d.service(2+2.3*24, "e1-pump", "in_service", "")
	book := ledger.New(setup(), d.lines)
	m := MonthOf(book, first, at)
	y := YearOf(book, "e1-pump", dept.Date{Year: 2025, Month: time.December, Day: 1}, at)
	if s := m.Companies[0].Days[0]; s.state() != Short {
		t.Errorf("%+v is %q", s, s.state())
	}
	if got := y.Days[first]; got.State != Short || !got.Out {
		t.Errorf("%+v", got)
	}
	if got := y.page().words(); !strings.Contains(got, "2.3\ndays out") || !strings.Contains(got, "IN SERVICE") {
		t.Error(got)
	}
	if got := m.page().words(); !strings.Contains(got, "2.3\nitem days out") || !strings.Contains(got, "seized: 2.3 days, back in service") {
		t.Error(got)
	}
}
