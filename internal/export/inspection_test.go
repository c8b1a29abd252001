package export

import (
	"bytes"
	"html"
	"regexp"
	"strings"
	"testing"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/internal/ledger"
)

// week is a week of Engine 1's first power unit, with one of everything that an
// inspector asks about.
func week(t *testing.T) (Inspection, *ledger.Book) {
	t.Helper()
	setup := example(t)
	var lines []ledger.Line
	var date dept.Date
	add := func(hours float64, r bot.Record, by string) {
		shift := setup.Rota.On(date)[0]
		r.At, r.Company, r.Platoon = shift.Start.Add(time.Duration(hours*float64(time.Hour))), "E1", shift.Platoon
		if r.Date = date; r.Kind == bot.OnDefect || r.Kind == bot.OnService {
			r.Date, r.Platoon = dept.Date{}, ""
		}
		if r.ID == "" {
			r.ID = string(r.Kind) + r.At.String() + string(r.Check) + r.State
		}
		lines = append(lines, ledger.Line{Record: r, SupersededBy: by})
	}
	prompt := func(day int) {
		date = dept.Date{Year: 2026, Month: 11, Day: day}
		add(0, bot.Record{Kind: bot.OnPrompt}, "")
	}
	read := func(hours float64, id check.ID, state, note string, v check.Value) {
		add(hours, bot.Record{Kind: bot.OnReading, Item: "e1-pump", Check: id, State: state, Note: note, Value: v, Who: "Ines Pelluci"}, "")
	}
	step := func(hours float64, state, words string) {
		add(hours, bot.Record{Kind: bot.OnDefect, Item: "e1-pump", Check: "throttle", Defect: "d", State: state, Words: words, Who: "Wim Torvalley"}, "")
	}
	prompt(16) // everything but the run
	for _, c := range []check.ID{"oil", "fluid", "valve", "connection", "leaks"} {
		read(0.2, c, "ok", "by a blanket answer", check.Value{})
	}
	read(0.3, "throttle", "ok", "", check.Value{})
	add(0.25, bot.Record{ID: "old", Kind: bot.OnReading, Item: "e1-pump", Check: "fuel", State: "ok", Value: check.Num(1), Who: "Ravi Nandor"}, "new")
	add(0.5, bot.Record{ID: "new", Supersedes: "old", Kind: bot.OnReading, Item: "e1-pump", Check: "fuel", State: "fault", Value: check.Num(0.5), Who: "Ines Pelluci"}, "")
	prompt(17) // a fault, and out of service
	read(0.1, "throttle", "fault", "loose", check.Value{})
	step(0.1, "reported", "throttle <b>slips</b>")
	add(0.1, bot.Record{Kind: bot.OnService, Item: "e1-pump", State: "out_of_service", Note: "throttle", Who: "Ines Pelluci"}, "")
	add(3, bot.Record{Kind: bot.OnWords, State: "not_understood", Words: "=the thing 👍 rattles", Who: "Ravi Nandor"}, "")
	prompt(18) // out
	step(2, "repaired", "new bolt")
	add(3, bot.Record{Kind: bot.OnService, Item: "e1-pump", State: "in_service", Who: "Wim Torvalley"}, "")
	prompt(19) // nobody says anything
	// nobody is asked on the 20th
	prompt(21) // a run
	read(0.5, "run", "ok", "", check.Num(7))
	add(0.5, bot.Record{Kind: bot.OnRun, Item: "e1-pump", Check: "run", State: "ok", Value: check.Num(7)}, "")
	prompt(22) // on duty while the record is made
	book := ledger.New(setup, lines)
	s := Subject{Name: "PU-01 power unit", Items: []dept.ItemID{"e1-pump"}, Company: "E1"}
	from, to := dept.Date{Year: 2026, Month: 11, Day: 16}, dept.Date{Year: 2026, Month: 11, Day: 22}
	return InspectionOf(book, s, from, to, setup.Rota.On(to)[0].Start.Add(time.Hour)), book
}

func TestInspectionCounts(t *testing.T) {
	in, _ := week(t)
	got := in.Items[0].Sums
	got.Hours = float64(int(got.Hours*1000)) / 1000
	// Eight checks a shift, asked on five days and not on the one out of service:
	// 8 + 1 + 0 + 1 + 0 spoken of, less the run of the 16th.
	want := Sums{Shifts: 5, Full: 0, Partly: 3, None: 2, Out: 1, OK: 7, Fault: 2, Open: 31, Blanket: 5, Engine: true, RunsDue: 5, RunsGood: 1, Hours: 0.116}
	if got != want {
		t.Errorf("sums\n %+v, want\n %+v", got, want)
	}
	if got.OK+got.Fault+got.Unsure+got.Open != 8*got.Shifts {
		t.Errorf("%+v do not add up to the checks that were due", got)
	}
	if got := in.Items[0].Unrecorded; !strings.HasPrefix(got, "2026-11-20 ") || strings.Contains(got, "to") {
		t.Errorf("no record of %q", got)
	}
}

func TestInspectionPage(t *testing.T) {
	in, _ := week(t)
	var out bytes.Buffer
	if err := in.HTML(&out); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(out.String(), "<b>slips") {
		t.Error("what people write is taken for HTML")
	}
	text := plain(out.String())
	for _, want := range []string{
		"Local rules, the maker's manual and licensed technicians come before",
		"Times are those of America/Denver", "fuel | each shift | 3/4 or more | crew",
		"fuel 1/2 FAULT (3/4 or more) · ok: throttle · ok*: hydraulic fluid, engine oil, fuel valve, hose connection, leaks NOT ANSWERED: warm-up run",
		"Of 7 checks that passed, 5 did so, and 0 passed after the crew put it right.", "Defects open at the end of the period None.", "2026-11-18 B | | | OUT OF SERVICE, not asked.", "NOT ANSWERED: everything",
		"throttle FAULT loose", "warm-up run 7 min ok", "(the shift is not over)", "No record of the shifts 2026-11-20",
		"reported: “throttle <b>slips</b>”", "repaired: “new bolt”",
		"| fuel | ok, full | 2026-11-16 07:15 Ravi Nandor | fault, 1/2 | 2026-11-16 07:30 Ines Pelluci |",
		"2026-11-17 07:06 | 2026-11-18 10:00 | 1.1 days | throttle | Ines Pelluci | Wim Torvalley",
		"“=the thing 👍 rattles” (not understood)", "Company officer", "Inspector", "Signatures",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if strings.Contains(text, "OPEN") {
		t.Error("a repaired defect is shown as open")
	}
	if t.Failed() {
		t.Log(text)
	}
}

var tags, blanks = regexp.MustCompile(`<[^>]*>`), regexp.MustCompile(`\s+`)

// plain is a page as text, its cells set off by bars.
func plain(page string) string {
	page = page[strings.Index(page, "<body>"):]
	page = strings.NewReplacer("</td>", " | ", "</th>", " | ").Replace(page)
	return blanks.ReplaceAllString(html.UnescapeString(tags.ReplaceAllString(page, "")), " ")
}

func TestInspectionPrints(t *testing.T) {
	in, _ := week(t)
	in.Items[0].Defects[0].Steps[0].Words = strings.Repeat("on and on 👍 \x00\xff ", 1500)
	in.Items[0].Shifts = append(in.Items[0].Shifts, make([]ShiftRow, 100)...)
	var out bytes.Buffer
	if err := in.PDF(&out); err != nil {
		t.Fatal(err)
	}
	pages := bytes.Count(out.Bytes(), []byte("/Type /Page\n"))
	if !bytes.HasPrefix(out.Bytes(), []byte("%PDF-")) || pages < 5 {
		t.Errorf("%d pages, %d bytes", pages, out.Len())
	}
}

func TestLimitsInWords(t *testing.T) {
	names := Names{}
	setup := example(t)
	names.Dept, names.Book = setup.Dept, setup.Book
	for ref, want := range map[check.Ref]string{
		{Item: "e1-pump", Check: "fuel"}:       "3/4 or more of full",
		{Item: "e1-pump", Check: "run"}:        "5 min to 10 min min",
		{Item: "e1-pump", Check: "leaks"}:      "no ",
		{Item: "e1-pump", Check: "oil"}:        "between the marks ",
		{Item: "e1-combi", Check: "gap"}:       "0.125 in to 0.5 in in",
		{Item: "e3-pack-1", Check: "pressure"}: "4050 psi to 4600 psi psi",
		{Item: "e2-meter", Check: "bump"}:      "passed ",
		{Item: "e2-aed", Check: "pads"}:        "a date ahead ",
		{Item: "e1-pump", Check: "throttle"}:   "no fault seen ",
	} {
		c := names.check(ref)
		if got := limits(c) + " " + unit(c); got != want {
			t.Errorf("%s: %q, want %q", ref, got, want)
		}
	}
}
