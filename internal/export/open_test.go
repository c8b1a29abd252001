package export

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/ledger"
)

// TestOpenDefectAndWhatWasPutRight: a check that is answered ok does not hide that
// a defect stands open, nor that the crew put it right first.
func TestOpenDefectAndWhatWasPutRight(t *testing.T) {
	setup := example(t)
	start := setup.Rota.On(day)[0].Start
	fuel := reading("f", "fuel", check.OK, check.Num(1))
	fuel.Note, fuel.Words = "fixed by the crew", "1 half, topped it off"
	prompt := ledger.Line{Record: bot.Record{ID: "p", Kind: bot.OnPrompt, At: start, Company: "E1", Date: day, Platoon: "C"}}
	open := ledger.Line{Record: bot.Record{ID: "d", Kind: bot.OnDefect, At: start.AddDate(0, 0, -3), Company: "E1", Item: "e1-pump", Check: "throttle",
		Defect: "d", State: "reported", Words: "1 throttle loose"}}
	book := ledger.New(setup, []ledger.Line{prompt, fuel, reading("t", "throttle", check.OK, check.Value{}), open})
	in := InspectionOf(book, Subject{Name: "PU-01", Items: []dept.ItemID{"e1-pump"}}, day, day, start.Add(2*time.Hour))
	if s := in.Items[0].Sums; s.FaultOpen != 1 || s.PutRight != 1 || s.OK != 2 {
		t.Errorf("%+v", s)
	}
	var out bytes.Buffer
	if err := in.HTML(&out); err != nil {
		t.Fatal(err)
	}
	text := plain(out.String())
	for _, want := range []string{
		"DEFECT OPEN: throttle loose · fuel full ok, put right by the crew: “1 half, topped it off” · ok: throttle",
		"PU-01 | throttle loose | 2026-11-22 07:00 | in service |", "1 passed after the crew put it right",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q: %s", want, text)
		}
	}
	if words, bad := in.Items[0].Shifts[0].words(); !bad || !strings.HasPrefix(words, "DEFECT OPEN: throttle loose · fuel full ok, put right") {
		t.Errorf("printed %q, bad: %v", words, bad)
	}
}

func TestOutageEndsWithThePeriod(t *testing.T) {
	setup := example(t)
	start := setup.Rota.On(day)[0].Start
	service := func(days int, state string) ledger.Line {
		return ledger.Line{Record: bot.Record{ID: state, Kind: bot.OnService, At: start.AddDate(0, 0, days), Item: "e1-pump", State: state, Who: "Wim"}}
	}
	book := ledger.New(setup, []ledger.Line{service(-2, "out_of_service"), service(9, "in_service")})
	in := InspectionOf(book, Subject{Items: []dept.ItemID{"e1-pump"}}, day, day, start.AddDate(0, 1, 0))
	if o := in.Items[0].Outages; len(o) != 1 || o[0].Long != "1.0 day of the period" || o[0].To != "still out" || o[0].Back != "" {
		t.Errorf("%+v", o)
	}
}

func TestWorkbookIsDatedByItsNewestRecord(t *testing.T) {
	f := opened(t, Names{}, reading("r1", "fuel", check.OK, check.Num(1)))
	if p, err := f.GetDocProps(); err != nil || p.Created != "2026-11-25T14:05:30Z" || p.Modified != p.Created {
		t.Errorf("%+v %v", p, err)
	}
	cell := cellOf(t, f, "reading", "figure", 2)
	style, err := f.GetCellStyle("reading", cell)
	if shown, _ := f.GetCellValue("reading", cell); shown != "1" || style != 0 || err != nil {
		t.Errorf("a whole figure shows %q in style %d: %v", shown, style, err)
	}
}
