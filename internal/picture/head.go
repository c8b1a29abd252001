package picture

import (
	"fmt"
	"image/color"
)

// Words of every picture's head: what it is, of whom, and when.
type head struct {
	above, title, below string
}

// head puts the head on top of the page and returns the y below it.
func (p *page) head(h head) float64 {
	y := 58.0
	p.say(margin, y, plain, soft, ground, p.fit(h.above, plain, inner))
	y += 62
	for _, line := range p.wrap(h.title, title, inner, 2) {
		p.say(margin, y, title, bright, ground, line)
		y += 62
	}
	for _, line := range p.wrap(h.below, plain, inner, 2) {
		p.say(margin, y-14, plain, soft, ground, line)
		y += 38
	}
	return y - 14
}

// tally is a large figure with the word for what it counts.
type tally struct {
	figure, word string
	state        State
}

const tallyHeight = 132

// tallies puts a row of large figures at y and returns the y below it.
func (p *page) tallies(y float64, all []tally) float64 {
	const gap = 12
	w := (inner - gap*float64(len(all)-1)) / float64(len(all))
	for i, t := range all {
		x := margin + float64(i)*(w+gap)
		p.fill(panel, rounded(x, y, w, tallyHeight, 14))
		p.mark(t.state, x+18, y+26, 42, panel)
		large := figure // a figure is never shortened, only written smaller
		for large.size > smallest && p.faces.width(t.figure, large) > w-84 {
			large.size -= 2
		}
		p.say(x+74, y+66, large, bright, panel, t.figure)
		p.say(x+18, y+112, plain, soft, panel, p.fit(t.word, plain, w-30))
	}
	return y + tallyHeight + 28
}

// legend explains the marks, as many to a line as fit, and returns the y below.
func (p *page) legend(y float64, all []State) float64 {
	x := float64(margin)
	for _, s := range all {
		w := 42 + p.faces.width(string(s), plain)
		if x+w > pageWidth-margin {
			x, y = margin, y+46
		}
		p.mark(s, x, y+4, 30, ground)
		p.say(x+42, y+29, plain, soft, ground, string(s))
		x += w + 34
	}
	return y + 58
}

// section puts a heading with a thin line at y and returns the y below.
func (p *page) section(y float64, words string, ink color.RGBA) float64 {
	end := p.say(margin, y+32, label, ink, ground, p.fit(words, label, inner))
	if end+20 < pageWidth-margin {
		p.fill(edge, rect(end+20, y+20, pageWidth-margin-end-20, 3))
	}
	return y + 56
}

// banner is what must not be missed, under the head of a page.
func (p *page) banner(y float64, words string) float64 {
	const height = 64
	p.fill(red, rounded(margin, y, inner, height, 12))
	p.say(margin+24, y+43, label, ground, red, p.fit(words, label, inner-40))
	return y + height + 22
}

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
