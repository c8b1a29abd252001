package export

import (
	"bytes"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/config"
	"crosslay/internal/ledger"
)

func example(t *testing.T) bot.Setup {
	t.Helper()
	d := config.Example()
	return bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}
}

var day = dept.Date{Year: 2026, Month: time.November, Day: 25}

// reading is a reading of the example department's first power unit.
func reading(id string, ch check.ID, state check.State, v check.Value) ledger.Line {
	at := time.Date(2026, 11, 25, 14, 5, 30, 0, time.UTC) // 07:05:30 in Denver
	return ledger.Line{Record: bot.Record{ID: id, Kind: bot.OnReading, At: at, Arrived: at, Company: "E1", Date: day, Platoon: "C",
		Item: "e1-pump", Check: ch, State: string(state), Value: v, Words: "said", Who: "Ines Pelluci", Message: "t/m1"}}
}

func opened(t *testing.T, names Names, lines ...ledger.Line) *excelize.File {
	t.Helper()
	w, err := NewWorkbook(names)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lines {
		if err := w.Add(l); err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	if err := w.Write(&out); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&out)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

// cellOf finds the cell of a heading in a row.
func cellOf(t *testing.T, f *excelize.File, sheet, heading string, row int) string {
	t.Helper()
	rows, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for i, h := range rows[0] {
		if h == heading {
			name, _ := excelize.CoordinatesToCellName(i+1, row)
			return name
		}
	}
	t.Fatalf("sheet %s has no column %q: %v", sheet, heading, rows[0])
	return ""
}

func TestWorkbookHasDatesAsDatesAndFiguresAsNumbers(t *testing.T) {
	setup := example(t)
	names := Names{Dept: setup.Dept, Book: setup.Book}
	f := opened(t, names, reading("r1", "fuel", check.OK, check.Num(0.875)), reading("r2", "fluid", check.Fail, check.Word("low")))
	cases := []struct{ heading, raw, shown string }{
		// Excel counts days from 1899-12-30; 46351 is 2026-11-25 (date -u -d '1899-12-30 +46351 days').
		{"said (America/Denver)", "46351.2954861111", "2026-11-25 07:05:30"},
		{"shift date", "46351", "2026-11-25"},
		{"figure", "0.875", "0.875"},
		{"lower limit", "0.75", "0.75"},
		{"unit", "of full", "of full"},
		{"item", "PU-01", "PU-01"},
		{"company", "Engine 1", "Engine 1"},
		{"check", "fuel", "fuel"},
		{"result", "ok", "ok"},
	}
	for _, c := range cases {
		cell := cellOf(t, f, "reading", c.heading, 2)
		raw, err := f.GetCellValue("reading", cell, excelize.Options{RawCellValue: true})
		if err != nil || len(raw) < len(c.raw) || raw[:len(c.raw)] != c.raw {
			t.Errorf("%s (%s) holds %q, want %q %v", c.heading, cell, raw, c.raw, err)
		}
		if shown, _ := f.GetCellValue("reading", cell); shown != c.shown {
			t.Errorf("%s shows %q, want %q", c.heading, shown, c.shown)
		}
		kind, err := f.GetCellType("reading", cell)
		isText := kind == excelize.CellTypeInlineString || kind == excelize.CellTypeSharedString
		if wantText := c.raw[0] > '9'; err != nil || isText != wantText {
			t.Errorf("%s is of type %v, text: %v %v", c.heading, kind, wantText, err)
		}
	}
	if v, _ := f.GetCellValue("reading", cellOf(t, f, "reading", "figure", 3)); v != "" {
		t.Errorf("a word came out as the figure %q", v)
	}
}

func TestWorkbookHasASheetForEachKind(t *testing.T) {
	f := opened(t, Names{}, reading("r1", "fuel", check.OK, check.Num(1)))
	want := []string{"reading", "run", "defect", "service", "reminder", "prompt", "words"}
	have := f.GetSheetList()
	if len(have) != len(want) {
		t.Fatalf("sheets %v", have)
	}
	for i, name := range want {
		if have[i] != name {
			t.Errorf("sheet %d is %s, want %s", i, have[i], name)
		}
		panes, err := f.GetPanes(name)
		if err != nil || !panes.Freeze || panes.YSplit != 1 {
			t.Errorf("%s: the header is not frozen: %+v %v", name, panes, err)
		}
	}
	if v, _ := f.GetCellValue("reading", cellOf(t, f, "reading", "said (UTC)", 2)); v != "2026-11-25 14:05:30" {
		t.Errorf("without a department it was said at %q", v)
	}
}

func TestWorkbookWordsAreNoFormulas(t *testing.T) {
	evil := reading("r1", "fuel", check.OK, check.Num(1))
	evil.Words, evil.Who, evil.Note = `=HYPERLINK("http://x","y")`, "@SUM(1)", "+1\x00\x1b[2J"
	f := opened(t, Names{}, evil)
	for heading, want := range map[string]string{
		"what was written": `'=HYPERLINK("http://x","y")`, "who": "'@SUM(1)", "note": "'+1[2J",
	} {
		cell := cellOf(t, f, "reading", heading, 2)
		if v, _ := f.GetCellValue("reading", cell); v != want {
			t.Errorf("%s is %q, want %q", heading, v, want)
		}
		if formula, _ := f.GetCellFormula("reading", cell); formula != "" {
			t.Errorf("%s has the formula %q", heading, formula)
		}
	}
}

func TestWorkbookRefusesAnUnknownKind(t *testing.T) {
	w, err := NewWorkbook(Names{})
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Add(ledger.Line{Record: bot.Record{ID: "x", Kind: "gossip"}}); err == nil {
		t.Error("gossip has a sheet")
	}
}

func FuzzHarmless(f *testing.F) {
	for _, s := range []string{"", "=1", "+1", "-1", "@x", "\t=1", "\r=1", "\n=1", "\x00=1", "3 dull", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := Harmless(s)
		if got != "" && bytes.ContainsRune([]byte("=+-@\t\r\n"), rune(got[0])) {
			t.Errorf("%q begins like a formula", got)
		}
		if Harmless(got) != got {
			t.Errorf("%q is changed twice", s)
		}
	})
}
