package fuel_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"crosslay/bot/fuel"
)

// every is a use of as many minutes each day.
func every(days int, minutes float64) fuel.Use {
	var u fuel.Use
	for range days {
		u = u.Add(minutes)
	}
	return u
}

func TestForecast(t *testing.T) {
	full := fuel.Tank{Level: 1, Floor: 0.75, Endurance: endurance}
	with := func(change func(*fuel.Tank)) fuel.Tank {
		tank := full
		change(&tank)
		return tank
	}
	// A quarter of 150 minutes is 37.5 minutes: five days of 7.5.
	tests := []struct {
		name              string
		tank              fuel.Tank
		use               fuel.Use
		silent            fuel.Silence
		under             bool
		days, early, late float64
	}{
		{"full", full, every(30, 7.5), "", false, 5, 5, 5},
		{"half_a_step_to_either_side", with(func(t *fuel.Tank) { t.Level, t.Step = 0.875, 0.125 }), every(30, 7.5), "", false, 2.5, 1.25, 3.75},
		{"a_full_tank_is_no_fuller", with(func(t *fuel.Tank) { t.Step = 0.25 }), every(30, 7.5), "", false, 5, 2.5, 5},
		{"on_the_floor", with(func(t *fuel.Tank) { t.Level = 0.75 }), every(30, 7.5), "", false, 0, 0, 0},
		{"on_the_floor_but_for_a_crumb", with(func(t *fuel.Tank) { t.Level = 0.75 - 1e-12 }), every(30, 7.5), "", false, 0, 0, 0},
		{"on_the_floor_and_coarse", with(func(t *fuel.Tank) { t.Level, t.Step = 0.75, 0.25 }), every(30, 7.5), "", false, 0, 0, 2.5},
		{"under_it_now", with(func(t *fuel.Tank) { t.Level = 0.5 }), every(30, 7.5), "", true, 0, 0, 0},
		{"under_it_whatever_the_use", with(func(t *fuel.Tank) { t.Level = 0.5 }), fuel.Use{}, "", true, 0, 0, 0},
		{"no_endurance", with(func(t *fuel.Tank) { t.Endurance = 0 }), every(30, 7.5), fuel.NoEndurance, false, 0, 0, 0},
		{"no_level", with(func(t *fuel.Tank) { t.Level = math.NaN() }), every(30, 7.5), fuel.NoLevel, false, 0, 0, 0},
		{"six_days", full, every(6, 7.5), fuel.LittleUse, false, 0, 0, 0},
		{"seven_days", full, every(7, 7.5), "", false, 5, 5, 5},
		{"never_started", full, every(30, 0), fuel.Unused, false, 0, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := tt.tank.Forecast(tt.use)
			if f.Silent != tt.silent || f.Under != tt.under || math.Abs(f.Days-tt.days) > 1e-6 || math.Abs(f.Early-tt.early) > 1e-6 || math.Abs(f.Late-tt.late) > 1e-6 {
				t.Errorf("%+v", f)
			}
		})
	}
}

// Three long days in a month leave no telling how late it may be.
func TestForecastOfRareUse(t *testing.T) {
	u := every(27, 0).Add(30).Add(30).Add(30)
	f := fuel.Tank{Level: 1, Floor: 0.5, Endurance: endurance}.Forecast(u)
	if f.Silent != fuel.Spoken || !math.IsInf(f.Late, 1) && f.Late < 3*f.Days || f.Early > f.Days/2 {
		t.Errorf("%+v", f)
	}
}

// About nine in ten ranges hold the day, and a day before Early is rare: simulated
// engines with a warm-up on most days and a call now and then; the tank is read
// to the nearest eighth.
func TestForecastHoldsTheDay(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 9))
	day := func() float64 {
		minutes := 0.0
		if rng.Float64() < 0.85 {
			minutes += 5 + 5*rng.Float64()
		}
		if rng.Float64() < 0.08 {
			minutes += 25 * rng.ExpFloat64()
		}
		return minutes
	}
	const rounds = 3000
	held, early := 0, 0
	for range rounds {
		var u fuel.Use
		for range 60 {
			u = u.Add(day())
		}
		truly := 0.75 + 0.25*rng.Float64()
		tank := fuel.Tank{Level: math.Round(truly*8) / 8, Step: 0.125, Floor: 0.5, Endurance: endurance}
		f := tank.Forecast(u)
		days := 0.0
		for left := (truly - 0.5) * endurance.Minutes(); left >= 0; days++ {
			left -= day()
		}
		switch {
		case days < f.Early:
			early++
		case days-1 <= f.Late:
			held++
		}
	}
	if float64(held)/rounds < 0.9 || float64(early)/rounds > 0.07 {
		t.Errorf("held %d, sooner %d of %d", held, early, rounds)
	}
}

// Days of a few seconds, as a clock in other units would have them, are no less
// certain for that.
func TestForecastOfShortRuns(t *testing.T) {
	f := fuel.Tank{Level: 1, Floor: 0.5, Endurance: time.Minute}.Forecast(every(30, 0.01))
	if math.Abs(f.Late-50) > 1e-6 || math.Abs(f.Early-50) > 1e-6 {
		t.Errorf("%+v", f)
	}
}

// The constant for nine in ten is gonum's quantile: both bounds of a use whose
// spread is known solve the equation they come from.
func TestForecastSolvesItsEquation(t *testing.T) {
	var u fuel.Use
	for i := range 40 {
		u = u.Add(float64(4 + i%2*8)) // 4 and 12 minutes in turn
	}
	f := fuel.Tank{Level: 1, Floor: 0.5, Endurance: endurance}.Forecast(u)
	z := distuv.UnitNormal.Quantile(0.95)
	n, m, s := 40.0, 8.0, 4*math.Sqrt(40.0/39)
	if got := m*f.Late - z*s*math.Sqrt(f.Late+f.Late*f.Late/n); math.Abs(got-75) > 1e-6 {
		t.Errorf("late %v: %v minutes", f.Late, got)
	}
	n, m = 41, (40*8+12)/41.0
	s = math.Sqrt((40*16 + 40*(8-m)*(8-m) + (12-m)*(12-m)) / 40)
	if got := m*f.Early + z*s*math.Sqrt(f.Early+f.Early*f.Early/n); math.Abs(got-75) > 1e-6 {
		t.Errorf("early %v: %v minutes", f.Early, got)
	}
}

func TestAsk(t *testing.T) {
	base := fuel.Levels{Before: 0.75, Step: 0.125, Endurance: endurance}
	tests := []struct {
		name    string
		change  func(*fuel.Levels)
		want    fuel.Change
		off     float64
		minutes float64
	}{
		{"as_reckoned", func(l *fuel.Levels) { l.Now, l.Ran = 0.7, 7.5 }, fuel.Expected, 0, 0},
		{"within_a_step", func(l *fuel.Levels) { l.Now = 0.625 }, fuel.Expected, 0, 0},
		{"lower_than_the_runs", func(l *fuel.Levels) { l.Now, l.Ran = 0.25, 15 }, fuel.Lower, 0.4, 60},
		{"lower_explained_by_reported_use", func(l *fuel.Levels) { l.Now, l.Ran = 0.25, 75 }, fuel.Expected, 0, 0},
		{"higher", func(l *fuel.Levels) { l.Now = 1 }, fuel.Higher, 0.25, 37.5},
		{"higher_and_filled", func(l *fuel.Levels) { l.Now, l.Filled = 1, true }, fuel.Expected, 0, 0},
		{"higher_without_endurance", func(l *fuel.Levels) { l.Now, l.Endurance = 1, 0 }, fuel.Higher, 0.25, 0},
		{"lower_after_runs_without_endurance", func(l *fuel.Levels) { l.Now, l.Ran, l.Endurance = 0.25, 15, 0 }, fuel.Expected, 0, 0},
		{"lower_without_runs_or_endurance", func(l *fuel.Levels) { l.Now, l.Endurance = 0.25, 0 }, fuel.Lower, 0.5, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := base
			tt.change(&l)
			q := l.Ask()
			if q.Change != tt.want || math.Abs(q.Off-tt.off) > 1e-9 || math.Abs(q.Minutes-tt.minutes) > 1e-9 {
				t.Errorf("%+v", q)
			}
		})
	}
}

// The oracle keeps every drop: fuel well mixed, each part with its own age.
func TestAgeByDrops(t *testing.T) {
	type part struct{ amount, age float64 }
	rapid.Check(t, func(t *rapid.T) {
		age := fuel.Age{}.Fill(0, 1)
		tank := []part{{1, 0}}
		level := 1.0
		for range rapid.IntRange(1, 30).Draw(t, "days") {
			wait := float64(rapid.IntRange(0, 9).Draw(t, "wait"))
			age = age.Wait(wait)
			for i := range tank {
				tank[i].age += wait
			}
			burn := rapid.Float64Range(0, 0.9).Draw(t, "burn") * level
			for i := range tank {
				tank[i].amount *= 1 - burn/level
			}
			level -= burn
			if rapid.Bool().Draw(t, "fill") {
				to := rapid.Float64Range(level, 1).Draw(t, "to")
				age = age.Fill(level, to)
				tank, level = append(tank, part{to - level, 0}), to
			}
		}
		var sum float64
		for _, p := range tank {
			sum += p.amount * p.age
		}
		if !age.Known || math.Abs(age.Days-sum/level) > 1e-6*max(1, age.Days) {
			t.Errorf("%v days, by drops %v", age.Days, sum/level)
		}
	})
}

func TestTurned(t *testing.T) {
	filled := fuel.Age{}.Fill(0.25, 1)
	tests := []struct {
		name  string
		age   fuel.Age
		limit float64
		want  fuel.Turnover
	}{
		{"never_filled", fuel.Age{}.Wait(400), 90, fuel.NotWatched},
		{"no_limit", filled.Wait(400), 0, fuel.NotWatched},
		{"fresh", filled.Wait(90), 90, fuel.Fresh},
		{"stale", filled.Wait(91), 90, fuel.Stale},
		{"half_renewed", filled.Wait(100).Fill(0.5, 1).Wait(30), 90, fuel.Fresh},
		{"a_sip_renews_little", filled.Wait(100).Fill(0.95, 1), 90, fuel.Stale},
		{"a_fill_that_fills_nothing", filled.Wait(100).Fill(1, 1), 90, fuel.Stale},
		{"levels_upside_down", filled.Wait(100).Fill(1, 0.5), 90, fuel.Stale},
		{"time_does_not_run_back", filled.Wait(100).Wait(-50), 90, fuel.Stale},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.age.Turned(tt.limit); got != tt.want {
				t.Errorf("%+v: %s, want %s", tt.age, got, tt.want)
			}
		})
	}
}

// What a reading leaves for the forecast is what Left tells, in another unit.
func TestForecastAgreesWithLeft(t *testing.T) {
	left, _ := fuel.Left(0.6, endurance)
	f := fuel.Tank{Level: 0.6, Endurance: endurance}.Forecast(every(10, 10))
	if got := time.Duration(f.Days * 10 * float64(time.Minute)); got-left > time.Millisecond || left-got > time.Millisecond {
		t.Errorf("%v, left %v", got, left)
	}
}
