package fluid_test

import (
	"math"
	"testing"

	"crosslay/bot/check"
	"crosslay/bot/fluid"
)

// Units derived from those of the project, against exact definitions of UCUM 2.2
// (ucum-essence.xml, FOUND) and seven digits of NIST SP 811 App. B.8 (read second-
// hand). What the project does not speak of (pound-force, horsepower, cubic inch)
// is built here from what it does.
func TestDerivedUnits(t *testing.T) {
	inch := convert(t, 1, "in", "mm") / 1000 // m
	psi := convert(t, 1, "psi", "kPa") * 1000
	gallon := convert(t, 1, "gal", "mL") / 1e6 // m3
	lbf := psi * inch * inch
	const exact, seven = 1e-12, 3.1e-7 // half of the seventh digit, at 1.6
	for _, c := range []struct {
		what            string
		got, want, room float64
	}{
		{"cubic inch, mL, UCUM", math.Pow(inch, 3) * 1e6, 16.387064, exact},
		{"cubic inch, m3, SP 811", math.Pow(inch, 3), 1.638706e-5, seven},
		{"gallon, cubic inches, UCUM", gallon / math.Pow(inch, 3), 231, exact},
		{"pint US, L, UCUM", convert(t, 0.5, "qt", "L"), 0.473176473, exact},
		{"pint US, L, SP 811", convert(t, 0.5, "qt", "L"), 0.4731765, seven},
		{"mile, m, UCUM", convert(t, 5280, "ft", "m"), 1609.344, exact},
		{"mile, m, SP 811", convert(t, 5280, "ft", "m"), 1609.344, seven},
		{"lbf, N, UCUM", lbf, 4.4482216152605, exact},
		{"lbf, N, SP 811", lbf, 4.448222, seven},
		{"lbf of its pound, N, UCUM", 7000 * 64.79891e-6 * 9.80665, lbf, exact},
		{"horsepower, W, UCUM", 550 * 12 * inch * lbf, 745.69987158227, exact},
		{"horsepower, W, SP 811", 550 * 12 * inch * lbf, 745.6999, seven},
		{"lb/hp-h, kg/J, SP 811", 7000 * 64.79891e-6 / (550 * 12 * inch * lbf * 3600), 1.689659e-7, seven},
		{"lb/hp-h, g/kWh, RECOMPUTED", 7000 * 64.79891e-3 / (550 * 12 * inch * lbf) * 1000, 608.277, 1e-6},
		{"bar, Pa, SP 811", convert(t, 1, "bar", "kPa") * 1000, 1e5, exact},
		{"degF interval, SP 811", fluid.Rise(1), 0.5555556, seven},
		{"degC from F, SP 811", convert(t, 120, "degF", "degC"), (120 - 32) / 1.8, exact},
		{"kelvin from F, SP 811", convert(t, 120, "degF", "degC") + 273.15, (120 + 459.67) / 1.8, exact},
	} {
		near(t, c.what, c.got, c.want, c.room*math.Abs(c.want))
	}
}

// Traps among published figures. FM 5-499, appendix A, prints Fahrenheit as 9/5
// (C + 32), by which water would freeze at 57.6. A units package takes the bar for
// 98,000 Pa, by which 10,500 psi would be 738.72 bar: it is 723.95 (GNU units 2.22:
// 723.94952). The same takes a gallon for the imperial one of 4.54609 L, and an
// ounce for 28.4130625 mL. The metric, electric and water horsepower are others.
func TestTrapsAmongPublishedFigures(t *testing.T) {
	if f := convert(t, 0, "degC", "degF"); math.Abs(f-32) > 1e-9 || math.Abs(f-57.6) < 1 {
		t.Errorf("water freezes at %v °F", f)
	}
	bar := convert(t, 10500, "psi", "bar")
	near(t, "10,500 psi in bar", bar, 723.94952, 5e-6)
	if math.Abs(bar-738.72) < 1 {
		t.Errorf("the bar is 98,000 Pa: %v", bar)
	}
	if got := convert(t, 1, "gal", "L"); math.Abs(got-4.54609) < 0.1 {
		t.Errorf("the gallon is the imperial one: %v", got)
	}
	if got := convert(t, 1, "fl oz", "mL"); math.Abs(got-28.4130625) < 0.1 {
		t.Errorf("the ounce is the imperial one: %v", got)
	}
	inch, psi := convert(t, 1, "in", "mm")/1000, convert(t, 1, "psi", "kPa")*1000
	horsepower := 550 * 12 * inch * psi * inch * inch
	for name, other := range map[string]float64{"metric": 735.4988, "electric": 746, "water": 746.043} {
		if math.Abs(horsepower-other) < 0.1 {
			t.Errorf("the horsepower is the %s one", name)
		}
	}
	for _, name := range []string{"imperial gallon", "imp gal", "uk gallon", "pint", "hp"} {
		if u, ok := check.ParseUnit(name); ok {
			t.Errorf("%q is taken for %s", name, u)
		}
	}
}

// F = A x P. TM 1-1500-204-23-2 (US Army, ch. 2, FOUND). Examples: 1500 psi on 2
// in2 are 3000 lbf (constructionmechanical-engineering.blogspot.com, FOUND); 10 lb
// on 2 in2 are 5 psi, and that on 5 in2 25 lb (allstar.fiu.edu, FOUND).
func TestForceIsAreaTimesPressure(t *testing.T) {
	rod := func(in2 float64) fluid.Tool { return fluid.Tool{RodMM: math.Sqrt(in2*4/math.Pi) * 25.4, StrokeMM: 1} }
	lbf := convert(t, 1, "psi", "kPa") * 1000 * 0.0254 * 0.0254 // N
	force := func(tool fluid.Tool, psi float64) float64 {       // lbf
		return tool.RodArea() / 1e6 * convert(t, psi, "psi", "kPa") * 1000 / lbf
	}
	near(t, "1500 psi on 2 in2", force(rod(2), 1500), 3000, 1e-9)
	near(t, "5 psi on 2 in2", force(rod(2), 5), 10, 1e-9)
	near(t, "5 psi on 5 in2", force(rod(5), 5), 25, 1e-9)
}

// The differential cylinder at 10,000 psi: bore 3 in, rod 1.5 in, stroke 10 in;
// inputs are the project's own, results RECOMPUTED. The cap side is a rod as thick
// as the bore.
func TestDifferentialForces(t *testing.T) {
	area := func(in float64) float64 { return fluid.Tool{RodMM: in * 25.4, StrokeMM: 1}.RodArea() / (25.4 * 25.4) }
	bore, rod := area(3), area(1.5)
	near(t, "bore, in2", bore, 7.068583, 5e-7)
	near(t, "rod, in2", rod, 1.767146, 5e-7)
	near(t, "rod side, in2", bore-rod, 5.301438, 5e-7)
	near(t, "ratio", bore/(bore-rod), 1.333333, 5e-7)
	near(t, "force out, lbf", bore*10000, 70685.83, 5e-3)
	near(t, "force in, lbf", (bore-rod)*10000, 53014.38, 5e-3)
	cap, ring := fluid.Tool{RodMM: 76.2, StrokeMM: 254}.Holds(1), fluid.Tool{RodMM: 76.2, StrokeMM: 254}.Holds(1)-fluid.Tool{RodMM: 38.1, StrokeMM: 254}.Holds(1)
	near(t, "cap, in3", cap/16.387064, 70.685835, 5e-7)
	near(t, "cap, L", cap/1000, 1.158333, 5e-7)
	near(t, "rod side, in3", ring/16.387064, 53.014376, 5e-7)
	near(t, "rod side, L", ring/1000, 0.868750, 5e-7)
}

// hp = psi x gpm / 1714, gal = A L / 231, ft/s = .3208 gpm/in2: a formula sheet
// (studylib.net/doc/27521003, FOUND); 1714.286 and .320833 RECOMPUTED, and the same
// by GNU units 2.22 (.00058333333 hp, .32083333 ft/s).
func TestFormulaSheet(t *testing.T) {
	inch, psi := 0.0254, convert(t, 1, "psi", "kPa")*1000
	gpm := convert(t, 1, "gal", "mL") / 1e6 / 60 // m3/s
	horsepower := 550 * 12 * inch * psi * inch * inch
	near(t, "psi gpm for a horsepower", horsepower/(psi*gpm), 1714.286, 5e-4)
	near(t, "psi gpm for a horsepower, printed", horsepower/(psi*gpm), 1714, 0.5)
	near(t, "ft/s for each gpm/in2", gpm/(inch*inch)/0.3048, 0.320833, 5e-7)
	near(t, "in3 in a gallon", convert(t, 1, "gal", "mL")/16.387064, 231, 1e-9)
}
