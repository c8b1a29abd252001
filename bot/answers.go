package bot

import (
	"fmt"
	"sort"
	"strings"

	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// inShort is a company's status in a few words.
func (d *decision) inShort(c dept.CompanyID) string {
	st := d.Standings[c]
	if st == nil || st.Watch == nil {
		return "not asked yet"
	}
	var parts []string
	again := d.againOf(st)
	switch n, runs := len(d.left(st))-again, len(d.left(st))-len(d.unanswered(st)); {
	case len(st.Watch.Asked) == 0:
		parts = append(parts, "nothing to check")
	case n == 0 && again > 0:
	case n == 0:
		parts = append(parts, "checked")
	case n == runs:
		parts = append(parts, "checked, "+count(runs, "engine run")+" missing")
	case len(st.Watch.Statements) == 0:
		parts = append(parts, "NOT CHECKED")
	default:
		parts = append(parts, count(n, "check")+" open")
	}
	if again > 0 {
		parts = append(parts, itoa(again)+" to be looked at again")
	}
	if d.busy(st) {
		parts = append(parts, "on a call")
	}
	for _, id := range d.carried(c) {
		if d.outNow(id) {
			parts = append(parts, "OUT: "+d.thing(id).Number)
		}
	}
	if n := len(d.faultsOf(st)); n > 0 {
		parts = append(parts, count(n, "fault"))
	}
	return strings.Join(parts, ", ")
}

// againOf counts the checks of a shift that were at fault until the shop found none.
func (d *decision) againOf(st *Standing) int {
	n := 0
	for _, a := range d.unanswered(st) {
		if d.again(st, a.Ref) {
			n++
		}
	}
	return n
}

// faultsOf lists the checks of a shift that stand at fault. A run that lasted too
// long needs nobody.
func (d *decision) faultsOf(st *Standing) []check.Ref {
	var refs []check.Ref
	for _, a := range st.Watch.Asked {
		m := st.Watch.Recorded[a.Ref.String()]
		if c, ok := d.Book.Of(d.Dept, a.Ref); ok && m.State == check.Fail && (c.Answer.Kind != check.Run || !goodRun(m)) {
			refs = append(refs, a.Ref)
		}
	}
	return refs
}

func (d *decision) totals() string {
	checked, out := 0, 0
	for _, c := range d.Dept.Companies {
		if st := d.Standings[c.ID]; st != nil && st.Watch != nil && len(d.unanswered(st)) == 0 {
			checked++
		}
	}
	for _, it := range d.Dept.Items {
		if d.outNow(it.ID) {
			out++
		}
	}
	open, repaired := 0, 0
	for _, f := range d.Defects {
		switch {
		case f.Open():
			open++
		case f.AwaitsCheck():
			repaired++
		}
	}
	line := fmt.Sprintf("%d of %d checked, %d out of service, %s", checked, len(d.Dept.Companies), out, count(open, "open defect"))
	if repaired > 0 {
		line += fmt.Sprintf(", %d repaired, to be looked at", repaired)
	}
	return line
}

func (d *decision) companyLines(c dept.CompanyID) []string {
	lines := []string{d.inShort(c)}
	st := d.Standings[c]
	if st == nil || st.Watch == nil {
		return lines
	}
	lines = append(lines, "Can: "+orElse(strings.Join(d.can(c), ", "), "nothing that a sheet names"))
	lines = append(lines, d.cannot(c)...)
	for _, ref := range d.faultsOf(st) {
		lines = append(lines, "fault: "+d.thing(ref.Item).Number+" "+d.label(ref)+": "+st.Watch.Recorded[ref.String()].Words)
	}
	for _, a := range d.left(st) {
		lead := "open: "
		if d.again(st, a.Ref) {
			lead = "to be looked at again, the shop found no fault: "
		}
		lines = append(lines, lead+d.numbered(a))
	}
	return append(lines, d.openLines(reply.Request{Company: c})...)
}

// can lists what a company can do with the items that are in service.
func (d *decision) can(c dept.CompanyID) []string {
	set := map[string]bool{}
	for _, id := range d.carried(c) {
		it, _ := d.Dept.Item(id)
		sheet := d.Book[it.Sheet]
		if d.outNow(id) || sheet == nil || it.HangsOn != "" && d.outNow(it.HangsOn) && !d.hasStandIn(it.HangsOn) {
			continue
		}
		for _, what := range sheet.Can {
			set[what] = true
		}
	}
	var can []string
	for what := range set {
		can = append(can, what)
	}
	sort.Strings(can)
	return can
}

func (d *decision) hasStandIn(id dept.ItemID) bool {
	return d.Items[id] != nil && d.Items[id].StandIn != "" && !d.outNow(d.Items[id].StandIn)
}

func (d *decision) itemLines(id dept.ItemID) []string {
	it, _ := d.Dept.Item(id)
	s := d.Items[id]
	lines := []string{d.thing(id).Name + " " + it.Number + ", " + d.companyName(it.Company)}
	if s == nil {
		return lines
	}
	if s.Out != nil {
		lines = append(lines, "OUT OF SERVICE since "+d.local(s.Out.Since).Format("Jan 2 15:04")+": "+s.Out.Why)
	} else {
		lines = append(lines, "in service")
	}
	if s.StandIn != "" {
		lines = append(lines, "spare in its place: "+d.thing(s.StandIn).Number)
	}
	if d.runCheck(id) != nil {
		lines = append(lines, d.warmLine(id, false))
	}
	lines = append(lines, d.lastReadings(id)...)
	lines = append(lines, d.serviceLine(id)...)
	lines = append(lines, d.oldFuels([]dept.ItemID{id})...)
	for _, f := range d.Defects {
		if f.Ref.Item == id && f.State() != defect.Closed {
			lines = append(lines, d.defectLine(f))
		}
	}
	return lines
}

func (d *decision) defectLine(f *defect.Defect) string {
	o := d.openLine(f)
	return fmt.Sprintf("%s %s: %s (%s)", d.thing(f.Ref.Item).Number, o.Label, o.Words, o.State)
}

func (d *decision) outLines() []string {
	var lines []string
	for _, it := range d.Dept.Items {
		if s := d.Items[it.ID]; s != nil && s.Out != nil {
			line := fmt.Sprintf("%s %s, %s: %s", d.thing(it.ID).Name, it.Number, d.companyName(it.Company), s.Out.Why)
			if s.StandIn != "" {
				line += "; spare " + d.thing(s.StandIn).Number
			}
			lines = append(lines, line)
		}
	}
	return lines
}

func (d *decision) notChecked() []string {
	var lines []string
	for _, c := range d.Dept.Companies {
		st := d.Standings[c.ID]
		if st == nil || st.Watch == nil {
			continue
		}
		switch n := len(d.left(st)); {
		case n > 0 && len(st.Watch.Statements) == 0:
			lines = append(lines, c.Name+": nothing answered")
		case n > 0:
			lines = append(lines, c.Name+": "+count(n, "check")+" open")
		}
	}
	return lines
}

func (d *decision) openLines(req reply.Request) []string {
	var lines []string
	for _, f := range d.Defects {
		if f.State() == defect.Closed || req.Company != "" && f.Company != req.Company || req.Item != "" && f.Ref.Item != req.Item {
			continue
		}
		lines = append(lines, d.defectLine(f))
	}
	return lines
}

// fuelLines lists the fuel of every tank.
func (d *decision) fuelLines(req reply.Request) []string {
	var lines []string
	for _, it := range d.Dept.Items {
		if req.Company != "" && it.Company != req.Company || req.Item != "" && it.ID != req.Item {
			continue
		}
		for i, line := range d.tankLines(it.ID) {
			if i == 0 {
				line = d.companyName(it.Company) + " " + it.Number + ": " + line
			}
			lines = append(lines, line)
		}
	}
	return lines
}

func (d *decision) historyLines() []string {
	var lines []string
	for _, r := range d.History {
		line := d.local(r.At).Format("Jan 2 15:04") + " " + string(r.Check) + " " + strings.ReplaceAll(r.State, "_", " ")
		if r.Value.Number != nil || r.Value.Word != "" {
			if c, ok := d.Book.Of(d.Dept, check.Ref{Item: r.Item, Check: r.Check}); ok {
				line += " " + wording.Figure(c, r.Value)
			}
		}
		lines = append(lines, strings.TrimSpace(line+" "+r.Who))
	}
	return lines
}

func (d *decision) whyLines() []string {
	var lines []string
	for _, r := range d.Rungs {
		why := "sent to " + r.Note
		if r.State != "sent" {
			why = "not sent to " + r.Note + ": " + strings.ReplaceAll(r.State, "_", " ")
		}
		what := strings.Split(strings.TrimPrefix(r.ID, "nag/"), "/")[0]
		lines = append(lines, d.local(r.At).Format("Jan 2 15:04")+" "+strings.ReplaceAll(what, "_", " ")+": "+why)
	}
	return lines
}

// count is a number of things in words: "1 fault", "2 faults".
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
