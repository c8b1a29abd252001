package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

const (
	chipHeight = 90
	chipGap    = 10
	chipMark   = 36
)

// company draws a company and all it carries, and returns the y below.
func (p *page) company(y float64, c Company) float64 {
	top := y
	at := len(p.shapes)
	left := p.sayRight(pageWidth-margin-20, y+46, label, bright, panel, c.says())
	p.mark(c.state(), left-44, y+20, 32, panel)
	for _, line := range p.wrap(c.Name, name, left-64-margin-20, 2) {
		p.say(margin+20, y+48, name, bright, panel, line)
		y += 46
	}
	y = p.chips(y+20, c.Items)
	y = p.fine(y, c.Items)
	under := shape{[][]point{rounded(margin, top, inner, y-top+6, 16)}, panel}
	p.shapes = append(p.shapes[:at], append([]shape{under}, p.shapes[at:]...)...)
	return y + 6 + 16
}

// says is what the company's sign stands for, and how much was answered.
func (c Company) says() string {
	answered := fmt.Sprintf("%d of %d answered", c.Answered, c.Asked)
	if c.Asked+c.Runs == 0 {
		answered = string(None)
	}
	state, n := c.state(), 0
	for _, it := range c.Items {
		if it.State == state {
			n++
		}
	}
	switch {
	case state == Out:
		return count(n, "out", "out") + ", " + answered
	case state == Fault:
		return count(n, "fault", "faults") + ", " + answered
	case state == Unsure:
		return count(n, "asked back", "asked back") + ", " + answered
	case state == Open && c.Answered >= c.Asked && c.Ran < c.Runs:
		return count(c.Runs-c.Ran, "run", "runs") + " missing, " + answered
	}
	return answered
}

// outLine names what is out of service, in as many as three lines.
func (p *page) outLine(y float64, outs []string) float64 {
	if len(outs) == 0 {
		return y
	}
	for _, line := range p.wrap("OUT: "+strings.Join(outs, " · "), label, inner, 3) {
		p.say(margin, y+22, label, red, ground, line)
		y += 42
	}
	return y + 8
}

// chips draws the items that somebody has to look at, in as many columns as
// their numbers and words fit in.
func (p *page) chips(y float64, all []Item) float64 {
	const left, width = margin + 14, inner - 28
	var items []Item
	for _, it := range all {
		if !it.fine() {
			items = append(items, it)
		}
	}
	columns := 4
	for ; columns > 1 && !p.fits(items, chipText(width, columns)); columns-- {
	}
	w := (width - chipGap*float64(columns-1)) / float64(columns)
	for i, it := range items {
		x := left + float64(i%columns)*(w+chipGap)
		p.chip(x, y+float64(i/columns)*(chipHeight+chipGap), w, it)
	}
	rows := (len(items) + columns - 1) / columns
	return y + float64(rows)*(chipHeight+chipGap)
}

// fine reports whether nobody has to look at the item, and nothing more is to be
// said of it.
func (it Item) fine() bool { return it.Word == "" && (it.State == OK || it.State == None) }

const fineHeight = 50

// fine lists the items in order by mark and number alone: the legend says the
// word.
func (p *page) fine(y float64, all []Item) float64 {
	f := flow{left: margin + 20, width: inner - 40, columns: 6, height: fineHeight}
	for _, it := range all {
		if !it.fine() {
			continue
		}
		number := p.fit(it.Number, plain, f.width-50)
		x, row := f.next(p.faces.width(number, plain) + 50)
		p.mark(it.State, x, y+row+6, 28, panel)
		p.say(x+38, y+row+31, plain, bright, panel, number)
	}
	return y + f.end()
}

// flow lays out cells row by row. What needs more room than a column takes
// several.
type flow struct {
	left, width float64
	columns     int
	height      float64
	at          int // columns taken so far, full rows included
}

// next is where a cell of the width begins: its x, and its y below the start.
func (f *flow) next(width float64) (x, y float64) {
	column := f.width / float64(f.columns)
	span := min(int(math.Ceil(width/column)), f.columns)
	if f.at%f.columns+span > f.columns {
		f.at += f.columns - f.at%f.columns
	}
	x, y = f.left+float64(f.at%f.columns)*column, float64(f.at/f.columns)*f.height
	f.at += span
	return x, y
}

// end is the height of all rows.
func (f *flow) end() float64 {
	return math.Ceil(float64(f.at)/float64(f.columns)) * f.height
}

// chipText is the room for words on a chip.
func chipText(width float64, columns int) float64 {
	return (width-chipGap*float64(columns-1))/float64(columns) - chipMark - 36
}

func (p *page) fits(items []Item, width float64) bool {
	for _, it := range items {
		if p.faces.width(it.Number, label) > width || p.faces.width(it.says(), plain) > width {
			return false
		}
	}
	return true
}

// says is the word of an item: never its state's colour alone.
func (it Item) says() string {
	switch {
	case it.State == Out && it.Word != "":
		return "OUT: " + it.Word
	case it.State == Out:
		return "OUT"
	case it.Word != "":
		return it.Word
	}
	return string(it.State)
}

func (p *page) chip(x, y, w float64, it Item) {
	p.fill(ground, rounded(x, y, w, chipHeight, 12))
	p.fill(it.State.ink(), rounded(x, y, 8, chipHeight, 4))
	p.mark(it.State, x+20, y+(chipHeight-chipMark)/2, chipMark, ground)
	room := w - chipMark - 36
	p.say(x+chipMark+32, y+38, label, bright, ground, p.fit(it.Number, label, room))
	p.say(x+chipMark+32, y+75, plain, it.State.ink(), ground, p.fit(it.says(), plain, room))
}

// groups draws in full the companies that one word does not describe, the
// gravest first, and the others by name.
func (p *page) groups(y float64, all []Company) float64 {
	var look []Company
	quiet := map[State][]Company{}
	for _, c := range all {
		if c.quiet() {
			quiet[c.state()] = append(quiet[c.state()], c)
		} else {
			look = append(look, c)
		}
	}
	if len(look) > 0 {
		slices.SortStableFunc(look, func(a, b Company) int {
			return slices.Index(gravest, a.state()) - slices.Index(gravest, b.state())
		})
		y = p.section(y, fmt.Sprintf("Look at these (%d)", len(look)), amber)
		for _, c := range look {
			c.Items = troubled(c.Items)
			y = p.company(y, c)
		}
	}
	for _, group := range []struct {
		state State
		words string
	}{{Open, "No answer yet"}, {None, "Not asked"}, {OK, "All checked, nothing wrong"}} {
		if named := quiet[group.state]; len(named) > 0 {
			y = p.section(y+8, fmt.Sprintf("%s (%d)", group.words, len(named)), group.state.ink())
			y = p.names(y, named, group.state)
		}
	}
	return y
}

// troubled leaves out the items in order; how many there are is said.
func troubled(items []Item) []Item {
	var kept []Item
	ok := 0
	for _, it := range items {
		if it.fine() {
			ok++
			continue
		}
		kept = append(kept, it)
	}
	if ok > 0 {
		kept = append(kept, Item{Number: count(ok, "other", "others"), State: OK, Word: "ok"})
	}
	return kept
}

// names lists companies in order.
func (p *page) names(y float64, all []Company, s State) float64 {
	f := flow{left: margin, width: inner, columns: 3, height: 58}
	for _, c := range all {
		words := p.fit(c.Name, label, f.width-64)
		x, row := f.next(p.faces.width(words, label) + 64)
		p.mark(s, x+4, y+row+8, 32, ground)
		p.say(x+48, y+row+36, label, bright, ground, words)
	}
	return y + f.end()
}
