package reply

import (
	"slices"
	"strconv"

	"crosslay/bot/check"
)

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

// feedDigits takes the digits of an item's number for the item: "41 3800psi", "strap
// frayed on 42".
func (s *splitter) feedDigits(i int) bool {
	t := &s.terms[i]
	if t.q == nil || !t.q.whole || t.q.bound != exact {
		return false
	}
	item, ok := s.lx.digits[int(t.q.lo)]
	if !ok || s.wantsFigure() || !(i == 0 || s.terms[i-1].punct != "" || s.terms[i-1].is(cWith|cAnd|cExcept|cBut|cUndone) || s.terms[i-1].q != nil && i+1 < len(s.terms) && s.terms[i+1].q != nil || isAny(s.terms[i-1].last, "on", "in", "of", "for")) || s.endsAt(i+1) && !(i > 0 && (s.terms[i-1].is(cWith|cUndone) || isAny(s.terms[i-1].last, "on", "in", "of", "for"))) {
		return false
	}
	if len(s.cur.sigs) > 0 && (s.pending || s.cur.hasSubject() && len(s.cur.items) > 0) {
		s.close(true)
	}
	s.touch(t)
	s.cur.marked = len(s.cur.items) == 0
	s.cur.items, s.pending = appendNew(s.cur.items, []int{item}), false
	return true
}

// feedFellow takes the second number in "packs 1 and 2 good": it is of an item that is
// called like the first, and never of a check.
func (s *splitter) feedFellow(i int) bool {
	t := &s.terms[i]
	if t.q == nil || !t.q.whole || i < 2 || len(s.cur.sigs) > 0 || s.cur.hasCheck() || !(s.terms[i-1].is(cAnd) || s.terms[i-1].punct == ",") {
		return false
	}
	p := &s.terms[i-2]
	if len(p.senses.items) == 0 || p.word == p.last || p.last[0] < '0' || p.last[0] > '9' {
		return false
	}
	for _, ph := range s.lx.names[p.word] {
		if n := len(ph.words); n == 2 && ph.words[1] == strconv.Itoa(int(t.q.lo)) && len(ph.senses.items) > 0 {
			s.touch(t)
			s.cur.items, s.cur.plural, s.pending = appendNew(s.cur.items, ph.senses.items), true, false
			return true
		}
	}
	return false
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
	if i+2 < len(s.terms) && (s.terms[i+1].punct == "." || s.terms[i+1].punct == ")") && s.terms[i+1].b == s.terms[i].e && (i == 0 || s.terms[i-1].punct != "" || s.terms[i-1].q != nil || len(s.cur.sigs) > 0) &&
		(s.terms[i+2].predicate() && s.terms[i+2].b > s.terms[i+1].e) {
		return true
	}
	if i > 0 {
		p := &s.terms[i-1]
		if p.punct == "#" || isAny(p.word, "number", "num", "check", "no.", "item", "question") && !p.unknown {
			return true
		}
		if p.unknown || p.last == "to" || isAny(p.last, "other", "others", "all", "only") || s.afterItem(i) || p.is(cNoun) && !p.subject() {
			return false
		}
		if p.is(cUnitWord) && p.e+1 >= s.terms[i].b && len(p.word) > 1 || p.is(cOverQ|cUnderQ|cAbout) && !p.is(cLow|cOver) {
			return false
		}
	}
	if i+1 < len(s.terms) && isAny(s.terms[i+1].word, "each", "apiece") {
		return false
	}
	if s.countedOff(i) || s.someOfThem(i) {
		return false
	}
	if s.opensWithOne(i) {
		return true
	}
	if s.wantsFigure() || i+1 < len(s.terms) && (s.terms[i+1].unknown || s.terms[i+1].is(cNoun) || damagedThings(&s.terms[i+1]) && !s.ownDamage(i)) && s.terms[i].e+1 == s.terms[i+1].b {
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

// opensWithOne reports whether a sentence opens with a number above one and a single
// thing, of which trouble is told: "10 bulb out" counts no bulbs.
func (s *splitter) opensWithOne(i int) bool {
	if i > 0 && !s.terms[i-1].hard() || s.terms[i].q.lo < 2 || i+2 >= len(s.terms) {
		return false
	}
	n := &s.terms[i+1]
	if !n.unknown && !n.is(cNoun) || n.subject() || n.several() || n.e-n.b < 3 {
		return false
	}
	last := &s.terms[i+2]
	return last.is(cBad) || last.word == "out" && s.endsAt(i+3)
}

// someOfThem reports whether the number counts those of the check just named that are
// bad: "lamps good, 2 out".
func (s *splitter) someOfThem(i int) bool {
	if len(s.cur.numbers) > 0 || len(s.cur.names) == 0 || !s.cur.spoken() || s.terms[i].q.lo > 12 || i+1 >= len(s.terms) {
		return false
	}
	k := i + 1
	for k < len(s.terms) && isAny(s.terms[k].word, "is", "are", "s", "was", "of", "them") {
		k++
	}
	return k < len(s.terms) && s.terms[k].is(cBad|cLow) && s.terms[k].q == nil
}

// countedOff reports whether the number is one of several counted off behind an
// item's name: "hand lights one two three all work".
func (s *splitter) countedOff(i int) bool {
	n, k := 1, i
	for ; k > 0 && s.terms[k-1].q != nil && s.terms[k-1].q.whole && s.terms[k-1].q.lo == s.terms[k].q.lo-1; k-- {
		n++
	}
	first := k
	for k = i; k+1 < len(s.terms) && s.terms[k+1].q != nil && s.terms[k+1].q.whole && s.terms[k+1].q.lo == s.terms[k].q.lo+1; k++ {
		n++
	}
	if first > 1 && s.terms[first-1].word == "one" {
		first--
	}
	return n >= 3 && first > 0 && len(s.terms[first-1].senses.items) > 0
}

// ownDamage reports whether the damage behind the number is one of that check's own:
// "7 nicks".
func (s *splitter) ownDamage(i int) bool {
	r, ok := s.lx.byN[int(s.terms[i].q.lo)]
	return ok && len(damaged([]int{r}, &s.terms[i+1])) > 0
}

// damagedThings reports a word for things that are counted: "2 screws", "3 nicks".
func damagedThings(t *term) bool {
	n := len(t.word)
	return t.is(cBad) && t.word == t.last && n > 4 && t.word[n-1] == 's' && t.word[n-2] != 's'
}

// afterItem reports whether the number follows an item's name, whose reading it
// then is: "tires 8 and 7.5".
func (s *splitter) afterItem(i int) bool {
	if r, ok := s.lx.byN[int(s.terms[i].q.lo)]; ok && slices.Contains(s.cur.items, s.lx.refs[r].item) {
		return false
	}
	k := i - 1
	for k > 0 && s.terms[k].punct != "" && !s.terms[k].hard() {
		k--
	}
	return len(s.cur.items) > 0 && !s.cur.hasCheck() && len(s.cur.sigs) == 0 && len(s.terms[k].senses.items) > 0
}

// outOf reports whether "out" is said of what was just named: "light out", "one
// light is out".
func (s *splitter) outOf(i int) bool {
	p := &s.terms[i-1]
	return p.subject() || isAny(p.word, "is", "are", "was", "were", "s")
}

func (s *splitter) pauseAt(i int) bool {
	if !s.endsAt(i) && i > 1 && isAny(s.terms[i-2].word, "is", "are") && s.terms[i].is(cWith) {
		return true // "one bulb is out on the left"
	}
	return s.endsAt(i) || s.terms[i].is(cAnd|cBut|cRest)
}

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
			if k := s.lx.refs[r].check.Answer.Kind; k == "run" || k == "number" || k == "text" {
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
			return true
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

// numbersRun reports whether the number at i is itself one of a list of check
// numbers rather than the answer.
func (s *splitter) numbersRun(i int) bool {
	return i+1 < len(s.terms) && !s.terms[i+1].hard()
}
