package reply

import "strings"

// spokenMarks are the marks that people say when they dictate.
var spokenMarks = []struct {
	words []string
	mark  string
}{
	{[]string{"new", "line"}, "\n"}, {[]string{"newline"}, "\n"}, {[]string{"new", "paragraph"}, "\n"},
	{[]string{"question", "mark"}, "?"}, {[]string{"exclamation", "point"}, "!"}, {[]string{"exclamation", "mark"}, "!"},
	{[]string{"full", "stop"}, "."}, {[]string{"open", "paren"}, "("}, {[]string{"close", "paren"}, ")"},
	{[]string{"open", "parenthesis"}, "("}, {[]string{"close", "parenthesis"}, ")"},
	{[]string{"comma"}, ","}, {[]string{"semicolon"}, ";"}, {[]string{"semi", "colon"}, ";"}, {[]string{"colon"}, ":"}, {[]string{"period"}, "."},
	{[]string{"smiley", "face"}, "."}, {[]string{"thumbs", "up", "emoji"}, "."}, {[]string{"end", "quote"}, ","}, {[]string{"unquote"}, ","},
}

// dictated turns words that name marks into the marks, and letters that were
// spelled into the name that they spell: "the a e d light is green comma".
func (lx *lexicon) dictated(t []token) []token {
	out := t[:0]
	for i := 0; i < len(t); {
		if mark, n := markAt(t, i); n > 0 {
			out = append(out, token{kind: aPunct, s: mark, b: t[i].b, e: t[i+n-1].e})
			i += n
			continue
		}
		if w, n := lx.spelledAt(t, i); n > 0 {
			out = append(out, token{s: w, b: t[i].b, e: t[i+n-1].e})
			i += n
			continue
		}
		out = append(out, t[i])
		i++
	}
	return out
}

func markAt(t []token, i int) (string, int) {
	for _, m := range spokenMarks {
		if wordAt(t, i) == m.words[0] && (len(m.words) == 1 || wordAt(t, i+1) == m.words[1] && (len(m.words) == 2 || wordAt(t, i+2) == m.words[2])) {
			if m.mark == "." && isAny(wordAt(t, i-1), "the", "a", "this", "that", "same", "long") {
				return "", 0
			}
			return m.mark, len(m.words)
		}
	}
	return "", 0
}

// spelledAt joins letters that were spelled one by one, and "oh two" for a gas,
// where the department knows the name.
func (lx *lexicon) spelledAt(t []token, i int) (string, int) {
	if t[i].kind != aWord || len(t[i].s) > 2 {
		return "", 0
	}
	if _, clock := hourWord(wordAt(t, i-1)); clock {
		return "", 0 // "seven oh two"
	}
	if isAny(t[i].s, "oh", "o") && (isAny(wordAt(t, i+1), "two", "too", "to") || i+1 < len(t) && t[i+1].s == "2" && !t[i+1].glued) {
		if lx.gas() {
			return "oxygen", 2
		}
		return "", 0
	}
	n, w := 0, strings.Builder{}
	for i+n < len(t) && t[i+n].kind == aWord && len(t[i+n].s) == 1 {
		w.WriteString(t[i+n].s)
		n++
	}
	if n >= 3 && lx.known[w.String()] {
		return w.String(), n
	}
	return "", 0
}

// gas reports whether the department has something called O2 or oxygen.
func (lx *lexicon) gas() bool { return lx.known["oxygen"] }

// homophones are what dictation writes for a word; each is read as the other only
// where the department's sheets know the other and not it.
var homophones = map[string]string{
	"break": "brake", "seel": "seal", "fome": "foam", "fool": "full", "niks": "nicks", "nix": "nicks", "knicks": "nicks", "poor": "power", "breaks": "brakes", "week": "weak", "site": "sight", "cite": "sight", "reed": "red", "blew": "blue", "bleu": "blue", "blu": "blue", "hoes": "hose", "tyre": "tire", "tyres": "tires", "tred": "tread", "ceil": "seal", "wench": "winch", "rowed": "rod", "rode": "rod", "chane": "chain", "leavers": "levers", "gage": "gauge", "gages": "gauges", "mass": "mask", "pax": "packs", "pact": "pack", "packed": "pack", "lites": "lights", "lite": "light", "pattle": "paddle", "strutt": "strut", "tick": "tic", "vale": "valve", "latter": "ladder", "jenny": "genny", "jennie": "genny", "freight": "frayed", "val": "valve",
}

// misheard corrects words that sound like another by what stands around them:
// "two leaders", "bump test past", "for out of four", "to quarters full".
func (lx *lexicon) misheard(t []token, i int) (string, bool) {
	before, after := wordAt(t, i-1), wordAt(t, i+1)
	number := i > 0 && t[i-1].kind == aNumber
	if _, ok := numberWords[before]; ok {
		number = true
	}
	switch t[i].s {
	case "leaders", "leader", "litters":
		return "liters", number
	case "past":
		return "passed", lx.known[before] && !number
	case "for":
		return "four", after == "out" && wordAt(t, i+2) == "of" || before == "for" && isAny(after, "minutes", "min", "minute", "mins")
	case "no":
		return "know", isAny(before, "dont", "didnt", "doesnt")
	case "know":
		return "no", isAny(before, "is", "are", "s", "its", "fluids", "blades") && vocabularyMeans(after, cGood)
	case "too":
		if i > 0 && i+1 < len(t) && t[i-1].kind == aNumber && t[i+1].kind == aNumber {
			return "to", true
		}
		return "two", isAny(after, "quarters", "thirds", "fifths", "minutes", "min", "mins") || !number && i > 0 && len(after) > 4 && numberWords[after] >= 20 && isAny(before, "is", "at", "was", "reads")
	case "to":
		return "two", isAny(after, "quarters", "thirds", "fifths") || !number && i > 0 && len(after) > 4 && numberWords[after] >= 20 && isAny(before, "is", "at", "was", "reads")
	case "form", "frm":
		return "from", i+1 < len(t) && t[i+1].kind == aNumber
	case "ot":
		return "to", i+1 < len(t) && t[i+1].kind == aNumber
	case "write":
		return "right", isAny(before, "all", "looks", "just", "is")
	case "won":
		return "one", i == 0 || !letterWord(t, i-1)
	case "threw":
		return "through", before != ""
	}
	return "", false
}

func letterWord(t []token, i int) bool { return i >= 0 && t[i].kind == aWord }

// soundsLike is the name of the department's that the word sounds like, if any.
func (lx *lexicon) soundsLike(w string) (string, bool) {
	to, ok := homophones[w]
	return to, ok && lx.known[to] && !lx.known[w]
}
