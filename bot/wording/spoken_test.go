package wording

import (
	"testing"

	"crosslay/bot/check"
	"crosslay/bot/nag"
)

func TestPromptGolden(t *testing.T) {
	passed := fresh()
	passed.NoRun = []string{"power unit PU-07"}
	passed.Missed = []string{"chain saw S-01: fuel", "chain saw S-01: warm-up run"}
	passed.Out = []OutLine{{Thing: Thing{Name: "rotary saw", Number: "R-02"}, Why: "at the shop", Spare: "R-90"}}
	passed.PassOn = []Open{{Thing: tool, Label: "blades", Words: "small nick near the tip", State: "parts until Fri Nov 27"}}
	passed.Items[2].StandsIn = "S-04"
	set(&passed, 7, func(c *PromptCheck) { c.Confirm = true })

	half := fresh()
	set(&half, 1, reads(check.OK, 1))
	set(&half, 2, unsure)
	set(&half, 3, ok)
	set(&half, 6, func(c *PromptCheck) { fault(c); c.Damage = "nicked" })
	set(&half, 7, ok)
	set(&half, 8, reads(check.Fail, 0.5))

	done := fresh()
	for n := range 10 {
		set(&done, n, ok)
	}
	set(&done, 2, func(c *PromptCheck) { c.Fixed = true })
	set(&done, 4, reads(check.OK, 7))
	set(&done, 9, reads(check.Fail, 3))
	done.Done = true

	golden(t, "prompt", []spoken{
		{"a shift begins, nothing to pass on", Prompt(fresh())},
		{"a shift begins, with all that the last one left", Prompt(passed)},
		{"half answered", Prompt(half)},
		{"all answered, one run too short", Prompt(done)},
		{"a company with more than fits: packed", Prompt(crowded())},
	})
}

// crowded is eight power units.
func crowded() PromptView {
	v := fresh()
	v.Items = nil
	n := 0
	for i := range 8 {
		it := PromptItem{Thing: Thing{Name: "power unit", Number: string(rune('A' + i))}, Caution: "Never feel for a leak with the hand."}
		for _, c := range []*check.Check{tank, hydOil, throttle, runIt, valve} {
			n++
			it.Checks = append(it.Checks, PromptCheck{N: n, Check: c})
		}
		v.Items = append(v.Items, it)
	}
	return v
}

func TestEchoGolden(t *testing.T) {
	told := func(n int, th Thing, c *check.Check, s check.State) Told {
		return Told{N: n, Thing: th, Check: c, State: s, Act: c.Fault.Default}
	}
	low := told(1, pump, tank, check.Fail)
	low.Value = check.Num(0.5)
	crack := told(6, tool, blades, check.Fail)
	crack.Damage, crack.Act = "cracked", check.Out
	odd := told(3, pump, throttle, check.Fail)
	odd.Words = "throttle wont stay"
	short := told(4, pump, runIt, check.Fail)
	short.Value = check.Num(3)
	long := told(9, saw, runIt, check.Fail)
	long.Value = check.Num(14)
	full := told(1, pump, tank, check.OK)
	full.Value = check.Num(1)
	fixed := told(2, pump, hydOil, check.OK)
	fixed.Fixed = true
	gauge := told(2, pump, hydOil, check.OK)
	golden(t, "echo", []spoken{
		{"a range and a fault", Echo([]Told{gauge, told(3, pump, throttle, check.OK), low}, nil, nil)},
		{"readings are said back", Echo([]Told{full, gauge, told(8, saw, tank, check.OK)}, nil, nil)},
		{"who acts: out of service, the shop, nobody", Echo([]Told{crack, odd, short, long}, nil, nil)},
		{"fixed, not settled, taken back", Echo([]Told{fixed, told(3, pump, throttle, check.Unsure), told(5, pump, valve, check.Open)}, nil, nil)},
		{"words that nobody understood", Echo([]Told{gauge}, []string{"Chain saw S-01 started 07:12."}, []string{"the thingy on the side does that rattle again like it did on the last tour"})},
		{"nothing but words not understood", Echo(nil, nil, []string{"blue one?"})},
	})
}

func TestAskGolden(t *testing.T) {
	one := func(d DoubtView) []spoken { return []spoken{{d.Why, Doubts([]DoubtView{d})}} }
	var all []spoken
	for _, d := range []DoubtView{
		{Why: WhyWhichItem, Words: "fuel's good", Choices: []string{"saw S-01", "fan F-02"}},
		{Why: WhyWhichCheck, Thing: saw, Choices: []string{"fuel", "run"}},
		{Why: WhyNoReading, N: 1, Thing: pump, Check: tank},
		{Why: WhyNoReading, N: 4, Thing: pump, Check: runIt},
		{Why: WhyNoReading, N: 12, Thing: Thing{Name: "air pack", Number: "AP-11"}, Check: pressure},
		{Why: WhyNoReading, N: 13, Thing: Thing{Name: "AED", Number: "D-2"}, Check: pads},
		{Why: WhyNoReading, N: 14, Thing: Thing{Name: "gas meter", Number: "G-2"}, Check: lamp},
		{Why: WhyStraddles, N: 1, Thing: pump, Check: tank, Words: "between half and 3/4"},
		{Why: WhyNotChecked, N: 5, Thing: pump, Check: valve},
		{Why: WhyHedged, N: 3, Thing: pump, Check: throttle, Words: "fine i guess"},
		{Why: WhyConflict, N: 7, Thing: tool, Check: handle},
		{Why: WhyLeftover, N: 7, Thing: tool, Check: handle, Words: "sticky on the way back"},
		{Why: WhyToolOpen, N: 2, Thing: pump, Check: hydOil},
		{Why: WhyProviso, N: 2, Thing: pump, Check: hydOil},
		{Why: WhyAsking, N: 6, Thing: tool, Check: blades},
		{Why: WhyOffLate, N: 9, Thing: saw, Check: runIt},
		{Why: WhyWhichCompany, Choices: []string{"Engine 1", "Truck 9"}},
	} {
		all = append(all, one(d)...)
	}
	many := make([]DoubtView, 8)
	for i := range many {
		many[i] = DoubtView{Why: WhyNoReading, N: i + 1, Thing: pump, Check: tank}
	}
	all = append(all, spoken{"eight doubts", Doubts(many)},
		spoken{"how 2", Hint(pump, hydOil)}, spoken{"how 8", Hint(saw, tank)}, spoken{"help", HowTo("saw", "fuel")},
		spoken{"an engine has run long enough", Nudge(saw, 5, 5)}, spoken{"an engine nears its limit", Nudge(pump, 8, 10)},
		spoken{"off, much too late", LateRun(saw, 34)})
	golden(t, "ask", all)
}

func TestDefectGolden(t *testing.T) {
	v := DefectView{Thing: tool, Company: "Engine 1", Station: "Station 1", Label: "blades", Damage: "cracked", Words: "crack at the tip, about half an inch",
		Who: "Ana Ruiz", At: morning, Pics: 2, Out: true, LastReadings: []string{"Tue Nov 24, ok"}, Fate: "begins",
		History: []string{"Mar 3, nicked, repaired Mar 9"}}
	back := v
	back.Out, back.Damage, back.Pics, back.Reopened, back.Fate = false, "", 0, 1, "reopens"
	back.Caution = "Release pressure before disconnecting anything by force."
	s := Step{Thing: tool, Label: "blades", Who: "Kim Osei", Until: friday, Spare: "CT-90", Company: "Engine 1"}
	all := []spoken{
		{"shop: a crack", DefectRoot(v)}, {"shop: back within 30 days", DefectRoot(back)},
		{"shop: said again", DefectJoin(Step{Thing: tool, Who: "Ben Ito", Company: "Engine 1"}, "still cracked", morning)},
		{"shop: taken back", DefectWithdrawn(Step{Thing: tool, Who: "Ana Ruiz"}, "my mistake, was grease")},
		{"shop: a worse word", DefectRaised(Step{Thing: tool, Label: "blades", Who: "Ben Ito"}, "cracked")},
		{"shop: the next check found it good", Confirmed(s)}, {"shop: help", ShopHelp("S-90")},
		{"shop: three of a kind", Fleet("combination tool", "blades", []Thing{{Number: "CT-01"}, {Number: "CT-03"}, {Number: "CT-08"}}, 30)},
		{"officers: out", OutNow(tool, "Engine 1", "blades cracked", "Ana Ruiz", "Truck 9, Station 2, 6 min; spare CT-90 at the shop")},
		{"officers: back", BackNow(tool, "Engine 1", "Kim Osei")},
	}
	for _, kind := range []string{"seen", "parts", "at_shop", "spare", "repaired", "returned", "not_a_fault", "out_of_service"} {
		all = append(all, spoken{"company: " + kind, ShopSays(kind, s)}, spoken{"shop: noted " + kind, ShopDone([]string{kind}, s)})
	}
	golden(t, "defect", all)
}

func TestNagGolden(t *testing.T) {
	var all []spoken
	for _, l := range nag.Ladders {
		audiences := []nag.Audience{nag.Company, nag.Officers}
		if l.InShopTime() {
			audiences = []nag.Audience{nag.ShopRoom, nag.Officers}
		}
		for _, a := range audiences {
			v := NagView{Ladder: l, Rung: 1, Company: "Engine 1", Thing: saw, Label: "chain", Since: morning, Until: friday, Audience: a}
			switch l {
			case nag.Unanswered, nag.OnCall:
				v.Thing, v.Label, v.Missing = Thing{}, "", []string{"power unit PU-07", "chain saw S-01", "combination tool CT-03"}
			case nag.LowFuel:
				v.Label, v.Level = "fuel", "1/4"
			case nag.WarmUp, nag.WarmUpTwice:
				v.Label = "warm-up run"
			case nag.CrewFix, nag.Unseen, nag.PartsOverdue:
			}
			all = append(all, spoken{string(l) + " to " + string(a), Nag(v)})
		}
	}
	golden(t, "nag", all)
}

func TestNoticeGolden(t *testing.T) {
	all := []spoken{
		{"the department", StatusDepartment("Quillwater Fire Department", []StatusLine{{"Engine 1", "checked, 1 fault; CT-03 out of service since Wed Nov 25 07:12"}, {"Truck 9", "not checked"}}, "1 of 2 companies checked")},
		{"a list", Lines("Overdue at the shop", []string{"saw S-01, chain, parts until Fri Nov 27"})},
	}
	for _, kind := range []string{"shop_only", "officer_only", "chief_own_order", "unknown_person", "unknown_room", "anything else"} {
		all = append(all, spoken{"refused: " + kind, Refusal(kind)})
	}
	all = append(all,
		spoken{"which company", WhichCompany([]string{"Engine 1", "Truck 9"})}, spoken{"not carried", NotCarried("Engine 1", "saw S-07")},
		spoken{"undo", Withdrawn()}, spoken{"undo, nothing", NothingToUndo()}, spoken{"busy", BusyNoted(morning)},
		spoken{"back, some open", BackNoted(7)}, spoken{"back, one open", BackNoted(1)}, spoken{"back, all done", BackNoted(0)},
		spoken{"first start", FirstStart(friday)}, spoken{"reloaded", Reloaded("taken up: 3 items new.")}, spoken{"could not read", CouldNotRead(morning)})
	golden(t, "notice", all)
}
