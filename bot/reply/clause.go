package reply

import (
	"slices"
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
	sDry
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
	places   []int   // items that ride where the words say
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
	done     bool // it was done or looked at
	ones     bool // "the one", "the ones"
	listed   bool // several names joined by "and"
	marked   bool // the item is named by its digits or its place alone
	thats    bool // "that's good", of nothing said here
	only     bool // only this was looked at
	isName   bool // "the saw is fuel": a name where something should be said
	partial  bool // "so far"
	single   bool // "one of the": which one is not said
	both     bool // said of both, or all of them
	started  bool // an engine was started
	noun     bool // a part was named that is no check
	will     bool // something is going to be done
	free     bool // and not as the place of something
	part     bool // the part is what the words are about: "pump cord is fine"
	other    bool // of the other one
	same     bool // the same as of the item before
	others   int  // so many others
	wide     bool // "everything": all of what was asked, not of what was just named
	pos      int
	subjB    int // where the first subject stands
}

func (c *clause) hasSubject() bool { return len(c.items)+len(c.names)+len(c.numbers) > 0 }

func (c *clause) hasCheck() bool { return len(c.names)+len(c.numbers) > 0 }

func (c *clause) says(k ...signalKind) bool {
	return slices.ContainsFunc(c.sigs, func(s signal) bool { return slices.Contains(k, s.kind) })
}

// doubtful reports whether the clause has a word that nobody knows and that could
// bear on what it says: a person's name does not, nor do things of everyday life
// behind what is said ("crisp as a banknote").
func (c *clause) doubtful() bool {
	for _, u := range c.unknown {
		if u.capital || u.is(cThing) && len(c.sigs) > 0 && c.hasSubject() {
			continue
		}
		return true
	}
	return false
}

// spoken reports whether the clause says more than how sure it is.
func (c *clause) spoken() bool {
	return slices.ContainsFunc(c.sigs, func(s signal) bool { return s.kind != sHedge && s.kind != sNow })
}

// empty reports whether the clause says nothing.
func (c *clause) empty() bool {
	return !c.hasSubject() && len(c.places) == 0 && len(c.sigs) == 0 && len(c.unknown) == 0 && !c.all && !c.rest && !c.except && !c.past && !c.plural
}

// talk is what the message says beside results.
type talk struct {
	busy, back, undo, question, used bool
	request                          bool // somebody is asked to do something
	takenBack                        bool // the message ends in an undo
	retract                          bool // the message ends in "wait": its last words are in doubt
}

// splitter cuts terms into clauses.
type splitter struct {
	lx       *lexicon
	terms    []term
	out      []clause
	cur      clause
	neg      *term
	negOr    bool
	negUsed  bool
	asking   bool // in a question, until the sentence ends
	supposed bool // in a supposition that the sentence began with
	pending  bool // a comma or "and" was seen
	but      bool
	bound    class
	between  bool
	like     bool
	will     bool
	told     bool // somebody else is said to have said it
	parent   int  // clause that an exception was taken from, -1 if none
	talk     talk
}

func (lx *lexicon) split(terms []term) ([]clause, talk) {
	s := &splitter{lx: lx, terms: terms, parent: -1}
	for i := range terms {
		terms[i].i = i
	}
	for i := range terms {
		s.feed(i)
	}
	s.close(false)
	s.talk.retract = s.cur.corrects
	return s.out, s.talk
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
	if s.countsNext(t) {
		s.close(true)
	}
	switch {
	case s.feedFellow(i), s.feedNumbered(i):
	case t.word == "one" && t.q != nil && t.q.whole && i+1 < len(s.terms) && (s.terms[i+1].subject() || len(s.out)+len(s.cur.sigs) > 0 && s.badAhead(i+1)):
		if s.pending && len(s.cur.sigs) > 0 {
			s.close(true)
		}
		s.cur.pronoun = s.cur.pronoun || !s.terms[i+1].subject()
		s.cur.single = true
	case t.punct != "":
		s.feedPunct(i)
	case i > 0 && isAny(t.word, "tank", "tanks") && (s.terms[i-1].q != nil && s.terms[i-1].q.frac || s.terms[i-1].is(cFull) || i > 1 && s.terms[i-1].word == "a" && s.terms[i-2].q != nil && s.terms[i-2].q.frac) && len(s.cur.items) > 0 && s.cur.spoken(): // "3/4 tank"
		t.cls, t.senses = cFiller, &noSenses
	case t.word == "n" && t.last == "n" && i > 0 && s.terms[i-1].punct == "" && i+1 < len(s.terms) && (s.terms[i+1].subject() || len(s.terms[i+1].senses.places) > 0):
		s.pending = true // "oil n fluid"
	case s.opening(i), t.word == "well" && t.last == "well" && (i == 0 || s.terms[i-1].punct != "" || s.terms[i-1].is(cAnd|cBut)) && i+1 < len(s.terms):
	case s.feedDigits(i):
	case t.q != nil && t.q.whole && i+1 < len(s.terms) && s.terms[i+1].word == "runs", t.word == "runs" && i > 0 && s.terms[i-1].q != nil: // calls
	case len(t.senses.places) > 0 && !t.subject():
		s.feedPlace(i)
	case s.feedNumber(i):
	case s.laterOn(i), s.nearlyGood(i):
		s.sig(sHedge, t, false)
	case t.word == "most" && t.last == "most" && i+1 < len(s.terms) && s.terms[i+1].subject():
		s.sig(sHedge, t, false)
	case s.anythingBut(i):
		s.neg, s.negUsed = t, false
	case s.feedJoint(i):
	case s.feedTalk(i):
	case t.word == "saw" && t.last == "saw" && i > 0 && isAny(s.terms[i-1].word, "i", "we", "they", "he", "she", "you", "never", "just") && s.terms[i-1].word == s.terms[i-1].last:
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
	case t.punct == ":" && s.cur.past:
		s.close(true)
	case t.punct == "," && s.neg != nil && !s.negUsed && s.neg.is(cNo) && s.cur.subjB > s.neg.b && len(s.cur.names) > 0 && !s.cur.names[len(s.cur.names)-1].is(cBad):
		s.flushNeg() // "no bar oil in it, filled it"
		s.pending = true
	case t.punct == "," && s.neg != nil && !s.negUsed && i > 0 && s.terms[i-1].i == s.neg.i && isAny(s.neg.word, "not", "isnt", "arent", "aint", "doesnt", "wont"):
		s.flushNeg() // "it's not, it's at a quarter"
		s.pending = true
	case t.punct == "," || t.punct == "-" || t.punct == "/" || t.punct == "(" || t.punct == ")" || t.punct == "|" || t.punct == "*":
		s.pending = true
	}
}

// feedJoint handles commas' cousins: and, but, except, rest, all.
func (s *splitter) feedJoint(i int) bool {
	t := &s.terms[i]
	switch {
	case t.is(cExcept) && !t.subject() && !t.is(cRest), t.is(cNot) && s.notNumber(i):
		s.openExcept(t)
	case t.is(cBut|cExcept) && !t.subject() && s.cur.spoken() && s.cur.hasSubject() && s.exceptsSome(i+1):
		s.openExcept(t)
		s.cur.ones = true
	case t.is(cBut) && s.endsAt(i+1) && isAny(t.word, "though", "tho", "although", "however"):
	case t.is(cBut):
		if t.word == "but" && len(s.cur.numbers) > 1 && s.cur.says(sGood) && i+1 < len(s.terms) && s.terms[i+1].q != nil && s.terms[i+1].q.whole && s.endsAt(i+2) ||
			t.word == "but" && i > 0 && s.terms[i-1].is(cAll|cBlanket) && !s.onlyAhead(i+1) || s.blanketBefore() && !s.speaksAhead(i+1) {
			s.openExcept(t)
			return true
		}
		s.pending, s.but = true, true
		s.close(true)
		s.cur.but = true
	case t.is(cAnd) && !t.predicate():
		s.pending = true
	case isAny(t.word, "tell", "ask") && s.cur.spoken() && !t.predicate():
		s.close(true)
	case isAny(t.word, "because", "cuz", "cause") && len(s.cur.sigs) > 0 && s.neg == nil:
		s.close(true)
	case isAny(t.word, "because", "cuz", "cause") && s.neg != nil && s.neg.is(cNo):
		s.sig(sUndone, s.neg, false) // "no run because ..."
		s.neg = nil
		s.close(true)
	case t.is(cOr) && t.word == "nor" && len(s.cur.sigs) > 0 && s.neg == nil:
		s.pending, s.neg, s.negUsed = false, t, false
	case t.is(cOr):
		s.pending = false
	case t.is(cRest):
		if len(s.cur.sigs) > 0 || s.cur.hasSubject() && (s.pending || s.cur.hasCheck()) {
			if !(len(s.cur.sigs) > 0 && !s.cur.hasSubject() && !s.pending) || s.cur.sigs[len(s.cur.sigs)-1].kind == sFigure {
				s.close(true)
			}
		}
		s.cur.rest = true
		s.cur.wide = !isAny(t.word, "rest", "others", "other", "remaining", "remainder")
		s.cur.all = s.cur.all || t.is(cBlanket)
		s.asking, s.cur.ifs, s.cur.question = false, s.supposed, false
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
	if s.cur.spoken() && (isAny(t.word, "each", "apiece") && s.endsAt(i+1) || s.linked(i) && s.cur.hasSubject() && s.endsAt(i+1) && !isAny(t.word, "either", "neither", "pair")) {
		s.cur.plural, s.cur.both = true, t.is(cBoth)
		return // "ran 3 each", "gas is full in everything"
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
	s.cur.wide = isAny(t.word, "everything", "everythings", "evrything", "everthing")
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

// exceptsSome reports whether all that follows is "one", "2", "one of them".
func (s *splitter) exceptsSome(i int) bool {
	if i >= len(s.terms) || !(s.terms[i].word == "one" || s.terms[i].q != nil && s.terms[i].q.whole && s.terms[i].q.lo <= 12) || len(s.cur.numbers) > 0 {
		return false
	}
	i++
	for i < len(s.terms) && isAny(s.terms[i].word, "of", "them", "the", "those") {
		i++
	}
	return s.endsAt(i)
}

// onlyAhead reports whether what follows says how much was looked at.
func (s *splitter) onlyAhead(i int) bool {
	for i < len(s.terms) && s.terms[i].is(cFiller) && s.terms[i].punct == "" && !s.terms[i].is(cHedge) {
		i++
	}
	return i < len(s.terms) && s.terms[i].is(cHedge) && s.terms[i].word == "only"
}

// badAhead reports whether bad news is said right away: "fuzzy", "is frayed".
func (s *splitter) badAhead(i int) bool {
	for i < len(s.terms) && isAny(s.terms[i].word, "is", "are", "was", "has", "had", "looks", "a") {
		i++
	}
	return i < len(s.terms) && s.terms[i].is(cBad)
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
