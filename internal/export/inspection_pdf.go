package export

import (
	"fmt"
	"io"
	"strings"
)

// PDF writes the record as a file to be printed.
func (i Inspection) PDF(out io.Writer) error {
	p := newPaper(i.Paper, "Inspection record: "+i.Title(), i.Department+" · "+i.Title(), i.Made)
	p.say("B", 17, "Inspection record: "+i.Subject)
	p.say("", 10, fmt.Sprintf("%s\nShifts that began from %s to %s. Times are those of %s.\nMade %s by crosslay from its records.",
		i.Department, i.From, i.To, i.Zone, i.Made.Format("2006-01-02 15:04")))
	p.say("B", 9.5, Notice)
	p.sums(i.Items)
	p.open(i.Open)
	p.silences(i.Silent)
	for n, it := range i.Items {
		if n > 0 {
			p.AddPage()
		}
		p.item(it)
	}
	p.words(i.Words)
	p.signatures()
	if err := p.Output(out); err != nil {
		return fmt.Errorf("write the inspection record: %w", err)
	}
	return nil
}

func (p *paper) sums(items []ItemRecord) {
	p.heading(13, "In short")
	g := p.table([]float64{13, 8, 7, 7, 7, 9, 9, 9, 9, 7, 9, 8, 11, 9, 10}, "Item", "Shifts asked", "in full", "in part", "not at all", "out of service", "defect open",
		"Checks passed", "put right first", "at fault", "unsure", "not said", "Runs", "Engine hours", "Defects")
	for _, it := range items {
		s := it.Sums
		runs, hours := "–", "–"
		if s.Engine {
			runs, hours = fmt.Sprintf("%d of %d", s.RunsGood, s.RunsDue), fmt.Sprintf("%.1f", s.Hours)
		}
		cells := []string{it.Number}
		for _, n := range []int{s.Shifts, s.Full, s.Partly, s.None, s.Out, s.FaultOpen, s.OK, s.PutRight, s.Fault, s.Unsure, s.Open} {
			cells = append(cells, fmt.Sprint(n))
		}
		g.row(false, append(cells, runs, hours, fmt.Sprint(len(it.Defects)))...)
	}
}

func (p *paper) open(all []OpenDefect) {
	p.heading(10.5, "Defects open at the end of the period")
	if len(all) == 0 {
		p.say("", textSize, "None.")
		return
	}
	g := p.table([]float64{16, 44, 20, 20}, "Item", "What", "Open since", "Item is")
	for _, d := range all {
		g.row(false, d.Item, d.What, d.Since, d.Service())
	}
}

func (p *paper) silences(all []Silence) {
	p.heading(10.5, "Shifts that left something unanswered")
	if len(all) == 0 {
		p.say("", textSize, "None.")
		return
	}
	g := p.table([]float64{16, 18, 66}, "Shift", "Company", "Not answered")
	for _, s := range all {
		g.row(false, s.Shift, s.Company, s.What)
	}
}

func (p *paper) item(it ItemRecord) {
	p.heading(13, it.Number+" "+it.What)
	where := it.Company
	for _, part := range []struct{ before, words string }{{", ", it.Place}, {" · in service since ", it.InService}, {" · last service by the department file ", it.Serviced}} {
		if part.words != "" {
			where += part.before + part.words
		}
	}
	p.say("", 9.5, where)
	p.heading(10.5, "Check sheet and limits in force when this was made")
	g := p.table([]float64{22, 20, 26, 32}, "Check", "Asked", "In limits", "Who acts on a fault")
	for _, r := range it.Sheet {
		g.row(false, r.Check, r.Asked, r.Limits, r.Acts)
	}
	p.defects(it.Defects)
	p.outages(it.Outages)
	p.corrections(it.Corrections)
	p.shifts(it)
}

func (p *paper) defects(all []DefectRecord) {
	p.heading(10.5, "Defects")
	if len(all) == 0 {
		p.say("", textSize, "None in the period.")
	}
	for _, d := range all {
		what := d.What
		if d.Open {
			what += " · OPEN"
		}
		g := p.table([]float64{20, 22, 58}, what, "Who", "Step")
		for _, s := range d.Steps {
			words := s.What
			if s.Words != "" {
				words += ": “" + s.Words + "”"
			}
			g.row(false, s.When, s.Who, words)
		}
		p.Ln(2)
	}
}

func (p *paper) outages(all []OutageRow) {
	p.heading(10.5, "Out of service")
	if len(all) == 0 {
		p.say("", textSize, "Never in the period.")
		return
	}
	g := p.table([]float64{19, 19, 12, 20, 15, 15}, "From", "To", "How long", "Why", "Taken out by", "Put back by")
	for _, o := range all {
		g.row(false, o.From, o.To, o.Long, o.Why, o.By, o.Back)
	}
}

func (p *paper) corrections(all []Correction) {
	p.heading(10.5, "Corrections")
	if len(all) == 0 {
		p.say("", textSize, "None in the period.")
		return
	}
	p.say("", textSize, "Records are never changed: a later one supersedes an earlier one, and both are kept.")
	g := p.table([]float64{15, 15, 17, 18, 17, 18}, "Shift", "Check", "Was", "Said", "Became", "Said")
	for _, c := range all {
		g.row(false, c.Shift, c.Check, c.Was, c.WasBy, c.Is, c.IsBy)
	}
}

func (p *paper) shifts(it ItemRecord) {
	p.heading(10.5, "Checks, shift by shift")
	p.say("", textSize, fmt.Sprintf("* passed by one word for all checks (“all good”). Of %d checks that passed, %d did so, and %d passed after the crew put it right.",
		it.Sums.OK, it.Sums.Blanket, it.Sums.PutRight))
	if it.Unrecorded != "" {
		p.say("B", textSize, "No record of the shifts "+it.Unrecorded+".")
	}
	g := p.table([]float64{13, 16, 14, 57}, "Shift", "Answered by", "When", "Result")
	for _, s := range it.Shifts {
		words, bad := s.words()
		g.row(bad, s.Shift, s.Who, s.When, words)
	}
}

// words is the row's result in one text; bad if it has a fault or a gap.
func (s ShiftRow) words() (words string, bad bool) {
	var parts []string
	if s.Out {
		parts = append(parts, "OUT OF SERVICE, not asked")
	}
	if s.Faults != "" {
		parts = append(parts, "DEFECT OPEN: "+s.Faults)
	}
	for _, r := range s.Results {
		bad = bad || r.Fault
		parts = append(parts, strings.Join(strings.Fields(r.Check+" "+r.Reading+" "+r.Verdict), " "))
	}
	if s.Passed != "" {
		parts = append(parts, "ok: "+s.Passed)
	}
	if s.Blanket != "" {
		parts = append(parts, "ok*: "+s.Blanket)
	}
	if s.Open != "" {
		parts = append(parts, "NOT ANSWERED: "+s.Open)
	}
	return strings.Join(parts, " · "), bad || s.Open != "" || s.Faults != "" || s.Out
}

func (p *paper) words(all []Entry) {
	if len(all) == 0 {
		return
	}
	p.heading(13, "Written, and not understood")
	g := p.table([]float64{20, 22, 58}, "When", "Who", "Words")
	for _, e := range all {
		g.row(false, e.When, e.Who, "“"+e.Words+"” ("+e.What+")")
	}
}

// signatures leaves lines to be signed, all on one page.
func (p *paper) signatures() {
	if _, height := p.GetPageSize(); p.GetY() > height-75 {
		p.AddPage()
	}
	p.heading(13, "Signatures")
	for _, who := range []string{"Company officer", "Shop", "Inspector"} {
		p.SetFont("go", "B", 9)
		p.CellFormat(p.inner*0.2, 14, who, "1", 0, "L", false, 0, "")
		p.CellFormat(p.inner*0.45, 14, "", "1", 0, "L", false, 0, "")
		p.CellFormat(p.inner*0.1, 14, "Date", "1", 0, "L", false, 0, "")
		p.CellFormat(p.inner*0.25, 14, "", "1", 1, "L", false, 0, "")
	}
}
