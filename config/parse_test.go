package config_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/bot/nag"
	"crosslay/config"
)

// parsed is small with one replacement, which must be without mistakes.
func parsed(t *testing.T, old, with string) *config.Department {
	t.Helper()
	if !strings.Contains(small, old) {
		t.Fatalf("small has no %q", old)
	}
	d, err := config.Parse("f", []byte(strings.Replace(small, old, with, 1)))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestFiguresBecomeSI(t *testing.T) {
	for _, c := range []struct {
		figures string
		want    dept.Figures
	}{
		{"{tank_endurance: 150 min}", dept.Figures{TankEndurance: 150 * time.Minute}},
		{"{tank_endurance: 2h}", dept.Figures{TankEndurance: 2 * time.Hour}},
		{"{tank_endurance: 2 1/2 h}", dept.Figures{TankEndurance: 150 * time.Minute}},
		{"{tank_endurance: 45m}", dept.Figures{TankEndurance: 45 * time.Minute}},
		{"{rod_diameter: 1.5 in, stroke: 10 in}", dept.Figures{RodMM: 38.1, StrokeMM: 254}},
		{"{rod_diameter: 40 mm, stroke: 25 cm}", dept.Figures{RodMM: 40, StrokeMM: 250}},
		{"{gauge_band: 12 fl oz}", dept.Figures{GaugeBandML: 354.88235475}},
		{"{gauge_band: 0.5 L}", dept.Figures{GaugeBandML: 500}},
		{"{rod_diameter: 1 1/2 in}", dept.Figures{RodMM: 38.1}},
	} {
		d := parsed(t, "spare: true", "spare: true, figures: "+c.figures)
		got, _ := d.Dept.Item("saw-2")
		if !nearly(got.Figures.RodMM, c.want.RodMM) || !nearly(got.Figures.StrokeMM, c.want.StrokeMM) ||
			!nearly(got.Figures.GaugeBandML, c.want.GaugeBandML) || got.Figures.TankEndurance != c.want.TankEndurance {
			t.Errorf("%s gave %+v, want %+v", c.figures, got.Figures, c.want)
		}
	}
}

func nearly(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

func TestRoadsAreInKilometres(t *testing.T) {
	for text, want := range map[string]float64{"miles: 2": 3.218688, "km: 2": 2, "miles: 1/2": 0.804672} {
		got, ok := parsed(t, "miles: 2", text).Dept.RoadKm("st2", "st1")
		if !ok || !nearly(got, want) {
			t.Errorf("%s gave %v km, want %v", text, got, want)
		}
	}
}

func TestLimits(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       check.Answer
	}{
		{"level", "answer: level, min: 3/4, step: 1/8", check.Answer{Kind: check.Level, Min: num(0.75), Step: 0.125}},
		{"level_percent", "answer: level, min: 75%", check.Answer{Kind: check.Level, Min: num(0.75)}},
		{"level_decimal", "answer: level, min: 0.75", check.Answer{Kind: check.Level, Min: num(0.75)}},
		{"number", "answer: number, unit: in, min: 1/8, max: 1/2", check.Answer{Kind: check.Number, Unit: "in", Min: num(0.125), Max: num(0.5)}},
		{"number_converted", "answer: number, unit: mm, max: 1 in", check.Answer{Kind: check.Number, Unit: "mm", Max: num(25.4)}},
		{"unit_spelled_out", "answer: number, unit: percent, min: 50", check.Answer{Kind: check.Number, Unit: "%", Min: num(50)}},
		{"below_zero", "answer: number, unit: degC, min: -10", check.Answer{Kind: check.Number, Unit: "degC", Min: num(-10)}},
		{"run", "answer: run, min: 5 min, max: 1/6 h", check.Answer{Kind: check.Run, Min: num(5), Max: num(10)}},
		{"yes", "answer: yes_no, good: yes", check.Answer{Kind: check.YesNo, Good: "yes"}},
		{"no", `answer: yes_no, good: "no"`, check.Answer{Kind: check.YesNo, Good: "no"}},
		{"false", `answer: yes_no, good: false`, check.Answer{Kind: check.YesNo, Good: "no"}},
		{"choice", "answer: choice, choices: [{name: green, names: grn, good: true}, {name: red}]",
			check.Answer{Kind: check.Choice, Choices: []check.Option{{Name: "green", Names: []string{"grn"}, Good: true}, {Name: "red"}}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := parsed(t, "answer: level, min: 1/2", c.text)
			if diff := cmp.Diff(c.want, d.Book["saw"].Checks[0].Answer); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func num(f float64) *float64 { return &f }

func TestWhen(t *testing.T) {
	for text, want := range map[string]check.When{
		"each shift":           {Every: check.EachShift},
		"after use":            {Every: check.AfterUse},
		"monday":               {Every: check.OnWeekday, Weekdays: []time.Weekday{time.Monday}},
		"[Monday, fri]":        {Every: check.OnWeekday, Weekdays: []time.Weekday{time.Monday, time.Friday}},
		"day 1":                {Every: check.OnMonthDay, Days: []int{1}},
		"day [1, 15]":          {Every: check.OnMonthDay, Days: []int{1, 15}},
		`"day [31]"`:           {Every: check.OnMonthDay, Days: []int{31}},
		"\n          - monday": {Every: check.OnWeekday, Weekdays: []time.Weekday{time.Monday}},
	} {
		d := parsed(t, "label: chain", "label: chain\n        when: "+text)
		if diff := cmp.Diff(want, d.Book["saw"].Checks[2].When); diff != "" {
			t.Errorf("%s: %s", text, diff)
		}
	}
	if got := parsed(t, "zone", "zone").Book["saw"].Checks[0].When.Every; got != check.EachShift {
		t.Errorf("a check without when is asked %q", got)
	}
}

func TestFaults(t *testing.T) {
	f := parsed(t, "zone", "zone").Book["saw"].Checks[2].Fault
	for damage, want := range map[string]check.Act{"": check.Shop, "loose": check.Crew, "cracked": check.Out, "unheard of": check.Shop} {
		if got := f.ActFor(damage); got != want {
			t.Errorf("damage %q goes to %q, want %q", damage, got, want)
		}
	}
	d := parsed(t, "fault: crew}\n      - {id: run", "fault: crew, repeat: {times: 2, days: 14}}\n      - {id: run")
	if got := d.Book["saw"].Checks[0].Fault.Repeat; got != (check.Repeat{Times: 2, Days: 14}) {
		t.Errorf("repeat is %+v", got)
	}
}

func TestRoomOfACompany(t *testing.T) {
	if c, _ := parsed(t, "zone", "zone").Dept.Company("E1"); c.Room != "r1" {
		t.Errorf("without a room of its own, a company talks in %q", c.Room)
	}
	own := parsed(t, "companies:", "  - {id: own, for: company, company: E1, backend: terminal, address: \"#e1\"}\ncompanies:")
	if c, _ := own.Dept.Company("E1"); c.Room != "own" {
		t.Errorf("a company with a room of its own talks in %q", c.Room)
	}
}

func TestLaddersLeftOutKeepTheirDefaults(t *testing.T) {
	d := parsed(t, "{after: 1h, to: company}", "{after: 90m, to: company}")
	want := nag.Defaults()
	want[nag.LowFuel] = nag.Ladder{{After: 90 * time.Minute, To: nag.Company}, {After: 3 * time.Hour, To: nag.Officers}}
	if diff := cmp.Diff(want, d.Ladders); diff != "" {
		t.Error(diff)
	}
}

func TestSheetOfAnItem(t *testing.T) {
	two := "items:"
	with := "  - {kind: saw, id: big-saw, name: big saw, checks: [{id: chain, label: chain, answer: condition, fault: shop}]}\nitems:\n" +
		"  - {id: saw-3, number: S-03, kind: saw, sheet: big-saw, company: E1}"
	d := parsed(t, two, with)
	for id, want := range map[dept.ItemID]dept.SheetID{"saw": "saw", "saw-2": "saw", "saw-3": "big-saw"} {
		if it, _ := d.Dept.Item(id); it.Sheet != want {
			t.Errorf("%s has the sheet %q, want %q", id, it.Sheet, want)
		}
	}
}

func TestDefaultsOfTheDepartment(t *testing.T) {
	d := parsed(t, "zone", "zone").Dept
	if d.Units != dept.US || d.Summary.String() != "08:30" || len(d.ShopHours.Days) != 0 {
		t.Errorf("units %s, summary %s, shop hours %+v", d.Units, d.Summary, d.ShopHours)
	}
	if it, _ := parsed(t, "number: S-01", "number: 007").Dept.Item("saw"); it.Number != "007" {
		t.Errorf("the number 007 became %q", it.Number)
	}
}
