package wording

import (
	"fmt"

	"crosslay/bot/chat"
	"crosslay/bot/check"
)

// MaxLines is how long a prompt for five items and twenty-five checks may get;
// longer ones are packed as tightly as they can be read.
const MaxLines = 40

// Prompt is a company's checks of a shift, and what became of them so far. It is
// edited in place: what is answered shrinks, what is wrong stays.
func Prompt(v PromptView) []chat.Block {
	p := newPage(v)
	for p.size() > MaxLines && p.tighten() {
	}
	return p.blocks()
}

// page is a prompt being fitted to its length.
type page struct {
	v     PromptView
	tight []bool // items whose checks are packed several to a line
	rows  int    // most lines for each of the notes
}

func newPage(v PromptView) *page {
	return &page{v: v, tight: make([]bool, len(v.Items)), rows: 3}
}

func (p *page) size() int {
	n := 0
	for _, b := range p.blocks() {
		n += len(b.Lines)
	}
	return n
}

// tighten shortens the page by one step: first the item that gains most is
// packed, then the notes shrink. False when nothing is left to gain.
func (p *page) tighten() bool {
	best, gain := -1, 0
	for i, it := range p.v.Items {
		if g := len(itemLines(it, false)) - len(itemLines(it, true)); !p.tight[i] && g > gain {
			best, gain = i, g
		}
	}
	switch {
	case best >= 0:
		p.tight[best] = true
	case p.rows > 1:
		p.rows--
	default:
		return false
	}
	return true
}

func (p *page) blocks() []chat.Block {
	v := p.v
	out := []chat.Block{block(chat.Title, join(" · ", v.Company, shiftName(v), v.Date.Weekday().String()[:3]+" "+v.Date.Month.String()[:3]+fmt.Sprintf(" %d", v.Date.Day)))}
	if v.Done {
		out = append(out, block(chat.Body, "All checks answered."))
	} else {
		out = append(out, startFirst(v), cooling(v))
	}
	said := map[string]bool{}
	for i, it := range v.Items {
		if it.Caution != "" && !said[it.Caution] && !settled(it) {
			said[it.Caution] = true
			out = append(out, block(chat.Safety, fmt.Sprintf("Caution, %s: %s", it.Thing, it.Caution)))
		}
		out = append(out, chat.Text(chat.List, itemLines(it, p.tight[i])...))
	}
	out = append(out, p.notes())
	if !v.Done {
		out = append(out, block(chat.Hint, howToAnswer(v)))
	}
	return blocks(out...)
}

func shiftName(v PromptView) string {
	if v.Platoon == "" {
		return ""
	}
	return string(v.Platoon) + " shift"
}

// startFirst names the engines still to be run, with their minutes: they warm up
// while the rest is checked.
func startFirst(v PromptView) chat.Block {
	var engines []string
	for _, it := range v.Items {
		for _, c := range it.Checks {
			if c.State == check.Open && c.Check.Answer.Kind == check.Run {
				engines = append(engines, join(" ", it.Thing.String(), limits(c.Check)))
			}
		}
	}
	if len(engines) == 0 {
		return chat.Block{}
	}
	return block(chat.Body, "Start first, outdoors, exhaust away from doors:", join(", ", engines...))
}

// cooling is the caution about fuel, as long as a run or a fuel level is open.
func cooling(v PromptView) chat.Block {
	for _, it := range v.Items {
		for _, c := range it.Checks {
			if c.State == check.Open && (c.Check.Answer.Kind == check.Run || c.Check.Use == check.UseFuel) {
				return block(chat.Safety, "Refuel only with the engine off and cool. No smoking.")
			}
		}
	}
	return chat.Block{}
}

// notes is what the shift before passes on, and what is left out.
func (p *page) notes() chat.Block {
	lines := listed("NO RUN LAST SHIFT: ", p.v.NoRun, p.rows)
	lines = append(lines, listed("Missed last shift: ", p.v.Missed, p.rows)...)
	var out, open []string
	for _, o := range p.v.Out {
		out = append(out, leftOut(o))
	}
	for _, o := range p.v.PassOn {
		open = append(open, passOn(o))
	}
	lines = append(lines, capped(out, p.rows)...)
	lines = append(lines, capped(open, p.rows)...)
	return chat.Text(chat.Body, lines...)
}

func leftOut(o OutLine) string {
	spare := ""
	if o.Spare != "" {
		spare = "spare " + o.Spare + " stands in"
	}
	return "Left out: " + join("; ", join(", ", o.Thing.String(), o.Why), spare)
}

func passOn(o Open) string {
	return "Pass-on: " + join(": ", part(o.Thing, o.Label), join(" ", o.State, quote(o.Words, Width)))
}

// listed writes names behind a lead in at most rows lines; those that do not fit
// are counted.
func listed(lead string, names []string, rows int) []string {
	for n := len(names); n > 0; n-- {
		text := lead + join(", ", names[:n]...)
		if n < len(names) {
			text += more(len(names) - n)
		}
		if lines := wrap(text); len(lines) <= rows {
			return lines
		}
	}
	if len(names) > 0 {
		return capped(wrap(lead+names[0]), 1)
	}
	return nil
}

// capped keeps at most rows entries of one line each and counts the others.
func capped(entries []string, rows int) []string {
	var lines []string
	for i, e := range entries {
		if i == rows-1 && len(entries) > rows {
			rest := more(len(entries) - rows)
			return append(lines, clip(e, Width-size(rest))+rest)
		}
		lines = append(lines, clip(e, Width))
	}
	return lines
}

func more(n int) string { return fmt.Sprintf(" and %d more", n) }

// howToAnswer shows answers that fit the checks still open.
func howToAnswer(v PromptView) string {
	low, run := "", ""
	for _, it := range v.Items {
		for _, c := range it.Checks {
			if c.State != check.Open {
				continue
			}
			if low == "" && c.Check.Answer.Kind == check.Gauge {
				low = fmt.Sprintf(`"%d low"`, c.N)
			}
			if run == "" && c.Check.Answer.Kind == check.Run {
				run = `"started ` + it.Thing.Name + `"`
			}
		}
	}
	for _, s := range []string{join(", ", `"all good"`, `"1-4 ok"`, low, run), join(", ", `"all good"`, low, run), join(", ", `"all good"`, `"1-4 ok"`, low)} {
		if text := "In the thread: " + s; size(text) <= Width {
			return text
		}
	}
	return `In the thread: "all good", "1-4 ok"`
}
