package fuel_test

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"crosslay/bot/fuel"
)

// A full tank lasts about 2 1/2 hours: common practice, no source.
const endurance = 150 * time.Minute

func TestLeft(t *testing.T) {
	tests := []struct {
		name     string
		fraction float64
		want     time.Duration
	}{
		{"full", 1, 150 * time.Minute},
		{"three_quarters", 0.75, 112*time.Minute + 30*time.Second},
		{"half", 0.5, 75 * time.Minute},
		{"empty", 0, 0},
		{"over_full", 1.2, 150 * time.Minute},
		{"under_empty", -0.1, 0},
		{"no_number", math.NaN(), 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got, ok := fuel.Left(tt.fraction, endurance); !ok || got != tt.want {
				t.Errorf("%v of a tank: %v %v, want %v", tt.fraction, got, ok, tt.want)
			}
		})
	}
	if _, ok := fuel.Left(1, 0); ok {
		t.Error("reckoned without the endurance")
	}
}

func TestBurn(t *testing.T) {
	for minutes, want := range map[float64]float64{0: 0, -5: 0, 7.5: 0.05, 15: 0.1, 150: 1} {
		if got := fuel.Burn(minutes, endurance); math.Abs(got-want) > 1e-12 {
			t.Errorf("%v min: %v, want %v", minutes, got, want)
		}
	}
	if got := fuel.Burn(10, 0); got != 0 {
		t.Errorf("burned %v of an unknown tank", got)
	}
	if got := fuel.After(0.75, 15, endurance); math.Abs(got-0.65) > 1e-12 {
		t.Errorf("after 15 min: %v", got)
	}
}

func TestCompare(t *testing.T) {
	tests := []struct {
		name                      string
		before, now, burned, step float64
		filled                    bool
		want                      fuel.Change
	}{
		{"same", 0.75, 0.75, 0, 0.25, false, fuel.Expected},
		{"burned_as_reckoned", 0.75, 0.65, 0.1, 0.05, false, fuel.Expected},
		{"within_a_step", 0.75, 0.5, 0, 0.25, false, fuel.Expected},
		{"lower_than_runs", 1, 0.5, 0.1, 0.25, false, fuel.Lower},
		{"higher", 0.5, 0.8, 0, 0.25, false, fuel.Higher},
		{"higher_by_a_step", 0.5, 0.75, 0, 0.25, false, fuel.Expected},
		{"higher_than_before_not_than_reckoned", 0.5, 0.5, 0.3, 0.125, false, fuel.Expected},
		{"filled", 0.25, 1, 0, 0.25, true, fuel.Expected},
		{"exact_gauge", 0.5, 0.49, 0, 0, false, fuel.Lower},
		{"runs_past_empty", 0.1, 0, 0.5, 0, false, fuel.Expected},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := fuel.Compare(tt.before, tt.now, tt.burned, tt.step, tt.filled); got != tt.want {
				t.Errorf("got %s, want %s", got, tt.want)
			}
		})
	}
}

// Two runs one after the other leave what one run of their length leaves.
func TestRunsAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tank := rapid.Float64Range(0, 1).Draw(t, "tank")
		a, b := rapid.Float64Range(0, 200).Draw(t, "a"), rapid.Float64Range(0, 200).Draw(t, "b")
		twice := fuel.After(fuel.After(tank, a, endurance), b, endurance)
		once := fuel.After(tank, a+b, endurance)
		if math.Abs(twice-once) > 1e-9 || once < 0 || once > tank {
			t.Errorf("tank %v, %v and %v min: %v in two, %v in one", tank, a, b, twice, once)
		}
	})
}
