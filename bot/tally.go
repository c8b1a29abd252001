package bot

import (
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/fluid"
	"crosslay/bot/fuel"
	"crosslay/bot/run"
	"crosslay/bot/service"
)

// Tally is what computing keeps of an item: sums that do not grow with the years.
type Tally struct {
	Since  time.Time     `json:"since,omitzero"` // watched since
	Out    time.Duration `json:"out,omitzero"`   // out of service meanwhile, without the present spell
	Spells int           `json:"spells,omitzero"`
	// Use of the engine is counted by days: the current day's minutes apart, the days
	// before it in two blocks, of which the older falls away when the newer is full.
	Day    dept.Date     `json:"day,omitzero"`
	Ran    float64       `json:"ran,omitzero"`
	Recent service.Use   `json:"recent,omitzero"`
	Older  service.Use   `json:"older,omitzero"`
	WarmUp run.Record    `json:"warm_up,omitzero"`
	TopUps []fluid.TopUp `json:"top_ups,omitempty"` // of hydraulic fluid, the last few
	Age    fuel.Age      `json:"age,omitzero"`
	AgeOf  dept.Date     `json:"age_of,omitzero"` // the day of which Age is told
	// Tank is the fuel reckoned to be there after the last reading, and Drawn the
	// minutes run since: what a gauge does not show in a day it shows in a week.
	Tank   *float64 `json:"tank,omitempty"`
	Drawn  float64  `json:"drawn,omitzero"`
	Served Served   `json:"served,omitzero"`
}

// Served is the last service that the shop told of. Hours are the engine's.
type Served struct {
	Day   dept.Date `json:"day,omitzero"`
	Hours float64   `json:"hours,omitzero"`
	Due   dept.Date `json:"due,omitzero"` // the day on which the hours of the next came to be due
}

// blockDays is how many days a block of use holds: a forecast looks back at one
// to two blocks.
const blockDays = 45

// until brings the tally up to the day: days that have passed are counted, those
// without a run too.
func (t Tally) until(day dept.Date) Tally {
	if t.Day.IsZero() {
		t.Day = day
	}
	if gap := day.DaysSince(t.Day); gap > 2*blockDays { // nothing was heard of it: it starts anew
		t.Recent, t.Older, t.Ran, t.Day = service.Use{}, service.Use{}, 0, day
	}
	for t.Day.Before(day) {
		t.Recent = t.Recent.Add(t.Ran / 60)
		t.Ran, t.Day = 0, t.Day.AddDays(1)
		if t.Recent.Days >= blockDays {
			t.Older, t.Recent = t.Recent, service.Use{}
		}
	}
	return t
}

// use is the engine's use over the days counted.
func (t Tally) use() service.Use { return t.Older.Plus(t.Recent) }

// fuelUse is the same in minutes.
func (t Tally) fuelUse() fuel.Use {
	u := t.use()
	return fuel.Use{Days: u.Days, Minutes: u.Hours * 60, Squares: u.Squares * 3600, Most: u.Most * 60}
}

// today is the event's date on the department's clock.
func (d *decision) today() dept.Date { return dept.DateOf(d.local(d.ev.Said)) }

// watchFrom begins the tally of what a company carries, and brings it up to the
// shift's day.
func (d *decision) watchFrom(st *Standing) {
	for _, id := range d.carried(st.Company) {
		t := &d.state(id).Tally
		if t.Since.IsZero() {
			t.Since = st.Watch.Start
		}
		*t = t.until(st.Watch.Date)
	}
}

// warmed adds a shift that ends to the warm-up records of its engines. Those out
// of service are left out.
func (d *decision) warmed(st *Standing) {
	if st.Watch == nil || st.Watch.Accepted.IsZero() {
		return
	}
	for _, a := range d.asked(st) {
		if c, ok := d.Book.Of(d.Dept, a.Ref); ok && c.Answer.Kind == check.Run {
			t := &d.state(a.Ref.Item).Tally
			t.WarmUp = t.WarmUp.Add(goodRun(st.Watch.Recorded[a.Ref.String()]))
		}
	}
}

// lateRun counts a run that was told after its shift had ended. The longest gap
// stays as it was counted.
func (d *decision) lateRun(id dept.ItemID) {
	if w := &d.state(id).Tally.WarmUp; w.Current > 0 {
		w.Good++
		w.Current--
	}
}

// ranOn adds the minutes of a run to the day's use; less than nothing where a run
// was taken back.
func (d *decision) ranOn(id dept.ItemID, day dept.Date, more float64) {
	item := d.state(id)
	t := item.Tally.until(day)
	t.Ran = max(0, t.Ran+more)
	t.Drawn = max(0, t.Drawn+more)
	item.Tally = t
	if every := d.every(id); every.Hours > 0 && t.Served.Due.IsZero() && d.hoursSince(id) >= every.Hours {
		item.Tally.Served.Due = day
	}
}

// every is how often an item of the kind is to be serviced.
func (d *decision) every(id dept.ItemID) check.Service {
	it, _ := d.Dept.Item(id)
	if sheet := d.Book[it.Sheet]; sheet != nil {
		return sheet.Service
	}
	return check.Service{}
}

// hoursSince are the engine hours since the last service: since the hours of the
// file where it does not say how many they were at the service.
func (d *decision) hoursSince(id dept.ItemID) float64 {
	it, _ := d.Dept.Item(id)
	item := d.Items[id]
	if item == nil {
		return 0
	}
	if item.Tally.Served.Day.IsZero() || item.Tally.Served.Day.Before(it.LastService) {
		return item.Hours - max(it.ServiceHours, 0)
	}
	return item.Hours - item.Tally.Served.Hours
}

// lastService is the later of what the file and the shop say.
func (d *decision) lastService(id dept.ItemID) dept.Date {
	it, _ := d.Dept.Item(id)
	day := it.LastService
	if day.IsZero() {
		day = it.InService
	}
	if s := d.Items[id]; s != nil && day.Before(s.Tally.Served.Day) {
		day = s.Tally.Served.Day
	}
	return day
}

// serviceOf is the item as package service reckons with it.
func (d *decision) serviceOf(id dept.ItemID) service.Item {
	it := service.Item{ID: id, Every: d.every(id), Last: d.lastService(id), Hours: d.hoursSince(id)}
	if s := d.Items[id]; s != nil {
		it.Reached, it.Use = s.Tally.Served.Due, s.Tally.until(d.today()).use()
	}
	return it
}

// aged brings the age of the fuel up to the day, and notes a fill: one that was
// told, or one that must have been since the level stands higher than the runs have
// left it, by more than half a step of the gauge.
func (d *decision) aged(id dept.ItemID, level, step float64, told bool) {
	it, _ := d.Dept.Item(id)
	t := &d.state(id).Tally
	day := d.today()
	if !t.AgeOf.IsZero() {
		t.Age = t.Age.Wait(float64(day.DaysSince(t.AgeOf)))
	}
	t.AgeOf = day
	before := level
	if t.Tank != nil {
		before = fuel.After(*t.Tank, t.Drawn, it.Figures.TankEndurance)
	}
	if told {
		before = min(before, max(0, level-step))
	}
	t.Drawn = 0
	switch {
	case level > before+step/2:
		t.Age = t.Age.Fill(before, level)
		before = level
	case level < before-step/2:
		before = level
	}
	t.Tank = &before
}
