package reliability

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// exactUpTo is the most failures whose orders are counted one by one; beyond it
// the normal approximation is good to the second decimal.
const exactUpTo = 12

// Reversals is the reverse-arrangement test: of the gaps between failures, the
// pairs of which the later is the longer. Many are an improvement. The number is
// exact up to 12 failures and by normal approximation beyond, mean r(r-1)/4 and
// variance (2r+5)(r-1)r/72. Source: NIST/SEMATECH e-Handbook 8.2.3.4.
//
// Equal gaps are no reversal in Statistic. For the probabilities they are half of
// one, as they would be if they were read more finely, and a half left over is
// held against the side that is asked about.
func Reversals(h History) Test {
	t := Test{Silent: h.trendless()}
	if t.Silent != Spoken {
		return t
	}
	reversed, equal := reversals(gaps(h.Failures))
	t.Statistic = float64(reversed)
	t.Better = atLeast(reversed+equal/2, len(h.Failures))
	t.Worse = 1 - atLeast(reversed+(equal+1)/2+1, len(h.Failures))
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

// atLeast is the probability of R reversals or more among r gaps in random order.
func atLeast(reversed, r int) float64 {
	if r > exactUpTo {
		return distuv.UnitNormal.Survival(ReversalZ(reversed, r) - 1/sdOf(r))
	}
	var tail, all float64
	for i, orders := range orders(r) {
		all += orders
		if i >= reversed {
			tail += orders
		}
	}
	return tail / all
}

func sdOf(r int) float64 { _, sd := reversalMoments(r); return sd }

// orders counts the orders of r different gaps by their reversals (the Mahonian
// numbers): the next gap adds from none to as many as there are before it.
func orders(r int) []float64 {
	counts := []float64{1}
	for n := 2; n <= r; n++ {
		next := make([]float64, len(counts)+n-1)
		for i, c := range counts {
			for j := range n {
				next[i+j] += c
			}
		}
		counts = next
	}
	return counts
}
