package fluid_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"crosslay/bot/check"
	"crosslay/bot/fluid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s: %.9f, want %.9f", what, got, want)
	}
}

func convert(t *testing.T, f float64, from, to check.Unit) float64 {
	t.Helper()
	got, ok := check.Convert(f, from, to)
	if !ok {
		t.Fatalf("%s does not convert to %s", from, to)
	}
	return got
}

// The differential cylinder: bore 3 in, rod 1.5 in, stroke 10 in. Source:
// RECOMPUTED (scipy, gonum) by V = A x L of TM 1-1500-204-23-2, ch. 2, and the
// retract area pi/4 (D2 - d2); inputs are the project's own.
func TestDifferentialCylinder(t *testing.T) {
	const cubicInch = 16.387064 // mL, UCUM 2.2 (exact)
	tool := fluid.Tool{RodMM: convert(t, 1.5, "in", "mm"), StrokeMM: convert(t, 10, "in", "mm")}
	near(t, "rod area, in2", tool.RodArea()/(25.4*25.4), 1.767146, 5e-7)
	near(t, "difference, in3", tool.Holds(1)/cubicInch, 17.671459, 5e-7)
	near(t, "difference, L", tool.Holds(1)/1000, 0.289583, 5e-7)
	near(t, "cap side less rod side, in3", tool.Holds(1)/cubicInch, 70.685835-53.014376, 1e-6)
	near(t, "half open, L", tool.Holds(0.5)/1000, 0.289583/2, 5e-7)
}

// V = A x L, 8 in2 x 10 in = 80 in3. Source: TM 1-1500-204-23-2 (US Army), ch. 2,
// FOUND.
func TestVolumeIsAreaTimesStroke(t *testing.T) {
	rod := math.Sqrt(8 * 4 / math.Pi) // inches, for 8 in2
	tool := fluid.Tool{RodMM: rod * 25.4, StrokeMM: 254}
	near(t, "in3", tool.Holds(1)/16.387064, 80, 1e-9)
}

func TestCorrect(t *testing.T) {
	tool := fluid.Tool{RodMM: 38.1, StrokeMM: 254} // holds 289.583 mL more when open
	tests := []struct {
		name                     string
		level, open, band        float64
		closed, missing, overful float64
	}{
		{"closed_and_full", 1, 0, 400, 1, 0, 0},
		{"closed_and_half", 0.5, 0, 400, 0.5, 200, 0},
		{"open_and_low", 0, 1, 400, 0.723958, 110.417, 289.583},
		{"open_and_full", 1, 1, 400, 1.723958, 0, 289.583},
		{"half_open", 0.25, 0.5, 400, 0.611979, 155.208, 144.792},
		{"over_the_mark", 1.5, 0, 400, 1.5, 0, 200},
		{"under_the_mark", -0.25, 1, 400, 0.473958, 210.417, 289.583},
		{"more_than_open", 0, 3, 400, 0.723958, 110.417, 289.583},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := fluid.Reading{Level: tt.level, Open: tt.open, BandML: tt.band, Tool: tool}.Correct()
			if !ok {
				t.Fatal("not corrected")
			}
			near(t, "closed", got.Level, tt.closed, 1e-6)
			near(t, "missing", got.MissingML, tt.missing, 1e-3)
			near(t, "overfill", got.OverfillML, tt.overful, 1e-3)
		})
	}
}

func TestCorrectNeedsItsFigures(t *testing.T) {
	whole := fluid.Reading{Level: 0.5, Open: 1, BandML: 400, Tool: fluid.Tool{RodMM: 38, StrokeMM: 254}}
	for name, spoil := range map[string]func(*fluid.Reading){
		"no_rod": func(r *fluid.Reading) { r.Tool.RodMM = 0 }, "no_stroke": func(r *fluid.Reading) { r.Tool.StrokeMM = 0 },
		"no_band": func(r *fluid.Reading) { r.BandML = 0 }, "no_level": func(r *fluid.Reading) { r.Level = math.NaN() },
		"no_position": func(r *fluid.Reading) { r.Open = math.NaN() },
	} {
		t.Run(name, func(t *testing.T) {
			r := whole
			spoil(&r)
			if got, ok := r.Correct(); ok {
				t.Errorf("reckoned %+v", got)
			}
		})
	}
}

// Filling up to the mark with the tool open and then closing it overfills by
// exactly what OverfillML said, and what is missing brings it to the mark.
func TestOilIsConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := fluid.Reading{
			Level: rapid.Float64Range(0, 1).Draw(t, "level"), Open: rapid.Float64Range(0, 1).Draw(t, "open"),
			BandML: rapid.Float64Range(50, 2000).Draw(t, "band"),
			Tool:   fluid.Tool{RodMM: rapid.Float64Range(5, 80).Draw(t, "rod"), StrokeMM: rapid.Float64Range(10, 600).Draw(t, "stroke")},
		}
		before, _ := r.Correct()
		poured := (1 - r.Level) * r.BandML
		after := before.Level + poured/r.BandML
		if got := (after - 1) * r.BandML; math.Abs(got-before.OverfillML) > 1e-6 {
			t.Errorf("overfilled by %v, told %v", got, before.OverfillML)
		}
		if full := before.Level + before.MissingML/r.BandML; before.Level <= 1 && math.Abs(full-1) > 1e-9 {
			t.Errorf("with what was missing the level is %v", full)
		}
	})
}

// Two tools on one tank take twice as much out of it; without any the level is as
// read.
func TestCorrectForSeveralTools(t *testing.T) {
	tool := fluid.Tool{RodMM: 38.1, StrokeMM: 254} // holds 289.583 mL more when open
	two, ok := fluid.Correct(0, 1000, fluid.Position{Tool: tool, Open: 1}, fluid.Position{Tool: tool, Open: 0.5})
	if !ok {
		t.Fatal("not corrected")
	}
	near(t, "level", two.Level, 0.434375, 1e-6)
	near(t, "missing", two.MissingML, 565.625, 1e-3)
	near(t, "overfill", two.OverfillML, 434.375, 1e-3)
	if none, ok := fluid.Correct(0.25, 1000); !ok || none.Level != 0.25 || none.OverfillML != 0 || none.MissingML != 750 {
		t.Errorf("%+v %v", none, ok)
	}
	if c, ok := fluid.Correct(0.25, 1000, fluid.Position{Tool: tool}, fluid.Position{Open: 1}); ok {
		t.Errorf("one tool's figures are missing: %+v", c)
	}
}
