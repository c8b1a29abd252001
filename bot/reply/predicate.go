package reply

import (
	"strings"

	"crosslay/bot/check"
)

// feedPredicate adds what a term says to the current clause.
func (s *splitter) feedPredicate(i int) {
	t := &s.terms[i]
	if s.joinsRange(t) || s.preposition(i) || s.ofFull(i) {
		return
	}
	if s.cur.all && len(s.cur.names) == 0 && s.cur.says(sGood) && t.is(cUndone|cNot) && !t.is(cGood) {
		s.close(true)
	}
	if t.is(cUndone|cNot) && !t.is(cGood) && s.cur.hasSubject() && s.cur.says(sGood) && s.subjectAhead(i+1) {
		s.close(true) // "panel is good we have not run the pump"
	}
	if s.breaksBefore(t) || t.is(cNoStart) && len(s.cur.sigs) > 0 {
		s.close(true)
	}
	s.pending = false
	if s.cur.except && s.parent >= 0 && len(s.out[s.parent].sigs) == 0 && s.cur.hasSubject() {
		s.giveBack(t)
		return
	}
	switch {
	case s.orders(i):
		s.cur.ifs = true
	case s.will && len(s.cur.sigs) == 0 && s.neg == nil && (t.q != nil && !t.q.clock || t.is(cClosed|cOpened|cFull) && !t.is(cBad)):
		s.sig(sUndone, &term{cls: cUndone, senses: &noSenses, word: "will", last: "will", i: t.i, b: t.b, e: t.e}, false) // "will run it 6 min"
	case t.q != nil:
		s.figure(t)
	case t.is(cNoStart):
		s.neg = nil
		s.sig(sNoStart, t, false)
	case t.is(cBlanket) && s.neg == nil:
		s.blanket(t)
	case t.is(cClosed) && i+1 < len(s.terms) && s.terms[i+1].is(cPronoun) && s.neg == nil:
		s.sig(sFixed, t, false)
		s.sig(sClosed, t, false)
	case t.is(cUndone) && t.is(cNot) && s.mendedAhead(i+1):
		s.negate(t)
	case t.is(cUndone):
		s.neg = nil
		s.sig(sUndone, t, false)
	case t.is(cSame):
		s.sig(sSame, t, false)
	case t.is(cNot|cCannot) && !t.is(cNo), t.is(cNo) && s.deniesAhead(i+1):
		s.negate(t)
	default:
		s.say(t)
	}
}

// preposition reports whether "over" or "under" only says where: "couldn't hear it
// over the compressor".
func (s *splitter) preposition(i int) bool {
	t := &s.terms[i]
	if !t.is(cOver|cLow) || t.word != t.last || !isAny(t.word, "over", "above", "under", "below") || s.endsAt(i+1) {
		return false
	}
	k := i + 1
	for k < len(s.terms) && isAny(s.terms[k].word, "the", "a", "that", "all", "our", "its", "this") {
		k++
	}
	return k > i+1 && k < len(s.terms) && (s.terms[k].unknown || s.terms[k].is(cNoun|cThing)) && !s.terms[k].subject()
}

// ofFull reports whether "full" only says of what the figure before it is a part:
// "half full".
func (s *splitter) ofFull(i int) bool {
	if i == 0 || len(s.cur.sigs) == 0 || !s.terms[i].is(cFull) || s.terms[i].word != "full" {
		return false
	}
	last := &s.cur.sigs[len(s.cur.sigs)-1]
	return last.kind == sFigure && (last.t.q.frac || last.t.q.unit == "%") && last.e == s.terms[i-1].e
}

// joinsRange makes "between half and 3/4" one figure.
func (s *splitter) joinsRange(t *term) bool {
	n := len(s.cur.sigs)
	if s.between && t.q == nil && t.is(cFull) {
		t = &term{q: &quantity{lo: 1, hi: 1, frac: true}, b: t.b, e: t.e, senses: &noSenses}
	}
	if !s.between || t.q == nil || n == 0 || s.cur.sigs[n-1].kind != sFigure {
		return false
	}
	q := s.cur.sigs[n-1].t.q
	q.hi, q.bound = t.q.hi, rangeB
	if q.unit == "" {
		q.unit = t.q.unit
	}
	s.between, s.pending = false, false
	s.cur.sigs[n-1].e = t.e
	s.touch(t)
	return true
}

func (s *splitter) breaksBefore(t *term) bool {
	if s.pending && s.saysItself() {
		return true // "throttle locked, 6 min"
	}
	if len(s.cur.sigs) == 0 {
		return false
	}
	if s.negOr && t.is(cBad) {
		last := &s.cur.sigs[len(s.cur.sigs)-1]
		return !(s.neg != nil && s.neg.i > last.t.i) && s.assertsAnew(t)
	}
	if last := s.cur.sigs[len(s.cur.sigs)-1]; t.q != nil && last.kind == sFigure && len(s.cur.names)+len(s.cur.numbers) == 0 && len(s.cur.items) > 0 {
		return false
	}
	if !s.pending && s.cur.predOnly && s.terms[t.i-1].subject() && s.bareNumbers() {
		return false // "forty one alarm passed": the number is part of a name
	}
	return s.pending || s.cur.predOnly && s.cur.hasSubject()
}

// assertsAnew reports whether bad news behind a denied one is said for itself: "no
// cracks, just a bend", "not nicked, bent". The denial goes on only over "or", and over
// a list of things in the plural: "no nicks, cuts or abrasions".
func (s *splitter) assertsAnew(t *term) bool {
	if s.joined(t) || s.listEndsInOr(t.i) || s.thingsInARow(t) {
		return false
	}
	s.neg, s.negOr = nil, false
	return true
}

// joined reports whether an "or" stands right before the term.
func (s *splitter) joined(t *term) bool {
	k := t.i - 1
	for k > 0 && (isAny(s.terms[k].word, "a", "an", "any", "the", "even") || s.terms[k].punct == "," && s.terms[k-1].is(cOr)) {
		k--
	}
	return k >= 0 && (s.terms[k].is(cOr) || s.terms[k].punct == "/" || s.terms[k].is(cAnd) && !strings.HasSuffix(t.word, "ed"))
}

// listEndsInOr reports whether the list that goes on at i is closed by "or".
func (s *splitter) listEndsInOr(i int) bool {
	for k := i; k < len(s.terms) && k < i+6; k++ {
		t := &s.terms[k]
		switch {
		case t.is(cOr):
			return true
		case t.is(cBad), t.punct == ",", isAny(t.word, "a", "any"):
		default:
			return false
		}
	}
	return false
}

// thingsInARow reports whether the term and the bad news before it are both things in
// the plural with nothing but a comma between.
func (s *splitter) thingsInARow(t *term) bool {
	k := t.i - 1
	if k >= 0 && s.terms[k].is(cBad) && !damagedThings(&s.terms[k]) && damagedThings(t) {
		return true // "no missing segments"
	}
	if k >= 0 && s.terms[k].punct == "," {
		k--
	}
	return k >= 0 && damagedThings(&s.terms[k]) && damagedThings(t)
}

// bareNumbers reports whether the clause has said nothing but whole numbers so far,
// which its check does not take.
func (s *splitter) bareNumbers() bool {
	for k := range s.cur.sigs {
		if x := &s.cur.sigs[k]; x.kind != sFigure || !x.t.q.whole {
			return false
		}
	}
	return len(s.cur.names) > 0 && !s.takesFigure(s.cur.names[len(s.cur.names)-1])
}

// giveBack hands the predicate of "everything but the saw is good" to
// everything; the saw is left as the exception.
func (s *splitter) giveBack(t *term) {
	saved := s.cur
	p := s.parent
	s.cur = s.out[p]
	s.say(t)
	s.out[p] = s.cur
	s.cur = saved
	s.touch(t)
	s.parent = -1
}

// say adds a word's own meaning, turned round where it was denied.
func (s *splitter) say(t *term) {
	neg := s.neg != nil
	cannot := neg && s.neg.is(cCannot) && !s.neg.is(cNot)
	if !s.cur.hasSubject() && len(s.cur.sigs) == 0 {
		s.cur.predOnly = true
	}
	kind := kindOf(t)
	if isAny(t.word, "need", "needs", "needing", "requires", "require", "wants", "wanting") {
		s.will = true // what follows is not done yet
	}
	switch {
	case s.will && (kind == sFixed || kind == sPoured):
		kind = sBad
	case s.will && kind == sGood && (s.toCome(t) || t.i > 0 && s.terms[t.i-1].is(cWill) && isAny(t.word, "pass", "work", "hold", "check")):
		s.sig(sHedge, t, false)
		return
	case s.will && kind == sGood && !s.cur.hasSubject():
	case !neg:
	case kind == sBad && !cannot:
		s.negOr, s.negUsed = true, true
		s.sig(sGood, t, true)
		if s.halfDenied(t) {
			s.sig(sHedge, t, false)
		}
		return
	case kind == sGood && s.neg.is(cNot) && isAny(t.word, "work", "run", "operate", "exercise", "function") && t.i+2 < len(s.terms) && isAny(s.terms[t.i+1].word, "the", "its", "that") && s.terms[t.i+2].subject():
		s.sig(sUndone, s.neg, false)
		s.neg = nil
		return
	case cannot && kind != sBad:
		kind, s.neg = sBad, nil
	default:
		kind = denied(kind)
		s.neg = nil
	}
	s.sig(kind, t, neg || kind == sNo && s.trails(t))
}

// subjectAhead reports whether something else is named before the next mark.
func (s *splitter) subjectAhead(i int) bool {
	for ; i < len(s.terms) && s.terms[i].punct == ""; i++ {
		if s.terms[i].subject() {
			return true
		}
		if s.terms[i].predicate() {
			return false
		}
	}
	return false
}

// orders reports whether somebody is told to do it: "close the valve", "please shut it".
func (s *splitter) orders(i int) bool {
	t := &s.terms[i]
	if !t.is(cClosed|cOpened) || s.cur.hasSubject() || len(s.cur.sigs) > 0 || s.endsAt(i+1) {
		return false
	}
	asked := i > 0 && isAny(s.terms[i-1].word, "pls", "please", "plz", "somebody", "someone", "anybody")
	return (t.word == "close" || asked) && (isAny(s.terms[i+1].word, "the", "that", "it", "your") || s.terms[i+1].subject())
}

// toCome reports whether what is good is not so yet: "it'll all be good by noon".
func (s *splitter) toCome(t *term) bool {
	for k := t.i - 1; k >= 0 && k >= t.i-3; k-- {
		if s.terms[k].word == "be" || s.terms[k].last == "be" {
			return true
		}
	}
	return false
}

func kindOf(t *term) signalKind {
	switch {
	case t.is(cPoured):
		return sPoured
	case t.is(cFixed):
		return sFixed
	case t.is(cLow):
		return sLow
	case t.is(cOver):
		return sOver
	case t.is(cFull):
		return sFull
	case t.is(cEmpty):
		return sEmpty
	case t.is(cMid):
		return sMid
	case t.is(cBad) || len(t.senses.damages) > 0:
		return sBad
	case t.is(cDry):
		return sDry
	case t.is(cGood | cBlanket):
		return sGood
	case len(t.senses.options) > 0:
		return sOption
	case t.is(cClosed):
		return sClosed
	case t.is(cOpened):
		return sOpen
	case t.is(cYes):
		return sYes
	case t.is(cNone | cNo):
		return sNo
	}
	return sBad
}

// namesRun reports whether the clause speaks of a run.
func (s *splitter) namesRun() bool {
	for _, t := range s.cur.names {
		for _, x := range t.senses.checks {
			if s.lx.refs[x].check.Answer.Kind == check.Run {
				return true
			}
		}
	}
	return false
}

func isVolume(u check.Unit) bool {
	_, ok := check.Convert(1, u, "mL")
	return ok && u != ""
}

// figure adds a quantity with the words that bound it.
func (s *splitter) figure(t *term) {
	q := *t.q
	if q.whole && q.lo <= 6 && s.before(t, "other") {
		s.cur.other, s.cur.others = true, int(q.lo) // "the other two are fine"
		return
	}
	if q.whole && q.lo <= 12 && s.someOfThem(t.i) {
		if s.pending || len(s.cur.sigs) > 0 {
			s.close(true)
		}
		s.cur.pronoun = true
		return
	}
	if isVolume(q.unit) && t.i > 0 && isAny(s.terms[t.i-1].word, "put", "added", "add", "poured", "dumped") && s.cur.hasSubject() {
		s.sig(sPoured, t, false)
		return
	}
	if q.whole && s.counts(t) || q.unit != "" && s.elapsed(t) {
		return
	}
	if q.bound == exact {
		switch {
		case s.bound&cUnderQ != 0 && s.bound&cLoose != 0:
			q.bound = atMost
		case s.bound&cOverQ != 0 && s.bound&cLoose != 0:
			q.bound = atLeast
		case s.bound&cUnderQ != 0:
			q.bound = underB
		case s.bound&cOverQ != 0:
			q.bound = overB
		case s.bound&cAbout != 0:
			q.bound = near
		}
	}
	if s.neg != nil && s.neg.is(cNot|cCannot) && !s.negUsed && len(s.cur.names) > 0 && s.takesFigure(s.cur.names[len(s.cur.names)-1]) && s.cur.names[len(s.cur.names)-1].b > s.neg.b {
		n := s.neg
		s.neg = nil
		s.sig(sUndone, n, false) // "didn't run 6"
		return
	}
	if q.whole && q.lo <= 12 && t.i > 0 && isAny(s.terms[t.i-1].word, "at", "by", "since", "from") && s.terms[t.i-1].word == s.terms[t.i-1].last && s.namesRun() {
		return // an hour and no minutes
	}
	if s.neg != nil && s.neg.is(cNo) && s.cur.hasSubject() && s.cur.subjB > s.neg.b {
		s.flushNeg() // "no halyard on the 24"
	} else if s.neg != nil {
		if !s.negUsed {
			q.bound = underB
		}
		s.neg = nil
	}
	s.bound = 0
	c := *t
	c.q = &q
	s.sig(sFigure, &c, false)
	s.cur.predOnly = s.cur.predOnly || !s.cur.hasSubject()
}
