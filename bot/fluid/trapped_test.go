package fluid_test

import (
	"math"
	"testing"

	"crosslay/bot/check"
	"crosslay/bot/fluid"
)

// A component maker's engineering page (FOUND): MIL-H-83282, 300,000 psi and .00046
// for each °F, from 70 to 120 °F: 6900 psi; GNU units 2.22 says 47.573825 MPa of
// it (RECOMPUTED).
func TestTrapped(t *testing.T) {
	rise := fluid.Rise(120 - 70)
	got := fluid.Rising.Trapped(rise)
	near(t, "psi", convert(t, got, "MPa", "psi"), 6900, 1e-6)
	near(t, "MPa", got, 47.573825, 5e-7)
	near(t, "as adding to 100 in3", fluid.Rising.Swells(100, rise), 2.3, 1e-12)
}

// The same page's MIL-H-5606: 260,000 psi and the same expansion; by the formula
// 119.6 psi for each °F, between the two that are told.
func TestTrappedOfAnotherOil(t *testing.T) {
	o := fluid.Oil{BulkMPa: convert(t, 260_000, "psi", "MPa"), PerC: 0.00046 * 1.8}
	near(t, "psi for each F", convert(t, o.Trapped(fluid.Rise(1)), "MPa", "psi"), 119.6, 1e-9)
	if p := o.Trapped(10); p < fluid.Mild.Trapped(10) || p > fluid.Rising.Trapped(10) {
		t.Errorf("%v MPa is not in the range told", p)
	}
}

// fluidpower.pro (FOUND): a rule of thumb of 90 psi for each °F, 11 bar for each
// °C; 11.169507 by GNU units 2.22 (RECOMPUTED). The other published figure is 138.
func TestTrappedIn(t *testing.T) {
	p, ok := fluid.TrappedIn(fluid.Rise(1), "psi")
	if !ok || p.Unit != "psi" {
		t.Fatalf("%+v %v", p, ok)
	}
	near(t, "low", p.Low, 90, 1e-9)
	near(t, "high", p.High, 138, 1e-9)
	bar, _ := fluid.TrappedIn(1, "bar")
	near(t, "bar for each C, printed", bar.Low, 11, 0.5)
	near(t, "bar for each C", bar.Low, 11.169507, 5e-7)
	if _, ok := fluid.TrappedIn(10, "in"); ok {
		t.Error("a pressure in inches")
	}
	if cold, _ := fluid.TrappedIn(-20, "psi"); cold.Low != 0 || cold.High != 0 {
		t.Errorf("cooling: %+v", cold)
	}
}

// engineeringtoolbox.com, volumetric expansion (FOUND): oil .00070 for each °C,
// .00039 for each °F; 100 L from 20 to 40 °C grow by 1.4 L.
func TestSwells(t *testing.T) {
	near(t, "L", fluid.Mild.Swells(100, 20), 1.4, 1e-12)
	near(t, "for each F", fluid.Mild.Swells(1, fluid.Rise(1)), 0.00039, 5e-6)
}

// A difference of temperature has no 32 in it.
func TestRise(t *testing.T) {
	near(t, "50 F", fluid.Rise(50), 27.777777777777, 1e-9)
	a, _ := check.Convert(70, "degF", "degC")
	b, _ := check.Convert(120, "degF", "degC")
	near(t, "as a difference of two readings", fluid.Rise(50), b-a, 1e-9)
}

// Fluid is hard: .4 % smaller at 1000 psi and 1.1 % at 3000 psi and 120 °F
// (giaiphaploc.com, FOUND), .5 % at some point of 1000 to 4000 psi (read at
// engineersedge.com). The two bulk moduli lie on either side.
func TestBulkModulusIsOfTheRightSize(t *testing.T) {
	smaller := func(o fluid.Oil, psi float64) float64 { return 100 * convert(t, psi, "psi", "MPa") / o.BulkMPa }
	for psi, want := range map[float64]float64{1000: 0.4, 3000: 1.1} {
		if hard, soft := smaller(fluid.Rising, psi), smaller(fluid.Mild, psi); hard > want || soft < want || soft > 1.2*want {
			t.Errorf("%v psi: %.3f and %.3f %%, want %v between", psi, hard, soft, want)
		}
	}
}

// Volumes as a crew pours them. 289.583 mL are 9.7919661 fl oz by GNU units 2.22
// (RECOMPUTED); the imperial ounce, which is smaller, would make 10.19.
func TestIn(t *testing.T) {
	for _, c := range []struct {
		ml     float64
		metric bool
		want   float64
		unit   check.Unit
	}{{289.583, false, 9.7919661, "fl oz"}, {289.583, true, 289.583, "mL"}, {946.352946, false, 1, "qt"}, {946, false, 31.9880655, "fl oz"}, {1500, true, 1.5, "L"},
		{999.9, true, 999.9, "mL"}, {0, false, 0, "fl oz"}} {
		v := fluid.In(c.ml, c.metric)
		if v.Unit != c.unit || math.Abs(v.Amount-c.want) > 5e-7 {
			t.Errorf("%v mL: %+v, want %v %s", c.ml, v, c.want, c.unit)
		}
	}
}
