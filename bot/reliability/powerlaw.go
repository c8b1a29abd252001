package reliability

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// PowerLaw is the fit M(t) = Scale t^Shape of the number of failures by t hours:
// a Shape under 1 is improving, over 1 wearing out. Also known as Duane or
// Crow-AMSAA.
type PowerLaw struct {
	Silent    Silence
	Failures  int
	Hours     float64
	Shape     float64
	Scale     float64
	Intensity float64 // failures an hour, now
	MTBF      float64 // hours, now
}

// Fit is the maximum-likelihood fit of a time that was watched to its end:
// b = r / sum of ln(T/t), a = r / T^b. Source: MIL-HDBK-189, 1981, app. C.
func Fit(h History) PowerLaw {
	return h.power(float64(len(h.Failures)))
}

// FitModified is the fit with b = (r-1) / sum of ln(T/t), without the bias of
// the maximum-likelihood one. Source: NIST/SEMATECH e-Handbook 8.4.5.2.
func FitModified(h History) PowerLaw {
	return h.power(float64(len(h.Failures) - 1))
}

func (h History) power(numerator float64) PowerLaw {
	f := PowerLaw{Silent: trendless([]History{h}), Failures: len(h.Failures), Hours: h.Hours}
	if f.Silent != Spoken {
		return f
	}
	sum := h.logs()
	switch {
	case h.Failures[0] == 0:
		f.Silent = AtStart
	case sum == 0: // all at the last instant
		f.Silent = Disorder
	default:
		f.shape(numerator / sum)
	}
	return f
}

func (f *PowerLaw) shape(b float64) {
	r := float64(f.Failures)
	f.Shape, f.Scale = b, r/math.Pow(f.Hours, b)
	f.Intensity = r * b / f.Hours
	f.MTBF = 1 / f.Intensity
}

// Bounds are those of the MTBF now, two-sided, from a modified fit:
// M r(r-1) / (r + z2/4 + sqrt(r z2/2 + z4/16))^2 and M r(r-1) / (r - z sqrt(r/2))^2.
// Source: NIST/SEMATECH e-Handbook 8.4.5.2. The upper one is +Inf where so few
// failures at such a confidence have none.
func (f PowerLaw) Bounds(confidence float64) Interval {
	z, r := distuv.UnitNormal.Quantile(0.5+confidence/2), float64(f.Failures)
	m := f.MTBF * r * (r - 1)
	low := r + z*z/4 + math.Sqrt(r*z*z/2+math.Pow(z, 4)/16)
	i := Interval{m / (low * low), math.Inf(1)}
	if high := r - z*math.Sqrt(r/2); high > 0 {
		i.Upper = m / (high * high)
	}
	return i
}

// Misfit is the Cramer-von Mises statistic of a power law with the unbiased
// shape; the larger, the worse it fits. Source: MIL-HDBK-189, 1981, app. C.
func Misfit(h History) (float64, Silence) {
	f := FitModified(h)
	if f.Silent != Spoken {
		return 0, f.Silent
	}
	r := float64(f.Failures)
	c := 1 / (12 * r)
	for i, t := range h.Failures {
		d := math.Pow(t/h.Hours, f.Shape) - (2*float64(i)+1)/(2*r)
		c += d * d
	}
	return c, Spoken
}
