package reliability

import (
	"fmt"
	"math"
	"testing"
)

// Critical numbers of reversals, exact and one-sided, for 90, 95 and 99 %:
// improvement at that many or more, degradation at that many or fewer; -1 where
// no number will do. RECOMPUTED by counting, for want of NIST's printed table.
var criticals = map[int][2][3]int{
	4: {{6, 6, -1}, {0, 0, -1}}, 5: {{9, 9, 10}, {1, 1, 0}}, 6: {{12, 13, 14}, {3, 2, 1}}, 7: {{16, 17, 19}, {5, 4, 2}},
	8: {{20, 22, 24}, {8, 6, 4}}, 9: {{25, 27, 30}, {11, 9, 6}}, 10: {{31, 33, 36}, {14, 12, 9}}, 11: {{37, 39, 43}, {18, 16, 12}},
	12: {{43, 46, 51}, {23, 20, 15}},
}

func TestReversalCriticals(t *testing.T) {
	for r, want := range criticals {
		most := r * (r - 1) / 2
		for i, confidence := range []float64{0.90, 0.95, 0.99} {
			improved, degraded := -1, -1
			for n := most; n >= 0 && atLeast(n, r) <= 1-confidence; n-- {
				improved = n
			}
			for n := 0; n <= most && 1-atLeast(n+1, r) <= 1-confidence+1e-12; n++ {
				degraded = n
			}
			if improved != want[0][i] || degraded != want[1][i] {
				t.Errorf("%d gaps at %v: %d and %d, want %d and %d", r, confidence, improved, degraded, want[0][i], want[1][i])
			}
		}
	}
}

// The orders are counted here one by one: every permutation of up to eight gaps.
func TestReversalsByEveryOrder(t *testing.T) {
	for r := 4; r <= 8; r++ {
		counts := make([]float64, r*(r-1)/2+1)
		all := 0.0
		permutations(r, func(gaps []float64) {
			n, equal := reversals(gaps)
			if equal != 0 {
				t.Fatal("different gaps are equal")
			}
			counts[n]++
			all++
		})
		tail := 0.0
		for n := len(counts) - 1; n >= 0; n-- {
			tail += counts[n]
			if got := atLeast(n, r); math.Abs(got-tail/all) > 1e-12 {
				t.Errorf("%d of %d: %v, counted %v", n, r, got, tail/all)
			}
		}
	}
}

// Two items of three and four gaps: every order of the one with every order of
// the other.
func TestReversalsOfTwoByEveryOrder(t *testing.T) {
	counts, all := map[int]float64{}, 0.0
	permutations(3, func(a []float64) {
		n, _ := reversals(a)
		permutations(4, func(b []float64) {
			m, _ := reversals(b)
			counts[n+m]++
			all++
		})
	})
	tail := 0.0
	for n := 9; n >= 0; n-- {
		tail += counts[n]
		if got := atLeast(n, 3, 4); math.Abs(got-tail/all) > 1e-12 {
			t.Errorf("%d: %v, counted %v", n, got, tail/all)
		}
	}
	// Beyond what is counted the approximation takes over without a step.
	exact, rough := atLeast(160, 12, 12, 12, 12, 12), approximately(160, []int{12, 12, 12, 12, 12})
	if math.Abs(exact-rough) > 0.003 {
		t.Errorf("five times twelve: %v exactly, %v", exact, rough)
	}
}

// permutations visits every order of 1..n (Heap's algorithm).
func permutations(n int, visit func([]float64)) {
	p := make([]float64, n)
	for i := range p {
		p[i] = float64(i + 1)
	}
	var heap func(k int)
	heap = func(k int) {
		if k == 1 {
			visit(p)
			return
		}
		for i := range k {
			heap(k - 1)
			if k%2 == 0 {
				p[i], p[k-1] = p[k-1], p[i]
			} else {
				p[0], p[k-1] = p[k-1], p[0]
			}
		}
	}
	heap(n)
}

// Beyond the exact range the normal approximation is off by less than .004
// anywhere: the exact tail by the Mahonian numbers, which hold for any r.
func TestReversalsApproximation(t *testing.T) {
	for _, r := range []int{exactUpTo + 1, 20, 40} {
		t.Run(fmt.Sprint(r), func(t *testing.T) {
			if half := r * (r - 1) / 4; atLeast(half, r) != approximately(half, []int{r}) {
				t.Error("not approximated")
			}
			counts := orders(r)
			all := 0.0
			for _, c := range counts {
				all += c
			}
			tail := 0.0
			for n := len(counts) - 1; n >= 0; n-- {
				tail += counts[n] / all
				if got := atLeast(n, r); math.Abs(got-tail) > 0.004 {
					t.Fatalf("%d: %v, exactly %v", n, got, tail)
				}
			}
		})
	}
}

// A reversal counted from the one end is none from the other.
func TestReversalsAreSymmetric(t *testing.T) {
	for r := 4; r <= 30; r++ {
		for n := 0; n <= r*(r-1)/2; n++ {
			if few, many := 1-atLeast(n+1, r), atLeast(r*(r-1)/2-n, r); math.Abs(few-many) > 1e-12 {
				t.Errorf("%d of %d: %v and %v", n, r, few, many)
			}
		}
	}
}

// Gaps written in whole hours prove nothing by being equal.
func TestEqualGapsProveNothing(t *testing.T) {
	h := History{Hours: 100}
	for i := range 10 {
		h.Failures = append(h.Failures, float64(10*(i+1)))
	}
	if test := Reversals(h); test.Statistic != 0 || test.Worse < 0.4 || test.Better < 0.4 {
		t.Errorf("%+v", test)
	}
}
