package run

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Rate is a share of shifts with the interval in which it lies, as far as so few
// shifts can tell.
type Rate struct{ Share, Lower, Upper float64 }

// Rate is the share of good shifts with Wilson's score interval (1927), without
// continuity correction; false without a shift that counts. Confidence lies
// between 0 and 1.
func (r Record) Rate(confidence float64) (Rate, bool) {
	if r.Shifts <= 0 {
		return Rate{Lower: 0, Upper: 1}, false
	}
	z := distuv.UnitNormal.Quantile(0.5 + confidence/2)
	n, p := float64(r.Shifts), float64(r.Good)/float64(r.Shifts)
	middle, spread := p+z*z/(2*n), z*math.Sqrt(p*(1-p)/n+z*z/(4*n*n))
	scale := 1 + z*z/n
	return Rate{Share: p, Lower: max(0, (middle-spread)/scale), Upper: min(1, (middle+spread)/scale)}, true
}

// Comparison is how one warm-up record stands against another.
type Comparison string

// Alike is said wherever the intervals overlap: it could be luck.
const (
	Alike  Comparison = "alike"
	Better Comparison = "better"
	Worse  Comparison = "worse"
)

// Against compares two records by their intervals at 95 %; that is careful, for
// intervals may overlap a little where a test would tell them apart.
func (r Record) Against(o Record) Comparison {
	a, ok := r.Rate(0.95)
	b, both := o.Rate(0.95)
	switch {
	case !ok || !both:
		return Alike
	case a.Lower > b.Upper:
		return Better
	case a.Upper < b.Lower:
		return Worse
	}
	return Alike
}

// Plus is the record of two units taken together; gaps are those of the worse.
func (r Record) Plus(o Record) Record {
	return Record{
		Shifts: r.Shifts + o.Shifts, Good: r.Good + o.Good,
		Longest: max(r.Longest, o.Longest), Current: max(r.Current, o.Current),
	}
}
