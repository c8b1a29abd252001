package wording

import (
	"fmt"
	"time"

	"crosslay/bot/chat"
	"crosslay/bot/check"
)

// MaxLines is how long a prompt for five items and twenty-five checks may get;
// longer ones are packed as tightly as they can be read.
const MaxLines = 40

// Prompt is a company's checks of a shift, and what became of them so far. It is
// edited in place: what is answered shrinks, what is wrong stays.
func Prompt(v PromptView) []chat.Block {
	p := page{v: v, packed: make([]bool, len(v.Items)), rows: 3}
	for p.size() > MaxLines && p.tighten() {
	}
	return p.blocks()
}

// page is a prompt being fitted to its length.
type page struct {
	v      PromptView
	packed []bool // items whose checks stand several to a line
	rows   int    // most lines for each kind of note
	brief  bool   // engines to start are given by number, cautions without a name
}

func (p *page) size() int {
	n := 0
	for _, b := range p.blocks() {
		n += len(b.Lines)
	}
	return n
}

// tighten shortens the page by one step: notes to two lines, then the item that
// gains most is packed, then notes to one line, then the rest. False when nothing
// is left to gain.
func (p *page) tighten() bool {
	best := p.fattest()
	switch {
	case p.rows > 2:
		p.rows--
	case best >= 0:
		p.packed[best] = true
	case p.rows > 1:
		p.rows--
	case !p.brief:
		p.brief = true
	default:
		return false
	}
	return true
}

// fattest is the item that loses most lines when packed; -1 if none does.
func (p *page) fattest() int {
	best, gain := -1, 0
	for i, it := range p.v.Items {
		if p.packed[i] {
			continue
		}
		if g := len(itemLines(it, false)) - len(itemLines(it, true)); g > gain {
			best, gain = i, g
		}
	}
	return best
}

func (p *page) blocks() []chat.Block {
	v := p.v
	out := []chat.Block{block(chat.Title, join(" · ", tied(v.Company), shiftName(v), shiftDay(v)))}
	if v.Done {
		out = append(out, block(chat.Body, "All checks answered."))
	}
	out = append(out, chat.Text(chat.Body, listed("NO RUN LAST SHIFT: ", v.NoRun, p.rows)...), p.startFirst(), cooling(v))
	said := map[string]bool{}
	for i, it := range v.Items {
		if it.Caution != "" && !said[it.Caution] && !settled(it) {
			said[it.Caution] = true
			out = append(out, block(chat.Safety, p.caution(it)))
		}
		out = append(out, chat.Text(chat.List, itemLines(it, p.packed[i])...))
	}
	return blocks(append(out, p.notes(), block(chat.Hint, howToAnswer(v)))...)
}

func shiftName(v PromptView) string {
	if v.Platoon == "" {
		return ""
	}
	return tied(string(v.Platoon) + " shift")
}

func shiftDay(v PromptView) string {
	if v.Date.IsZero() {
		return ""
	}
	return day(time.Date(v.Date.Year, v.Date.Month, v.Date.Day, 12, 0, 0, 0, time.UTC))
}

// caution is a sheet's caution; it holds for every item of the name.
func (p *page) caution(it PromptItem) string {
	if p.brief {
		return it.Caution
	}
	return join(": ", capital(it.Thing.Name), it.Caution)
}

// startFirst names the engines still to be run, with their minutes: they warm up
// while the rest is checked.
func (p *page) startFirst() chat.Block {
	var engines []string
	var numbers []int
	for it, c := range p.open() {
		if c.Check.Answer.Kind == check.Run {
			engines = append(engines, tied(join(" ", it.Thing.String(), limits(c.Check))))
			numbers = append(numbers, c.N)
		}
	}
	const lead = "Start first, outdoors, exhaust away from doors:"
	switch {
	case len(engines) == 0:
		return chat.Block{}
	case p.brief:
		return block(chat.Body, lead+" "+ranges(numbers))
	}
	return block(chat.Body, lead, join(", ", engines...))
}

// cooling is the caution about fuel, as long as a run or a fuel level is open.
func cooling(v PromptView) chat.Block {
	p := page{v: v}
	for _, c := range p.open() {
		if c.Check.Answer.Kind == check.Run || c.Check.Use == check.UseFuel {
			return block(chat.Safety, "Refuel only with the engine off and cool. No smoking.")
		}
	}
	return chat.Block{}
}

// open yields the checks that nobody has spoken of, with their items.
func (p *page) open() func(yield func(PromptItem, PromptCheck) bool) {
	return func(yield func(PromptItem, PromptCheck) bool) {
		for _, it := range p.v.Items {
			for _, c := range it.Checks {
				if c.State == check.Open && !yield(it, c) {
					return
				}
			}
		}
	}
}

// howToAnswer shows answers that fit the checks still open, as many as fit on
// the line.
func howToAnswer(v PromptView) string {
	if v.Done {
		return ""
	}
	ways := examples(v)
	if len(ways) == 0 {
		return questionsLeft(v)
	}
	text := "In the thread: " + ways[0]
	for _, way := range ways[1:] {
		if longer := text + ", " + way; size(longer) <= Width {
			text = longer
		}
	}
	return text
}

// questionsLeft points to the questions in the thread, as long as there is one.
func questionsLeft(v PromptView) string {
	for _, it := range v.Items {
		for _, c := range it.Checks {
			if c.State == check.Unsure {
				return "Answer the questions in the thread."
			}
		}
	}
	return ""
}

// examples are answers to checks still open, the most useful first; none if
// nothing is open. A blanket is not offered where only readings are open.
func examples(v PromptView) []string {
	var blanket, span, low, start, level, other string
	from, to := 0, 0
	for it, c := range (&page{v: v}).open() {
		kind := c.Check.Answer.Kind
		if !kind.WantsFigure() {
			blanket = `"all good"`
			if to == 0 || (c.N != to+1 && span == "") {
				from, to = c.N, c.N
			} else if c.N == to+1 {
				to, span = c.N, fmt.Sprintf(`"%d-%d ok"`, from, c.N)
			}
		}
		switch kind {
		case check.Gauge:
			low = first(low, fmt.Sprintf(`"%d low"`, c.N))
		case check.Run:
			start = first(start, `"started `+it.Thing.Name+`"`)
		case check.Level:
			level = first(level, `"`+c.Check.Label+` 3/4"`)
		case check.Condition, check.YesNo, check.Number, check.Choice, check.DateAhead, check.Text, check.Photo:
			other = first(other, fmt.Sprintf(`"%d ..."`, c.N))
		}
	}
	var ways []string
	for _, way := range []string{blanket, span, start, low, level} {
		if way != "" {
			ways = append(ways, way)
		}
	}
	if len(ways) == 0 && other != "" {
		ways = append(ways, other)
	}
	return ways
}

// first keeps the earlier of two texts.
func first(have, next string) string {
	if have != "" {
		return have
	}
	return next
}
