package reply

import "strings"

// trails reports whether words that say nothing known follow a bare "no", so that
// it may have denied them: "no out put".
func (s *splitter) trails(t *term) bool {
	if t.i+1 >= len(s.terms) {
		return false
	}
	n := &s.terms[t.i+1]
	return n.punct == "" && n.q == nil && !n.is(cPronoun|cAnd|cBut|cExcept|cWith|cAll|cBoth|cNow|cRest) && !n.subject() &&
		!isAny(n.word, "sir", "maam", "cap", "boss", "thanks", "still", "we", "i", "there", "at")
}

// before reports whether one of the words stands right before the term.
func (s *splitter) before(t *term, w ...string) bool {
	return t.i > 0 && isAny(s.terms[t.i-1].word, w...)
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
	full := s.cur.hasSubject() && s.cur.spoken()
	switch {
	case (linked || s.nearby(i)) && names && s.namesTrouble() && s.placeBefore(i) && s.saysAhead(i+1):
		s.close(true) // "leaking at the coupling ends are fine"
	case linked && names && (full && len(s.cur.names) > 0 || s.namesTrouble()) && !s.saysAhead(i+1):
		return // where the fault is: "leaking at the coupler"
	case names && len(t.senses.checks)+len(t.senses.hints) > 0 && s.nearby(i) && (full || s.namesTrouble()):
		return
	case len(s.cur.sigs) > 0 && !s.cur.hasSubject() && (s.cur.all || s.cur.rest) && !linked, names && s.neg != nil && !s.negUsed && s.cur.hasCheck() && !linked && s.saysAhead(i+1), s.pending && (s.namesTrouble() || s.neg != nil && !s.negUsed && s.cur.hasCheck()):
		s.close(true)
	case !full && !linked && (s.saysItself() || s.namedGood() && len(t.senses.items) > 0 && len(t.senses.checks) == 0 && len(intersect(t.senses.items, s.cur.items)) == 0):
		s.close(true) // "handle returns tips 1/4", "lights are charged the ram ..."
	case !full && !linked && s.namesTrouble() && len(s.cur.items) > 0 && len(t.senses.items) > 0 && len(t.senses.checks) == 0:
		s.close(true) // "hose 31 has a leak hose 32 is fine"
	case full && !s.pending && s.completes(t) && (s.deniedLast() || s.objectOf(i)) && !s.saysAhead(i+1):
	case full && s.describes(i) && s.terms[i-1].q != nil && s.figures() > 1:
		last := s.cur.sigs[len(s.cur.sigs)-1]
		s.cur.sigs = s.cur.sigs[:len(s.cur.sigs)-1]
		s.close(true) // "reads 20.9 with 85 percent battery"
		s.sig(last.kind, last.t, last.neg)
	case full && (linked && s.completes(t) && !(s.pending && s.saysAhead(i+1)) || s.describes(i) && !s.saysAhead(i+1)):
	case !full && !linked && len(s.cur.sigs) > 0 && s.deniedWhole() && (s.saysAhead(i+1) || t.is(cGood) && t.word != t.last):
		s.close(true)
	case full && s.pending && len(s.cur.items) > 0 && len(t.senses.items) > 0 && s.cur.sigs[0].b < s.cur.subjB && !s.saysAhead(i+1): // "no issues with packs, camera"
	case full && s.terms[i-1-s.articles(i)].is(cAnd|cOr) && s.cur.sigs[0].b < s.cur.subjB && !s.saysAhead(i+1): // "low on fuel and oil"
	case full && names && len(s.cur.names) == 0 && s.terms[i-1].subject() && !s.terms[i-1].predicate():
	case full, len(s.cur.sigs) > 0 && s.pending && !linked:
		s.close(true)
	}
	if !s.cur.hasSubject() {
		s.cur.subjB = t.b
	}
	if k := i - 1 - s.articles(i); k >= 0 && s.cur.hasSubject() && (s.terms[k].is(cAnd) || s.terms[k].punct == ",") {
		s.cur.listed = true
	}
	s.touch(t)
	s.pending = false
	s.cur.plural = s.cur.plural || t.is(cPlural) && !s.cur.single
	s.cur.isName = s.terms[max(i-1, 0)].word == "is" && len(s.cur.items) > 0 && len(s.cur.names) == 0 && s.endsAt(i+1) && !t.is(cBad|cGood)
	if len(t.senses.checks) > 0 && !(len(t.senses.items) > 0 && s.itemSense(i)) {
		s.cur.names = append(s.cur.names, t)
		s.denyHere(i)
		return
	}
	if in := s.narrowed(i); len(in) > 0 {
		s.cur.items = in
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

// denyHere ends a denial at the name right behind it that says itself how it should be:
// "not stocked, out of gloves" denies no "out".
func (s *splitter) denyHere(i int) {
	t := &s.terms[i]
	if n := s.neg; n != nil && i > 0 && s.terms[i-1].i == n.i && !t.is(cBad) && len(t.word) > 4 && strings.HasSuffix(t.word, "ed") && !n.is(cNo) {
		s.neg = nil
		s.sig(sBad, n, false)
	}
}

// narrowed are the items that two words side by side name together: "red hose", "hose
// red"; none where they name different ones.
func (s *splitter) narrowed(i int) []int {
	t := &s.terms[i]
	if i == 0 || len(t.senses.items) == 0 || len(s.terms[i-1].senses.items) == 0 {
		return nil
	}
	in := intersect(s.terms[i-1].senses.items, t.senses.items)
	if len(in) == max(len(s.terms[i-1].senses.items), len(t.senses.items)) || len(intersect(in, s.cur.items)) < len(in) {
		return nil
	}
	return in
}

// feedPlace takes the words for where an item rides: they tell it from others like
// it, and name nothing by themselves.
func (s *splitter) feedPlace(i int) {
	t := &s.terms[i]
	if (s.cur.spoken() || s.namesTrouble()) && (s.pending || s.saysAhead(i+1)) && !s.linked(i) {
		s.close(true)
	}
	s.cur.places = appendNew(s.cur.places, t.senses.places)
	s.touch(t)
}

// deniedWhole reports whether the clause so far is complete by itself: "no leaks"
// where leaks are a check, "no issues".
func (s *splitter) deniedWhole() bool {
	last := &s.cur.sigs[len(s.cur.sigs)-1]
	return last.neg && last.kind == sGood && (len(last.t.senses.checks) > 0 || last.t.is(cGeneral|cBlanket))
}

// deniedLast reports whether the last thing said was denied or put off: the check
// that follows is what "did not pass", "havent run" speak of.
func (s *splitter) deniedLast() bool {
	last := &s.cur.sigs[len(s.cur.sigs)-1]
	return last.kind == sUndone || last.neg && last.kind == sBad
}

// objectOf reports whether the term is what a verb right before was done to: "the
// meter passed the bump test".
func (s *splitter) objectOf(i int) bool {
	if i < 2 || !isAny(s.terms[i-1].word, "the", "its", "his", "our", "a") {
		return false
	}
	last := &s.cur.sigs[len(s.cur.sigs)-1]
	return last.t == &s.terms[i-2] && (last.kind == sGood || last.kind == sBad)
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

// saysItself reports whether the name just given says how it is: "handle returns".
func (s *splitter) saysItself() bool {
	n := len(s.cur.names)
	return n > 0 && len(s.cur.sigs) == 0 && s.neg == nil && s.cur.names[n-1].is(cGood) && s.cur.names[n-1].word != s.cur.names[n-1].last
}

// placeBefore reports whether the word before the term, articles left out, is a part or a
// word that nobody knows: where the trouble is.
func (s *splitter) placeBefore(i int) bool {
	p := &s.terms[i-1-min(s.articles(i), i-1)]
	return (p.is(cNoun) || p.unknown) && !p.subject()
}

// namedGood reports whether an item is there and the name given last is itself good
// news: "lights are charged".
func (s *splitter) namedGood() bool {
	n := len(s.cur.names)
	return n > 0 && len(s.cur.items) > 0 && len(s.cur.sigs) == 0 && s.neg == nil && s.cur.names[n-1].is(cGood)
}

// linked reports whether a preposition ties the term to what was just said:
// "issues with the saw", "a cut in the jacket".
func (s *splitter) linked(i int) bool {
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		p := &s.terms[k]
		if p.is(cWith) || p.is(cLow) && p.last == "on" {
			return true // "low on the big saw"
		}
		if p.punct != "" || p.predicate() || p.is(cUnitWord) || !p.is(cFiller|cBoth|cAll|cPronoun|cAllN) || p.is(cAnd) {
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
		return len(s.cur.names) <= 1 && s.takesFigure(t)
	}
	if p.is(cPronoun) && isAny(p.word, "its", "it") && i > 1 {
		p = &s.terms[i-2]
	}
	return p.is(cBad|cLow) && len(s.cur.names) == 0 && s.cur.sigs[len(s.cur.sigs)-1].t == p
}

func (s *splitter) figures() int {
	n := 0
	for k := range s.cur.sigs {
		if s.cur.sigs[k].kind == sFigure {
			n++
		}
	}
	return n
}

// takesFigure reports whether one of the checks that the term names wants a figure.
func (s *splitter) takesFigure(t *term) bool {
	for _, x := range t.senses.checks {
		if s.lx.refs[x].check.Answer.Kind.WantsFigure() {
			return true
		}
	}
	return false
}

// saysAhead reports whether something is said of the term before i right away:
// "oil good", "oil is good".
func (s *splitter) saysAhead(i int) bool {
	for ; i < len(s.terms); i++ {
		t := &s.terms[i]
		if isAny(t.word, "is", "are", "was", "were", "s", "at", "all", "looks", "look", "looked", "seem", "seems", "read", "reads", "feel", "feels", "stay", "stays", "has", "have", "got") || t.is(cAbout|cHedge|cStill) || t.subject() && !t.predicate() || t.is(cWith) && t.word == "at" {
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
