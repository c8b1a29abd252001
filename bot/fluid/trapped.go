package fluid

import "crosslay/bot/check"

// Oil is how a fluid answers to pressure and to warmth.
type Oil struct {
	BulkMPa float64 // bulk modulus, megapascals
	PerC    float64 // expansion of its volume for each degree Celsius
}

// Published figures run from the one to the other, by fluid. Rising is
// MIL-H-83282 (300,000 psi and .00046 for each °F, from a maker's engineering
// page), Mild the rule of thumb of 90 psi for each °F (fluidpower.pro), carried
// by the expansion of .00070 for each °C (engineeringtoolbox.com).
var (
	Rising = Oil{BulkMPa: 300_000 * psi, PerC: 0.00046 * 1.8}
	Mild   = Oil{BulkMPa: 90 * 1.8 / 0.00070 * psi, PerC: 0.00070}
)

const psi = 6.894757293168361e-3 // MPa, exact to the last digit (UCUM 2.2)

// Trapped is the pressure, in megapascals, by which warming raises fluid that is
// shut in: bulk modulus x expansion x rise. Steel and hose give way a little, so
// it is the most there can be; 0 where it does not get warmer.
func (o Oil) Trapped(riseC float64) float64 { return max(0, o.BulkMPa*o.PerC*riseC) }

// Swells is the volume by which fluid grows when it is not shut in, in the unit
// of the volume given.
func (o Oil) Swells(volume, riseC float64) float64 { return volume * o.PerC * riseC }

// Rise is a difference of temperature in degrees Celsius, from a difference in
// Fahrenheit: 5/9, without the 32.
func Rise(degF float64) float64 { return degF * 5 / 9 }

// Pressure is a range of trapped pressure in a unit of pressure.
type Pressure struct {
	Low, High float64
	Unit      check.Unit
}

// TrappedIn is the range that the published oils span, in psi or bar or another
// unit of pressure; false where unit is none.
func TrappedIn(riseC float64, unit check.Unit) (Pressure, bool) {
	low, ok := check.Convert(Mild.Trapped(riseC), "MPa", unit)
	high, _ := check.Convert(Rising.Trapped(riseC), "MPa", unit)
	return Pressure{low, high, unit}, ok
}
