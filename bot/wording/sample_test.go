package wording

import (
	"time"

	"crosslay/bot/check"
	"crosslay/bot/dept"
)

func num(f float64) *float64 { return &f }

var (
	pump = Thing{Name: "power unit", Number: "PU-07", Place: "officer side 2"}
	tool = Thing{Name: "combination tool", Number: "CT-03", Place: "officer side 3"}
	saw  = Thing{Name: "chain saw", Number: "S-01", Place: "driver side 1"}

	tank = &check.Check{ID: "fuel", Label: "fuel", Question: "How full is the tank?", Method: "open the vented cap and look; plain gasoline, no oil in it",
		Answer: check.Answer{Kind: check.Level, Min: num(0.75)}, Fault: check.Fault{Default: check.Crew}, Use: check.UseFuel}
	hydOil = &check.Check{ID: "fluid", Label: "hydraulic fluid", Question: "Where does the sight gauge stand?",
		Method: "tool nearly closed, tips about 1/4 inch apart; read the gauge", Answer: check.Answer{Kind: check.Gauge},
		Proviso: "was the tool nearly closed?", Fault: check.Fault{Default: check.Crew}, Use: check.UseFluid,
		Caution: "Never feel for a leak with the hand: fluid under pressure goes through skin. Even a wound that looks like nothing is an emergency."}
	throttle = &check.Check{ID: "throttle", Label: "throttle", Question: "Is it locked at full?", Method: "locked at full, does not move by hand",
		Answer: check.Answer{Kind: check.Condition}, Fault: check.Fault{Default: check.Shop}}
	runIt = &check.Check{ID: "run", Label: "warm-up run", Question: "How long did it run?", Method: "choke half open for the first minute",
		Answer: check.Answer{Kind: check.Run, Min: num(5), Max: num(10)}, Fault: check.Fault{Default: check.Shop}, Use: check.UseRun}
	valve  = &check.Check{ID: "valve", Label: "fuel valve", Question: "Is it closed?", Answer: check.Answer{Kind: check.YesNo, Good: "yes"}, Fault: check.Fault{Default: check.Crew}}
	blades = &check.Check{ID: "blades", Label: "blades", Question: "Are the blades free of damage?", Method: "no bends, nicks, gouges, cracks",
		Answer: check.Answer{Kind: check.Condition}, Caution: "A cracked blade: tag it, do not test it.",
		Fault: check.Fault{Default: check.Shop, Damages: []check.Damage{{Name: "cracked", Act: check.Out}, {Name: "nicked", Act: check.Shop}}}}
	handle   = &check.Check{ID: "handle", Label: "control handle", Question: "Does it return by itself?", Method: "let go: it returns to neutral by itself", Answer: check.Answer{Kind: check.Condition}, Fault: check.Fault{Default: check.Out}}
	pressure = &check.Check{ID: "pressure", Label: "cylinder", Question: "What does the gauge read?", Answer: check.Answer{Kind: check.Number, Unit: "psi", Min: num(4500)}}
	pads     = &check.Check{ID: "pads", Label: "pads", Question: "What date is on the pads?", Answer: check.Answer{Kind: check.DateAhead}}
	lamp     = &check.Check{ID: "lamp", Label: "lamp", Question: "Which color is the lamp?", Answer: check.Answer{Kind: check.Choice, Choices: []check.Option{{Name: "green", Good: true}, {Name: "red"}}}}

	morning = time.Date(2026, time.November, 25, 7, 12, 0, 0, time.UTC)
	friday  = time.Date(2026, time.November, 27, 16, 0, 0, 0, time.UTC)
)

// fresh is the prompt of a company with three items, nothing answered.
func fresh() PromptView {
	v := PromptView{Company: "Engine 1", Platoon: "A", Date: dept.Date{Year: 2026, Month: time.November, Day: 25}}
	n := 0
	add := func(t Thing, caution string, checks ...*check.Check) {
		it := PromptItem{Thing: t, Caution: caution}
		for _, c := range checks {
			n++
			it.Checks = append(it.Checks, PromptCheck{N: n, Check: c})
		}
		v.Items = append(v.Items, it)
	}
	add(pump, "Never feel for a leak with the hand.", tank, hydOil, throttle, runIt, valve)
	add(tool, "", blades, handle)
	add(saw, "", tank, runIt)
	return v
}

// set gives the n-th check a result.
func set(v *PromptView, n int, change func(*PromptCheck)) {
	for i := range v.Items {
		for j := range v.Items[i].Checks {
			if c := &v.Items[i].Checks[j]; c.N == n {
				change(c)
			}
		}
	}
}

func ok(c *PromptCheck)     { c.State = check.OK }
func fault(c *PromptCheck)  { c.State = check.Fail }
func unsure(c *PromptCheck) { c.State = check.Unsure }

func reads(s check.State, f float64) func(*PromptCheck) {
	return func(c *PromptCheck) { c.State, c.Value = s, check.Num(f) }
}
