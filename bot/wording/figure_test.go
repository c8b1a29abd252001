package wording

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"crosslay/bot/check"
)

func TestLevel(t *testing.T) {
	for f, want := range map[float64]string{0: "empty", 0.25: "1/4", 0.5: "1/2", 0.75: "3/4", 0.875: "7/8", 1: "full",
		0.33: "1/3", 2.0 / 3: "2/3", 0.9: "90%", 0.7: "70%", 0.999: "99%", 1.1: "110%"} {
		if got := Level(f); got != want {
			t.Errorf("Level(%v) = %q, want %q", f, got, want)
		}
	}
}

func TestFigure(t *testing.T) {
	ahead := &check.Check{Answer: check.Answer{Kind: check.DateAhead}}
	volts := &check.Check{Answer: check.Answer{Kind: check.Number, Unit: "V"}}
	share := &check.Check{Answer: check.Answer{Kind: check.Number, Unit: "%", Min: num(19.5)}}
	for _, tt := range []struct {
		name string
		c    *check.Check
		v    check.Value
		want string
	}{
		{"level", tank, check.Num(0.75), "3/4"},
		{"level_just_under", tank, check.Num(0.7499), "74%"},
		{"psi", pressure, check.Num(4200), "4200 psi"},
		{"bar_in_psi", pressure, check.Num(4351.132), "4351 psi"},
		{"rounding_crosses_no_limit", pressure, check.Num(4499.8), "4499.8 psi"},
		{"volts", volts, check.Num(12.6), "12.6 V"},
		{"percent", share, check.Num(20.9), "20.9%"},
		{"percent_just_under", share, check.Num(19.48), "19.48%"},
		{"minutes", runIt, check.Num(7), "7 min"},
		{"minutes_just_under", runIt, check.Num(4.9), "4.9 min"},
		{"half_a_minute", runIt, check.Num(0.5), "0.5 min"},
		{"low", hydOil, check.Word("low"), "low"},
		{"month", ahead, check.Word("2027-03"), "Mar 2027"},
		{"day", ahead, check.Word("2027-03-15"), "Mar 15, 2027"},
		{"nothing", hydOil, check.Value{}, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := Figure(tt.c, tt.v); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

// TestFigureStaysOnItsSide holds that no figure is written on the other side of
// a limit than it was read: "3/4 LOW" under a floor of 3/4 would be taken for ok.
func TestFigureStaysOnItsSide(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 7))
	for range 20000 {
		limit := float64(rnd.IntN(5000)) / 10
		c := &check.Check{Answer: check.Answer{Kind: check.Number, Unit: "psi", Min: &limit}}
		f := limit + (rnd.Float64()-0.5)*float64(rnd.IntN(4))
		g, err := strconv.ParseFloat(strings.TrimSuffix(Figure(c, check.Num(f)), " psi"), 64)
		if err != nil {
			t.Fatal(err)
		}
		_, was := c.Answer.Within(f)
		if _, is := c.Answer.Within(g); is != was {
			t.Fatalf("%v is written %v: other side of %v", f, g, limit)
		}
	}
}

func TestFailed(t *testing.T) {
	ahead := &check.Check{Answer: check.Answer{Kind: check.DateAhead}}
	for _, tt := range []struct {
		name   string
		c      *check.Check
		v      check.Value
		damage string
		want   string
	}{
		{"low_level", tank, check.Num(0.5), "", "1/2 LOW"},
		{"low_word", hydOil, check.Word("low"), "", "LOW"},
		{"short_run", runIt, check.Num(3), "", "3 min TOO SHORT"},
		{"long_run", runIt, check.Num(12), "", "12 min TOO LONG"},
		{"short_run_by_its_name", runIt, check.Num(3), "low", "3 min TOO SHORT"},
		{"long_run_by_its_name", runIt, check.Num(12), "over", "12 min TOO LONG"},
		{"short_run_without_figure", runIt, check.Word("low"), "", "TOO SHORT"},
		{"damage", blades, check.Value{}, "cracked", "CRACKED"},
		{"condition", throttle, check.Value{}, "", "FAULT"},
		{"choice", lamp, check.Word("red"), "", "red FAULT"},
		{"date_past", ahead, check.Word("2024-03"), "", "Mar 2024 PAST"},
		{"within_limits_yet_a_fault", tank, check.Num(1), "", "full FAULT"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := failed(tt.c, tt.v, tt.damage); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

func TestLimits(t *testing.T) {
	top := &check.Check{Answer: check.Answer{Kind: check.Number, Unit: "bar", Max: num(300)}}
	brim := &check.Check{Answer: check.Answer{Kind: check.Level, Min: num(1)}}
	both := &check.Check{Answer: check.Answer{Kind: check.Number, Unit: "%", Min: num(19.5), Max: num(23.5)}}
	for c, want := range map[*check.Check]string{runIt: "5 to 10 min", tank: "3/4 and up", top: "up to 300 bar", brim: "full", both: "19.5 to 23.5%", throttle: ""} {
		if got := limits(c); got != want {
			t.Errorf("limits %q, want %q", got, want)
		}
	}
}
