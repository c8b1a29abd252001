package reply

// polite reports whether the message only acknowledges: "10-4", "will do".
func polite(terms []term) bool {
	said := false
	for i := range terms {
		t := &terms[i]
		if t.subject() || t.q != nil || !t.is(cAck) && t.cls&^cFiller != 0 {
			return false
		}
		said = said || t.is(cAck)
	}
	return said
}

// promise reports whether the message only says that something will be done: "ok
// will look". It answers nothing, whatever was asked.
func promise(terms []term) bool {
	will := false
	for i := range terms {
		t := &terms[i]
		switch {
		case t.subject(), t.q != nil, t.unknown, t.is(cBad | cLow | cOver | cFixed | cPoured | cBlanket | cAll | cRest | cHedge | cThen):
			return false
		case t.is(cWill), isAny(t.word, "roger", "copy", "wilco", "understood") || isAny(t.word, "will", "on", "im", "looking", "checking") && t.is(cAck):
			will = true
		}
	}
	return will && len(terms) <= 8
}
