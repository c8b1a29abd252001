package reply

import "slices"

// term is a stretch of the message that means one thing: a phrase of the
// vocabulary, a name of the department's, a figure, a punctuation mark, or a word
// that nobody knows.
type term struct {
	cls     class
	senses  *senses
	q       *quantity
	word    string // its first word
	last    string // and its last
	punct   string
	b, e    int
	i       int // its place among the terms
	unknown bool
	capital bool // written like a person's name
	upper   bool // begins with a capital letter
}

var noSenses senses

// terms reads tokens from left to right, always the longest stretch that means
// something.
func (lx *lexicon) terms(t []token, company []string) []term {
	own := calledBy(company)
	t = lx.dictated(t)
	lx.respell(t)
	out := make([]term, 0, len(t))
	for i := 0; i < len(t); {
		if n := called(own, t, i); n > 0 {
			out = append(out, term{cls: cFiller | cUnitWord, word: t[i].s, last: t[i+n-1].s, senses: &noSenses, b: t[i].b, e: t[i+n-1].e})
			i += n
			continue
		}
		tm, n := lx.termAt(t, i)
		tm.b, tm.e, tm.last = t[i].b, t[i+n-1].e, t[i+n-1].s
		if tm.q != nil && tm.q.whole && len(out) > 0 && out[len(out)-1].company(tm.b) {
			if p := &out[len(out)-1]; len(p.word) == 1 {
				p.cls = cFiller // "e7" says nothing about empty
			}
			tm = term{cls: cFiller, word: tm.word, senses: &noSenses, b: tm.b, e: tm.e}
		}
		out = append(out, tm)
		i += n
	}
	return out
}

// calledBy cuts the names of a company into words, those of one letter or word that
// would mean something else left out.
func calledBy(names []string) [][]string {
	var out [][]string
	for _, n := range names {
		if w := words(n); len(w) > 1 {
			out = append(out, w)
		}
	}
	return out
}

// called counts the words at t[i] that name the company itself.
func called(own [][]string, t []token, i int) int {
	longest := 0
	for _, w := range own {
		if t[i].s == w[0] && len(w) > longest && fits(w, t, i) == len(w) {
			longest = len(w)
		}
	}
	return longest
}

func (lx *lexicon) termAt(t []token, i int) (term, int) {
	var best term
	best.senses = &noSenses
	q, n := quantityAt(t, i)
	if n > 1 && q.unit != "" && lx.opensName(t, i+n-1) {
		q, n = quantityAt(t[:i+n-1], i)
	}
	if n > 0 {
		best.q = &q
		best.word = t[i].s
	}
	if t[i].kind == aPunct {
		return punctTerm(t[i]), 1
	}
	m := match(lx.names, t, i, n, &best, t[i].s, lx.gap)
	m = match(vocabulary, t, i, m, &best, t[i].s, lx.gap)
	if m > 0 {
		best.unknown = best.is(cThing) && best.cls&^(cFiller|cNoun) == cThing && best.senses.none() && best.q == nil
		return best, m
	}
	return term{word: t[i].s, unknown: true, capital: t[i].capital, upper: t[i].upper, senses: &noSenses}, 1
}

// opensName reports whether the word at t[i] is rather the beginning of a name than
// a unit: "three quarters bar oil good", "six volts one nineteen".
func (lx *lexicon) opensName(t []token, i int) bool {
	if t[i].kind != aWord {
		return false
	}
	for _, p := range lx.names[t[i].s] {
		if len(p.senses.items) > 0 && len(p.words) == 1 && isAny(wordAt(t, i+1), "is", "reads", "at", "has", "was") {
			return true // "packs are forty five hundred meter is at ..."
		}
		if len(p.senses.checks) == 0 {
			continue
		}
		if n := fits(p.words, t, i); n > 1 {
			return true
		}
		if _, ok := hourWord(wordAt(t, i+1)); ok && len(p.words) == 1 {
			return true
		}
	}
	return false
}

func punctTerm(t token) term {
	switch t.s {
	case "~":
		return term{cls: cAbout, senses: &noSenses, word: "~"}
	case "&", "+":
		return term{cls: cAnd, senses: &noSenses, word: t.s}
	}
	return term{punct: t.s, senses: &noSenses}
}

// match looks for the longest phrase at t[i] whose first word is w and which is
// longer than have, or as long, which then adds its meaning. With a gap that is a check of
// its own, a quarter inch is its reading and not how the tool stands.
func match(ix index, t []token, i, have int, best *term, w string, gap bool) int {
	for p := range ix[w] {
		ph := &ix[w][p]
		n := fits(ph.words, t, i)
		if n == 0 || n < have {
			continue
		}
		if n > have {
			*best = term{senses: &noSenses, word: w}
		}
		if ph.cls&(cClosedTool|cOpenTool) != 0 && (gap || len(best.senses.checks) > 0) && slices.Contains(ph.words, "inch") {
			continue // where the tips are a check of their own, this is its reading
		}
		if have == n && best.q != nil && !ph.senses.none() && len(ph.senses.checks) == 0 {
			continue
		}
		best.cls |= ph.cls
		if !ph.senses.none() {
			best.senses = &ph.senses
		}
		return n
	}
	return have
}

// fits counts the tokens that the words take at t[i]; hyphens between are skipped.
func fits(words []string, t []token, i int) int {
	at := i + 1
	for _, w := range words[1:] {
		if at < len(t) && t[at].kind == aPunct && t[at].s == "-" && t[at].glued {
			at++
		}
		if at >= len(t) || t[at].kind == aPunct || t[at].s != w {
			return 0
		}
		at++
	}
	return at - i
}

// company reports whether a number at next, behind the word, is a company's:
// "engine 7", "e7".
func (t *term) company(next int) bool {
	return t.is(cUnitWord) && (len(t.word) > 1 || t.e == next) && !t.subject()
}

const predicates = cGood | cBlanket | cBad | cLow | cOver | cFull | cEmpty | cMid | cYes | cNo | cNone | cUndone | cFixed | cPoured | cNoStart | cSame | cNot | cCannot | cClosed | cOpened | cDry

// hard reports a mark that ends a sentence.
func (t *term) hard() bool {
	return t.punct == "." || t.punct == "\n" || t.punct == "!" || t.punct == "?" || t.punct == ";"
}

func (t *term) subject() bool {
	return len(t.senses.checks)+len(t.senses.items)+len(t.senses.hints)+len(t.senses.traits) > 0
}

func (t *term) predicate() bool {
	return t.cls&predicates != 0 || t.q != nil || len(t.senses.options)+len(t.senses.damages) > 0
}

// several reports whether the word looks like more than one.
func (t *term) several() bool {
	n := len(t.word)
	return t.is(cPlural) || n > 3 && t.word[n-1] == 's' && t.word[n-2] != 's'
}

func (t *term) is(c class) bool { return t.cls&c != 0 }
