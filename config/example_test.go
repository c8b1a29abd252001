package config_test

import (
	"fmt"
	"strings"
	"testing"

	"crosslay/bot/check"
	"crosslay/bot/dept"
	"crosslay/config"
)

func TestFilesOfTheRepositoryHaveNoMistakes(t *testing.T) {
	for _, path := range []string{"example.yaml", "../testdata/saw-and-fan.yaml"} {
		if _, err := config.Load(path); err != nil {
			t.Errorf("%s:\n%v", path, err)
		}
	}
}

func TestExampleHoldsADepartment(t *testing.T) {
	d := config.Example().Dept
	kinds := map[dept.KindID]bool{}
	spares := 0
	for _, it := range d.Items {
		kinds[it.Kind] = true
		if it.Spare {
			spares++
		}
	}
	for what, n := range map[string][2]int{
		"stations": {len(d.Stations), 4}, "companies": {len(d.Companies), 8}, "items": {len(d.Items), 40},
		"kinds": {len(kinds), 9}, "spares": {spares, 3},
	} {
		if n[0] < n[1] {
			t.Errorf("%d %s, want %d at least", n[0], what, n[1])
		}
	}
	for _, c := range d.Companies {
		for _, role := range []dept.Role{dept.Crew, dept.Officer} {
			if !speaks(d, c.ID, role) {
				t.Errorf("nobody of %s with a terminal account is %s", c.ID, role)
			}
		}
	}
	for _, role := range []dept.Role{dept.Chief, dept.Shop} {
		if !speaks(d, "", role) {
			t.Errorf("nobody with a terminal account is %s", role)
		}
	}
}

func speaks(d *dept.Department, c dept.CompanyID, role dept.Role) bool {
	for _, p := range d.People {
		if p.Company == c && p.Has(role) && p.Accounts["terminal"] != "" {
			return true
		}
	}
	return false
}

// A numbered line, `NN label: method`, must fit the 60 characters of a phone.
func TestExampleFitsAPhone(t *testing.T) {
	for id, sheet := range config.Example().Book {
		if len(sheet.Caution) > 60 {
			t.Errorf("%s: the caution has %d characters", id, len(sheet.Caution))
		}
		for _, c := range sheet.Checks {
			if len(c.Label) > 18 || len(c.Method) > 34 || len(c.Caution) > 60 {
				t.Errorf("%s.%s: label %d, method %d, caution %d characters", id, c.ID, len(c.Label), len(c.Method), len(c.Caution))
			}
			if c.Question == "" || c.Method == "" {
				t.Errorf("%s.%s: no question or no method", id, c.ID)
			}
		}
	}
}

func TestExamplePromptsStayShort(t *testing.T) {
	d := config.Example()
	for _, c := range d.Dept.Companies {
		n := 0
		for _, it := range d.Dept.Carried(c.ID) {
			for _, ch := range d.Book[it.Sheet].Checks {
				if ch.When.Due(dept.Date{Year: 2026, Month: 3, Day: 11}) {
					n++
				}
			}
		}
		if limit := map[bool]int{true: 25, false: 40}[c.ID == "E1"]; n == 0 || n > limit {
			t.Errorf("%s is asked %d checks a shift, at most %d are wanted", c.ID, n, limit)
		}
	}
}

// Who acts on which damage, as the trade has it: the sheets may grow, but none
// of these may move.
func TestExampleSendsFaultsToThoseWhoActOnThem(t *testing.T) {
	book := config.Example().Book
	for _, c := range []struct {
		check, damage string
		want          check.Act
	}{
		{"power_unit.fuel", "", check.Crew},
		{"power_unit.fluid", "", check.Crew},
		{"power_unit.oil", "", check.Crew},
		{"power_unit.throttle", "", check.Shop},
		{"power_unit.valve", "", check.Crew},
		{"power_unit.run", "", check.Shop},
		{"power_unit.connection", "", check.Shop},
		{"power_unit.connection", "pressure trapped", check.Crew},
		{"power_unit.leaks", "spray", check.Out},
		{"combi.blades", "", check.Shop},
		{"combi.blades", "nick", check.Shop},
		{"combi.blades", "bend", check.Shop},
		{"combi.blades", "crack", check.Out},
		{"combi.lights", "weak battery", check.Crew},
		{"combi.handle", "", check.Out},
		{"combi.gap", "", check.Crew},
		{"hose.cover", "", check.Shop},
		{"hose.cover", "nick", check.Shop},
		{"hose.cover", "abrasion", check.Shop},
		{"hose.cover", "cut", check.Out},
		{"hose.couplers", "", check.Crew},
	} {
		sheet, id, _ := strings.Cut(c.check, ".")
		ch, ok := book[dept.SheetID(sheet)].Check(check.ID(id))
		if !ok {
			t.Errorf("there is no check %s", c.check)
			continue
		}
		if got := ch.Fault.ActFor(c.damage); got != c.want {
			t.Errorf("%s with damage %q goes to %q, want %q", c.check, c.damage, got, c.want)
		}
	}
}

func TestExamplePowerUnitLimits(t *testing.T) {
	pump := config.Example().Book["power_unit"]
	fuel, _ := pump.Check("fuel")
	run, _ := pump.Check("run")
	fluid, _ := pump.Check("fluid")
	got := fmt.Sprintln(*fuel.Answer.Min, *run.Answer.Min, *run.Answer.Max, fluid.Fault.Repeat, fluid.Proviso != "", fuel.Use, fluid.Use, run.Use)
	if want := "0.75 5 10 {2 14} true fuel fluid run\n"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
