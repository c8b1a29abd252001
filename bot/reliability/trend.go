package reliability

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Test is one test for a trend. Early failures are an improvement, late ones a
// degradation: Better and Worse are the probabilities that something steady
// shows as much of the one, or of the other, or more.
type Test struct {
	Silent    Silence
	Statistic float64 // z, chi-squared or the number of reversals
	Better    float64
	Worse     float64
}

// Laplace is the centroid test: z = (sum of t - rT/2) sqrt(12/r)/T, positive
// where failures bunch late. Source: NIST/SEMATECH e-Handbook 8.2.3.4. Several
// histories, each at a rate of its own, are taken together by their sums and
// variances.
func Laplace(hs ...History) Test {
	t := Test{Silent: trendless(hs)}
	if t.Silent != Spoken {
		return t
	}
	var off, variance float64
	for _, h := range hs {
		r := float64(len(h.Failures))
		for _, f := range h.Failures {
			off += f
		}
		off -= r * h.Hours / 2
		variance += r * h.Hours * h.Hours / 12
	}
	t.Statistic = off / math.Sqrt(variance)
	t.Better = distuv.UnitNormal.CDF(t.Statistic)
	t.Worse = distuv.UnitNormal.CDF(-t.Statistic)
	return t
}

// Handbook is the military-handbook test: 2 sum of ln(T/t) is chi-squared with
// 2r degrees of freedom, small where failures bunch late. Source: MIL-HDBK-189,
// NIST/SEMATECH e-Handbook 8.2.3.4. Several histories add up.
func Handbook(hs ...History) Test {
	t := Test{Silent: trendless(hs)}
	var r float64
	for _, h := range hs {
		if t.Silent == Spoken && len(h.Failures) > 0 && h.Failures[0] == 0 {
			t.Silent = AtStart
		}
		r += float64(len(h.Failures))
	}
	if t.Silent != Spoken {
		return t
	}
	for _, h := range hs {
		t.Statistic += 2 * h.logs()
	}
	d := distuv.ChiSquared{K: 2 * r}
	t.Worse, t.Better = d.CDF(t.Statistic), d.Survival(t.Statistic)
	return t
}

// logs is the sum of ln(T/t).
func (h History) logs() float64 {
	var sum float64
	for _, f := range h.Failures {
		sum += math.Log(h.Hours / f)
	}
	return sum
}

// leastForTrend is the first number of failures whose order alone can be more
// than luck: the best order of four comes in one case of 24.
const leastForTrend = 4

func trendless(hs []History) Silence {
	if len(hs) == 0 {
		return NoTime
	}
	n := 0
	for _, h := range hs {
		if s := h.Fits(); s != Spoken {
			return s
		}
		n += len(h.Failures)
	}
	if n < leastForTrend {
		return TooFew
	}
	return Spoken
}

// Trend is whether something is getting worse, by three tests.
type Trend struct {
	Silent    Silence
	Failures  int
	Laplace   Test
	Handbook  Test
	Reversals Test
	Direction Direction // Steady where it could be luck
	Luck      Luck
}

// TrendOf calls a trend more than luck where two of the three tests do and none
// speaks for the contrary: each is blind to something, and the worst of three
// would cry wolf too often. The items of a kind are taken together, each from its
// own start: new ones do not make the kind look worn.
func TrendOf(hs ...History) Trend {
	t := Trend{Silent: trendless(hs), Direction: Steady, Luck: CouldBe}
	for _, h := range hs {
		t.Failures += len(h.Failures)
	}
	if t.Silent != Spoken {
		return t
	}
	t.Laplace, t.Handbook, t.Reversals = Laplace(hs...), Handbook(hs...), Reversals(hs...)
	t.Direction, t.Luck = t.vote()
	return t
}

func (t Trend) vote() (Direction, Luck) {
	var worse, better int
	for _, test := range []Test{t.Laplace, t.Handbook, t.Reversals} {
		if test.Silent != Spoken {
			continue
		}
		if luck(test.Worse) == MoreThan {
			worse++
		}
		if luck(test.Better) == MoreThan {
			better++
		}
	}
	switch {
	case worse >= 2 && better == 0:
		return Worse, MoreThan
	case better >= 2 && worse == 0:
		return Better, MoreThan
	}
	return Steady, CouldBe
}
