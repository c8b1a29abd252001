package reply

import "crosslay/bot/check"

// bareList reads a message of bare answers alone, one for every check that is open,
// in the order asked and with or without marks between: "full ok ok locked 6 closed".
func (r *reader) bareList(terms []term) bool {
	sigs, ok := answersAlone(terms)
	if !ok || len(sigs) < 4 {
		return false
	}
	for _, without := range []check.AnswerKind{check.Text, check.Photo} {
		if open := r.allOpen(without); len(sigs) == len(open) && r.suits(open, sigs) {
			r.inOrder(open, sigs, 0)
			return true
		}
	}
	return false
}

// allOpen are the checks that are open, without photos and without those of a kind.
func (r *reader) allOpen(without check.AnswerKind) []int {
	var open []int
	for _, ref := range r.lx.all() {
		a := &r.lx.refs[ref]
		if k := a.check.Answer.Kind; r.ctx.Settled[a.ref] == check.Open && k != without && k != check.Photo {
			open = append(open, ref)
		}
	}
	return open
}

// answersAlone are the answers of a message that has nothing else in it.
func answersAlone(terms []term) ([]signal, bool) {
	var sigs []signal
	for i := range terms {
		t := &terms[i]
		switch {
		case t.punct == "?", t.unknown, t.is(cAll | cRest | cExcept | cBut | cIf | cHedge | cQuestion | cThen | cUndo):
			return nil, false
		case t.punct != "":
		case t.q != nil:
			sigs = append(sigs, signal{kind: sFigure, t: t, b: t.b, e: t.e})
		case t.is(cNot|cCannot) && !t.is(cNo|cNone), t.is(cBlanket) && !t.is(cGood), len(t.senses.items)+len(t.senses.checks) > 0 && !t.predicate():
			return nil, false
		case t.predicate():
			sigs = append(sigs, signal{kind: kindOf(t), t: t, b: t.b, e: t.e})
		}
	}
	return sigs, true
}
