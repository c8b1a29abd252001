package bot

import (
	"slices"
	"strings"

	"crosslay/bot/chat"
	"crosslay/bot/cover"
	"crosslay/bot/dept"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// covers tells who covers for a company: for each thing that it can do, or that is
// asked about, the nearest other company that can.
func (d *decision) covers(req reply.Request) {
	c, wants := req.Company, d.could(req.Company)
	if it, ok := d.Dept.Item(req.Item); ok {
		c, wants = dept.CompanyID(orElse(string(req.Company), string(d.holder(it)))), d.canOf(it)
	}
	if c == "" && d.Person.Company != "" {
		c, wants = d.Person.Company, d.could(d.Person.Company)
	}
	if c == "" {
		d.say(chat.Ask, d.ev.Place, "", wording.Lines("Cover for which company?", []string{`Say "who covers ` + d.anyOf().company + `".`}))
		return
	}
	if named := strings.FieldsFunc(req.Check, apart); len(named) > 0 {
		wants = slices.DeleteFunc(wants, func(can string) bool { return !strings.Contains(req.Check, can) })
	}
	d.say(chat.Status, d.ev.Place, "", wording.Covers(d.companyName(c), d.coverLines(c, wants), d.Dept.Units))
}

// holder is the company that has the item now.
func (d *decision) holder(it dept.Item) dept.CompanyID {
	if s := d.Items[it.ID]; it.Company == "" && s != nil {
		return s.With
	}
	return it.Company
}

func (d *decision) canOf(it dept.Item) []string {
	if sheet := d.Book[it.Sheet]; sheet != nil {
		return slices.Clone(sheet.Can)
	}
	return nil
}

// could lists what a company can do with all that it carries, in or out of
// service, in the order of its items.
func (d *decision) could(c dept.CompanyID) []string {
	var all []string
	for _, it := range d.Dept.Carried(c) {
		for _, can := range d.canOf(it) {
			if !slices.Contains(all, can) {
				all = append(all, can)
			}
		}
	}
	return all
}

// coverLines puts together what one company covers; what the company cannot do
// itself now comes first.
func (d *decision) coverLines(c dept.CompanyID, wants []string) []wording.CoverLine {
	now := d.can(c)
	var lines []wording.CoverLine
	for _, want := range wants {
		l := d.coverLine(c, want)
		l.Here = slices.Contains(now, want)
		i := slices.IndexFunc(lines, func(have wording.CoverLine) bool { return have.Company == l.Company && have.Here == l.Here })
		if i >= 0 {
			lines[i].Can = append(lines[i].Can, want)
			continue
		}
		lines = append(lines, l)
	}
	slices.SortStableFunc(lines, func(a, b wording.CoverLine) int { return yes(a.Here) - yes(b.Here) })
	return lines
}

// cannot tells what a company cannot do now, and who covers.
func (d *decision) cannot(c dept.CompanyID) []string {
	now := d.can(c)
	wants := slices.DeleteFunc(d.could(c), func(want string) bool { return slices.Contains(now, want) })
	if len(wants) == 0 {
		return nil // the search for who covers is the dear part
	}
	return wording.Cannot(d.coverLines(c, wants), d.Dept.Units)
}

// allCannot is the same for every company, by its name.
func (d *decision) allCannot() []string {
	var lines []string
	for _, c := range d.Dept.Companies {
		for _, line := range d.cannot(c.ID) {
			lines = append(lines, c.Name+": "+line)
		}
	}
	return lines
}

func yes(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (d *decision) coverLine(c dept.CompanyID, want string) wording.CoverLine {
	best, ok := cover.Published.Nearest(d.Dept, c, func(other dept.CompanyID) bool { return slices.Contains(d.can(other), want) })
	if !ok {
		return wording.CoverLine{Can: []string{want}}
	}
	home, _ := d.Dept.Company(c)
	there, _ := d.Dept.Company(best.Company)
	return wording.CoverLine{Can: []string{want}, Company: there.Name, Same: home.Station == there.Station, Way: best.Way}
}

// spares tells where the spares of each kind do most good.
func (d *decision) spares() {
	var blocks []chat.Block
	quiet := true
	for _, kind := range d.spareKinds() {
		v, needed := d.sparesOf(kind)
		if needed {
			quiet = false
			blocks = append(blocks, wording.Spares(v)...)
		}
	}
	if quiet {
		blocks = wording.Lines("No spare is needed.", d.freeOnes())
	}
	d.say(chat.Status, d.ev.Place, "", blocks)
}

// spareKinds are the kinds of which the department has spares, in the order of the
// file.
func (d *decision) spareKinds() []dept.KindID {
	var kinds []dept.KindID
	for _, it := range d.Dept.Items {
		if it.Spare && !slices.Contains(kinds, it.Kind) {
			kinds = append(kinds, it.Kind)
		}
	}
	return kinds
}

func (d *decision) free(it dept.Item) bool {
	s := d.Items[it.ID]
	return it.Spare && (s == nil || s.For == "" && s.Out == nil)
}

func (d *decision) freeOnes() []string {
	var free []string
	for _, it := range d.Dept.Items {
		if d.free(it) {
			free = append(free, "free: "+d.thing(it.ID).Name+" "+it.Number)
		}
	}
	return free
}

// sparesOf asks for one kind; false where no company is without it.
func (d *decision) sparesOf(kind dept.KindID) (wording.SparesView, bool) {
	q := cover.Places{Can: func(c dept.CompanyID) bool { return d.has(c, kind) }}
	name := string(kind)
	for _, it := range d.Dept.Items {
		if it.Kind != kind {
			continue
		}
		name = d.thing(it.ID).Name
		if d.free(it) {
			q.Spares++
		}
		if it.Company != "" && !d.has(it.Company, kind) && !slices.Contains(q.Out, it.Company) {
			q.Out = append(q.Out, it.Company)
		}
	}
	plan, silent := cover.Published.Place(d.Dept, q, cover.Total)
	other, _ := cover.Published.Place(d.Dept, q, cover.Farthest)
	return wording.SparesView{Kind: name, Plan: plan, Else: other, Silent: silent, Name: d.companyName}, silent != cover.NoneOut
}

// has reports whether a company has one of the kind in service, its own or a spare.
func (d *decision) has(c dept.CompanyID, kind dept.KindID) bool {
	return slices.ContainsFunc(d.carried(c), func(id dept.ItemID) bool {
		it, _ := d.Dept.Item(id)
		return it.Kind == kind && !d.outNow(id)
	})
}
