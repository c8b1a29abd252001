package picture

import (
	"fmt"
	"time"
)

const (
	gridLabel = 232
	gridShare = 84 // the percentage at the right
	gridRow   = 54
)

// grid draws a row of days for each company. A name that does not fit beside its
// days stands above them.
func (p *page) grid(y float64, m Month) float64 {
	const left = margin + gridLabel
	const cell = (pageWidth - margin - gridShare - left) / 31.0
	for _, d := range []int{1, 5, 10, 15, 20, 25, 30} {
		p.sayMiddle(left+(float64(d)-0.5)*cell, y+28, plain, soft, ground, fmt.Sprint(d))
	}
	y += 40
	for _, c := range m.Companies {
		if p.faces.width(c.Name, strong) > gridLabel-10 {
			y += 12 // nearer to its own days than to those above
			p.say(margin, y+28, strong, bright, ground, p.fit(c.Name, strong, inner))
			y += 36
		} else {
			p.say(margin, y+40, strong, bright, ground, c.Name)
		}
		p.weekends(left, y, cell, m)
		for d, s := range c.Days[:days(m.First)] {
			p.square(left+float64(d)*cell, y, cell, s)
		}
		due, settled := c.sum()
		p.sayRight(pageWidth-margin, y+40, plain, soft, ground, ratio(settled, due))
		y += gridRow
	}
	return y
}

// weekends shades Saturdays and Sundays of a row, so that the eye finds its week.
func (p *page) weekends(left, y, cell float64, m Month) {
	for d := range days(m.First) {
		if w := m.First.AddDays(d).Weekday(); w == time.Saturday || w == time.Sunday {
			p.fill(panel, rect(left+float64(d)*cell, y, cell, gridRow))
		}
	}
}

// square is a company's day: what the checks came to, a bar under it where an
// item was out of service or a fault open, a triangle above it where a defect was
// reported.
func (p *page) square(x, y, cell float64, s Square) {
	size := cell - 5
	x, top := x+2.5, y+gridRow-10-size
	switch s.state() {
	case Done:
		p.fill(green, circle(x+size/2, top+size/2, size*.3))
	case Short:
		p.fill(green, circle(x+size/2, top+size/2, size*.36), hole(circle(x+size/2, top+size/2, size*.18)))
	case Faulty:
		p.flawed(x+size*.15, top+size*.2, size*.7, size*.7)
	case Part:
		p.fill(blue, rect(x, top+size/2, size, size/2))
	case Missed:
		p.ring(x, top, size, blue)
	case NotAsked, Away:
	}
	p.bars(x-1.5, y+gridRow-7, cell-2, s.Out, s.Open > 0)
	if s.Defects > 0 {
		mid := x + size/2
		p.fill(amber, []point{{mid - 9, top - 15}, {mid + 9, top - 15}, {mid, top - 2}})
	}
}

func (p *page) squareLegend(y float64) float64 {
	return p.entries(y, []entry{
		{"all in order", func(x, y float64) { p.fill(green, circle(x+12, y+16, 8)) }},
		{"in order, item out", func(x, y float64) { p.fill(green, circle(x+12, y+16, 10), hole(circle(x+12, y+16, 5))) }},
		{"fault found or open", func(x, y float64) { p.flawed(x+4, y+8, 18, 18) }},
		{"some unanswered", func(x, y float64) { p.fill(blue, rect(x, y+16, 24, 12)) }},
		{"no answer", func(x, y float64) { p.ring(x, y+4, 24, blue) }},
		{"item out of service", func(x, y float64) { p.bars(x, y+20, 26, true, false) }},
		{"fault open", func(x, y float64) { p.bars(x, y+20, 26, false, true) }},
		{"defect reported", func(x, y float64) { p.fill(amber, []point{{x, y + 6}, {x + 24, y + 6}, {x + 12, y + 24}}) }},
	})
}

// mostOutages is how many outages a month shows; the rest is counted.
const mostOutages = 8

// mostFaults is how many open faults a month shows; the rest is counted.
const mostFaults = 12

// faults lists what stands open, and how many defects came and went.
func (p *page) faults(y float64, m Month) float64 {
	y = p.section(y, "Faults open", bright)
	for i, f := range m.Faults {
		if i == mostFaults {
			p.say(margin+56, y+34, plain, soft, ground, "and "+count(len(m.Faults)-i, "more", "more"))
			y += 50
			break
		}
		p.mark(Fault, margin+2, y+14, 38, ground)
		p.say(margin+56, y+36, label, bright, ground, p.fit(f.What, label, inner-60))
		p.say(margin+56, y+74, plain, soft, ground, p.fit(f.Says, plain, inner-60))
		y += 96
	}
	words := fmt.Sprintf("%s reported and %d repaired in the month", count(m.Reported, "defect", "defects"), m.Repaired)
	if len(m.Faults) == 0 {
		words = "none now; " + words
	}
	p.say(margin+2, y+34, plain, soft, ground, words)
	return y + 60
}

func (p *page) outages(y float64, all []OutItem) float64 {
	y = p.section(y, "Out of service", bright)
	if len(all) == 0 {
		p.mark(OK, margin, y+6, 32, ground)
		p.say(margin+48, y+34, plain, soft, ground, "nothing was")
		return y + 60
	}
	for i, o := range all {
		if i == mostOutages {
			p.say(margin+56, y+34, plain, soft, ground, "and "+count(len(all)-i, "more", "more"))
			return y + 60
		}
		state := OK
		if o.Now {
			state = Out
		}
		p.mark(state, margin+2, y+14, 38, ground)
		p.say(margin+56, y+36, label, bright, ground, p.fit(o.What, label, inner-60))
		p.say(margin+56, y+74, plain, soft, ground, p.fit(o.says(), plain, inner-60))
		y += 96
	}
	return y
}
