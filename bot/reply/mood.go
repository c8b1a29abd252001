package reply

func (s *splitter) figureNext(t *term) bool {
	return t.i+1 < len(s.terms) && s.terms[t.i+1].q != nil
}

// opening reports whether an "okay" only opens the sentence: "okay power unit is full".
func (s *splitter) opening(i int) bool {
	t := &s.terms[i]
	if !isAny(t.word, "ok", "okay", "alright", "right", "k") || t.word != t.last || i > 0 && !s.terms[i-1].hard() || s.endsAt(i+1) || s.terms[i+1].is(cBut|cExcept|cAnd|cRest) {
		return false
	}
	subject := false
	for k := i + 1; k < len(s.terms) && s.terms[k].punct == ""; k++ {
		subject = subject || s.terms[k].subject()
		if s.terms[k].predicate() && !s.terms[k].subject() {
			return subject && !s.terms[k].is(cBut)
		}
		if s.terms[k].is(cWith) {
			return false
		}
	}
	return s.terms[i+1].subject() // "ok pump next"
}

// sinceThen reports whether the past is only given as the reason or the beginning of
// what is now: "down to ten after the fire last night".
func (s *splitter) sinceThen(i int) bool {
	for k := i - 1; k >= 0 && k >= i-5 && s.terms[k].punct == ""; k-- {
		if isAny(s.terms[k].word, "after", "since", "because", "from") {
			return true
		}
	}
	return false
}

// nearlyGood reports a word that takes something off the "good" right behind it: half
// good, close to good.
func (s *splitter) nearlyGood(i int) bool {
	t := &s.terms[i]
	if i+1 >= len(s.terms) || s.terms[i+1].cls&(cGood|cFull|cClosed) == 0 || s.terms[i+1].q != nil || s.terms[i+1].subject() && !s.terms[i+1].predicate() {
		return false
	}
	return isAny(t.word, "nearly", "almost", "somewhat", "partly", "partially", "mostly") && t.word == t.last && s.terms[i+1].is(cGood) ||
		t.is(cUnderQ|cAbout) && isAny(t.word, "close", "almost", "nearly", "about") && s.terms[i+1].is(cGood) || isAny(t.word, "would", "could", "can") && t.word == t.last
}

// anythingBut reports words that turn the "good" behind them into its opposite: other
// than good, far from tight, less than sharp.
func (s *splitter) anythingBut(i int) bool {
	if i+1 >= len(s.terms) || !s.terms[i+1].is(cGood) || s.terms[i+1].subject() {
		return false
	}
	t := &s.terms[i]
	return t.is(cExcept) && t.word == "other" || t.is(cUnderQ) && isAny(t.word, "less", "not", "far", "short", "shy") || isAny(t.word, "far", "nowhere", "hardly", "barely")
}

// laterOn reports a word that takes back the "good" right before it: good when it is
// warm, good tomorrow, good-ish.
func (s *splitter) laterOn(i int) bool {
	n := len(s.cur.sigs)
	if n == 0 || i == 0 || s.cur.sigs[n-1].kind != sGood || s.cur.sigs[n-1].neg || s.cur.sigs[n-1].t.i != i-1 {
		return false
	}
	if isAny(s.terms[i].word, "when", "whenever") {
		return s.cur.sigs[n-1].t.is(cFine | cBlanket)
	}
	return isAny(s.terms[i].word, "tomorrow", "later", "soon", "ish", "eventually", "someday")
}

// counts reports whether a bare number only counts what follows: "two things".
func (s *splitter) counts(t *term) bool {
	if t.i+1 >= len(s.terms) {
		return false
	}
	n := &s.terms[t.i+1]
	return n.unknown && t.q.lo < 20 || damagedThings(n) && t.q.lo < 20 || n.word == "of" && t.i+2 < len(s.terms) && isAny(s.terms[t.i+2].word, "us", "them", "the") || isAny(n.word, "things", "guys", "issues", "problems", "times", "tries", "people", "thing", "items", "defects", "faults", "concerns", "pulls", "pull", "try", "folks", "us")
}

// feedTalk handles what is no result: busy, back, corrections, conditions.
func (s *splitter) feedTalk(i int) bool {
	t := &s.terms[i]
	switch {
	case t.is(cCorrect) && !(t.is(cUndo) && len(s.terms) <= 1):
		s.correctHere(t)
	case t.is(cUndo):
		s.talk.undo = true
		s.talk.takenBack = s.talk.takenBack || !s.speaksAhead(i+1)
	case t.is(cBusy):
		s.talk.busy = true
		if t.is(cUndone) && (s.cur.hasSubject() || s.cur.rest) {
			s.sig(sUndone, t, false)
		}
	case t.is(cBack) && i == 0:
		s.talk.back = true
	case t.is(cIf) && t.i+1 < len(s.terms) && s.terms[t.i+1].q != nil && s.terms[t.i+1].q.date != "": // "good until June 2027"
	case t.is(cIf):
		if n := len(s.cur.sigs); n > 0 && s.cur.sigs[n-1].kind == sGood && i > 0 && s.cur.sigs[n-1].t.i == i-1 && !s.cur.sigs[n-1].neg && isAny(t.word, "once", "if", "when", "unless", "till", "until", "provided", "assuming", "as") {
			s.sig(sHedge, t, false) // "good to go once it is charged"
		}
		doubted := s.cur.says(sUndone, sHedge) && !s.cur.hasSubject()
		s.close(true)
		if doubted {
			s.sig(sHedge, t, false)
			return true
		}
		s.cur.ifs = true
		s.supposed = i == 0 || s.terms[i-1].hard()
		s.cur.b, s.cur.e = t.b, t.e
	case t.is(cQuestion) && s.asks(i):
		s.close(true)
		s.cur.question = true
		s.cur.ifs = true
		s.talk.question = true
		s.talk.request = s.talk.request || isAny(t.word, "can", "could", "would", "will", "anyone", "anybody")
		s.asking = true
		s.cur.b, s.cur.e = t.b, t.e
	case t.is(cThen) && !t.subject() && s.cur.spoken() && s.sinceThen(i):
	case t.is(cThen) && !t.subject():
		if (t.word == "told" || s.pending) && s.cur.spoken() {
			s.close(true)
		}
		s.cur.past = true
		s.told = isAny(t.last, "say", "says", "said", "told", "me", "us")
		s.touch(t)
	default:
		return s.feedMood(t)
	}
	return true
}

// asks reports whether a question word opens a question here.
func (s *splitter) asks(i int) bool {
	if s.terms[i].word == "did" && s.terms[i].last == "the" && !s.endsAsked(i) && i+2 <= len(s.terms) && s.terms[i+1].subject() && s.endsAt(i+2) {
		return false // "did the pump, full, ran 6"
	}
	if (i == 0 || s.terms[i-1].hard()) && !isAny(s.terms[i].word, "when", "which") {
		return true
	}
	if i == 0 {
		return s.endsAsked(i) || !s.speaksAhead(1)
	}
	if s.terms[i-1].punct != "" && s.endsAsked(i) {
		return true
	}
	return s.terms[i-1].is(cAnd|cBut) && s.endsAsked(i) || s.terms[i-1].cls&cFiller != 0 && i <= 2 && s.endsAsked(i) || len(s.terms[i].word) > 0 && isAny(s.terms[i].word, "can", "could", "does", "anyone", "anybody")
}

// elapsed reports whether the figure only says how long before or after: "ten
// minutes later".
func (s *splitter) elapsed(t *term) bool {
	return t.i+1 < len(s.terms) && (isAny(s.terms[t.i+1].word, "later", "ago", "early", "earlier", "late") || s.terms[t.i+1].word == "before" && s.endsAt(t.i+2) || isAny(s.terms[t.i+1].last, "later", "ago"))
}

// endsAsked reports whether the sentence around term i ends with a question mark.
func (s *splitter) endsAsked(i int) bool {
	for ; i < len(s.terms); i++ {
		if s.terms[i].hard() {
			return s.terms[i].punct == "?"
		}
	}
	return false
}

func (s *splitter) correctHere(t *term) {
	if t.is(cUndo) || len(s.cur.sigs) > 0 {
		s.talk.undo = s.talk.undo || t.is(cUndo)
	}
	s.neg = nil
	s.close(true)
	s.cur.corrects = true
	s.cur.b, s.cur.e = t.b, t.e
}

func (s *splitter) feedMood(t *term) bool {
	switch {
	case t.is(cLike):
		s.like = true
	case t.is(cHedge):
		s.cur.only = s.cur.only || t.word == "only" && isAny(t.last, "at", "looked", "checked", "did", "saw")
		if t.is(cGood) {
			s.sig(sGood, t, false) // "good enough"
		}
		s.sig(sHedge, t, false)
	case t.is(cOpenTool):
		s.sig(sOpenTool, t, false)
	case t.is(cClosedTool):
		s.sig(sClosedTool, t, false)
	case t.is(cUsed):
		s.talk.used = true
	case t.is(cWill) && !t.predicate():
		if s.pending && s.cur.spoken() {
			s.close(true)
		}
		s.will = true
	case t.is(cNow | cStill):
		s.moment(t)
	case t.is(cAbout|cUnderQ|cOverQ) && s.figureAhead(t):
		s.bound |= t.cls & (cAbout | cUnderQ | cOverQ | cLoose)
		s.touch(t)
	case t.is(cUnderQ) && !t.predicate() && isAny(t.last, "under", "below"):
		s.sig(sLow, t, false)
	case t.is(cOverQ) && !t.predicate() && isAny(t.last, "over", "above"):
		s.sig(sOver, t, false)
	case t.is(cBetween) && t.word != "from":
		s.between = true
	default:
		return false
	}
	return true
}

func (s *splitter) moment(t *term) {
	if t.is(cStill) {
		s.cur.still = true
		return
	}
	if s.cur.past {
		s.close(true)
	}
	s.sig(sNow, t, false)
}

// figureAhead reports whether a figure follows the term within three terms.
func (s *splitter) figureAhead(t *term) bool {
	for k := t.i + 1; k < len(s.terms) && k <= t.i+3; k++ {
		n := &s.terms[k]
		if n.q != nil || n.is(cFull|cEmpty) && !n.is(cLow|cOver) {
			return true
		}
		if n.punct != "" || n.subject() || n.predicate() {
			return false
		}
	}
	return false
}

// feedOther takes words that say nothing, and those that nobody knows.
func (s *splitter) feedOther(i int) {
	t := &s.terms[i]
	switch {
	case t.unknown && months[t.word] > 0 && s.before(t, "in", "since", "last"):
		s.cur.past = true
		s.touch(t)
	case t.unknown:
		t.capital = t.capital || t.upper && s.acts(i+1) || i > 1 && s.before(t, "is", "s") && isAny(s.terms[i-2].word, "this", "it") && i+1 < len(s.terms) && isAny(s.terms[i+1].word, "on", "from", "at", "with", "here", "over")
		if s.pending && len(s.cur.sigs) > 0 {
			s.close(true)
		}
		s.cur.unknown = append(s.cur.unknown, t)
		s.touch(t)
		if n := s.neg; n != nil {
			s.neg = nil
			if s.before(n, "im", "i", "we", "am", "are") && len(s.cur.names) == 0 && n.word == "not" {
				break // "I'm not wearing my glasses"
			}
			s.sig(sBad, n, false)
		}
	case s.will && isAny(t.word, "give", "giv", "send", "post", "text", "follow"):
		s.cur.ifs, s.supposed = true, true // "will give you the pressures"
	case t.is(cSense) && s.neg != nil && !s.negUsed && !s.deniesBad(i+1):
		n := s.neg
		s.neg = nil
		s.sig(sUndone, n, false)
	case t.is(cNoun):
		s.cur.noun = true
		s.cur.free = s.cur.free || !s.located(i)
		s.cur.part = s.cur.part || s.about(i)
	case t.is(cStarted):
		s.cur.started = true
	case t.word == "yet" && s.neg != nil && !s.negUsed:
		n := s.neg
		s.neg = nil
		s.sig(sUndone, n, false)
	case t.last == "far" || t.last == "good" && t.word == "so":
		s.cur.partial = true
	case isAny(t.word, "did", "done", "doing", "while", "checked", "pulled", "got"):
		s.cur.done = true
	case t.word == "one" && i+1 < len(s.terms) && s.terms[i+1].word == "of":
		s.cur.single = true
	case t.word == "other" || t.last == "other" || t.last == "one" && t.word == "the":
		s.cur.other = true
	case t.is(cPronoun):
		if s.pending && s.cur.spoken() && s.neg == nil {
			s.close(true) // "washed them and they are good"
		}
		s.cur.pronoun = true
		s.cur.thats = s.cur.thats || isAny(t.word, "that", "thats") && len(s.cur.sigs) == 0
		s.cur.ones = s.cur.ones || isAny(t.word, "one", "ones")
	case isAny(t.word, "same", "likewise", "ditto") && isAny(t.last, "same", "story", "thing", "deal", "here", "likewise", "ditto", "for", "with"):
		s.cur.same = true
	}
}

// acts reports whether the term is what a person did: the capital word before it is
// a name, "Lopez checked the packs".
func (s *splitter) acts(i int) bool {
	return i < len(s.terms) && isAny(s.terms[i].word, "here", "checking", "reporting", "checked", "says", "said", "did", "looked", "ran", "got", "has", "had", "was", "asked", "told", "filled", "topped",
		"took", "thinks", "worked", "put", "and", "swapped", "changed", "cleaned", "wiped", "started", "just", "already")
}

// about reports whether the part at term i is what the clause speaks of: it
// follows the item's name, or opens the clause, and is not where something is.
func (s *splitter) about(i int) bool {
	if len(s.cur.sigs) > 0 || s.cur.hasCheck() || s.cur.all || s.cur.rest {
		return false
	}
	for k := i - 1; k >= 0; k-- {
		t := &s.terms[k]
		if t.is(cWith | cNear) {
			return false
		}
		if t.subject() || t.punct != "" || t.predicate() || t.is(cAnd|cBut) {
			return true
		}
	}
	return true
}

// located reports whether the term only says where something is: "by the pivot".
func (s *splitter) located(i int) bool {
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		t := &s.terms[k]
		if t.is(cWith|cNear) && t.word != "with" {
			return true
		}
		if t.punct != "" || !t.is(cFiller|cPronoun) {
			return false
		}
	}
	return false
}

// deniesBad reports whether bad news follows soon: "did not see any nicks" denies
// the nicks and not the looking.
func (s *splitter) deniesBad(i int) bool {
	for k := i; k < len(s.terms) && k < i+4; k++ {
		t := &s.terms[k]
		if t.punct != "" || t.is(cWith) && !isAny(t.word, "of") {
			return false
		}
		if t.is(cBad|cGeneral|cNo|cNot) || isAny(t.word, "any", "anything", "a", "sign", "signs") {
			return true
		}
	}
	return false
}
