package reply

import "crosslay/bot/check"

// stretch is what stands between two marks of a sentence: "tips good" and "slight bend"
// in "tips good, slight bend".
type stretch struct {
	from, to int // terms, to not included
	b, e     int // bytes
}

// asides puts in doubt what passes where the same sentence goes on with something that
// names no check and no item of its own and is not plainly good: "tread good, cord
// showing". What the words mean need not be known for that.
func (r *reader) asides(terms []term) {
	var last *stretch
	for from := 0; from < len(terms); {
		s := stretchAt(terms, from)
		switch {
		case last != nil && r.aside(terms, s):
			r.unsettleWithin(last.b, last.e, s)
		case s.to > s.from && !saysNothing(terms[s.from:s.to]):
			last = &s
		}
		from = s.to
		for from < len(terms) && parts(&terms[from]) {
			if terms[from].hard() {
				last = nil
			}
			from++
		}
	}
}

// parts reports whether the term ends a stretch.
func parts(t *term) bool {
	return t.punct != "" && t.punct != "/" && t.punct != ":" || t.is(cBut) && !t.subject()
}

func stretchAt(terms []term, from int) stretch {
	s := stretch{from: from, to: from, b: terms[from].b, e: terms[from].e}
	for s.to < len(terms) && !parts(&terms[s.to]) {
		s.e = max(s.e, terms[s.to].e)
		s.to++
	}
	return s
}

// saysNothing reports whether the terms are small words only.
func saysNothing(terms []term) bool {
	for i := range terms {
		if t := &terms[i]; t.subject() || t.predicate() || t.unknown || t.is(cNoun) {
			return false
		}
	}
	return true
}

// aside reports whether the stretch says something that is not plainly good, of nothing
// that it names.
func (r *reader) aside(terms []term, s stretch) bool {
	content := s.some(terms) || s.denies(terms) || s.numbersTrouble(terms)
	for i := s.from; i < s.to; i++ {
		t := &terms[i]
		switch {
		case content && t.is(cNot|cCannot|cFixed), content && i == s.from:
		case len(t.senses.items) > 0, len(t.senses.checks) > 0 && !t.is(cBad):
			return false
		case t.q != nil && t.word != "one", t.is(settling), t.is(cThen | cHedge | cAll | cRest | cExcept | cIf | cQuestion | cAck | cBusy | cBack | cUndo | cCorrect | cWill | cStarted | cOff):
			return false
		case t.is(cBad), t.is(cNoun), t.unknown && !t.capital && !t.is(cThing):
			content = true
		}
	}
	return content
}

// some reports whether the stretch begins with one or a few of what was spoken of:
// "one's got tape on it".
func (s stretch) some(terms []term) bool {
	return s.to > s.from+1 && isAny(terms[s.from].word, "one", "ones", "couple", "few", "some", "a few", "another")
}

// numbersTrouble reports whether the stretch counts what is wrong: "1 spliced". After a
// numbered answer it may be a number too.
func (s stretch) numbersTrouble(terms []term) bool {
	q := terms[s.from].q
	if q == nil || !q.whole || q.lo > 4 || s.to != s.from+2 || !terms[s.from+1].is(cBad) {
		return false
	}
	for i := s.from - 1; i >= 0 && !terms[i].hard(); i-- {
		if terms[i].q != nil {
			return false
		}
	}
	return true
}

// denies reports whether the stretch denies something that is no trouble: "doesn't seat".
func (s stretch) denies(terms []term) bool {
	for i := s.from; i < s.to; i++ {
		if terms[i].is(cBad | cGeneral | cSense | cUndone) {
			return false
		}
	}
	return isAny(terms[s.from].word, "doesnt", "dont", "wont", "cant", "cannot", "didnt", "isnt", "arent", "wasnt")
}

// settling are the words that say something good or tell that it was put right.
const settling = cGood | cBlanket | cFull | cMid | cYes | cFixed | cPoured | cNo | cNone | cNot | cSame | cNow | cUndone

// unsettleWithin puts the passes heard from the bytes b to e in doubt, those left out
// that the aside itself spoke of.
func (r *reader) unsettleWithin(b, e int, s stretch) {
	for ref := range r.records {
		rec := &r.records[ref]
		if rec.set && rec.level >= byItem && rec.v.state == check.OK && r.lx.refs[ref].check.Answer.Kind != check.Text && !rec.v.fixed && rec.b >= b && rec.b < e && rec.e <= s.b {
			rec.v.state, rec.v.why = check.Unsure, Leftover
		}
	}
}

// notNumber reports whether a range that is good leaves one out: "1-9 good not 7".
func (s *splitter) notNumber(i int) bool {
	return len(s.cur.numbers) > 1 && s.cur.says(sGood) && i+1 < len(s.terms) && s.terms[i+1].q != nil && s.terms[i+1].q.whole && s.endsAt(i+2)
}

// onlyStarts reports whether all that is good is that the engine starts: that says
// nothing of its oil.
func onlyStarts(sigs []signal) bool {
	for k := range sigs {
		if s := &sigs[k]; s.kind == sGood && !isAny(s.t.word, "started", "starts", "start", "fired", "fires", "first", "runs", "runing", "running", "purrs", "humming", "smooth", "smoothly") {
			return false
		}
	}
	return true
}

// countsNext reports whether a figure behind a comma counts what is named next: "radios
// 100 and 95, six tarps".
func (s *splitter) countsNext(t *term) bool {
	if t.q == nil || !t.q.whole || !s.pending || len(s.cur.sigs) == 0 || !s.cur.hasSubject() || t.i == 0 || s.terms[t.i-1].punct != "," || t.i+1 >= len(s.terms) {
		return false
	}
	n := &s.terms[t.i+1]
	return len(n.senses.items) > 0 && n.several()
}
