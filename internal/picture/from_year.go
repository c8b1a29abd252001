package picture

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/wording"
	"crosslay/internal/ledger"
)

// YearOf is the twelve months of an item that begin with first, up to now or to
// their end. The book needs all that was recorded about the item and the prompts
// of its company.
func YearOf(book *ledger.Book, id dept.ItemID, first dept.Date, now time.Time) Year {
	d := book.Setup.Dept
	end := dept.Date{Year: first.Year + 1, Month: first.Month, Day: 1}
	begin, until := midnight(first, d.Zone), midnight(end, d.Zone)
	if now.After(until) {
		now = until.Add(-time.Minute)
	}
	it, _ := d.Item(id)
	y := Year{Department: d.Name, Number: it.Number, First: first, Last: dept.DateOf(now.In(d.Zone)), Days: map[dept.Date]Day{}}
	if c, ok := d.Company(it.Company); ok {
		y.Company = c.Name
	}
	sheet := book.Setup.Book[it.Sheet]
	if sheet != nil {
		y.What = sheet.Name
	}
	if c, ok := book.RunCheck(id); ok {
		y.Engine = true
		if c.Answer.Min != nil {
			y.Min = *c.Answer.Min
		}
	}
	span := span{begin, now}
	y.shifts(book, it, span)
	y.runs(book, id, span)
	y.out(book, id, span)
	y.reported(book, id, span)
	y.stood(book, id, span)
	if sheet != nil {
		y.Levels = levelsOf(book, it, sheet, span)
	}
	return y
}

type span struct{ from, to time.Time }

func (s span) holds(t time.Time) bool { return !t.Before(s.from) && !t.After(s.to) }

// shifts judges every shift that asked for the item: the worst of a day counts.
func (y *Year) shifts(book *ledger.Book, it dept.Item, in span) {
	c, engine := book.RunCheck(it.ID)
	for _, a := range book.Answers() {
		if a.Asked.IsZero() || !in.holds(a.Asked) || !slices.Contains(book.CarriedAt(a.Shift.Company, a.Asked), it.ID) {
			continue
		}
		o := book.Owed(a, it.ID)
		state := judged(o)
		if engine && !o.Out {
			state = ranIn(book, a, check.Ref{Item: it.ID, Check: c.ID}, c.When.Due(a.Shift.Date))
		}
		if state == Done || state == Faulty {
			y.Good++
		}
		if state != NotAsked && state != Away {
			y.Shifts++
		}
		day := y.Days[a.Shift.Date]
		if worse(state) > worse(day.State) {
			day.State = state
		}
		y.Days[a.Shift.Date] = day
	}
}

func judged(o ledger.Owed) DayState {
	if o.Out {
		return Away
	}
	return Square{Due: o.Due, Settled: o.Settled, Faults: o.Faults}.state()
}

// ranIn is what a shift's run came to.
func ranIn(book *ledger.Book, a *ledger.Answers, ref check.Ref, due bool) DayState {
	l, said := a.Results[ref]
	switch {
	case said && book.Ran(l):
		return Done
	case !due:
		return NotAsked
	case said && l.State == string(check.Fail) && l.Value.Number != nil:
		return Part
	}
	return Missed
}

func worse(s DayState) int {
	return slices.Index([]DayState{NotAsked, Away, Done, Short, Faulty, Part, Missed}, s)
}

// runs adds up engine hours and keeps the longest run of each day.
func (y *Year) runs(book *ledger.Book, id dept.ItemID, in span) {
	for _, l := range book.Runs(id) {
		if !in.holds(l.At) {
			continue
		}
		minutes := *l.Value.Number
		y.Hours += minutes / 60
		if day, ok := y.Days[l.Date]; ok {
			day.Minutes = max(day.Minutes, minutes)
			y.Days[l.Date] = day
		}
	}
}

// out adds up how long the item was out of service.
func (y *Year) out(book *ledger.Book, id dept.ItemID, in span) {
	for _, o := range book.Outages {
		if o.Item == id {
			y.Out += o.Within(in.from, in.to)
		}
	}
	if o, out := book.OutAt(id, in.to); out {
		y.OutNow = strings.TrimSuffix("since "+o.From.In(book.Setup.Dept.Zone).Format("Jan 2")+": "+o.Why, ": ")
	}
}

// stood marks the days on which the item was out of service or a defect of its
// stood open: neither is a day on which all was in order.
func (y *Year) stood(book *ledger.Book, id dept.ItemID, in span) {
	for date := y.First; ; date = date.AddDays(1) {
		from, to := book.Day(date)
		if !from.Before(in.to) {
			break
		}
		to = earlier(to, in.to)
		day := y.Days[date]
		day.Fault = len(book.Faults(id, from, to)) > 0
		day.Out = slices.ContainsFunc(book.Outages, func(o ledger.Outage) bool { return o.Item == id && o.Meets(from, to) })
		switch {
		case day.State == Done && day.Fault:
			day.State = Faulty
		case day.State == Done && day.Out:
			day.State = Short
		}
		if day != (Day{}) {
			y.Days[date] = day
		}
	}
	for _, life := range book.Faults(id, in.to, in.to.Add(1)) {
		y.Faults = append(y.Faults, book.Named(life)+" open since "+life.Since(in.to).In(book.Setup.Dept.Zone).Format("Jan 2"))
	}
}

// reported lists the item's defects that were open at some time, newest first.
func (y *Year) reported(book *ledger.Book, id dept.ItemID, in span) {
	zone := book.Setup.Dept.Zone
	for _, life := range slices.Backward(book.Lives) {
		if life.Ref.Item != id || life.Began().After(in.to) || !life.OpenAt(in.from) && !slices.ContainsFunc(life.Steps, func(l ledger.Line) bool { return in.holds(l.At) }) {
			continue
		}
		for _, s := range life.Steps {
			if (s.State == "reported" || s.State == "reopened") && in.holds(s.At) {
				date := book.Setup.Rota.At(s.At).Date
				day := y.Days[date]
				day.Defect = true
				y.Days[date] = day
			}
		}
		state := OK
		if life.OpenAt(in.to) {
			state = Fault
		}
		y.Defects = append(y.Defects, Defect{State: state, What: whatOf(book, life), Went: wentOf(life, in.to, zone)})
	}
}

// whatOf is the check and what was said of it.
func whatOf(book *ledger.Book, life *ledger.Life) string {
	label := string(life.Ref.Check)
	if c, ok := book.Setup.Book.Of(book.Setup.Dept, life.Ref); ok {
		label = c.Label
	}
	if words := strings.Join(strings.Fields(life.Words()), " "); words != "" {
		return fmt.Sprintf("%s: “%s”", label, words)
	}
	return label
}

// steps are those that tell how a defect went, in words.
var steps = map[string]string{
	"reported": "reported", "reopened": "again", "parts": "waiting for parts", "at_shop": "at the shop",
	"repaired": "repaired", "confirmed": "confirmed", "not_a_fault": "not a fault",
}

func wentOf(life *ledger.Life, until time.Time, zone *time.Location) string {
	var went []string
	for _, s := range life.Steps {
		if word, ok := steps[s.State]; ok && !s.At.After(until) {
			went = append(went, word+" "+s.At.In(zone).Format("Jan 2"))
		}
	}
	if life.OpenAt(until) {
		went = append(went, "open")
	}
	return strings.Join(went, ", ")
}

// levelsOf are the readings of the check that computes with fuel, or else of the
// first that wants a figure and has limits.
func levelsOf(book *ledger.Book, it dept.Item, sheet *check.Sheet, in span) Levels {
	c := charted(sheet)
	if c == nil {
		return Levels{}
	}
	l := Levels{Label: capital(c.Label), Top: 1}
	for _, r := range book.Figures(check.Ref{Item: it.ID, Check: c.ID}) {
		if in.holds(r.At) {
			state, _ := c.Answer.Within(*r.Value.Number)
			l.Points = append(l.Points, Level{At: r.At.In(book.Setup.Dept.Zone), Is: *r.Value.Number, Bad: state == check.Fail, Fixed: r.PutRight()})
		}
	}
	l.scale(c)
	return l
}

// scale fits the ends of the scale to the readings and the limits, and marks
// those. A level runs from empty to full.
func (l *Levels) scale(c *check.Check) {
	show := func(f float64) string { return wording.Figure(c, check.Num(f)) }
	if c.Answer.Min != nil {
		l.Marks = append(l.Marks, ScaleMark{*c.Answer.Min, "min " + show(*c.Answer.Min), true})
	}
	if c.Answer.Max != nil {
		l.Marks = append(l.Marks, ScaleMark{*c.Answer.Max, "max " + show(*c.Answer.Max), true})
	}
	if c.Answer.Kind == check.Level {
		l.Marks = append(l.Marks, ScaleMark{0, show(0), false}, ScaleMark{1, show(1), false})
		return
	}
	l.Low, l.Top = l.ends(c.Answer)
	if len(l.Marks) == 0 {
		l.Marks = []ScaleMark{{l.Low, show(l.Low), false}, {l.Top, show(l.Top), false}}
	}
}

func charted(sheet *check.Sheet) *check.Check {
	var found *check.Check
	for i := range sheet.Checks {
		c := &sheet.Checks[i]
		if c.Use == check.UseFuel {
			return c
		}
		if found == nil && (c.Answer.Kind == check.Level || c.Answer.Kind == check.Number) {
			found = c
		}
	}
	return found
}

// ends are the ends of a scale that holds all readings and both limits.
func (l Levels) ends(a check.Answer) (low, top float64) {
	var all []float64
	for _, p := range l.Points {
		all = append(all, p.Is)
	}
	for _, limit := range []*float64{a.Min, a.Max} {
		if limit != nil {
			all = append(all, *limit)
		}
	}
	if len(all) == 0 {
		return 0, 1
	}
	low, top = slices.Min(all), slices.Max(all)
	pad := max((top-low)*0.1, 1e-6)
	return low - pad, top + pad
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
