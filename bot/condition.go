package bot

import (
	"slices"
	"strings"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
	"crosslay/bot/defect"
	"crosslay/bot/dept"
	"crosslay/bot/fuel"
	"crosslay/bot/reliability"
	"crosslay/bot/reply"
	"crosslay/bot/run"
	"crosslay/bot/service"
	"crosslay/bot/wording"
)

// condition tells how an item is doing, or which of a kind is worst.
func (d *decision) condition(req reply.Request) {
	if req.Item == "" {
		d.worst(req.Check)
		return
	}
	id := req.Item
	t := d.thing(id)
	mine, fellows := d.failures(id), reliability.Count{}
	for _, other := range d.fellows(id) {
		fellows = fellows.Plus(d.failures(other).Count())
	}
	blocks := wording.Reliability(wording.ReliabilityView{Name: t.String(), Report: reliability.Of(mine, fellows, 1),
		Available: d.availability(id), Clock: wording.Days})
	d.say(chat.Status, d.ev.Place, string(id), append(blocks, wording.Lines("", d.upkeepLines(id))...))
}

// upkeepLines are the warm-up record, the fuel, the service and the open defects
// of an item.
func (d *decision) upkeepLines(id dept.ItemID) []string {
	var lines []string
	if d.runCheck(id) != nil {
		lines = append(lines, d.warmLine(id, true))
	}
	lines = append(lines, d.tankLines(id)...)
	lines = append(lines, d.serviceLine(id)...)
	if loss := d.loss(id); loss != "" {
		lines = append(lines, loss)
	}
	for _, f := range d.Defects {
		if f.Ref.Item == id && f.State() != defect.Closed {
			lines = append(lines, d.defectLine(f))
		}
	}
	return lines
}

// failures are the faults that the shop had to do with, on the calendar since the
// item is watched. What turned out to be no fault is none.
func (d *decision) failures(id dept.ItemID) reliability.History {
	s := d.Items[id]
	if s == nil || s.Tally.Since.IsZero() {
		return reliability.History{}
	}
	h := reliability.History{Hours: d.now.Sub(s.Tally.Since).Hours()}
	if h.Hours < leastWatched {
		return reliability.History{}
	}
	for _, f := range d.Defects {
		if at := f.Reported.Sub(s.Tally.Since).Hours(); f.Ref.Item == id && f.How != defect.NotAFault && at >= 0 && at <= h.Hours {
			h.Failures = append(h.Failures, at)
		}
	}
	slices.Sort(h.Failures)
	return h
}

// leastWatched is a fortnight: what is watched for less says nothing of how often
// a thing fails.
const leastWatched = 14 * 24.0

// fellows are the other items of the same kind.
func (d *decision) fellows(id dept.ItemID) []dept.ItemID {
	mine, _ := d.Dept.Item(id)
	var ids []dept.ItemID
	for _, it := range d.Dept.Items {
		if it.Kind == mine.Kind && it.ID != id {
			ids = append(ids, it.ID)
		}
	}
	return ids
}

func (d *decision) availability(id dept.ItemID) reliability.Availability {
	s := d.Items[id]
	if s == nil || s.Tally.Since.IsZero() {
		return reliability.Availability{}
	}
	a := reliability.Availability{Watched: d.now.Sub(s.Tally.Since), Out: s.Tally.Out, Times: s.Tally.Spells}
	if s.Out != nil {
		a.Out += d.now.Sub(s.Out.Since)
	}
	return a
}

// worst tells which of a kind fails most, and whether that is more than luck.
func (d *decision) worst(words string) {
	kind, name := d.kindCalled(words)
	if kind == "" {
		var kinds []string
		for _, sheet := range d.sheets() {
			kinds = append(kinds, sheet.Name)
		}
		d.say(chat.Ask, d.ev.Place, "", wording.Lines("Of which kind? "+strings.Join(kinds, ", "), []string{`Say "which ` + kinds[0] + ` is worst".`}))
		return
	}
	var histories []reliability.History
	var counts []reliability.Count
	var ids []dept.ItemID
	for _, it := range d.Dept.Items {
		if it.Kind == kind {
			h := d.failures(it.ID)
			histories, counts, ids = append(histories, h), append(counts, h.Count()), append(ids, it.ID)
		}
	}
	i, c := reliability.Worst(counts, reliability.Usual)
	v := wording.WorstView{Kind: name + "s", Among: len(ids), Comparison: c, Clock: wording.Days}
	if i >= 0 {
		v.Worst = d.thing(ids[i]).Number
	}
	all := wording.ReliabilityView{Name: "all " + name + "s together", Report: reliability.OfKind(histories), Clock: wording.Days}
	for _, id := range ids {
		all.Available = all.Available.Plus(d.availability(id))
	}
	blocks := wording.Reliability(all)
	if all.Report.MTBF.Silent == reliability.Spoken {
		blocks = append(blocks, wording.WorstOf(v)...)
	}
	d.say(chat.Status, d.ev.Place, string(kind), blocks)
}

// sheets are the sheets of the department's items, in the order of its items.
func (d *decision) sheets() []*check.Sheet {
	var all []*check.Sheet
	for _, it := range d.Dept.Items {
		if s := d.Book[it.Sheet]; s != nil && !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return all
}

// kindCalled is the kind of which the words have a name, one or many of them; ""
// where they have none.
func (d *decision) kindCalled(words string) (dept.KindID, string) {
	best, kind, name := 0, dept.KindID(""), ""
	for _, s := range d.sheets() {
		for _, called := range append([]string{s.Name}, s.Names...) {
			if len(called) > best && mentions(words, []string{called, called + "s"}) {
				best, kind, name = len(called), s.Kind, s.Name
			}
		}
	}
	return kind, name
}

// runs tells hours and warm-up records.
func (d *decision) runs(req reply.Request) {
	var lines []string
	for _, it := range d.Dept.Items {
		company, _ := d.Dept.Company(it.Company)
		switch {
		case d.runCheck(it.ID) == nil || d.Items[it.ID] == nil:
		case req.Item != "" && it.ID != req.Item, req.Company != "" && it.Company != req.Company, req.Station != "" && company.Station != req.Station:
		default:
			lines = append(lines, it.Number+": "+d.warmLine(it.ID, req.Item != ""))
		}
	}
	d.list("Engine hours and warm-up runs", lines, "no engine there")
}

// warmLine is an engine's hours and warm-up record; closely adds how sure it is,
// and how it stands against its fellows.
func (d *decision) warmLine(id dept.ItemID, closely bool) string {
	s := d.Items[id]
	var others run.Record
	for _, other := range d.fellows(id) {
		if o := d.Items[other]; o != nil {
			others = others.Plus(o.Tally.WarmUp)
		}
	}
	against := run.Comparison("")
	if closely {
		against = s.Tally.WarmUp.Against(others)
	}
	return wording.WarmUps(s.Hours, s.Tally.WarmUp, against, d.thing(id).Name+"s")
}

// tank is what is known of a tank now; false without a level.
func (d *decision) tank(id dept.ItemID) (*check.Check, fuel.Tank, bool) {
	it, _ := d.Dept.Item(id)
	s, sheet := d.Items[id], d.Book[it.Sheet]
	if s == nil || sheet == nil {
		return nil, fuel.Tank{}, false
	}
	for i := range sheet.Checks {
		c := &sheet.Checks[i]
		last, ok := s.Last[c.ID]
		if c.Use != check.UseFuel || !ok || last.Value.Number == nil {
			continue
		}
		t := fuel.Tank{Level: fuel.After(*last.Value.Number, s.Burned, it.Figures.TankEndurance), Step: resolution(c), Endurance: it.Figures.TankEndurance}
		if c.Answer.Min != nil {
			t.Floor = *c.Answer.Min
		}
		return c, t, true
	}
	return nil, fuel.Tank{}, false
}

// tankLines are the fuel of an item: the level read, the minutes it lasts, when it
// falls under its floor, and whether it is old.
func (d *decision) tankLines(id dept.ItemID) []string {
	c, t, ok := d.tank(id)
	if !ok {
		return nil
	}
	s := d.Items[id]
	last := s.Last[c.ID]
	line := c.Label + " " + wording.Figure(c, last.Value) + d.readOn(last.At)
	if left, known := fuel.Left(t.Level, t.Endurance); known {
		line += wording.MinutesLeft(left)
	}
	if f := wording.FuelForecast(t.Forecast(s.Tally.until(d.today()).fuelUse()), t.Floor, d.today()); f != "" {
		line += "; " + f
	}
	lines := []string{line}
	if old := d.oldFuel(id); old != "" {
		lines = append(lines, old)
	}
	return lines
}

// readOn is the day of a reading that is not of today.
func (d *decision) readOn(at time.Time) string {
	if dept.DateOf(d.local(at)) == d.today() {
		return ""
	}
	return d.local(at).Format(" (Jan 2)")
}

// oldFuel names fuel that has not turned over within the sheet's limit; "" where it
// has.
func (d *decision) oldFuel(id dept.ItemID) string {
	c, _, ok := d.tank(id)
	if !ok || c.Turnover == 0 {
		return ""
	}
	t := d.Items[id].Tally
	age := t.Age.Wait(float64(d.today().DaysSince(t.AgeOf)))
	if age.Turned(float64(c.Turnover)) != fuel.Stale {
		return ""
	}
	return wording.OldFuel(d.thing(id), age, c.Turnover)
}

// oldFuels lists all fuel that is named as old.
func (d *decision) oldFuels(ids []dept.ItemID) []string {
	var lines []string
	for _, id := range ids {
		if old := d.oldFuel(id); old != "" && !d.outNow(id) {
			lines = append(lines, old)
		}
	}
	return lines
}

// overdue lists, for the summary, what the shop is late with.
func (d *decision) overdue() []string {
	var lines []string
	for _, it := range d.Dept.Items {
		if due := service.Next(d.serviceOf(it.ID), d.today()); due.Silent == service.Spoken && due.Overdue > 0 {
			lines = append(lines, wording.LateService(d.thing(it.ID), due))
		}
	}
	return lines
}
