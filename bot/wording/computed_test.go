package wording

import (
	"math"
	"testing"
	"time"

	"crosslay/bot/check"
	"crosslay/bot/cover"
	"crosslay/bot/dept"
	"crosslay/bot/fluid"
	"crosslay/bot/fuel"
	"crosslay/bot/nag"
	"crosslay/bot/run"
	"crosslay/bot/service"
)

func day2026(month time.Month, day int) dept.Date {
	return dept.Date{Year: 2026, Month: month, Day: day}
}

func TestComputedGolden(t *testing.T) {
	gauge := DoubtView{N: 1, Thing: pump, Check: tank, Now: check.Num(1), Was: check.Num(0.75), WasAt: morning, Ran: 7}
	ask := func(why string) DoubtView { d := gauge; d.Why = why; return d }
	open := DoubtView{Why: WhyToolOpen, N: 2, Thing: pump, Check: hydOil, Overfill: fluid.Volume{Amount: 9.79, Unit: "fl oz"}}
	level := open
	level.Closed = check.Num(0.82)
	poured := open
	poured.Why = WhyPouredOpen
	loss := fluid.LossOf([]fluid.TopUp{{At: morning, ML: 355}, {At: morning.AddDate(0, 0, 7), ML: 355}}, 355)
	today := day2026(time.November, 25)
	golden(t, "computed", []spoken{
		{"fuel higher, not filled", Doubts([]DoubtView{ask(WhyFuelHigher)})},
		{"fuel lower than the runs explain", Doubts([]DoubtView{ask(WhyFuelLower)})},
		{"neither filled nor run", Doubts([]DoubtView{ask(WhyFuelAgain)})},
		{"fluid read with the tool open", Doubts([]DoubtView{open})},
		{"the same, read as a level", Doubts([]DoubtView{level})},
		{"filled with the tool open", Doubts([]DoubtView{poured})},
		{"topped up again", say(ToppedAgain(2, 14))},
		{"loses fluid", say(Loss(loss, fluid.In(loss.PerWeek, false), fluid.In(loss.High, false)))},
		{"pressure trapped, us", say(Trapped(fluid.Pressure{Low: 1800, High: 2760, Unit: "psi"}, false))},
		{"pressure trapped, metric", say(Trapped(fluid.Pressure{Low: 111.7, High: 171.3, Unit: "bar"}, true))},
		{"a bare ok after a reminder", OkToWhat([]int{1, 2, 3, 7})},
		{"fuel forecast", say(FuelForecast(fuel.Forecast{Days: 4.5, Early: 2, Late: 9}, 0.75, today))},
		{"fuel forecast, no telling how late", say(FuelForecast(fuel.Forecast{Days: 40, Early: 12, Late: math.Inf(1)}, 0.5, today))},
		{"fuel under the floor", say(FuelForecast(fuel.Forecast{Under: true}, 0.75, today))},
		{"old fuel", say(OldFuel(pump, fuel.Age{Days: 61, Known: true}, 60))},
		{"warm-ups", say(WarmUps(46.62, run.Record{Shifts: 44, Good: 41, Longest: 2}, run.Alike, "power units"))},
		{"warm-ups, none of late", say(WarmUps(46.62, run.Record{Shifts: 44, Good: 30, Longest: 9, Current: 3}, run.Worse, "power units"))},
		{"warm-ups, nothing yet", say(WarmUps(71, run.Record{}, "", "chain saws"))},
		{"week ahead", WeekAhead([]ServiceView{
			{pump, "Engine 1", service.Due{By: service.Hours, Date: day2026(time.November, 20), HoursLeft: -0.5, Overdue: 5}, service.Overdue},
			{saw, "Truck 9", service.Due{By: service.Calendar, Date: day2026(time.November, 27), HoursLeft: 12}, service.ThisWeek},
			{tool, "Truck 9", service.Due{By: service.Hours, Date: day2026(time.December, 9), Early: day2026(time.November, 30), HoursLeft: 2.5}, service.Maybe},
		})},
		{"nothing due", WeekAhead(nil)},
		{"next service, certain", say(NextService(service.Due{By: service.Calendar, Date: day2026(time.December, 9), Early: day2026(time.December, 9), Late: day2026(time.December, 9), HoursLeft: math.NaN()}))},
		{"next service, a forecast", say(NextService(service.Due{By: service.Hours, Date: day2026(time.December, 9), Early: day2026(time.December, 1), Late: day2026(time.December, 30), HoursLeft: 3}))},
		{"next service, untold", say(NextService(service.Due{Silent: service.NoStart, HoursLeft: 3}))},
		{"serviced", Serviced(pump, 55, true, service.Due{Silent: service.NoRule})},
		{"cover", Covers("Engine 1", []CoverLine{
			{Can: []string{"cut", "spread"}, Company: "Rescue 2", Way: cover.Way{Km: 5.47, Minutes: 6.43}},
			{Can: []string{"cut wood"}, Here: true, Company: "Truck 1", Same: true}, {Can: []string{"shock"}}}, dept.US)},
		{"cover, nothing to cover", Covers("Brush 4", nil, dept.Metric)},
		{"to the officers, several at once", Escalations([]NagView{
			{Ladder: nag.WarmUpTwice, Company: "Truck 9", Thing: saw, Audience: nag.Officers},
			{Ladder: nag.Unanswered, Company: "Engine 1", Missing: []string{"a", "b"}, Since: morning, Audience: nag.Officers},
			{Ladder: nag.WarmUpTwice, Company: "Truck 9", Thing: pump, Audience: nag.Officers},
			{Ladder: nag.LowFuel, Company: "Engine 1", Thing: pump, Level: "1/2", Since: morning, Audience: nag.Officers},
			{Ladder: nag.Unanswered, Company: "Truck 9", Missing: []string{"a"}, Since: morning, Audience: nag.Officers}}, friday)},
		{"taken to the shop", CrewSays("Ravi Nandor", "Engine 1", "dropped the left hose at the shop")},
		{"the shop is told", ShopTold()},
	})
}

func TestFigureIsAskedInItsForm(t *testing.T) {
	bare := &check.Check{Label: "oxygen", Question: "What does it read?", Answer: check.Answer{Kind: check.Number, Unit: "%", Min: num(20.4), Max: num(21.4)}}
	for name, c := range map[string]struct {
		check *check.Check
		want  string
	}{
		"unit_and_limits": {bare, "3 oxygen: 20.4 to 21.4%; What does it read?"},
		"date":            {pads, "3 pads: month and year, like 2027-03; What date is on the pads?"},
		"method_says_it":  {blades, "3 blades: no bends, nicks, gouges, cracks"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := checkLine(PromptCheck{N: 3, Check: c.check}); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}
