package reliability

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Interval is a range of a rate or a proportion.
type Interval struct{ Lower, Upper float64 }

// Overlaps reports whether two intervals share a value; two rates whose intervals
// do not overlap differ by more than luck.
func (i Interval) Overlaps(j Interval) bool { return i.Lower <= j.Upper && j.Lower <= i.Upper }

// Wilson is the score interval of k out of n, without continuity correction.
// Source: Wilson 1927, as in NIST/SEMATECH e-Handbook 7.2.4.1 (named
// Agresti-Coull there). Without any trials it is all of 0 to 1.
func Wilson(k, n int, confidence float64) Interval {
	if n <= 0 || k < 0 || k > n {
		return Interval{0, 1}
	}
	z := distuv.UnitNormal.Quantile(0.5 + confidence/2)
	p, size := float64(k)/float64(n), float64(n)
	middle := p + z*z/(2*size)
	spread := z * math.Sqrt(p*(1-p)/size+z*z/(4*size*size))
	return Interval{clamp((middle - spread) / (1 + z*z/size)), clamp((middle + spread) / (1 + z*z/size))}
}

// ClopperPearson is the exact interval of k out of n, by quantiles of the beta
// distribution: never too narrow, mostly too wide.
func ClopperPearson(k, n int, confidence float64) Interval {
	if n <= 0 || k < 0 || k > n {
		return Interval{0, 1}
	}
	a, i := (1-confidence)/2, Interval{0, 1}
	if k > 0 {
		i.Lower = distuv.Beta{Alpha: float64(k), Beta: float64(n - k + 1)}.Quantile(a)
	}
	if k < n {
		i.Upper = distuv.Beta{Alpha: float64(k + 1), Beta: float64(n - k)}.Quantile(1 - a)
	}
	return i
}

func clamp(p float64) float64 { return min(max(p, 0), 1) }
