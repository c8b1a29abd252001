package reply

func (s *splitter) close(soft bool) {
	s.flushNeg()
	if h := s.cur.openingHedge(s.terms, soft); h != nil {
		defer s.sig(sHedge, h, false)
	}
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
	s.told = s.told && soft && !s.pending
	s.cur = clause{past: s.told, soft: soft, b: -1, ifs: s.asking || s.supposed, question: s.asking}
	s.pending, s.bound, s.between, s.will = false, 0, false, false
	s.negOr = false
}

// openingHedge takes off a hedge that opens what follows: "he replaced it, I'd
// assume it's all fine".
func (c *clause) openingHedge(terms []term, soft bool) *term {
	n := len(c.sigs)
	if !soft || n < 2 || c.sigs[n-1].kind != sHedge || c.sigs[n-1].e != c.e {
		return nil
	}
	t := c.sigs[n-1].t
	for k := t.i - 1; k > 0; k-- {
		if p := &terms[k]; p.punct != "" || p.is(cAnd|cBut) {
			c.sigs, c.e = c.sigs[:n-1], p.b
			return t
		} else if p.cls&cFiller == 0 {
			return nil
		}
	}
	return nil
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

func (s *splitter) sentenceEnd() {
	s.parent, s.asking, s.supposed = -1, false, false
	if s.cur.empty() {
		s.cur = clause{b: -1, corrects: s.cur.corrects}
	}
	s.cur.ifs, s.cur.question = false, false
}
