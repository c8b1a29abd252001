package picture

import (
	"fmt"
	"image/color"
	"slices"
	"time"

	"crosslay/bot/dept"
)

const (
	monthRow   = 58
	monthLabel = 92
	dayWidth   = (inner - monthLabel) / 31.0
)

// calendar draws twelve rows of days: a bar as high as the longest run of the
// day, or, without an engine, what the checks came to.
func (p *page) calendar(y float64, year Year) float64 {
	words := "Checks, day by day"
	if year.Engine {
		words = "Runs, day by day"
	}
	y = p.section(y, words, bright)
	for _, d := range []int{1, 5, 10, 15, 20, 25, 30} {
		p.sayMiddle(margin+monthLabel+(float64(d)-0.5)*dayWidth, y+28, plain, soft, ground, fmt.Sprint(d))
	}
	y += 42
	for m := range 12 {
		first := dept.Date{Year: year.First.Year, Month: year.First.Month + time.Month(m), Day: 1}.AddDays(0)
		p.say(margin, y+40, strong, soft, ground, first.Month.String()[:3])
		p.fill(panel, rect(margin+monthLabel, y+monthRow-8, float64(days(first))*dayWidth, 3))
		for d := range days(first) {
			date := first.AddDays(d)
			if day, ok := year.Days[date]; ok {
				p.day(margin+monthLabel+float64(d)*dayWidth, y, day, year)
			}
		}
		y += monthRow
	}
	return p.dayLegend(y+10, year)
}

func days(first dept.Date) int {
	next := dept.Date{Year: first.Year, Month: first.Month + 1, Day: 1}
	return next.DaysSince(first)
}

// The heights of a day's marks, from the foot of its row.
const (
	dayFoot = monthRow - 8
	dayTall = monthRow - 22
)

func (p *page) day(x, y float64, d Day, year Year) {
	const w = dayWidth - 6
	foot := y + dayFoot
	switch d.State {
	case Done:
		tall := float64(dayTall) * 0.62
		if year.Engine && year.Min > 0 {
			tall = dayTall * min(1, 0.5*d.Minutes/year.Min)
		}
		p.fill(green, rect(x+3, foot-tall, w, tall))
	case Faulty:
		p.flawed(x+3, foot-dayTall*0.62, w, dayTall*0.62)
	case Part:
		p.fill(year.part(), rect(x+3, foot-12, w, 12))
	case Missed:
		p.ring(x+3, foot-w-2, w, blue)
	case Away:
		p.cross(x+3, foot-w-2, w, red)
	case NotAsked:
	}
	if d.Defect {
		p.fill(amber, []point{{x + dayWidth/2 - 12, y + 2}, {x + dayWidth/2 + 12, y + 2}, {x + dayWidth/2, y + 20}})
	}
}

// part is the colour of a day that is partly done: a run too short is a fault,
// a check that nobody answered is open.
func (y Year) part() color.RGBA {
	if y.Engine {
		return amber
	}
	return blue
}

// flawed is a block with a bar cut out: answered, and not in order.
func (p *page) flawed(x, y, w, h float64) {
	p.fill(amber, rect(x, y, w, h))
	p.fill(ground, rect(x, y+h*0.38, w, h*0.24))
}

// ring is a hollow square: nothing was done.
func (p *page) ring(x, y, size float64, ink color.RGBA) { p.fill(ink, frame(x, y, size, size, 4)...) }

// cross is out of service.
func (p *page) cross(x, y, size float64, ink color.RGBA) {
	p.fill(ink, stroke(point{x, y}, point{x + size, y + size}, 7))
	p.fill(ink, stroke(point{x + size, y}, point{x, y + size}, 7))
}

// entry is a sign of a legend.
type entry struct {
	words string
	draw  func(x, y float64)
}

func (p *page) dayLegend(y float64, year Year) float64 {
	done, part, missed := "all in order", "some open", "no answer"
	if year.Engine {
		done, part, missed = "ran (taller: longer)", "too short", "no run"
	}
	all := []entry{
		{done, func(x, y float64) { p.fill(green, rect(x, y, 22, 28)) }},
		{part, func(x, y float64) { p.fill(year.part(), rect(x, y+16, 22, 12)) }},
		{missed, func(x, y float64) { p.ring(x, y+4, 24, blue) }},
		{"out of service", func(x, y float64) { p.cross(x, y+4, 22, red) }},
		{"defect reported", func(x, y float64) { p.fill(amber, []point{{x, y + 6}, {x + 24, y + 6}, {x + 12, y + 24}}) }},
	}
	if !year.Engine {
		all = slices.Insert(all, 1, entry{"with a fault", func(x, y float64) { p.flawed(x, y, 22, 28) }})
	}
	return p.entries(y, all)
}

// entries draws signs with their words, as many to a line as fit.
func (p *page) entries(y float64, all []entry) float64 {
	x := float64(margin)
	for _, e := range all {
		w := 36 + p.faces.width(e.words, plain)
		if x+w > pageWidth-margin && x > margin {
			x, y = margin, y+46
		}
		e.draw(x, y)
		p.say(x+36, y+27, plain, soft, ground, e.words)
		x += w + 34
	}
	return y + 62
}
