package export

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/wording"
	"crosslay/internal/ledger"
)

// Inspection is the inspection record of an item or a company for a period: what
// an inspector asks for, ready to be printed.
type Inspection struct {
	Department string
	Subject    string // "PU-01 power unit", "Engine 1"
	Zone       string
	Paper      string    // the size of printed pages: Letter or A4
	From, To   dept.Date // both inclusive, by the day on which a shift began
	Made       time.Time
	Items      []ItemRecord
	Open       []OpenDefect // at the end of the period, oldest first
	Silent     []Silence    // shifts that left something unanswered
	Words      []Entry      // what was written and not understood
}

// ItemRecord is one item's part.
type ItemRecord struct {
	Number, What, Company, Place string
	InService, Serviced          string // dates, "" if the file does not give them
	Sheet                        []Rule
	Sums                         Sums
	Unrecorded                   string // spans of shifts of which there is no record
	Shifts                       []ShiftRow
	Defects                      []DefectRecord
	Outages                      []OutageRow
	Corrections                  []Correction
}

// Rule is a check of the sheet with its limits and who acts on a fault.
type Rule struct{ Check, Asked, Limits, Acts string }

// ShiftRow is what a shift said of the item.
type ShiftRow struct {
	Shift   string // "2026-11-25 C"
	Who     string
	When    string // "07:05", "07:05 to 09:12"; with the day if it is another
	Results []Result
	Passed  string // checks that passed without more to be said
	Blanket string // checks that passed by one word for all
	Open    string // checks that nobody answered
	Out     bool   // out of service: not asked
	Faults  string // defects that stood open while the item was in service
}

// Result is a check that was answered, with what was read or found.
type Result struct {
	Check, Reading, Verdict string
	Fault                   bool
}

// DefectRecord is a defect with its life.
type DefectRecord struct {
	What  string
	Open  bool
	Steps []Entry
}

// OpenDefect is a defect that is open at the end of the period.
type OpenDefect struct {
	Item, What, Since string
	Out               bool // the item is out of service
}

// Entry is a dated line: who, what.
type Entry struct{ When, Who, What, Words string }

// OutageRow is a span out of service.
type OutageRow struct{ From, To, Long, Why, By, Back string }

// Correction is a result that was superseded, and by what.
type Correction struct{ Shift, Check, Was, WasBy, Is, IsBy string }

// Silence is a shift that left something unanswered.
type Silence struct{ Shift, Company, What string }

// Subject is what an inspection record is about: the items of a company, or one.
type Subject struct {
	Name    string
	Items   []dept.ItemID
	Company dept.CompanyID // whose words are listed; "" for none
}

// inspector gathers the record.
type inspector struct {
	book     *ledger.Book
	from, to dept.Date
	start    time.Time // of the first shift
	end      time.Time // of the last, or now
	silent   map[ledger.Shift][]string
}

// InspectionOf gathers the record. The book needs all records about the items,
// the prompts and words of their companies in the period.
func InspectionOf(book *ledger.Book, s Subject, from, to dept.Date, now time.Time) Inspection {
	zone := book.Setup.Dept.Zone
	in := &inspector{book: book, from: from, to: to, silent: map[ledger.Shift][]string{},
		start: book.Setup.Rota.On(from)[0].Start, end: lastEnd(book, to)}
	if now.Before(in.end) {
		in.end = now
	}
	out := Inspection{Department: book.Setup.Dept.Name, Subject: s.Name, Zone: zone.String(), Paper: "Letter", From: from, To: to, Made: now.In(zone)}
	if book.Setup.Dept.Units == dept.Metric {
		out.Paper = "A4"
	}
	for _, id := range s.Items {
		out.Items = append(out.Items, in.item(id))
	}
	out.Open = in.open(s.Items)
	out.Silent = in.silences()
	out.Words = in.words(s.Company)
	return out
}

func lastEnd(book *ledger.Book, to dept.Date) time.Time {
	shifts := book.Setup.Rota.On(to)
	return shifts[len(shifts)-1].End
}

func (in *inspector) names() Names {
	return Names{Dept: in.book.Setup.Dept, Book: in.book.Setup.Book}
}

func (in *inspector) item(id dept.ItemID) ItemRecord {
	it, _ := in.book.Setup.Dept.Item(id)
	r := ItemRecord{Number: it.Number, Company: cmp.Or(in.names().company(it.Company), "spare"), Place: it.Place,
		InService: it.InService.String(), Serviced: it.LastService.String()}
	if sheet := in.book.Setup.Book[it.Sheet]; sheet != nil {
		r.What = sheet.Name
		for i := range sheet.Checks {
			r.Sheet = append(r.Sheet, ruleOf(&sheet.Checks[i]))
		}
	}
	in.shifts(it, &r)
	in.runs(id, &r.Sums)
	r.Defects, r.Outages, r.Corrections = in.defects(id), in.outages(id), in.corrections(id)
	return r
}

func ruleOf(c *check.Check) Rule {
	asked := "each shift"
	switch c.When.Every {
	case check.OnWeekday:
		var days []string
		for _, d := range c.When.Weekdays {
			days = append(days, d.String()[:3])
		}
		asked = strings.Join(days, ", ")
	case check.OnMonthDay:
		asked = "day " + strings.Trim(strings.ReplaceAll(fmt.Sprint(c.When.Days), " ", ", "), "[]") + " of the month"
	case check.AfterUse:
		asked = "after use"
	case check.EachShift:
	}
	acts := []string{acting(c.Fault.Default)}
	for _, d := range c.Fault.Damages {
		if d.Act != c.Fault.Default {
			acts = append(acts, d.Name+": "+acting(d.Act))
		}
	}
	return Rule{Check: c.Label, Asked: asked, Limits: limits(c), Acts: strings.Join(acts, "; ")}
}

func acting(a check.Act) string {
	switch a {
	case check.Crew:
		return "crew"
	case check.Shop:
		return "shop"
	case check.Out:
		return "out of service"
	}
	return string(a)
}

// shifts lists what each shift of the period said of the item, and counts it.
func (in *inspector) shifts(it dept.Item, r *ItemRecord) {
	heard := map[ledger.Shift]bool{}
	defer func() { r.Unrecorded = in.unrecorded(it, heard) }()
	for _, a := range in.book.Answers() {
		if a.Shift.Date.Before(in.from) || in.to.Before(a.Shift.Date) || a.Asked.After(in.end) {
			continue
		}
		asked := !a.Asked.IsZero() && slices.Contains(in.book.CarriedAt(a.Shift.Company, a.Asked), it.ID)
		row, said := in.row(a, it, asked, &r.Sums)
		if asked || said {
			heard[ledger.Shift{Date: a.Shift.Date, Platoon: a.Shift.Platoon}] = true
			r.Shifts = append(r.Shifts, row)
		}
	}
}

// row is what one shift said; whether it said anything.
func (in *inspector) row(a *ledger.Answers, it dept.Item, asked bool, sums *Sums) (ShiftRow, bool) {
	row := ShiftRow{Shift: nameOf(a.Shift)}
	due := map[check.Ref]bool{}
	if asked {
		if _, row.Out = in.book.OutAt(it.ID, a.Asked); row.Out {
			sums.Out++
		} else {
			for _, ref := range in.book.Due(it.ID, a.Shift.Date) {
				due[ref] = true
			}
		}
	}
	lines, open := in.said(a, it, due, &row, sums)
	in.leftOpen(a.Shift, it, &row, open, len(due))
	if len(due) > 0 {
		sums.shift(len(open), len(due))
	}
	if row.Faults = in.faults(a.Shift, it.ID); row.Faults != "" && asked {
		sums.FaultOpen++
	}
	row.Who, row.When = in.whoWhen(a.Shift, lines)
	return row, len(lines) > 0
}

// said puts what was answered into the row and counts what was due; it returns
// the answers, and the checks that were due and had none.
func (in *inspector) said(a *ledger.Answers, it dept.Item, due map[check.Ref]bool, row *ShiftRow, sums *Sums) (lines []ledger.Line, open []string) {
	sheet := in.book.Setup.Book[it.Sheet]
	if sheet == nil {
		return nil, nil
	}
	for i := range sheet.Checks {
		c := &sheet.Checks[i]
		ref := check.Ref{Item: it.ID, Check: c.ID}
		if l, ok := a.Results[ref]; ok && a.State(ref) != check.Open {
			lines = append(lines, l)
			row.add(in.result(c, l), blanket(l))
		} else if due[ref] {
			open = append(open, c.Label)
		}
		if due[ref] {
			sums.count(in.book, a, c, ref)
		}
	}
	return lines, open
}

// leftOpen notes what a shift did not answer; one that is not over still may.
func (in *inspector) leftOpen(s ledger.Shift, it dept.Item, row *ShiftRow, open []string, due int) {
	if len(open) == 0 {
		return
	}
	row.Open = strings.Join(open, ", ")
	if len(open) > 1 && len(open) == due {
		row.Open = "everything"
	}
	if !in.over(s) {
		row.Open += " (the shift is not over)"
		return
	}
	in.silent[s] = append(in.silent[s], it.Number+": "+row.Open)
}

// add puts a result where it is read fastest: what merely passed by its name.
func (r *ShiftRow) add(one Result, blanket bool) {
	switch {
	case one.Reading != "" || one.Verdict != string(check.OK):
		r.Results = append(r.Results, one)
	case blanket:
		r.Blanket = strings.TrimPrefix(r.Blanket+", "+one.Check, ", ")
	default:
		r.Passed = strings.TrimPrefix(r.Passed+", "+one.Check, ", ")
	}
}

func nameOf(s ledger.Shift) string {
	return strings.TrimSpace(s.Date.String() + " " + string(s.Platoon))
}

// blanket reports whether a check passed by one word for all.
func blanket(l ledger.Line) bool { return l.Note == "by a blanket answer" }

// result writes a reading with its unit, its verdict, and how it came about.
func (in *inspector) result(c *check.Check, l ledger.Line) Result {
	r := Result{Check: c.Label, Verdict: l.State}
	if !l.Value.IsZero() {
		r.Reading = wording.Figure(c, l.Value)
	}
	switch check.State(l.State) {
	case check.Fail:
		r.Fault = true
		r.Verdict = strings.TrimSpace("FAULT " + l.Note)
		if l.Value.Number != nil && limits(c) != "" {
			r.Verdict += " (" + limits(c) + ")"
		}
	case check.Unsure:
		r.Verdict = "unsure, asked back"
	case check.OK, check.Open:
		r.Verdict += how(l)
	}
	return r
}

// how is how a check came to pass, if more is to be said of it. What the crew put
// right was found wrong; how wrong, only its words may tell.
func how(l ledger.Line) string {
	words := strings.Join(strings.Fields(l.Words), " ")
	switch {
	case l.PutRight() && words != "":
		return ", put right by the crew: “" + words + "”"
	case l.PutRight():
		return ", put right by the crew"
	case l.Note != "" && !blanket(l):
		return ", " + l.Note
	}
	return ""
}

// whoWhen names those who answered, and when they did.
func (in *inspector) whoWhen(s ledger.Shift, lines []ledger.Line) (who, when string) {
	if len(lines) == 0 {
		return "", ""
	}
	var names []string
	first, last := lines[0].At, lines[0].At
	for _, l := range lines {
		if l.Who != "" && !slices.Contains(names, l.Who) {
			names = append(names, l.Who)
		}
		first, last = minTime(first, l.At), maxTime(last, l.At)
	}
	when = in.clock(s.Date, first)
	if to := in.clock(s.Date, last); to != when {
		when += " to " + to
	}
	return strings.Join(names, ", "), when
}

// clock writes a time of a shift; one of another day has its date.
func (in *inspector) clock(d dept.Date, t time.Time) string {
	t = t.In(in.book.Setup.Dept.Zone)
	if dept.DateOf(t) == d {
		return t.Format("15:04")
	}
	return t.Format("Jan 2 15:04")
}

func minTime(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func maxTime(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}
