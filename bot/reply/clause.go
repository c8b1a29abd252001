package reply

import (
	"slices"

	"crosslay/bot/check"
)

type signalKind uint8

const (
	sGood signalKind = iota
	sBad
	sLow
	sOver
	sFull
	sEmpty
	sMid
	sNotLow
	sNotOver
	sNotFull
	sYes
	sNo
	sFigure
	sOption
	sUndone
	sFixed
	sPoured
	sNoStart
	sSame
	sHedge
	sAsk
	sNow
	sOpenTool
	sClosedTool
	sClosed
	sOpen
)

// signal is one thing that a clause says.
type signal struct {
	kind signalKind
	t    *term
	neg  bool // said by denying the opposite
	b, e int
}

// clause is a stretch of the message with one subject and what is said of it.
type clause struct {
	items    []int
	names    []*term // that name checks
	numbers  []int   // refs named by number
	sigs     []signal
	unknown  []*term
	b, e     int
	all      bool
	rest     bool
	plural   bool
	except   bool
	past     bool
	still    bool
	question bool
	ifs      bool
	corrects bool
	soft     bool // follows the clause before in the same sentence
	but      bool
	predOnly bool
	pronoun  bool
	both     bool // said of both, or all of them
	started  bool // an engine was started
	noun     bool // a part was named that is no check
	will     bool // something is going to be done
	pos      int
	subjB    int // where the first subject stands
}

func (c *clause) hasSubject() bool { return len(c.items)+len(c.names)+len(c.numbers) > 0 }
func (c *clause) hasCheck() bool   { return len(c.names)+len(c.numbers) > 0 }

func (c *clause) says(k ...signalKind) bool {
	return slices.ContainsFunc(c.sigs, func(s signal) bool { return slices.Contains(k, s.kind) })
}

// figureless reports whether the clause still wants a figure: a run or a number
// was named and none given.
func (c *clause) empty() bool {
	return !c.hasSubject() && len(c.sigs) == 0 && len(c.unknown) == 0 && !c.all && !c.rest && !c.except && !c.past && !c.plural
}

// talk is what the message says beside results.
type talk struct {
	busy, back, undo, question, started, off, used bool
	startAt, offAt                                 *quantity
	startItem, offItem                             int
}

// splitter cuts terms into clauses.
type splitter struct {
	lx      *lexicon
	terms   []term
	out     []clause
	cur     clause
	neg     *term
	negOr   bool
	negUsed bool
	asking  bool // in a question, until the sentence ends
	pending bool // a comma or "and" was seen
	but     bool
	bound   class
	between bool
	like    bool
	will    bool
	parent  int // clause that an exception was taken from, -1 if none
	talk    talk
}

func (lx *lexicon) split(terms []term) ([]clause, talk) {
	s := &splitter{lx: lx, terms: terms, parent: -1}
	for i := range terms {
		s.feed(i)
	}
	s.close(false)
	return s.out, s.talk
}

func (s *splitter) close(soft bool) {
	s.flushNeg()
	if s.will && s.cur.hasSubject() && len(s.cur.sigs) == 0 && !s.cur.ifs {
		s.sig(sUndone, &term{cls: cUndone, senses: &noSenses, b: s.cur.b, e: s.cur.e}, false)
	}
	if s.cur.empty() {
		s.cur.soft = s.cur.soft && soft
		s.pending, s.bound = false, 0
		return
	}
	s.cur.will = s.will
	s.out = append(s.out, s.cur)
	s.cur = clause{soft: soft, b: -1, ifs: s.asking, question: s.asking}
	s.pending, s.bound, s.between, s.will = false, 0, false, false
	s.negOr = false
}

// flushNeg settles a "no" or "not" that nothing followed.
func (s *splitter) flushNeg() {
	t, used := s.neg, s.negUsed
	s.neg, s.negUsed = nil, false
	if t == nil || used {
		return
	}
	switch {
	case t.is(cNot) && !t.is(cNo) && s.before(t, "i", "we", "im", "am", "are") && len(s.cur.names) == 0:
	case t.is(cNone) || t.is(cNo):
		s.sig(sNo, t, s.trails(t))
	case isAny(t.word, "didnt", "havent", "hasnt", "havnt", "dont", "did", "has", "have"), t.word == "not" && s.before(t, "did", "have", "has"),
		isAny(t.word, "couldnt", "could", "cant", "cannot", "can") && len(s.cur.names) > 0 && len(s.cur.sigs) == 0:
		s.sig(sUndone, t, false)
	default:
		s.sig(sBad, t, false)
	}
}

// trails reports whether words that say nothing known follow a bare "no", so that
// it may have denied them: "no out put".
func (s *splitter) trails(t *term) bool {
	for i := range s.terms {
		if &s.terms[i] != t || i+1 >= len(s.terms) {
			continue
		}
		n := &s.terms[i+1]
		return n.punct == "" && n.q == nil && !n.is(cPronoun|cAnd|cBut|cExcept|cWith|cAll|cBoth|cNow|cRest) && !n.subject() &&
			!isAny(n.word, "sir", "maam", "cap", "boss", "thanks", "still", "we", "i", "there", "at")
	}
	return false
}

// before reports whether one of the words stands right before the term.
func (s *splitter) before(t *term, w ...string) bool {
	for i := 1; i < len(s.terms); i++ {
		if &s.terms[i] == t {
			return isAny(s.terms[i-1].word, w...)
		}
	}
	return false
}

func (s *splitter) sig(k signalKind, t *term, neg bool) {
	s.touch(t)
	s.cur.sigs = append(s.cur.sigs, signal{kind: k, t: t, neg: neg, b: t.b, e: t.e})
}

func (s *splitter) touch(t *term) {
	if s.cur.e == 0 {
		s.cur.b = t.b
	}
	s.cur.b, s.cur.e = min(s.cur.b, t.b), max(s.cur.e, t.e)
}

func (s *splitter) feed(i int) {
	t := &s.terms[i]
	if t.last == "out" && t.word == "out" && i > 0 && s.outOf(i) && s.pauseAt(i+1) {
		t.cls = cBad
	}
	switch {
	case s.feedNumbered(i):
	case t.word == "one" && t.q != nil && t.q.whole && i+1 < len(s.terms) && s.terms[i+1].subject():
	case t.punct != "":
		s.feedPunct(i)
	case s.feedNumber(i):
	case s.feedJoint(i):
	case s.feedTalk(i):
	case t.subject() && !s.asPredicate(i):
		s.feedSubject(i)
	case t.predicate():
		s.feedPredicate(i)
	default:
		s.feedOther(i)
	}
}

func (s *splitter) feedPunct(i int) {
	t := &s.terms[i]
	switch {
	case t.punct == "?":
		s.cur.question = true
		s.close(false)
		s.sentenceEnd()
	case t.punct == "." && s.numberLabel(i):
	case t.hard():
		s.close(false)
		s.sentenceEnd()
	case t.punct == "," || t.punct == "-" || t.punct == "/" || t.punct == "(" || t.punct == ")" || t.punct == "|" || t.punct == "*":
		s.pending = true
	}
}

func (s *splitter) sentenceEnd() {
	s.parent, s.asking = -1, false
	s.cur.ifs, s.cur.question = false, false
}

// numberLabel reports whether the dot only ends a check's number: "1. yes".
func (s *splitter) numberLabel(i int) bool {
	return len(s.cur.numbers) > 0 && len(s.cur.sigs) == 0 && i > 0 && s.terms[i-1].q != nil && s.terms[i-1].e == s.terms[i].b
}

// feedNumber takes a whole number for a check's number where something is said
// of it.
func (s *splitter) feedNumber(i int) bool {
	t := &s.terms[i]
	if t.q == nil || !t.q.whole || t.q.lo < 1 || int(t.q.hi) > s.lx.maxN || t.q.bound != exact && t.q.bound != rangeB {
		return false
	}
	if s.between || !s.numberFits(i) {
		return false
	}
	s.flushNegBefore()
	if len(s.cur.sigs) > 0 && s.cur.hasSubject() || s.cur.hasCheck() && len(s.cur.numbers) == 0 || s.pending && len(s.cur.sigs) > 0 {
		s.close(true)
	}
	for n := int(t.q.lo); n <= int(t.q.hi); n++ {
		if r, ok := s.lx.byN[n]; ok {
			s.cur.numbers = append(s.cur.numbers, r)
		}
	}
	s.touch(t)
	return true
}

// feedNumbered takes "1 3/4" for check 1 at 3/4 where check 1 is a level and no
// level is named.
func (s *splitter) feedNumbered(i int) bool {
	t := &s.terms[i]
	if t.q == nil || t.q.mixed == 0 || s.cur.hasCheck() && len(s.cur.sigs) == 0 {
		return false
	}
	r, ok := s.lx.byN[t.q.mixed]
	if !ok || !partOnly(&s.lx.refs[r], t.q) {
		return false
	}
	if len(s.cur.sigs) > 0 || s.cur.hasCheck() {
		s.close(true)
	}
	s.cur.numbers = append(s.cur.numbers, r)
	part := t.q.lo - float64(t.q.mixed)
	c := *t
	c.q = &quantity{lo: part, hi: part, frac: true, unit: t.q.unit}
	s.sig(sFigure, &c, false)
	return true
}

// partOnly reports whether a check takes the fraction of a mixed number, and
// could not be at the whole of it.
func partOnly(a *asked, q *quantity) bool {
	part := q.lo - float64(q.mixed)
	switch a.check.Answer.Kind {
	case check.Level:
		return q.unit == ""
	case check.Number:
		all, okA := inUnit(&quantity{lo: q.lo, hi: q.lo, unit: q.unit}, a.check.Answer.Unit)
		one, okB := inUnit(&quantity{lo: part, hi: part, unit: q.unit}, a.check.Answer.Unit)
		stA, _ := a.check.Answer.Within(all.lo)
		stB, _ := a.check.Answer.Within(one.lo)
		return okA && okB && stA != check.OK && stB == check.OK
	}
	return false
}

func (s *splitter) flushNegBefore() {
	if s.neg != nil && len(s.cur.numbers) == 0 && s.cur.hasSubject() {
		s.flushNeg()
	}
}

func (s *splitter) numberFits(i int) bool {
	if i > 0 {
		p := &s.terms[i-1]
		if p.punct == "#" || isAny(p.word, "number", "num", "check", "no.", "item", "question") && !p.unknown {
			return true
		}
		if p.unknown || p.last == "to" || s.afterItem(i) {
			return false
		}
		if p.is(cUnitWord) && p.e+1 >= s.terms[i].b && len(p.word) > 1 || p.is(cOverQ|cUnderQ|cAbout) && !p.is(cLow|cOver) {
			return false
		}
	}
	if s.wantsFigure() {
		return false
	}
	if s.cur.except && len(s.cur.numbers) > 0 && len(s.cur.sigs) == 0 && (s.pending || s.terms[i-1].is(cAnd|cOr)) {
		return true
	}
	if s.cur.except && !s.cur.hasSubject() && (s.endsAt(i+1) || s.terms[i+1].is(cAnd|cOr)) {
		return true
	}
	if s.saidAhead(i + 1) {
		return true
	}
	return len(s.cur.sigs) > 0 && !s.cur.hasSubject() && !s.pending && s.endsAt(i+1)
}

// afterItem reports whether the number follows an item's name, whose reading it
// then is: "tires 8 and 7.5".
func (s *splitter) afterItem(i int) bool {
	return len(s.cur.items) > 0 && !s.cur.hasCheck() && len(s.cur.sigs) == 0 && len(s.terms[i-1].senses.items) > 0
}

// outOf reports whether "out" is said of what was just named: "light out", "one
// light is out".
func (s *splitter) outOf(i int) bool {
	p := &s.terms[i-1]
	return p.subject() || isAny(p.word, "is", "are", "was", "were", "s")
}

func (s *splitter) pauseAt(i int) bool { return s.endsAt(i) || s.terms[i].is(cAnd|cBut|cRest) }

// endsAt reports whether the sentence or clause ends at term i.
func (s *splitter) endsAt(i int) bool {
	return i >= len(s.terms) || s.terms[i].punct != ""
}

// wantsFigure reports whether the current clause names a run or a number and has
// no figure yet.
func (s *splitter) wantsFigure() bool {
	if s.cur.says(sFigure) {
		return false
	}
	for _, t := range s.cur.names {
		for _, r := range t.senses.checks {
			if k := s.lx.refs[r].check.Answer.Kind; k == "run" || k == "number" {
				return true
			}
		}
	}
	for _, r := range s.cur.numbers {
		if k := s.lx.refs[r].check.Answer.Kind; (k == "run" || k == "number") && len(s.cur.sigs) == 0 && len(s.cur.numbers) == 1 {
			return true
		}
	}
	return false
}

// saidAhead reports whether, past further numbers and joints, something is said.
func (s *splitter) saidAhead(i int) bool {
	for ; i < len(s.terms); i++ {
		t := &s.terms[i]
		switch {
		case t.q != nil && t.q.whole && s.terms[i-1].punct == "" && s.terms[i-1].q != nil:
			return !t.q.whole || len(s.lx.refs) > 0 && s.singleNumber(i)
		case t.q != nil && t.q.whole, t.punct == "," || t.punct == "-" || t.punct == ":" || t.punct == ")" || t.punct == "." || t.punct == "&" || t.punct == "=":
			if t.q != nil && t.q.whole && !s.numbersRun(i) {
				return true
			}
		case t.is(cAnd|cOr) || t.word == "is" || t.word == "are" || t.word == "was" || t.word == "all" || t.word == "to":
		default:
			return t.predicate() || t.is(cHedge|cAbout|cUnderQ|cOverQ|cAll) || s.namesNumber(i)
		}
	}
	return false
}

// namesNumber reports whether the term names the check whose number stands
// before it: "4 ran 3".
func (s *splitter) namesNumber(i int) bool {
	q := s.terms[i-1].q
	if q == nil || !q.whole {
		return false
	}
	r, ok := s.lx.byN[int(q.lo)]
	return ok && slices.Contains(s.terms[i].senses.checks, r)
}

func (s *splitter) singleNumber(i int) bool { return true }

// numbersRun reports whether the number at i is itself one of a list of check
// numbers rather than the answer.
func (s *splitter) numbersRun(i int) bool {
	return i+1 < len(s.terms) && !s.terms[i+1].hard()
}

// feedJoint handles commas' cousins: and, but, except, rest, all.
func (s *splitter) feedJoint(i int) bool {
	t := &s.terms[i]
	switch {
	case t.is(cExcept) && !t.subject() && !t.is(cRest):
		s.openExcept(t)
	case t.is(cBut):
		if t.word == "but" && i > 0 && s.terms[i-1].is(cAll|cBlanket) || s.blanketBefore() && !s.speaksAhead(i+1) {
			s.openExcept(t)
			return true
		}
		s.pending, s.but = true, true
		s.close(true)
		s.cur.but = true
	case t.is(cAnd) && !t.predicate():
		s.pending = true
	case t.is(cOr):
		s.pending = false
	case t.is(cRest):
		if len(s.cur.sigs) > 0 || s.cur.hasSubject() && (s.pending || s.cur.hasCheck()) {
			if !(len(s.cur.sigs) > 0 && !s.cur.hasSubject() && !s.pending) {
				s.close(true)
			}
		}
		s.cur.rest = true
		s.cur.all = s.cur.all || t.is(cBlanket)
		s.asking, s.cur.ifs, s.cur.question = false, false, false
		s.touch(t)
		if t.is(cBlanket) {
			s.sig(sGood, t, true)
		}
	case t.is(cAll|cAllN|cBoth) && !t.predicate() && !t.subject():
		s.feedAll(i)
	default:
		return false
	}
	return true
}

func (s *splitter) feedAll(i int) {
	t := &s.terms[i]
	if i > 0 && s.terms[i-1].is(cWith) && t.is(cBoth|cAllN) && s.cur.hasSubject() {
		s.cur.plural, s.cur.both = true, true
		return
	}
	if s.cur.hasSubject() && len(s.cur.sigs) > 0 || s.pending && len(s.cur.sigs) > 0 {
		s.close(true)
	}
	s.touch(t)
	if s.cur.hasSubject() || t.is(cBoth|cAllN) {
		s.cur.plural = true
		s.cur.both = t.is(cBoth | cAllN)
		return
	}
	s.cur.all = true
	s.cur.plural = true
}

// blanketBefore reports whether the clause just built is a blanket answer.
func (s *splitter) blanketBefore() bool {
	c := &s.cur
	if c.empty() && len(s.out) > 0 {
		c = &s.out[len(s.out)-1]
	}
	return !c.hasCheck() && c.says(sGood) && len(c.sigs) > 0
}

// speaksAhead reports whether the stretch up to the next mark has a predicate.
func (s *splitter) speaksAhead(i int) bool {
	for ; i < len(s.terms); i++ {
		t := &s.terms[i]
		if t.punct != "" {
			return false
		}
		if t.predicate() || t.is(cHedge) {
			return true
		}
	}
	return false
}

func (s *splitter) openExcept(t *term) {
	s.flushNeg()
	parent := -1
	if !s.cur.empty() {
		s.close(true)
	}
	if len(s.out) > 0 {
		parent = len(s.out) - 1
	}
	s.cur.soft = true
	s.cur.except = true
	s.cur.b, s.cur.e = t.b, t.e
	s.parent = parent
}

// asPredicate decides for a word that can both name a check and say something,
// such as "leaks" or "ran good".
func (s *splitter) asPredicate(i int) bool {
	t := &s.terms[i]
	if !t.predicate() || t.q != nil && len(t.senses.checks) == 0 {
		return t.q != nil
	}
	if len(t.senses.items) > 0 && t.cls&^(cUnitWord|cFiller) == 0 {
		return false
	}
	if s.neg != nil && (t.is(cBad) || len(t.senses.damages) > 0) {
		return true
	}
	if len(t.senses.checks) == 0 && len(t.senses.items) == 0 {
		return true
	}
	return s.cur.hasCheck() && len(s.cur.sigs) == 0 && !s.pending
}

func (s *splitter) feedSubject(i int) {
	t := &s.terms[i]
	linked := s.linked(i)
	names := len(t.senses.checks)+len(t.senses.hints) > 0
	full := s.cur.hasSubject() && len(s.cur.sigs) > 0
	switch {
	case linked && names && (full && len(s.cur.names) > 0 || s.namesTrouble()) && !s.saysAhead(i+1):
		return // where the fault is: "leaking at the coupler"
	case names && len(t.senses.checks)+len(t.senses.hints) > 0 && s.nearby(i) && (full || s.namesTrouble()):
		return
	case len(s.cur.sigs) > 0 && !s.cur.hasSubject() && s.cur.all && !linked, s.pending && (s.namesTrouble() || s.neg != nil && !s.negUsed && s.cur.hasCheck()):
		s.close(true)
	case full && (linked && s.completes(t) || s.describes(i) && !s.saysAhead(i+1)):
	case full && s.terms[i-1-s.articles(i)].is(cAnd|cOr) && s.cur.sigs[0].b < s.cur.subjB && !s.saysAhead(i+1): // "low on fuel and oil"
	case full && names && len(s.cur.names) == 0 && s.terms[i-1].subject() && !s.terms[i-1].predicate():
	case full, len(s.cur.sigs) > 0 && s.pending && !linked:
		s.close(true)
	}
	if !s.cur.hasSubject() {
		s.cur.subjB = t.b
	}
	s.touch(t)
	s.pending = false
	s.cur.plural = s.cur.plural || t.is(cPlural)
	if len(t.senses.checks) > 0 && !(len(t.senses.items) > 0 && s.itemSense(i)) {
		s.cur.names = append(s.cur.names, t)
		return
	}
	if len(t.senses.items) > 0 {
		s.cur.items = appendNew(s.cur.items, t.senses.items)
		if len(t.senses.items) > 1 {
			s.cur.pos = i + 1
		}
		return
	}
	s.cur.names = append(s.cur.names, t)
}

// articles counts the articles right before term i.
func (s *splitter) articles(i int) int {
	n := 0
	for k := i - 1; k > 0 && isAny(s.terms[k].word, "the", "a", "our", "my", "both"); k-- {
		n++
	}
	return min(n, i-1)
}

// namesTrouble reports whether the subject so far is itself bad news: "leaking".
func (s *splitter) namesTrouble() bool {
	n := len(s.cur.names)
	return n > 0 && len(s.cur.sigs) == 0 && s.cur.names[n-1].is(cBad)
}

// linked reports whether a preposition ties the term to what was just said:
// "issues with the saw", "a cut in the jacket".
func (s *splitter) linked(i int) bool {
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		p := &s.terms[k]
		if p.is(cWith) {
			return true
		}
		if p.punct != "" || p.predicate() || !p.is(cFiller|cBoth|cAll|cPronoun|cAllN) || p.is(cAnd) {
			return false
		}
	}
	return false
}

// nearby reports whether the term only says where: "a nick near the coupler".
func (s *splitter) nearby(i int) bool {
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		p := &s.terms[k]
		if p.is(cNear) && !p.is(cWith) {
			return true
		}
		if p.punct != "" || p.predicate() || !p.is(cFiller|cPronoun) {
			return false
		}
	}
	return false
}

// completes reports whether the term adds the half of the subject that the
// clause lacks: an item to a check, a check to an item.
func (s *splitter) completes(t *term) bool {
	if len(t.senses.items)+len(t.senses.traits) > 0 {
		return len(s.cur.items) == 0
	}
	return len(s.cur.names)+len(s.cur.numbers) == 0
}

// describes reports whether the word just before is said of this check: "a dirty
// coupler", "8 front".
func (s *splitter) describes(i int) bool {
	t := &s.terms[i]
	if len(t.senses.checks) == 0 || i == 0 || len(s.cur.sigs) == 0 || s.pending {
		return false
	}
	p := &s.terms[i-1]
	if p.q != nil {
		return len(s.cur.names) <= 1
	}
	return p.is(cBad|cLow) && len(s.cur.names) == 0 && s.cur.sigs[len(s.cur.sigs)-1].t == p
}

// saysAhead reports whether something is said of the term before i right away:
// "oil good", "oil is good".
func (s *splitter) saysAhead(i int) bool {
	for ; i < len(s.terms); i++ {
		t := &s.terms[i]
		if isAny(t.word, "is", "are", "was", "were", "s", "at", "all", "looks", "has", "have", "got") || t.is(cAbout|cHedge) || t.subject() && !t.predicate() || t.is(cWith) && t.word == "at" {
			continue
		}
		return t.predicate() && !t.is(cFixed|cPoured) || t.q != nil
	}
	return false
}

// itemSense decides for a word that names both an item and a check: an item
// where the clause has none, or a check follows.
func (s *splitter) itemSense(i int) bool {
	return len(s.cur.items) == 0 && i+1 < len(s.terms) && len(s.terms[i+1].senses.checks) > 0
}
