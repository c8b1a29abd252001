package export

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"

	"crosslay/bot"
	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/wording"
	"crosslay/internal/ledger"
)

// moment writes an instant by the department's clocks.
func (in *inspector) moment(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.In(in.book.Setup.Dept.Zone).Format("2006-01-02 15:04")
}

// over reports whether a shift had ended when the record was made.
func (in *inspector) over(s ledger.Shift) bool {
	for _, tour := range in.book.Setup.Rota.On(s.Date) {
		if tour.Platoon == s.Platoon {
			return !tour.End.After(in.end)
		}
	}
	return true
}

// unrecorded lists the spans of shifts, by the rota, of which there is no record
// about the item: nobody was asked, or the records do not reach so far.
func (in *inspector) unrecorded(it dept.Item, heard map[ledger.Shift]bool) string {
	var spans []string
	var first, last string
	keep := func() {
		if first != "" {
			span := first
			if last != first {
				span += " to " + last
			}
			spans = append(spans, span)
		}
		first = ""
	}
	for d := in.from; !in.to.Before(d) && it.Company != ""; d = d.AddDays(1) {
		for _, tour := range in.book.Setup.Rota.On(d) {
			s := ledger.Shift{Date: d, Platoon: tour.Platoon}
			if heard[s] || !tour.Start.Before(in.end) {
				keep()
				continue
			}
			if last = nameOf(s); first == "" {
				first = last
			}
		}
	}
	keep()
	return strings.Join(spans, ", ")
}

func (in *inspector) runs(id dept.ItemID, s *Sums) {
	_, s.Engine = in.book.RunCheck(id)
	for _, l := range in.book.Runs(id) {
		if !l.At.Before(in.start) && l.At.Before(in.end) {
			s.Hours += *l.Value.Number / 60
		}
	}
}

// stepWords are the steps of a defect's life as the record writes them.
var stepWords = map[string]string{
	"reported": "reported", "joined": "reported again", "reopened": "reported again after the repair",
	"raised": "reported as worse", "said": "said in the thread", "asked": "the shop asked", "photo": "photo sent",
	"withdrawn": "withdrawn by the reporter", "seen": "seen by the shop", "parts": "waiting for parts",
	"at_shop": "at the shop", "spare_placed": "spare placed", "out_of_service": "taken out of service",
	"repaired": "repaired", "returned": "back in service", "confirmed": "confirmed by a check",
	"not_a_fault": "not a fault", "fleet": "same fault on others of the kind",
}

// defects lists those of the item that lived in the period, with all their steps.
func (in *inspector) defects(id dept.ItemID) []DefectRecord {
	var list []DefectRecord
	for _, life := range in.book.Lives {
		if life.Ref.Item != id || !in.lived(life) {
			continue
		}
		d := DefectRecord{What: in.label(life.Ref), Open: life.OpenAt(in.end)}
		for _, s := range life.Steps {
			d.Steps = append(d.Steps, Entry{When: in.moment(s.At), Who: s.Who, What: cmp.Or(stepWords[s.State], s.State), Words: s.Words})
		}
		list = append(list, d)
	}
	return list
}

func (in *inspector) lived(life *ledger.Life) bool {
	return life.OpenAt(in.start) || slices.ContainsFunc(life.Steps, func(s ledger.Line) bool {
		return !s.At.Before(in.start) && s.At.Before(in.end)
	})
}

func (in *inspector) label(ref check.Ref) string {
	if c := in.names().check(ref); c != nil {
		return c.Label
	}
	return string(ref.Check)
}

func (in *inspector) outages(id dept.ItemID) []OutageRow {
	var rows []OutageRow
	for _, o := range in.book.Outages {
		if o.Item != id || !o.Meets(in.start, in.end) {
			continue
		}
		row := OutageRow{From: cmp.Or(in.moment(o.From), "before the records begin"), To: in.moment(o.To), Why: o.Why, By: o.By, Back: o.Back}
		if o.Holds(in.end) { // what came after the period is no part of it
			row.To, row.Back = "still out", ""
		}
		row.Long = ledger.Days(o.Within(in.start, in.end))
		if o.From.Before(in.start) {
			row.Long += " of the period"
		}
		rows = append(rows, row)
	}
	return rows
}

// open lists the defects of items that are open at the end of the period.
func (in *inspector) open(items []dept.ItemID) []OpenDefect {
	var list []OpenDefect
	for _, life := range in.book.Lives {
		if slices.Contains(items, life.Ref.Item) && life.OpenAt(in.end) {
			_, out := in.book.OutAt(life.Ref.Item, in.end)
			list = append(list, OpenDefect{in.names().item(life.Ref.Item), in.book.Named(life), in.moment(life.Since(in.end)), out})
		}
	}
	return list
}

// faults names the defects of an item that stood open in a shift.
func (in *inspector) faults(s ledger.Shift, id dept.ItemID) string {
	var names []string
	for _, tour := range in.book.Setup.Rota.On(s.Date) {
		if tour.Platoon != s.Platoon {
			continue
		}
		for _, life := range in.book.Faults(id, tour.Start, minTime(tour.End, in.end)) {
			names = append(names, in.book.Named(life))
		}
	}
	return strings.Join(names, ", ")
}

// corrections lists the results of the period that a later one superseded.
func (in *inspector) corrections(id dept.ItemID) []Correction {
	byID := map[string]ledger.Line{}
	for _, l := range in.book.Lines {
		if l.Item == id {
			byID[l.ID] = l
		}
	}
	var list []Correction
	for _, l := range in.book.Lines {
		if l.Kind != bot.OnReading || l.Item != id || l.Supersedes == "" || l.Date.Before(in.from) || in.to.Before(l.Date) {
			continue
		}
		was := byID[l.Supersedes]
		list = append(list, Correction{
			Shift: nameOf(ledger.Shift{Date: l.Date, Platoon: l.Platoon}), Check: in.label(refOf(l)),
			Was: in.told(was), WasBy: in.teller(was), Is: in.told(l), IsBy: in.teller(l),
		})
	}
	return list
}

// told is a result in words: its verdict, reading and note.
func (in *inspector) told(l ledger.Line) string {
	if l.ID == "" {
		return "not among these records"
	}
	parts := []string{l.State}
	if l.State == "open" {
		parts = []string{"taken back"}
	}
	if c := in.names().check(refOf(l)); c != nil && !l.Value.IsZero() {
		parts = append(parts, wording.Figure(c, l.Value))
	}
	if l.Note != "" {
		parts = append(parts, l.Note)
	}
	return strings.Join(parts, ", ")
}

func (in *inspector) teller(l ledger.Line) string {
	return strings.TrimSpace(in.moment(l.At) + " " + l.Who)
}

// silences lists the shifts that left something unanswered.
func (in *inspector) silences() []Silence {
	shifts := slices.SortedFunc(maps.Keys(in.silent), ledger.Shift.Compare)
	var list []Silence
	for _, s := range shifts {
		list = append(list, Silence{Shift: nameOf(s), Company: in.names().company(s.Company), What: strings.Join(in.silent[s], "; ")})
	}
	return list
}

// words lists what a company wrote in the period that was not understood.
func (in *inspector) words(c dept.CompanyID) []Entry {
	var list []Entry
	for _, l := range in.book.Lines {
		if l.Kind == bot.OnWords && l.Company == c && c != "" && !l.At.Before(in.start) && l.At.Before(in.end) {
			list = append(list, Entry{When: in.moment(l.At), Who: l.Who, What: strings.ReplaceAll(l.State, "_", " "), Words: l.Words})
		}
	}
	return list
}
