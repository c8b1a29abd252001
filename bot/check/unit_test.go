package check_test

import (
	"math"
	"testing"

	"crosslay/bot/check"
)

// Each factor is compared relative to its size with the tolerance of the printed
// figure. SP 811 figures have seven digits, read second-hand (NISTunits 1.0.1,
// citing NIST SP 811 App. B.8); exact ones are the definitions of UCUM 2.2.
func TestConvert(t *testing.T) {
	const exact, seven = 1e-12, 2e-7
	tests := []struct {
		name      string
		f         float64
		from, to  check.Unit
		want      float64
		tolerance float64
	}{
		{"inch_ucum", 1, "in", "cm", 2.54, exact},
		{"inch_sp811", 1, "in", "m", 0.0254, seven},
		{"foot_ucum", 1, "ft", "in", 12, exact},
		{"foot_sp811", 1, "ft", "m", 0.3048, seven},
		{"gallon_ucum_231_in3", 1, "gal", "L", 3.785411784, exact},
		{"gallon_sp811", 1, "gal", "L", 3.785412, seven},
		{"quart_ucum_a_quarter_gallon", 4, "qt", "gal", 1, exact},
		{"quart_sp811", 1, "qt", "L", 0.9463529, seven},
		{"fluid_ounce_ucum", 1, "fl oz", "mL", 29.5735295625, exact},
		{"fluid_ounce_sp811", 1, "fl oz", "mL", 29.57353, seven},
		{"fluid_ounces_of_a_gallon_ucum", 1, "gal", "fl oz", 128, exact},
		{"psi_ucum", 1, "psi", "kPa", 6.894757293168, 1e-12},
		{"psi_sp811", 1, "psi", "kPa", 6.894757, seven},
		{"bar_ucum", 1, "bar", "kPa", 100, exact},
		{"10000_psi_in_bar_recomputed", 10000, "psi", "bar", 689.4757, seven},
		{"10000_psi_in_mpa_recomputed", 10000, "psi", "MPa", 68.94757, seven},
		{"700_bar_in_psi_recomputed", 700, "bar", "psi", 10152.642, seven},
		{"720_bar_in_psi_recomputed", 720, "bar", "psi", 10442.717, seven},
		{"10500_psi_in_bar_recomputed", 10500, "psi", "bar", 723.9495, seven},
		{"inches_ucum_case_3_118", 6.3, "in", "m", 0.160, 0.5e-3 / 0.160}, // three digits there
		{"inches_ucum_case_3_119", 6.3, "in", "cm", 16.0, 0.05 / 16},
		{"freezing_degf_exact", 32, "degF", "degC", 0, exact},
		{"freezing_degc_exact", 0, "degC", "degF", 32, exact}, // not 57.6, as 9/5 (C + 32) would have it
		{"boiling_degf_exact", 212, "degF", "degC", 100, exact},
		{"minus_forty_exact", -40, "degC", "degF", -40, exact},
		{"hour", 1, "h", "min", 60, exact},
		{"seconds", 90, "s", "min", 1.5, exact},
		{"percent_of_itself", 55, "%", "%", 55, exact},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := check.Convert(tt.f, tt.from, tt.to)
			if !ok || math.Abs(got-tt.want) > tt.tolerance*max(1, math.Abs(tt.want)) {
				t.Errorf("%v %s is %.12g %s, want %.12g", tt.f, tt.from, got, tt.to, tt.want)
			}
		})
	}
}

func TestConvertRefuses(t *testing.T) {
	for _, pair := range [][2]check.Unit{{"psi", "in"}, {"gal", "min"}, {"V", "Hz"}, {"furlong", "in"}, {"in", ""}, {"%", "ppm"}} {
		if got, ok := check.Convert(1, pair[0], pair[1]); ok {
			t.Errorf("1 %s became %v %s", pair[0], got, pair[1])
		}
	}
}

func TestParseUnit(t *testing.T) {
	for name, want := range map[string]check.Unit{
		"PSI": "psi", "lbs": "psi", "Bars": "bar", "in.": "in", "inches": "in", `"`: "in", "mm": "mm", "m": "min", "mins": "min", "minutes": "min",
		"volts": "V", "v": "V", "pct": "%", "percent": "%", "oz": "fl oz", "°F": "degF", "hz": "Hz", " gal ": "gal", "MPa": "MPa",
	} {
		if got, ok := check.ParseUnit(name); !ok || got != want {
			t.Errorf("%q is %q %v, want %q", name, got, ok, want)
		}
	}
	for _, name := range []string{"", "half", "furlong", "ok", "f"} {
		if got, ok := check.ParseUnit(name); ok {
			t.Errorf("%q is taken for %q", name, got)
		}
	}
	if check.Unit("").Known() || !check.Unit("psi").Known() {
		t.Error("known units are wrong")
	}
}
