package picture

import "fmt"

const (
	chipHeight = 90
	chipGap    = 10
	chipMark   = 36
)

// company draws a company and all it carries, and returns the y below.
func (p *page) company(y float64, c Company) float64 {
	top := y
	at := len(p.shapes)
	answered, state := fmt.Sprintf("%d of %d answered", c.Answered, c.Asked), c.state()
	if c.Asked+c.Runs == 0 {
		answered = string(None)
	}
	left := p.sayRight(pageWidth-margin-20, y+46, label, bright, panel, answered)
	p.mark(state, left-44, y+20, 32, panel)
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
	const left, width = margin + 20, inner - 40
	columns, n := 6, 0
	for _, it := range all {
		for it.fine() && columns > 1 && p.faces.width(it.Number, plain) > width/float64(columns)-50 {
			columns--
		}
	}
	w := width / float64(columns)
	for _, it := range all {
		if it.fine() {
			x, row := left+float64(n%columns)*w, y+float64(n/columns)*fineHeight
			p.mark(it.State, x, row+6, 28, panel)
			p.say(x+38, row+31, plain, bright, panel, p.fit(it.Number, plain, w-46))
			n++
		}
	}
	return y + float64((n+columns-1)/columns)*fineHeight
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

// groups draws in full the companies that one word does not describe, and the
// others by name.
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

// names lists companies in as many columns as their names fit in.
func (p *page) names(y float64, all []Company, s State) float64 {
	const rowHeight = 58
	columns := 3
	width := func(n int) float64 { return inner/float64(n) - 64 }
	for _, c := range all {
		for columns > 1 && p.faces.width(c.Name, label) > width(columns) {
			columns--
		}
	}
	for i, c := range all {
		x, row := margin+float64(i%columns)*inner/float64(columns), y+float64(i/columns)*rowHeight
		p.mark(s, x+4, row+8, 32, ground)
		p.say(x+48, row+36, label, bright, ground, p.fit(c.Name, label, width(columns)))
	}
	return y + float64((len(all)+columns-1)/columns)*rowHeight
}
