package reply

func (s *splitter) blanket(t *term) {
	if !s.cur.pronoun || isAny(t.word, "all", "everything", "everythings", "no", "nothing") {
		s.cur.all = s.cur.all || !s.cur.hasSubject()
	}
	s.cur.predOnly = s.cur.predOnly || !s.cur.hasSubject()
	s.sig(sGood, t, t.is(cNot))
}

func (s *splitter) negate(t *term) {
	if s.cur.corrects && len(s.cur.sigs) == 0 && !s.cur.hasSubject() && t.word == "no" {
		return
	}
	if t.word == "no" && s.cur.says(sGood) && s.cur.hasSubject() && t.i+1 < len(s.terms) && (s.terms[t.i+1].is(cPronoun) || isAny(s.terms[t.i+1].word, "its", "theyre", "hes", "shes")) {
		s.correctHere(t) // "blade good no it's cracked"
		return
	}
	if t.is(cNo) && s.cur.hasSubject() && len(s.cur.sigs) > 0 && s.neg == nil && !s.figureNext(t) {
		s.close(true)
	}
	if t.is(cNo) && s.neg != nil && s.neg.is(cNo) && s.cur.hasCheck() && !s.negUsed {
		s.close(true) // "no chirp no beep"
	}
	if t.is(cBoth) {
		s.cur.plural = true
	}
	if n := len(s.cur.sigs); t.is(cNo) && n > 0 && s.cur.sigs[n-1].kind == sFigure && s.figureNext(t) {
		s.cur.sigs = s.cur.sigs[:n-1] // "half no 3/4"
		return
	}
	if s.negUsed && t.is(cNo) {
		s.neg = nil // "no nicks no cuts": a denial of its own
	}
	s.negUsed = false
	if s.neg != nil && !s.neg.is(cAnd) {
		if s.neg.is(cCannot) != t.is(cCannot) && t.is(cBad) {
			s.neg = nil
			s.sig(sBad, t, false)
			return
		}
		if t.is(cBad) || t.is(cNot) && s.neg.is(cNot) {
			return
		}
	}
	if !s.cur.hasSubject() && len(s.cur.sigs) == 0 {
		s.cur.predOnly = true
	}
	s.touch(t)
	s.neg = t
}

// mendedAhead reports whether the next word that says something is a repair: "have
// not changed it yet" denies the repair.
func (s *splitter) mendedAhead(i int) bool {
	for ; i < len(s.terms) && s.terms[i].punct == ""; i++ {
		if t := &s.terms[i]; t.predicate() || t.subject() {
			return t.is(cFixed | cPoured)
		}
	}
	return false
}

// deniesAhead reports whether a "no" denies what follows rather than answering.
func (s *splitter) deniesAhead(i int) bool {
	for ; i < len(s.terms); i++ {
		t := &s.terms[i]
		if t.punct != "" || t.is(cAnd|cBut|cExcept|cPronoun|cStill) || t.q != nil && t.q.whole && int(t.q.hi) <= s.lx.maxN && s.saidAhead(i+1) {
			return false
		}
		if t.predicate() || len(t.senses.checks) > 0 {
			return true
		}
		if t.subject() || t.is(cPronoun) {
			return false
		}
	}
	return false
}

// halfDenied reports whether only the degree is denied: "not a bad crack", "no new
// leaks", "not leaking much".
func (s *splitter) halfDenied(t *term) bool {
	for k := s.neg.i + 1; k < t.i; k++ {
		if isAny(s.terms[k].word, "bad", "big", "major", "huge", "large", "serious", "new", "much", "too", "that", "so", "very", "really", "quite", "terrible", "terribly", "badly") {
			return true
		}
	}
	if t.i+1 < len(s.terms) {
		n := &s.terms[t.i+1]
		return isAny(n.word, "much", "badly", "bad", "that", "too", "lot") && n.word == n.last || t.is(cGeneral) && n.is(cBad) && !n.is(cGeneral)
	}
	return false
}

func denied(k signalKind) signalKind {
	switch k {
	case sLow:
		return sNotLow
	case sOver:
		return sNotOver
	case sFull:
		return sNotFull
	case sGood, sMid, sYes, sFixed, sPoured:
		return sBad
	case sNo:
		return sUndone
	case sClosed:
		return sOpen
	case sOpen:
		return sClosed
	case sBad:
		return sBad
	}
	return sUndone
}
