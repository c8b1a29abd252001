package picture

import (
	"fmt"
	"image/color"
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
		tall := year.tall(d)
		p.fill(green, rect(x+3, foot-tall, w, tall))
	case Short:
		tall := year.tall(d)
		p.fill(green, frame(x+3, foot-tall, w, tall, 5)...)
	case Faulty:
		tall := year.tall(d)
		p.flawed(x+3, foot-tall, w, tall)
	case Part:
		p.fill(year.part(), rect(x+3, foot-12, w, 12))
	case Missed:
		p.ring(x+3, foot-w-2, w, blue)
	case Away:
		p.cross(x+3, foot-w-2, w, red)
	case NotAsked:
	}
	p.bars(x+1, y+dayFoot+1, dayWidth-2, d.Out, d.Fault)
	if d.Defect {
		p.fill(amber, []point{{x + dayWidth/2 - 12, y + 2}, {x + dayWidth/2 + 12, y + 2}, {x + dayWidth/2, y + 20}})
	}
}

// tall is how high a day's bar is: by the longest run, if there is an engine.
func (y Year) tall(d Day) float64 {
	if y.Engine && y.Min > 0 {
		return dayTall * max(0.3, min(1, 0.5*d.Minutes/y.Min))
	}
	return dayTall * 0.62
}

// bars are what stood under a day: a red one where something was out of service,
// an amber one in two pieces where a fault was open.
func (p *page) bars(x, y, w float64, out, fault bool) {
	if out && fault {
		p.bars(x, y, w*0.45, true, false)
		p.bars(x+w*0.55, y, w*0.45, false, true)
		return
	}
	if out {
		p.fill(red, rect(x, y, w, 6))
	}
	if fault {
		p.fill(amber, rect(x, y, w*0.38, 6))
		p.fill(amber, rect(x+w*0.62, y, w*0.38, 6))
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
	done, flawed, short, part, missed := "all in order", "fault found or open", "in order, then out", "some unanswered", "no answer"
	if year.Engine {
		done, flawed, short, part, missed = "ran (taller: longer)", "ran, fault open", "ran, out that day", "too short", "no run"
	}
	return p.entries(y, []entry{
		{done, func(x, y float64) { p.fill(green, rect(x, y, 22, 28)) }},
		{flawed, func(x, y float64) { p.flawed(x, y, 22, 28) }},
		{short, func(x, y float64) { p.fill(green, frame(x, y, 22, 28, 5)...) }},
		{part, func(x, y float64) { p.fill(year.part(), rect(x, y+16, 22, 12)) }},
		{missed, func(x, y float64) { p.ring(x, y+4, 24, blue) }},
		{"out, not asked", func(x, y float64) { p.cross(x, y+4, 22, red) }},
		{"out of service", func(x, y float64) { p.bars(x, y+20, 26, true, false) }},
		{"fault open", func(x, y float64) { p.bars(x, y+20, 26, false, true) }},
		{"defect reported", func(x, y float64) { p.fill(amber, []point{{x, y + 6}, {x + 24, y + 6}, {x + 12, y + 24}}) }},
	})
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
