package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/ledger"
	"crosslay/internal/outbox"
	"crosslay/internal/picture"
	"crosslay/internal/sqlite"
	"crosslay/internal/story"
)

// rehearsed is a database of so many days of made-up crews.
func rehearsed(t *testing.T, days int) string {
	t.Helper()
	setup, err := load("")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "c.db")
	w, err := story.New(setup, path, story.BeforeChange(setup, firstDay), story.Options{Fast: true})
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	if _, err := story.Simulate(w, days, 7); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestExports(t *testing.T) {
	db, dir := rehearsed(t, 5), t.TempDir()
	to := func(name string) string { return filepath.Join(dir, name) }
	cases := map[string]struct {
		args  []string
		code  int
		says  string
		file  string // that it writes
		begin string // of the file
	}{
		"board":           {[]string{"picture", "board", "--db", db, "--date", "2026-01-06", "-o", to("b.png")}, exitOK, "Board of Quillwater", to("b.png"), "\x89PNG"},
		"board_platoon":   {[]string{"picture", "board", "--db", db, "--date", "2026-01-06", "--platoon", "z", "-o", to("z.png")}, exitWrong, "platoon z begins no shift", "", ""},
		"board_bad_day":   {[]string{"picture", "board", "--db", db, "--date", "yesterday"}, exitWrong, "is not a date", "", ""},
		"item":            {[]string{"picture", "item", "pu-01", "--db", db, "--to", "2026-01-31", "-o", to("i.png")}, exitOK, "Year of PU-01", to("i.png"), "\x89PNG"},
		"item_unknown":    {[]string{"picture", "item", "PU-77", "--db", db}, exitWrong, `no item "PU-77"`, "", ""},
		"month":           {[]string{"picture", "month", "2026-01", "--db", db, "-o", to("m.png")}, exitOK, "January 2026", to("m.png"), "\x89PNG"},
		"month_bad":       {[]string{"picture", "month", "January", "--db", db}, exitWrong, "is not a month", "", ""},
		"no_such_dir":     {[]string{"picture", "month", "2026-01", "--db", db, "-o", to("no/m.png")}, exitWrong, "no/m.png", "", ""},
		"xlsx":            {[]string{"records", "--db", db, "--format", "xlsx", "-o", to("r.xlsx")}, exitOK, "", to("r.xlsx"), "PK"},
		"csv":             {[]string{"records", "--db", db, "--format", "csv", "--kind", "run", "-o", to("r.csv")}, exitOK, "", to("r.csv"), "id,kind"},
		"unknown_kind":    {[]string{"records", "--db", db, "--kind", "gossip"}, exitUsage, "reading", "", ""},
		"unknown_item":    {[]string{"records", "--db", db, "--item", "e9-pump"}, exitWrong, "no such record about e9-pump", "", ""},
		"inspection_html": {[]string{"inspection", "HH-01", "--db", db, "--from", "2026-01-05", "--to", "2026-01-08", "-o", to("h.html")}, exitOK, "", to("h.html"), "<!doctype html>"},
		"inspection_pdf":  {[]string{"inspection", "engine 1", "--db", db, "--from", "2026-01-05", "--to", "2026-01-08", "-o", to("h.pdf")}, exitOK, "", to("h.pdf"), "%PDF"},
		"inspection_who":  {[]string{"inspection", "Engine 77", "--db", db}, exitWrong, "neither an item nor a company", "", ""},
		"inspection_when": {[]string{"inspection", "HH-01", "--db", db, "--from", "2026-02-01", "--to", "2026-01-01"}, exitWrong, "lies before", "", ""},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			code, out, errs := cross(t, c.args...)
			if code != c.code || !strings.Contains(out+errs, c.says) {
				t.Errorf("%v: code %d\n%s%s", c.args, code, out, errs)
			}
			if c.file == "" {
				return
			}
			data, err := os.ReadFile(c.file)
			if err != nil || !bytes.HasPrefix(data, []byte(c.begin)) {
				t.Errorf("%s begins with %.20q %v", c.file, data, err)
			}
		})
	}
	t.Run("sheets_hold_every_record", func(t *testing.T) { sheetsHold(t, db, to("r.xlsx")) })
	t.Run("boards_ask_what_the_bot_asked", func(t *testing.T) { boardsAgree(t, db) })
	t.Run("boards_count_what_summaries_say", func(t *testing.T) { summariesAgree(t, db) })
	t.Run("painter", func(t *testing.T) { paints(t, db) })
}

// sheetsHold counts the rows of the workbook against the lines of the other
// format.
func sheetsHold(t *testing.T, db, path string) {
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		_, out, _ := cross(t, "records", "--db", db, "--kind", sheet)
		if n := strings.Count(out, "\n"); n != len(rows)-1 {
			t.Errorf("sheet %s has %d records, there are %d", sheet, len(rows)-1, n)
		}
	}
}

// boardsAgree: what a board counts as asked is what the engine numbered in the
// prompt, which is found by other code and stands on record.
func boardsAgree(t *testing.T, db string) {
	setup, err := load("")
	if err != nil {
		t.Fatal(err)
	}
	store := readOnly(t, db)
	asked := map[string]string{}
	err = store.Records(t.Context(), sqlite.Filter{Kind: bot.OnPrompt}, func(r bot.Record, _ string) error {
		c, _ := setup.Dept.Company(r.Company)
		asked[r.Date.String()+" "+c.Name] = r.Note
		return nil
	})
	if err != nil || len(asked) == 0 {
		t.Fatalf("%d prompts, %v", len(asked), err)
	}
	for day := range 5 {
		shift := setup.Rota.On(firstDay.AddDays(day))[0]
		source := picture.Source{Kind: picture.OfBoard, Date: shift.Date, Platoon: shift.Platoon}
		d, err := drawingOf(t.Context(), setup, store, source, shift.Start.Add(time.Second))
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range d.(picture.Board).Companies {
			if got, want := fmt.Sprintf("%d checks", c.Asked+c.Runs), asked[shift.Date.String()+" "+c.Name]; got != want {
				t.Errorf("%s %s: the board has %s, the prompt %s", shift.Date, c.Name, got, want)
			}
		}
	}
}

// summariesAgree: what a board counts at the instant of a morning summary is
// what the summary said, which the engine counts from its standings.
func summariesAgree(t *testing.T, db string) {
	setup, err := load("")
	if err != nil {
		t.Fatal(err)
	}
	store := readOnly(t, db)
	sent, err := store.Outgoing(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, o := range sent {
		if o.Message.Kind != chat.Summary || !strings.Contains(o.Message.Plain(), " checked, ") {
			continue
		}
		compared++
		book, shift := asOf(t, setup, store, o.Queued), setup.Rota.At(o.Queued)
		checked, out, defects := 0, 0, 0
		b := picture.BoardOf(book, shift, o.Queued)
		for _, c := range b.Companies {
			if c.Answered == c.Asked {
				checked++
			}
			for _, it := range c.Items {
				if it.State == picture.Out {
					out++
				}
			}
		}
		for _, life := range book.Lives {
			if life.OpenAt(o.Queued) {
				defects++
			}
		}
		want := fmt.Sprintf("%d of %d checked, %d out of service, %d open defect", checked, len(b.Companies), out, defects)
		if !strings.Contains(o.Message.Plain(), want) {
			t.Errorf("the board has %s; said was\n%s", want, o.Message.Plain())
		}
	}
	if compared == 0 {
		t.Error("there is no summary")
	}
}

// asOf is what was on record at an instant.
func asOf(t *testing.T, setup bot.Setup, store *sqlite.Store, at time.Time) *ledger.Book {
	t.Helper()
	var lines []ledger.Line
	known := map[string]bool{}
	err := store.Records(t.Context(), sqlite.Filter{}, func(r bot.Record, by string) error {
		if known[r.ID] = !r.Arrived.After(at); known[r.ID] {
			lines = append(lines, ledger.Line{Record: r, SupersededBy: by})
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for i := range lines {
		if !known[lines[i].SupersededBy] {
			lines[i].SupersededBy = ""
		}
	}
	return ledger.New(setup, lines)
}

func readOnly(t *testing.T, db string) *sqlite.Store {
	t.Helper()
	store, err := sqlite.Open(db, sqlite.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { store.Close() })
	return store
}

// paints draws what messages name, as the outbox has it drawn.
func paints(t *testing.T, db string) {
	setup, err := load("")
	if err != nil {
		t.Fatal(err)
	}
	var draw outbox.Painter = painter(func() bot.Setup { return setup }, readOnly(t, db))
	for _, name := range []string{"draw:board/2026-01-07/A", "draw:item/e1-pump/2026-01-07", "draw:month/2026-01"} {
		pic, err := draw(context.Background(), name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if _, err := png.Decode(bytes.NewReader(pic.Data)); err != nil || pic.Type != "image/png" || pic.Alt == "" || !strings.HasSuffix(pic.Name, ".png") {
			t.Errorf("%s: %v, %q %q %q", name, err, pic.Type, pic.Name, pic.Alt)
		}
	}
	for _, name := range []string{"draw:item/e9-pump/2026-01-07", "draw:board/2026-01-07/Z", "draw:nothing", ""} {
		if pic, err := draw(context.Background(), name); err == nil {
			t.Errorf("%q was drawn: %s", name, pic.Alt)
		}
	}
}

// TestCSVIsNoFormula: what people type must not run in a spreadsheet; the JSON
// lines keep it as it was.
func TestCSVIsNoFormula(t *testing.T) {
	r := bot.Record{ID: "r", Kind: bot.OnWords, Words: "=cmd|' /C calc'!A0", Who: "@ana", Note: "-1+1"}
	var csv, lines bytes.Buffer
	write, flush := csvLines(&csv)
	if err := errors.Join(write(r, ""), flush()); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{",'=cmd|' /C calc'!A0,", ",'@ana,", ",'-1+1"} {
		if !strings.Contains(csv.String(), want) {
			t.Errorf("the table lacks %q: %s", want, csv.String())
		}
	}
	write, flush = jsonLines(&lines)
	if err := errors.Join(write(r, ""), flush()); err != nil || !strings.Contains(lines.String(), `"words":"=cmd|' /C calc'!A0"`) {
		t.Errorf("%s %v", lines.String(), err)
	}
}

func TestPeriodOfAnInspection(t *testing.T) {
	now := time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)
	for name, c := range map[string]struct{ from, to, first, last string }{
		"a_year_up_to_today": {"", "", "2025-11-26", "2026-11-25"},
		"a_year_up_to_a_day": {"", "2026-02-28", "2025-03-01", "2026-02-28"},
		"both":               {"2026-01-01", "2026-01-01", "2026-01-01", "2026-01-01"},
	} {
		from, to, err := (&inspectionCmd{From: c.from, To: c.to}).period(now)
		if err != nil || from.String() != c.first || to.String() != c.last {
			t.Errorf("%s: %s to %s %v", name, from, to, err)
		}
	}
	if _, _, err := (&inspectionCmd{From: "soon"}).period(now); err == nil {
		t.Error("soon is a day")
	}
}
