package reply

import (
	_ "embed"
	"strings"
)

// class is a set of what a word may mean.
type class uint64

const (
	cGood class = 1 << iota
	cBlanket
	cAll
	cRest
	cExcept
	cBut
	cBad
	cLow
	cOver
	cFull
	cEmpty
	cMid
	cYes
	cNo
	cNot
	cCannot
	cNone
	cUndone
	cHedge
	cThen
	cLike
	cSame
	cNow
	cStill
	cFixed
	cPoured
	cWill
	cQuestion
	cIf
	cBusy
	cBack
	cUndo
	cCorrect
	cStarted
	cOff
	cNoStart
	cUsed
	cOpenTool
	cClosedTool
	cAbout
	cUnderQ
	cOverQ
	cBetween
	cUnitWord
	cPronoun
	cWith
	cAllN
	cBoth
	cAnd
	cOr
	cFiller
	cClosed
	cOpened
	cPlural
	cThing
	cNoun
	cNear
	cFine
	cLoose
	cAck
	cLeak
	cGeneral
	cSense
	cDry
)

var classNames = map[string]class{
	"good": cGood, "blanket": cBlanket, "all": cAll, "rest": cRest, "except": cExcept, "but": cBut, "bad": cBad, "low": cLow,
	"over": cOver, "full": cFull, "empty": cEmpty, "mid": cMid, "yes": cYes, "no": cNo, "not": cNot, "cannot": cCannot,
	"none": cNone, "undone": cUndone, "hedge": cHedge, "then": cThen, "like": cLike, "same": cSame, "now": cNow,
	"still": cStill, "fixed": cFixed, "poured": cPoured, "will": cWill, "question": cQuestion, "if": cIf, "busy": cBusy,
	"back": cBack, "undo": cUndo, "correct": cCorrect, "started": cStarted, "off": cOff, "nostart": cNoStart, "used": cUsed,
	"open_tool": cOpenTool, "closed_tool": cClosedTool, "about": cAbout, "under_q": cUnderQ, "over_q": cOverQ,
	"between": cBetween, "unitword": cUnitWord, "pronoun": cPronoun, "with": cWith, "all_n": cAllN, "both": cBoth,
	"near": cNear, "fine": cFine, "loose": cLoose, "leak": cLeak, "general": cGeneral, "sense": cSense, "dry": cDry, "ack": cAck, "thing": cThing, "noun": cNoun | cFiller, "closed": cClosed, "opened": cOpened, "and": cAnd, "or": cOr, "filler": cFiller,
}

//go:embed vocabulary.txt
var vocabularyText string

// phrase is a sequence of words with what it means.
type phrase struct {
	words  []string
	cls    class
	senses senses
}

// index finds phrases by their first word, longest first.
type index map[string][]phrase

var vocabulary = parseVocabulary(vocabularyText)

func parseVocabulary(text string) index {
	ix := index{}
	for line := range strings.Lines(text) {
		name, list, ok := strings.Cut(strings.TrimSpace(line), ":")
		if !ok || strings.HasPrefix(name, "#") || name == "spell" {
			continue
		}
		cls, known := classNames[name]
		if !known {
			panic("reply: vocabulary names an unknown class: " + name)
		}
		for _, p := range strings.Split(list, ",") {
			ix.add(words(p), cls, senses{})
		}
	}
	return ix
}

// parseSpellings reads the lines "spell: dosnt = doesnt, mn = min".
func parseSpellings(text string) map[string]string {
	m := map[string]string{}
	for line := range strings.Lines(text) {
		list, ok := strings.CutPrefix(strings.TrimSpace(line), "spell: ")
		if !ok {
			continue
		}
		for _, p := range strings.Split(list, ",") {
			if a, b, ok := strings.Cut(p, "="); ok {
				m[strings.TrimSpace(a)] = strings.TrimSpace(b)
			}
		}
	}
	return m
}

// words cuts a name or phrase the way messages are cut.
func words(s string) []string {
	var out []string
	for _, t := range lex(normalise(s)) {
		if t.kind != aPunct {
			out = append(out, t.s)
		}
	}
	return out
}

// add merges a phrase into the index.
func (ix index) add(w []string, cls class, s senses) {
	if len(w) == 0 {
		return
	}
	list := ix[w[0]]
	for i := range list {
		if equalWords(list[i].words, w) {
			list[i].cls |= cls
			list[i].senses.merge(s)
			return
		}
	}
	at := len(list)
	for i := range list {
		if len(list[i].words) < len(w) {
			at = i
			break
		}
	}
	list = append(list, phrase{})
	copy(list[at+1:], list[at:])
	list[at] = phrase{words: w, cls: cls, senses: s}
	ix[w[0]] = list
}

func equalWords(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
