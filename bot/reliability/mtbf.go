package reliability

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Usual is the confidence that bounds are given with unless the caller has a
// reason for another: nine in ten.
const Usual = 0.90

// Sides says which bounds are meant.
type Sides string

// Without failures there is a lower bound alone, and all the doubt lies on it.
const (
	Both      Sides = "both"
	LowerOnly Sides = "lower"
)

// MTBF is the mean time between failures in hours, with its bounds, for failures
// that come at a constant rate.
type MTBF struct {
	Silent     Silence
	Count      Count
	Confidence float64
	Sides      Sides
	Point      float64 // hours / failures; +Inf without failures
	Lower      float64
	Upper      float64 // +Inf without failures
}

// MTBFOf reckons with a time that was watched to its end (Type I censoring):
// 2T/chi2(1-a/2, 2(r+1)) and 2T/chi2(a/2, 2r); without failures the one-sided
// lower bound T/(-ln a). Source: NIST/SEMATECH e-Handbook 8.4.5.1. Confidence
// lies between 0 and 1.
func MTBFOf(c Count, confidence float64) MTBF {
	m := MTBF{Count: c, Confidence: confidence, Sides: Both, Point: math.Inf(1), Upper: math.Inf(1)}
	a := 1 - confidence
	switch {
	case !c.watched():
		m.Silent = NoTime
	case c.Failures < 0 || !(a > 0 && a < 1):
		m.Silent = Disorder
	case c.Failures == 0:
		m.Sides, m.Lower = LowerOnly, c.Hours/-math.Log(a)
	default:
		m.Point = c.Hours / float64(c.Failures)
		m.Lower = 2 * c.Hours / chiSquared(1-a/2, 2*(c.Failures+1))
		m.Upper = 2 * c.Hours / chiSquared(a/2, 2*c.Failures)
	}
	return m
}

func chiSquared(p float64, df int) float64 { return distuv.ChiSquared{K: float64(df)}.Quantile(p) }
