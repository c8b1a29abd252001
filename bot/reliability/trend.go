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
// where failures bunch late. Source: NIST/SEMATECH e-Handbook 8.2.3.4.
func Laplace(h History) Test {
	r := float64(len(h.Failures))
	t := Test{Silent: h.trendless()}
	if t.Silent != Spoken {
		return t
	}
	var sum float64
	for _, f := range h.Failures {
		sum += f
	}
	t.Statistic = (sum - r*h.Hours/2) * math.Sqrt(12/r) / h.Hours
	t.Better = distuv.UnitNormal.CDF(t.Statistic)
	t.Worse = distuv.UnitNormal.CDF(-t.Statistic)
	return t
}

// Handbook is the military-handbook test: 2 sum of ln(T/t) is chi-squared with
// 2r degrees of freedom, small where failures bunch late. Source: MIL-HDBK-189,
// NIST/SEMATECH e-Handbook 8.2.3.4.
func Handbook(h History) Test {
	t := Test{Silent: h.trendless()}
	if t.Silent == Spoken && h.Failures[0] == 0 {
		t.Silent = AtStart
	}
	if t.Silent != Spoken {
		return t
	}
	t.Statistic = 2 * h.logs()
	d := distuv.ChiSquared{K: 2 * float64(len(h.Failures))}
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

func (h History) trendless() Silence {
	if s := h.Fits(); s != Spoken {
		return s
	}
	if len(h.Failures) < leastForTrend {
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
// would cry wolf too often.
func TrendOf(h History) Trend {
	t := Trend{Silent: h.trendless(), Failures: len(h.Failures), Direction: Steady, Luck: CouldBe}
	if t.Silent != Spoken {
		return t
	}
	t.Laplace, t.Handbook, t.Reversals = Laplace(h), Handbook(h), Reversals(h)
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
		t.Direction, t.Luck = Worse, MoreThan
	case better >= 2 && worse == 0:
		t.Direction, t.Luck = Better, MoreThan
	}
	return t
}
