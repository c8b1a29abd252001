package picture

import (
	"fmt"
	"math"
	"slices"
	"time"

	"crosslay/bot/dept"
)

const chartHeight = 300

// chart is where a chart's field stands on the page.
type chart struct{ left, top, width float64 }

// chartFor leaves as much room at the left as the longest word of the scale
// needs: figures are not shortened.
func (p *page) chartFor(l Levels, top float64) chart {
	room := 0.0
	for _, m := range l.Marks {
		room = max(room, p.faces.width(m.Words, strong))
	}
	left := margin + room + 18
	return chart{left, top, pageWidth - margin - left}
}

// levels draws a year's readings of one check: a line of steps, with every
// reading out of limits marked.
func (p *page) levels(y float64, year Year) float64 {
	l := year.Levels
	y = p.section(y, l.Label, bright) + 16
	c := p.chartFor(l, y)
	from := noon(year.First)
	across := noon(dept.Date{Year: year.First.Year + 1, Month: year.First.Month, Day: 1}).Sub(from)
	px := func(t time.Time) float64 {
		return c.left + c.width*min(max(float64(t.Sub(from))/float64(across), 0), 1)
	}
	py := func(f float64) float64 {
		return y + chartHeight*(1-min(max((f-l.Low)/(l.Top-l.Low), 0), 1))
	}
	p.fill(panel, rect(c.left, y, c.width, chartHeight))
	p.scale(c, l, py)
	var line []point
	for _, r := range l.Points {
		at := point{px(r.At), py(r.Is)}
		if n := len(line); n > 0 {
			line = append(line, point{at.x, line[n-1].y})
		}
		line = append(line, at)
	}
	for i := 1; i < len(line); i++ {
		if s := stroke(line[i-1], line[i], 4); s != nil {
			p.fill(bright, s)
		}
	}
	for _, r := range l.Points {
		if r.Bad {
			x, at := px(r.At), py(r.Is)
			p.fill(amber, []point{{x - 11, at - 9}, {x + 11, at - 9}, {x, at + 11}})
		} else if r.Fixed {
			p.fixed(px(r.At), py(r.Is))
		}
	}
	p.months(c, year.First)
	return p.entries(y+chartHeight+52, p.levelLegend(l))
}

// levelLegend says how many readings were out of limits, and how many are in them
// only because the crew put them right.
func (p *page) levelLegend(l Levels) []entry {
	bad, fixed := l.bad(), l.fixed()
	if bad == 0 && fixed == 0 {
		return []entry{{"every reading was in limits", func(x, y float64) { p.mark(OK, x, y+2, 28, ground) }}}
	}
	right := entry{fmt.Sprintf("%d put right by the crew", fixed), func(x, y float64) { p.fixed(x+12, y+17) }}
	if bad == 0 {
		right.words = fmt.Sprintf("every reading in limits, %d after the crew put it right", fixed)
		return []entry{right}
	}
	all := []entry{{count(bad, "reading", "readings") + " out of limits", func(x, y float64) {
		p.fill(amber, []point{{x, y + 6}, {x + 24, y + 6}, {x + 12, y + 26}})
	}}}
	if fixed > 0 {
		all = append(all, right)
	}
	return all
}

// fixed is a reading that was wrong first: a hollow triangle.
func (p *page) fixed(x, y float64) {
	p.fill(amber, []point{{x - 12, y - 10}, {x + 12, y - 10}, {x, y + 11}}, hole([]point{{x - 6, y - 6.5}, {x + 6, y - 6.5}, {x, y + 4}}))
}

func noon(d dept.Date) time.Time {
	return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC)
}

// scale writes the marks at the left of a chart, with a dashed line for a limit.
// Limits come first; a mark that would touch another is left out.
func (p *page) scale(c chart, l Levels, py func(float64) float64) {
	var taken []float64
	for _, limits := range []bool{true, false} {
		for _, m := range l.Marks {
			y := py(m.At)
			if m.Limit && limits {
				p.dashes(c, y)
			}
			near := func(other float64) bool { return math.Abs(other-y) < 36 }
			if m.Limit != limits || slices.ContainsFunc(taken, near) {
				continue
			}
			taken = append(taken, y)
			if m.Limit {
				p.sayRight(c.left-14, y+10, strong, amber, ground, m.Words)
				continue
			}
			p.sayRight(c.left-14, y+10, plain, soft, ground, m.Words)
		}
	}
}

func (p *page) dashes(c chart, y float64) {
	for i := 0; i < 240; i += 24 {
		p.fill(amber, rect(c.left+c.width*float64(i)/240, y-1.5, c.width/18, 3))
	}
}

// months writes every second month under a chart.
func (p *page) months(c chart, first dept.Date) {
	for m := 0; m < 12; m += 2 {
		at := first.Month + time.Month(m)
		p.say(c.left+c.width*float64(m)/12, c.top+chartHeight+34, plain, soft, ground, (dept.Date{Year: first.Year, Month: at, Day: 1}).AddDays(0).Month.String()[:3])
	}
}

// mostDefects is how many defects a year shows; the rest is counted.
const mostDefects = 8

// defects lists what went wrong, newest first.
func (p *page) defects(y float64, all []Defect) float64 {
	y = p.section(y, "Defects", bright)
	if len(all) == 0 {
		p.mark(OK, margin, y+6, 32, ground)
		p.say(margin+48, y+34, plain, soft, ground, "none reported")
		return y + 60
	}
	for i, d := range all {
		if i == mostDefects {
			p.say(margin+56, y+34, plain, soft, ground, "and "+count(len(all)-i, "earlier one", "earlier ones"))
			return y + 60
		}
		p.mark(d.State, margin+2, y+14, 38, ground)
		p.say(margin+56, y+36, label, bright, ground, p.fit(d.What, label, inner-60))
		p.say(margin+56, y+74, plain, soft, ground, p.fit(d.Went, plain, inner-60))
		y += 96
	}
	return y
}
