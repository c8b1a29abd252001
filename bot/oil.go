package bot

import (
	"slices"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/fluid"
	"crosslay/bot/reply"
	"crosslay/bot/wording"
)

// pouredOpen is the doubt of fluid that was filled in while the tool stood open.
const pouredOpen reply.Why = "poured_open"

// filledUp notes what was filled into an item by a result that is about to stand.
func (d *decision) filledUp(ref check.Ref, r reply.Result, was Mark) {
	c, ok := d.Book.Of(d.Dept, ref)
	if ok && c.Use == check.UseFluid && was.Fixed && r.State == check.Open {
		ups := &d.state(ref.Item).Tally.TopUps
		*ups = (*ups)[:max(0, len(*ups)-1)] // taken back
	}
	if !ok || r.State != check.OK && r.State != check.Fail {
		return
	}
	it, _ := d.Dept.Item(ref.Item)
	item := d.state(ref.Item)
	last := item.Last[ref.Check]
	switch {
	case c.Use == check.UseFuel && r.Value.Number != nil:
		d.aged(ref.Item, *r.Value.Number, resolution(c), r.Poured || r.Fixed)
	case c.Use == check.UseFluid && r.State == check.OK && (r.Poured || r.Fixed):
		ml, _ := fluid.Poured(levelOf(last, 0), levelOf(Reading{Value: r.Value}, 1), it.Figures.GaugeBandML)
		item.Tally.TopUps = append(item.Tally.TopUps, fluid.TopUp{At: d.ev.Said, ML: ml})
		item.Tally.TopUps = item.Tally.TopUps[max(0, len(item.Tally.TopUps)-8):]
	}
}

// levelOf is a level between the gauge's marks, otherwise where only a word was read.
func levelOf(r Reading, otherwise float64) float64 {
	if r.Value.Number != nil {
		return *r.Value.Number
	}
	return otherwise
}

// losing tells the shop of fluid that has to be topped up again and again: it
// goes somewhere.
func (d *decision) losing(st *Standing, w *Watch, ref check.Ref, r reply.Result) {
	c, ok := d.Book.Of(d.Dept, ref)
	if !ok || c.Use != check.UseFluid || r.State != check.OK || !r.Poured && !r.Fixed || w != st.Watch || c.Fault.Repeat.Times == 0 {
		return
	}
	ups := d.recentTopUps(ref.Item, c.Fault.Repeat.Days)
	if len(ups) < c.Fault.Repeat.Times {
		return
	}
	d.toShop(st, ref, check.Shop, "", orElse(r.Words, d.ev.Text))
	d.asides = append(d.asides, wording.ToppedAgain(len(ups), c.Fault.Repeat.Days))
}

func (d *decision) recentTopUps(id dept.ItemID, days int) []fluid.TopUp {
	since := d.ev.Said.AddDate(0, 0, -days)
	return slices.DeleteFunc(slices.Clone(d.state(id).Tally.TopUps), func(t fluid.TopUp) bool { return t.At.Before(since) })
}

// loss is the rate at which an item loses fluid, in words; "" where nothing can
// be told. A gauge with two marks is good to all that lies between them.
func (d *decision) loss(id dept.ItemID) string {
	it, _ := d.Dept.Item(id)
	item := d.Items[id]
	if item == nil || len(item.Tally.TopUps) == 0 {
		return ""
	}
	l := fluid.LossOf(item.Tally.TopUps, it.Figures.GaugeBandML)
	metric := d.Dept.Units == dept.Metric
	return wording.Loss(l, fluid.In(l.PerWeek, metric), fluid.In(l.High, metric))
}

// toolOpen is what the open tools of a fluid check's unit make of its level: the
// volume that they hold more than closed, which is too much if the tank is filled to
// its upper mark now, and for a level that was read the one with the tools closed.
func (d *decision) toolOpen(ref check.Ref, read check.Value) (over fluid.Volume, closed check.Value) {
	c, ok := d.Book.Of(d.Dept, ref)
	on, _ := d.Dept.Item(ref.Item)
	if !ok || c.Use != check.UseFluid {
		return over, closed
	}
	var tools []fluid.Position
	for _, it := range d.Dept.Items {
		tool := fluid.Tool{RodMM: it.Figures.RodMM, StrokeMM: it.Figures.StrokeMM}
		if d.drives(ref.Item, it) && tool.Known() && !d.outNow(it.ID) {
			tools = append(tools, fluid.Position{Tool: tool, Open: 1})
		}
	}
	full, known := fluid.Correct(0, on.Figures.GaugeBandML, tools...)
	if !known || len(tools) == 0 {
		return over, closed
	}
	if read.Number != nil {
		corrected, _ := fluid.Correct(*read.Number, on.Figures.GaugeBandML, tools...)
		closed = check.Num(corrected.Level)
	}
	return fluid.In(full.OverfillML, d.Dept.Units == dept.Metric), closed
}

// drives reports whether a tool hangs on the unit, or on the one that the unit
// stands in for.
func (d *decision) drives(unit dept.ItemID, tool dept.Item) bool {
	s := d.Items[unit]
	return tool.HangsOn != "" && (tool.HangsOn == unit || s != nil && tool.HangsOn == s.For)
}

// trapped explains, in the shift's echo, a hose that will not go on.
func (d *decision) trapped(c *check.Check, now Mark) {
	if c.Use != check.UseConnection || now.State != check.Fail {
		return
	}
	rise, unit := sunned, check.Unit("psi")
	if d.Dept.Units == dept.Metric {
		rise, unit = sunnedMetric, "bar"
	}
	if p, ok := fluid.TrappedIn(rise, unit); ok {
		d.asides = append(d.asides, wording.Trapped(p, d.Dept.Units == dept.Metric))
	}
}

// sunned is an example of what the sun does to a tool, in degrees Celsius: 20 °F,
// and 10 °C.
var sunned, sunnedMetric = fluid.Rise(20), 10.0
