package reply

import (
	"slices"

	"crosslay/bot/check"
)

// Read says what a message means against what was asked. A check is ok only if
// words in its scope say so and nothing in its scope, understood or not, speaks
// against it.
func Read(ctx Context, text string) Reading {
	return guard(ctx, lower(text), readPlain(ctx, text))
}

func readPlain(ctx Context, text string) Reading {
	lx := lexiconFor(ctx.Items)
	text = numbered(normalise(text))
	terms := lx.terms(lex(text), ctx.Company)
	clauses, talk := lx.split(terms)
	r := newReader(&ctx, lx, text, clauses)
	r.busy = talk.busy
	r.started = slices.ContainsFunc(terms, func(t term) bool { return t.is(cStarted) })
	if !promise(terms) && (len(ctx.Asked) > 0 || len(lx.refs) == 1 || !polite(terms)) {
		if len(ctx.Asked) > 0 || !r.bareList(terms) {
			r.readAll()
			r.asides(terms)
		}
	}
	return r.reading(talk, terms)
}

// level is how near the words come to a check; nearer words beat farther ones.
type level uint8

const (
	byBlanket level = iota + 1
	byRest
	byItem
	byName
)

// record is what has been heard of one check so far.
type record struct {
	set    bool
	v      verdict
	level  level
	b, e   int
	clause int
	choice []int // for WhichItem and WhichCheck
	said   verdict
}

// sweep is a blanket answer, settled after everything else.
type sweep struct {
	refs   []int
	level  level
	b, e   int
	clause int
	taint  Why
}

type reader struct {
	ctx      *Context
	lx       *lexicon
	text     string
	clauses  []clause
	held     int
	bare     bool // the clause before only named an item
	named    bool // an item was named in this message
	records  []record
	sweeps   []sweep
	prev     []int // refs of the clause before
	recent   []int // every item named by itself, in order
	group    []int // the items named together, for "both"
	before   []int // and of the one before an item's
	focus    []int // what the bot asked back about
	about    []check.Ref
	wants    []int
	reports  []Complaint
	leftover []string
	taints   []taint
	troubles []trouble
	position Position // of the tool, wherever it was said
	busy     bool
	started  bool // an engine was started just now
	mending  bool // the clause before said that something was put right
	mendedAt []int
	supposed []int // refs of the supposition before
	older    []int // refs of which older news was told
	asked    bool  // something was asked that is about no check
}

// trouble is an item called bad without a word about what.
type trouble struct {
	refs   []int
	clause int
}

// taint is residue that could bear on what blankets pass.
type taint struct {
	refs []int
	why  Why
	b, e int
}

func newReader(ctx *Context, lx *lexicon, text string, clauses []clause) *reader {
	r := &reader{ctx: ctx, lx: lx, text: text, clauses: clauses, held: -1, records: make([]record, len(lx.refs))}
	for i := range lx.items {
		if ctx.Held != "" && lx.items[i].ID == ctx.Held {
			r.held = i
		}
	}
	if len(lx.items) == 1 {
		r.held = 0
	}
	for _, d := range ctx.Asked {
		r.focus = appendNew(r.focus, lx.find(d.Refs))
	}
	return r
}

func (lx *lexicon) find(refs []check.Ref) []int {
	var out []int
	for _, ref := range refs {
		for i := range lx.refs {
			if lx.refs[i].ref == ref || ref.Check == "" && lx.refs[i].ref.Item == ref.Item {
				out = append(out, i)
			}
		}
	}
	return out
}

func (r *reader) readAll() {
	for i := 0; i < len(r.clauses); {
		r.settlePlaces(&r.clauses[i])
		if n := r.positional(i); n > 0 {
			i += n
			continue
		}
		r.clause(i)
		c := &r.clauses[i]
		r.mending = c.says(sFixed, sPoured)
		r.bare = len(c.items) == 1 && !c.hasCheck() && len(c.sigs) == 0 && !c.except
		i++
	}
	r.sweepAll()
}

func (r *reader) clause(i int) {
	c := &r.clauses[i]
	tg := r.grouped(r.lx.scope(c, r.held), c, i)
	tg = r.byFigure(tg, c)
	r.notePosition(c)
	r.hold(tg)
	switch {
	case c.ifs && c.says(sUndone) && !c.hasSubject() && len(r.supposed) > 0:
		r.each(r.supposed, c, i, doubt(NotChecked), byName) // "if it passes I'll say so, it's not done yet"
		return
	case c.ifs:
		r.supposed = appendNew(tg.refs, tg.choice)
		if len(r.supposed) == 0 {
			r.supposed = answerable(r.lx, r.lx.ofItems(tg.items))
		}
		if len(tg.refs) > 0 {
			r.prev = tg.refs
		}
		r.ask(c, tg)
		return
	case c.past && c.says(sUndone) && len(tg.refs) > 0:
		r.each(tg.refs, c, i, doubt(NotChecked), byName)
		r.prev = tg.refs
		return
	case i > 0 && r.clauses[i-1].past && c.pronoun && c.says(sUndone) && !c.hasSubject() && r.held >= 0 && len(r.prev) == 0:
		r.each(answerable(r.lx, r.lx.byItem[r.held]), c, i, doubt(NotChecked), byItem) // "B shift says the combi is fine, I haven't had it out"
		return
	case c.past && !c.except && !c.still && !c.says(sNow) && !c.says(sSame) && !r.expired(tg.refs, c):
		r.prev, r.older = tg.refs, appendNew(r.older, tg.refs)
		return
	case c.question && len(r.lx.refs) > 1 && !c.hasSubject() && !c.says(sFigure) && (len(r.prev) == 0 || c.all):
		r.asked = true
		return
	case c.question:
		c.sigs = []signal{{kind: sAsk, t: &term{senses: &noSenses}, b: c.b, e: c.e}}
	}
	if c.single && c.soft && c.hasSubject() && (len(c.sigs) == 0 || c.says(sBad, sHedge, sUndone) || c.doubtful()) {
		r.unsettle(r.prev) // "masks good, one strap frayed"
	}
	if c.only && len(tg.refs)+len(tg.items) > 0 {
		r.nothingElse(tg, c)
	}
	switch {
	case r.toolStands(tg, c):
	case r.secondOfTwo(c, i):
	case r.secondFigure(c, i):
		r.each(r.prev, c, i, doubt(Conflict), byName)
	case r.chosen(tg, c, i), r.likewise(tg, c, i), r.theOther(tg, c, i), r.exceptOne(tg, c, i):
	case c.says(sSame) && !tg.item && len(tg.refs) == 0:
		r.each(r.lx.all(), c, i, verdict{state: check.Unsure, why: NotChecked}, byRest)
	case len(tg.choice) > 0 && len(tg.refs) == 0:
		r.which(tg, c, i, WhichItem)
	case tg.why == WhichItem:
		r.whichItem(tg, c, i)
	case len(tg.refs) > 0:
		r.specific(tg, c, i)
	case tg.miss:
		r.foreign(tg, c, i)
	case tg.item:
		r.item(tg.items, c, i)
	case c.rest && !c.all && !c.wide && i > 0 && r.clauses[i-1].single && len(r.prev) > 0:
		r.oneOfThem(c, i)
	default:
		r.subjectless(c, i)
	}
}

// grouped narrows what the clause speaks of to the items named together before it, where
// it goes on about them.
func (r *reader) grouped(tg target, c *clause, i int) target {
	if n := len(r.recent); c.both && len(r.group) == 0 && n > 1 {
		r.group = r.recent[n-2:]
	}
	if in := r.lx.within(tg.choice, r.group); len(c.names) == 1 && c.names[0].several() && len(c.places) == 0 && len(in) > 1 && r.lx.onePerItem(in) {
		tg.refs, tg.choice = in, nil // "both hoses good, caps on"
	}
	if c.soft && len(c.items) == 0 && len(r.group) > 1 && i > 0 && (r.clauses[i-1].plural && !c.pronoun || r.they(c, i)) && len(c.sigs) == 1 && len(tg.choice) > 0 {
		if in := r.lx.within(tg.choice, r.group); len(in) > 1 && r.lx.onePerItem(in) {
			tg.refs, tg.choice = in, nil // "both saws are full and ran three minutes"
		}
	}
	if in := r.lx.within(tg.choice, r.group); c.both && len(tg.items) == 0 && len(in) > 0 {
		tg.refs, tg.choice = in, nil
	}
	if in := r.lx.within(tg.refs, r.group); c.both && len(tg.items) == 0 && len(in) > 0 {
		tg.refs = in
	}
	if full := r.fullToo(c, i); len(full) > 0 {
		tg.refs = full
	}
	tg.refs = r.ofTwins(tg.refs, c)
	return tg
}

// expired reports whether the past is just what the words are about: pads that
// expired last month are expired now.
func (r *reader) expired(refs []int, c *clause) bool {
	return c.says(sBad, sEmpty) && len(refs) > 0 && len(r.lx.ofKind(refs, check.DateAhead)) == len(refs)
}

func (r *reader) ask(c *clause, tg target) {
	r.taints = append(r.taints, taint{refs: append(appendNew(tg.refs, tg.choice), r.asideOf(tg)...), why: Asking, b: c.b, e: c.e})
	for _, ref := range append(slices.Clone(tg.refs), tg.choice...) {
		r.about = append(r.about, r.lx.refs[ref].ref)
	}
	if len(tg.refs)+len(tg.choice) == 0 {
		for _, it := range tg.items {
			r.about = append(r.about, check.Ref{Item: r.lx.items[it].ID})
		}
	}
}

// zorched reports whether a check was named by its own name and a word that
// nobody knows was said of it.
func (r *reader) zorched(ref int, c *clause) bool {
	if len(c.numbers) == 1 && !c.ifs && !c.past && !c.except && c.doubtful() {
		return true // "10 bulb out"
	}
	if c.ifs || c.past || len(c.names) != 1 || !slices.Contains(c.names[0].senses.checks, ref) || len(c.unknown) == 0 {
		return false
	}
	u := c.unknown[0]
	return !u.is(cThing) && !u.capital && u.b > c.names[0].e && len(r.lx.refs[ref].check.Answer.Choices) == 0
}

// asideOf are the checks of an item that is only asked about.
func (r *reader) asideOf(tg target) []int {
	if len(tg.refs)+len(tg.choice) > 0 {
		return nil
	}
	return r.lx.ofItems(tg.items)
}

// repeated reports whether a name was only said twice: one of them was meant for
// another word, as "full" heard as "fuel".
func repeated(names []*term) bool {
	return len(names) == 2 && names[0].word == names[1].word && names[0].e < names[1].b
}

// specific applies a clause to the checks that it names.
func (r *reader) specific(tg target, c *clause, i int) {
	tg.refs = r.redirected(tg, c)
	r.before, r.prev = r.prev, tg.refs
	if c.same && !c.spoken() && len(r.before) > 0 {
		r.alike(tg.refs, c, i)
		return
	}
	if c.except && i > 0 && len(r.clauses[i-1].names) > 0 && len(intersect(r.before, tg.refs)) == 0 {
		r.unsettle(r.before) // "blades good except the tip"
	}
	if len(c.sigs) == 0 && (repeated(c.names) || c.isName) {
		r.each(tg.refs, c, i, doubt(NoReading), byName)
		return
	}
	// names of several items thrown together without an "and" are a sentence misheard
	mixed := len(c.names) > 1 && len(c.items)+len(c.numbers) == 0 && !c.listed && !c.plural && len(r.itemsOf(tg.refs)) > 1
	for _, ref := range tg.refs {
		v := judge(&r.lx.refs[ref], r.fitting(ref, c), r.ctx.Now)
		if c.says(sFixed, sPoured) && r.records[ref].set {
			v = r.mended(ref, v, c)
		}
		if r.lx.refs[ref].check.Answer.Kind == check.Text && len(c.sigs)+len(c.unknown) > 0 {
			v = verdict{state: check.OK, value: check.Word(r.words(c.b, c.e))}
		}
		if c.except && v.state == check.Open && !v.wants {
			v = excepted(&r.lx.refs[ref])
		}
		if v.state == check.OK && mixed {
			v.state, v.why = check.Unsure, WhichCheck
		}
		if v.state == check.OK && c.doubtful() && r.lx.refs[ref].check.Answer.Kind != check.Text {
			v.state, v.why = check.Unsure, Leftover
		}
		if v.state == check.Open && len(c.sigs) == 0 && r.zorched(ref, c) {
			v = doubt(Leftover)
		}
		if v.state == check.Open && !v.wants && len(c.sigs) == 0 && !r.lx.refs[ref].check.Answer.Kind.WantsFigure() {
			r.taints = append(r.taints, taint{refs: []int{ref}, why: Leftover, b: c.b, e: c.e}) // named, and nothing said of it
		}
		if v.state == check.Open && c.doubtful() {
			r.taints = append(r.taints, taint{refs: []int{ref}, why: Leftover, b: c.b, e: c.e})
		}
		r.hear(ref, v, c, i, byName)
	}
	r.strays(tg.refs, c, i)
	for _, it := range c.items {
		if !slices.Contains(r.itemsOf(tg.refs), it) && c.listed && c.says(sGood) && !c.says(sBad, sHedge, sUndone) && !c.doubtful() {
			r.sweeps = append(r.sweeps, sweep{refs: r.lx.byItem[it], level: byItem, b: c.b, e: c.e, clause: i}) // "rope and lights are good"
		}
	}
}
