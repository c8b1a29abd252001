package check

import "strings"

// Unit is a unit of measure as a sheet writes it.
type Unit string

// dimension groups units that convert into each other.
type dimension string

type unit struct {
	dim   dimension
	scale float64 // of one unit in the dimension's base unit
	shift float64 // added after scaling: for temperatures
	names []string
}

// units is every unit that a sheet may name and a reply may use. Scales are
// exact by definition: inch 25.4 mm, gallon 231 cubic inches, pound-force from
// 0.45359237 kg and 9.80665 m/s2 (as in UCUM 2.2).
var units = map[Unit]unit{
	"in":    {"length", 25.4, 0, []string{"in", "inch", "inches", "\"", "″"}},
	"ft":    {"length", 304.8, 0, []string{"ft", "foot", "feet"}},
	"mm":    {"length", 1, 0, []string{"mm", "millimeter", "millimeters", "millimetre", "millimetres"}},
	"cm":    {"length", 10, 0, []string{"cm", "centimeter", "centimeters", "centimetre", "centimetres"}},
	"m":     {"length", 1000, 0, []string{"meter", "meters", "metre", "metres"}},
	"psi":   {"pressure", 6.894757293168361, 0, []string{"psi", "psig", "pounds", "lbs"}},
	"bar":   {"pressure", 100, 0, []string{"bar", "bars"}},
	"kPa":   {"pressure", 1, 0, []string{"kpa"}},
	"mmHg":  {"pressure", 0.1333223874, 0, []string{"mmhg", "mm hg"}}, // millimetre of mercury, UCUM m[Hg] = 133.322 kPa
	"MPa":   {"pressure", 1000, 0, []string{"mpa"}},
	"%":     {"ratio", 0.01, 0, []string{"%", "percent", "pct", "per cent"}},
	"V":     {"voltage", 1, 0, []string{"v", "volt", "volts", "vac"}},
	"Hz":    {"frequency", 1, 0, []string{"hz", "hertz", "cycles"}},
	"min":   {"time", 1, 0, []string{"min", "mins", "minute", "minutes", "m"}},
	"h":     {"time", 60, 0, []string{"h", "hr", "hrs", "hour", "hours"}},
	"s":     {"time", 1.0 / 60, 0, []string{"s", "sec", "secs", "second", "seconds"}},
	"L":     {"volume", 1000, 0, []string{"l", "liter", "liters", "litre", "litres"}},
	"mL":    {"volume", 1, 0, []string{"ml", "milliliter", "milliliters", "millilitre", "millilitres"}},
	"gal":   {"volume", 3785.411784, 0, []string{"gal", "gals", "gallon", "gallons"}},
	"qt":    {"volume", 946.352946, 0, []string{"qt", "qts", "quart", "quarts"}},
	"fl oz": {"volume", 29.5735295625, 0, []string{"oz", "fl oz", "ounce", "ounces"}},
	"degF":  {"temperature", 5.0 / 9, -32 * 5.0 / 9, []string{"°f", "degf", "fahrenheit"}},
	"degC":  {"temperature", 1, 0, []string{"°c", "degc", "celsius"}},
	"ppm":   {"ppm", 1, 0, []string{"ppm"}},
	"count": {"count", 1, 0, []string{"pcs", "pieces"}},
}

var unitNames = func() map[string]Unit {
	m := map[string]Unit{}
	for u := range units {
		m[strings.ToLower(string(u))] = u
	}
	for u, def := range units { // a unit's spelled names win over another's symbol
		for _, n := range def.names {
			m[n] = u
		}
	}
	return m
}()

// ParseUnit finds the unit that people call by the name, in any case.
func ParseUnit(name string) (Unit, bool) {
	u, ok := unitNames[strings.ToLower(strings.TrimSuffix(strings.TrimSpace(name), "."))]
	return u, ok
}

// Known reports whether u is a unit.
func (u Unit) Known() bool { _, ok := units[u]; return ok }

// Convert turns f in unit from into unit to; false where they measure different
// things.
func Convert(f float64, from, to Unit) (float64, bool) {
	a, okA := units[from]
	b, okB := units[to]
	if !okA || !okB || a.dim != b.dim {
		return 0, false
	}
	if from == to {
		return f, true
	}
	return (f*a.scale + a.shift - b.shift) / b.scale, true
}
