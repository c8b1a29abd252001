package cover

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"crosslay/bot/dept"
)

// plane draws companies that are out and three that can, on a plane of 20 by 20
// km, by a generator that other languages can repeat: x = (1103515245 x + 12345)
// mod 2^31, each number a coordinate.
func plane(n int, seed uint64) table {
	next := func() float64 {
		seed = (seed*1103515245 + 12345) % (1 << 31)
		return float64(seed) / (1 << 31) * 20
	}
	points := func(n int) [][2]float64 {
		p := make([][2]float64, n)
		for i := range p {
			p[i] = [2]float64{next(), next()}
		}
		return p
	}
	drive := func(a, b [2]float64) float64 {
		m, _ := Minutes(math.Hypot(a[0]-b[0], a[1]-b[1]))
		return m
	}
	t := table{}
	out, able := points(n), points(3)
	for i, a := range out {
		row, now := make([]float64, n), math.Inf(1)
		for j, b := range out {
			if i != j {
				row[j] = drive(a, b)
			}
		}
		for _, b := range able {
			now = min(now, drive(a, b))
		}
		t.out, t.drive, t.now, t.weight = append(t.out, dept.CompanyID(fmt.Sprint("E", i))), append(t.drive, row), append(t.now, now), append(t.weight, 1)
	}
	return t
}

// Optima as integer programmes, solved by HiGHS through scipy 1.10.1 (milp, gap
// 0): assignment variables for the total, the longest drive bounded for the
// center, then the total under that bound. RECOMPUTED for this test.
var optima = []struct {
	n, k         int
	seed         uint64
	total        float64
	at           []int
	longest      float64
	centerTotal  float64
	centerPlaces []int
}{
	{12, 2, 1, 49.997583, []int{6, 10}, 8.370099, 51.250127, []int{2, 6}},
	{20, 3, 2, 71.406657, []int{5, 6, 9}, 6.437196, 73.410401, []int{5, 13, 14}},
	{30, 4, 3, 94.890925, []int{6, 19, 27, 29}, 5.961402, 102.052184, []int{8, 15, 19, 29}},
	{40, 5, 4, 117.695131, []int{3, 8, 9, 10, 28}, 5.556832, 122.002430, []int{3, 8, 10, 22, 37}},
}

func TestPlaceIsOptimal(t *testing.T) {
	for _, o := range optima {
		t.Run(fmt.Sprintf("%d_companies_%d_spares", o.n, o.k), func(t *testing.T) {
			p := plane(o.n, o.seed)
			at := p.place(o.k, Total)
			if got := p.total(p.after(p.now, at...)); math.Abs(got-o.total) > 1e-6 || !slices.Equal(at, o.at) {
				t.Errorf("total %.6f at %v, want %.6f at %v", got, at, o.total, o.at)
			}
			at = p.place(o.k, Farthest)
			after := p.after(p.now, at...)
			if got := slices.Max(after); math.Abs(got-o.longest) > 1e-6 {
				t.Errorf("longest %.6f, want %.6f", got, o.longest)
			}
			if got := p.total(after); math.Abs(got-o.centerTotal) > 1e-6 || !slices.Equal(at, o.centerPlaces) {
				t.Errorf("then total %.6f at %v, want %.6f at %v", got, at, o.centerTotal, o.centerPlaces)
			}
		})
	}
}

// Small questions against every placement there is, drives drawn without regard
// to any map, ties and companies that nobody can reach among them.
func TestPlaceAgainstEveryPlacement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		p := table{}
		for i := range n {
			row := rapid.SliceOfN(rapid.SampledFrom([]float64{0.65, 1, 2, 2, 3.5, 5, 8, 13}), n, n).Draw(t, "drives")
			row[i] = 0
			p.out, p.drive = append(p.out, dept.CompanyID(fmt.Sprint(i))), append(p.drive, row)
			p.now = append(p.now, rapid.SampledFrom([]float64{0.65, 2, 4, 9, 14, never}).Draw(t, "now"))
			p.weight = append(p.weight, rapid.SampledFrom([]float64{1, 1, 0.5, 3}).Draw(t, "weight"))
		}
		k := rapid.IntRange(1, n).Draw(t, "k")
		total, longest, then := math.Inf(1), math.Inf(1), math.Inf(1)
		for set := range 1 << n {
			var at []int
			for i := range n {
				if set>>i&1 == 1 {
					at = append(at, i)
				}
			}
			if len(at) > k {
				continue
			}
			after := p.after(p.now, at...)
			sum, most := p.total(after), slices.Max(after)
			total = min(total, sum)
			if most < longest-crumb || most <= longest+crumb && sum < then {
				longest, then = most, sum
			}
		}
		if got := p.total(p.after(p.now, p.place(k, Total)...)); math.Abs(got-total) > 1e-6 {
			t.Errorf("total %v, best %v", got, total)
		}
		at := p.after(p.now, p.place(k, Farthest)...)
		if slices.Max(at) > longest+1e-6 || math.Abs(p.total(at)-then) > 1e-6 {
			t.Errorf("longest %v with %v, best %v with %v", slices.Max(at), p.total(at), longest, then)
		}
	})
}

// A department that is all one distance apart has nothing but ties; they must not
// make the search look at them all.
func TestPlaceAmongTies(t *testing.T) {
	p := table{}
	for i := range 60 {
		row := make([]float64, 60)
		for j := range row {
			if i != j {
				row[j] = 3
			}
		}
		p.out, p.drive, p.now, p.weight = append(p.out, dept.CompanyID(fmt.Sprint(i))), append(p.drive, row), append(p.now, 9), append(p.weight, 1)
	}
	for _, goal := range []Goal{Total, Farthest} {
		if at := p.place(5, goal); !slices.Equal(at, []int{0, 1, 2, 3, 4}) {
			t.Errorf("%s: on equal terms the order of the file holds: %v", goal, at)
		}
	}
}

func BenchmarkPlace(b *testing.B) {
	for _, size := range [][2]int{{10, 2}, {40, 5}, {120, 5}} {
		for _, goal := range []Goal{Total, Farthest} {
			b.Run(fmt.Sprintf("%s_%d_out_%d_spares", goal, size[0], size[1]), func(b *testing.B) {
				p := plane(size[0], 4)
				for b.Loop() {
					p.place(size[1], goal)
				}
			})
		}
	}
}
