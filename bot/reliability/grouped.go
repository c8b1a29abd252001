package reliability

import (
	"math"
	"slices"
)

// Grouped is failures that are known by the period alone: so many in the hours
// until each end.
type Grouped struct {
	Ends   []float64 // hours, ascending, the first over 0
	Counts []int     // failures since the end before
}

// FitGrouped is the maximum-likelihood power law of grouped failures: the shape
// solves sum of n ( (t^b ln t - s^b ln s)/(t^b - s^b) - ln T ) = 0, s and t being
// the ends of a period. Source: MIL-HDBK-189, 1981, app. C.
func FitGrouped(g Grouped) PowerLaw {
	f := PowerLaw{Silent: g.fits()}
	if f.Silent != Spoken {
		return f
	}
	f.Hours = g.Ends[len(g.Ends)-1]
	for _, n := range g.Counts {
		f.Failures += n
	}
	const least, most = 1e-3, 1e3
	if f.Failures < leastForTrend || !(g.slope(least) > 0) || !(g.slope(most) < 0) {
		f.Silent = TooFew // all in the first period, or all in the last: no shape is the best
		return f
	}
	f.shape(root(g.slope, least, most))
	return f
}

func (g Grouped) fits() Silence {
	switch n := len(g.Ends); {
	case n == 0:
		return NoTime
	case n != len(g.Counts) || !(g.Ends[0] > 0) || !slices.IsSorted(g.Ends) || len(slices.Compact(slices.Clone(g.Ends))) != n:
		return Disorder
	case slices.Min(g.Counts) < 0:
		return Disorder
	case n < 2:
		return TooFew
	}
	return Spoken
}

// slope is the derivative of the log likelihood by the shape, over ends as
// fractions of the last. With q = (s/t)^b the term of a period is
// (ln t - q ln s)/(1-q), which neither overflows nor vanishes.
func (g Grouped) slope(b float64) float64 {
	var sum, before float64
	last := g.Ends[len(g.Ends)-1]
	for i, end := range g.Ends {
		end /= last
		if n := float64(g.Counts[i]); i == 0 {
			sum += n * math.Log(end) // s is 0
		} else {
			apart := b * math.Log(before/end)
			sum += n * (math.Log(end) - math.Exp(apart)*math.Log(before)) / -math.Expm1(apart)
		}
		before = end
	}
	return sum
}

// root bisects a function that falls from lo to hi, on the scale of logarithms.
func root(f func(float64) float64, lo, hi float64) float64 {
	for range 200 {
		middle := math.Sqrt(lo * hi)
		if f(middle) > 0 {
			lo = middle
		} else {
			hi = middle
		}
	}
	return math.Sqrt(lo * hi)
}
