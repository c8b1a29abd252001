package picture

import (
	"strings"
	"testing"

	"crosslay/bot/check"
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
	if alt := y.Alt(); !strings.Contains(alt, "1 reading, 0 of them out of limits, 1 in limits after the crew put it right.") {
		t.Error(alt)
	}
}
