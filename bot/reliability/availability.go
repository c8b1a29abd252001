package reliability

import (
	"slices"
	"time"
)

// Span is a time from From until before To; a zero To has not ended.
type Span struct{ From, To time.Time }

// Availability is how much of a time something was in service.
type Availability struct {
	Watched time.Duration
	Out     time.Duration
	Times   int // spells out of service; what overlaps or touches is one
}

// AvailabilityOf adds up what of the window was spent out of service. Spells are
// cut to the window; two reasons at once are out once.
func AvailabilityOf(window Span, out []Span) Availability {
	a := Availability{Watched: max(0, window.To.Sub(window.From))}
	spells := slices.Clone(out)
	slices.SortFunc(spells, func(x, y Span) int { return x.From.Compare(y.From) })
	end := window.From // of what is counted so far
	for _, s := range spells {
		from, to := s.cut(window)
		if !from.Before(to) || !to.After(end) {
			continue
		}
		if from.After(end) || a.Times == 0 {
			a.Times++
			end = from
		}
		a.Out += to.Sub(end)
		end = to
	}
	return a
}

func (s Span) cut(w Span) (from, to time.Time) {
	from, to = s.From, s.To
	if from.Before(w.From) {
		from = w.From
	}
	if to.IsZero() || to.After(w.To) {
		to = w.To
	}
	return from, to
}

// Plus is the availability of two items taken together.
func (a Availability) Plus(b Availability) Availability {
	return Availability{a.Watched + b.Watched, a.Out + b.Out, a.Times + b.Times}
}

// Share is the part of the time in service, 0 to 1; false where nothing was
// watched.
func (a Availability) Share() (float64, bool) {
	if a.Watched <= 0 {
		return 0, false
	}
	return 1 - float64(a.Out)/float64(a.Watched), true
}
