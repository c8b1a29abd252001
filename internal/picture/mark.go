package picture

import "image/color"

// State is what holds of an item or a company on a picture.
type State string

// The states, from bad to good. A fault needs somebody but the item is in
// service; Unsure was said unclearly and asked back; Open was not answered.
const (
	Out    State = "out of service"
	Fault  State = "fault"
	Unsure State = "asked back"
	Open   State = "open"
	OK     State = "ok"
	None   State = "not asked"
)

// states in the order of a legend.
var states = []State{OK, Fault, Out, Open, Unsure, None}

// ink is the colour of a state; its mark says the same by its shape.
func (s State) ink() color.RGBA {
	switch s {
	case Out:
		return red
	case Fault:
		return amber
	case Unsure, Open:
		return blue
	case OK:
		return green
	case None:
	}
	return soft
}

// mark draws the sign of a state into a square; on is what it stands on.
func (p *page) mark(s State, x, y, size float64, on color.RGBA) {
	at := func(u, v float64) point { return point{x + u*size, y + v*size} }
	ink, heavy := s.ink(), size*0.15
	switch s {
	case OK:
		for _, c := range path([]point{at(.1, .55), at(.1, .55), at(.4, .84), at(.92, .2)}, heavy) {
			p.fill(ink, c)
		}
	case Fault:
		p.fill(ink, []point{at(.5, .04), at(1, .94), at(0, .94)})
		p.fill(on, rect(x+.44*size, y+.34*size, .12*size, .3*size))
		p.fill(on, rect(x+.44*size, y+.71*size, .12*size, .12*size))
	case Out:
		p.fill(ink, rounded(x, y, size, size, size*.18))
		p.fill(on, stroke(at(.24, .24), at(.76, .76), heavy))
		p.fill(on, stroke(at(.76, .24), at(.24, .76), heavy))
	case Open:
		p.fill(ink, circle(x+size/2, y+size/2, size*.46), hole(circle(x+size/2, y+size/2, size*.46-heavy*.85)))
	case Unsure:
		p.fill(ink, []point{at(.5, 0), at(1, .5), at(.5, 1), at(0, .5)}, hole([]point{at(.5, .2), at(.8, .5), at(.5, .8), at(.2, .5)}))
	case None:
		p.fill(ink, rect(x+.15*size, y+.44*size, .7*size, .12*size))
	}
}
