package reliability

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// exactUpTo is the most failures of an item whose orders are counted one by one;
// beyond it the normal approximation is good to the second decimal.
const exactUpTo = 12

// exactTogether is the most failures of several items that are counted so.
const exactTogether = 60

// Reversals is the reverse-arrangement test: of the gaps between failures, the
// pairs of which the later is the longer. Many are an improvement. The number is
// exact up to 12 failures and by normal approximation beyond, mean r(r-1)/4 and
// variance (2r+5)(r-1)r/72. Source: NIST/SEMATECH e-Handbook 8.2.3.4. Of several
// histories each has its own pairs, and their numbers add up.
//
// Equal gaps are no reversal in Statistic. For the probabilities they are half of
// one, as they would be if they were read more finely, and a half left over is
// held against the side that is asked about.
func Reversals(hs ...History) Test {
	t := Test{Silent: trendless(hs)}
	if t.Silent != Spoken {
		return t
	}
	var reversed, equal int
	sizes := make([]int, len(hs))
	for i, h := range hs {
		more, same := reversals(gaps(h.Failures))
		reversed, equal, sizes[i] = reversed+more, equal+same, len(h.Failures)
	}
	t.Statistic = float64(reversed)
	t.Better = atLeast(reversed+equal/2, sizes...)
	t.Worse = 1 - atLeast(reversed+(equal+1)/2+1, sizes...)
	return t
}

// ReversalZ is the printed score of R reversals of r gaps, (R - r(r-1)/4 + 1/2)
// over the standard deviation: the half belongs to the side of few reversals.
func ReversalZ(reversed, r int) float64 {
	mean, sd := reversalMoments(r)
	return (float64(reversed) - mean + 0.5) / sd
}

func reversalMoments(r int) (mean, sd float64) {
	n := float64(r)
	return n * (n - 1) / 4, math.Sqrt((2*n + 5) * (n - 1) * n / 72)
}

func gaps(times []float64) []float64 {
	g := make([]float64, len(times))
	before := 0.0
	for i, t := range times {
		g[i], before = t-before, t
	}
	return g
}

func reversals(gaps []float64) (reversed, equal int) {
	for i, a := range gaps {
		for _, b := range gaps[i+1:] {
			switch {
			case a < b:
				reversed++
			case a == b:
				equal++
			}
		}
	}
	return reversed, equal
}

// atLeast is the probability of so many reversals or more among gaps in random
// order, in groups of the sizes.
func atLeast(reversed int, sizes ...int) float64 {
	total := 0
	for _, r := range sizes {
		total += r
	}
	if slices.Max(sizes) > exactUpTo || total > exactTogether {
		return approximately(reversed, sizes)
	}
	share := []float64{1}
	for _, r := range sizes {
		share = convolve(share, orders(r))
	}
	var tail, all float64
	for i, p := range share {
		all += p
		if i >= reversed {
			tail += p
		}
	}
	return tail / all
}

// approximately takes half a reversal off, so that "so many or more" begins where
// "fewer" ends.
func approximately(reversed int, sizes []int) float64 {
	var mean, variance float64
	for _, r := range sizes {
		m, sd := reversalMoments(r)
		mean, variance = mean+m, variance+sd*sd
	}
	return distuv.UnitNormal.Survival((float64(reversed) - mean - 0.5) / math.Sqrt(variance))
}

// orders counts the orders of r different gaps by their reversals (the Mahonian
// numbers), as shares of all orders: the next gap adds from none to as many as
// there are before it.
func orders(r int) []float64 {
	shares := []float64{1}
	for n := 2; n <= r; n++ {
		even := make([]float64, n)
		for i := range even {
			even[i] = 1 / float64(n)
		}
		shares = convolve(shares, even)
	}
	return shares
}

// convolve is the distribution of a sum.
func convolve(a, b []float64) []float64 {
	sum := make([]float64, len(a)+len(b)-1)
	for i, x := range a {
		for j, y := range b {
			sum[i+j] += x * y
		}
	}
	return sum
}
