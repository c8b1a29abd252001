package reliability_test

import (
	"math/rand/v2"
	"testing"

	"crosslay/bot/reliability"
)

// What a chief's question costs: one item with thirty failures, and the worst of
// forty.
func BenchmarkReport(b *testing.B) {
	rng := rand.New(rand.NewPCG(7, 6))
	h := steady(rng, 0.03, 1000)
	for b.Loop() {
		reliability.Of(h, reliability.Count{Failures: 600, Hours: 39000}, 1)
	}
}

func BenchmarkWorst(b *testing.B) {
	rng := rand.New(rand.NewPCG(7, 7))
	var items []reliability.Count
	for range 40 {
		items = append(items, steady(rng, 0.01, 1000).Count())
	}
	for b.Loop() {
		reliability.Worst(items, reliability.Usual)
	}
}

// All forty of a kind together, over ten years of failures.
func BenchmarkKind(b *testing.B) {
	rng := rand.New(rand.NewPCG(7, 8))
	var items []reliability.History
	for range 40 {
		items = append(items, steady(rng, 0.01, 5000))
	}
	for b.Loop() {
		reliability.OfKind(items)
	}
}
