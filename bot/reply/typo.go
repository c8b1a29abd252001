package reply

import (
	"strings"

	"crosslay/bot/check"
)

// vocabularyWords is every word of the vocabulary, also those that only stand
// inside phrases, with the words of figures and units; vocabularyNear is the
// longer ones by first letter.
var vocabularyWords, vocabularyNear = func() (map[string]bool, map[byte][]string) {
	all, told, near := map[string]bool{}, map[string]bool{}, map[byte][]string{}
	for _, list := range vocabulary {
		for i := range list {
			for _, w := range list[i].words {
				all[w] = true
				told[w] = told[w] || list[i].cls != cThing
			}
		}
	}
	for _, m := range []map[string]float64{numberWords, fractionWords, scaleWords} {
		for w := range m {
			all[w] = true
		}
	}
	for _, w := range []string{"minutes", "minute", "inch", "inches", "volts", "volt", "percent", "hours", "point"} {
		all[w] = true
	}
	for w := range months {
		all[w] = true
	}
	for w := range all {
		if told, ok := told[w]; len(w) >= 4 && (told || !ok) { // no misspelling leads to mere talk
			near[w[0]] = append(near[w[0]], w)
		}
	}
	return all, near
}()

// respell corrects the words of a message that nobody knows, in place.
func (lx *lexicon) respell(t []token) {
	if len(t) == 1 && t[0].s == "us" {
		t[0].s = "unserviceable" // as it is written on tags; in a sentence it is the crew
	}
	for i := range t {
		if t[i].kind != aWord || len(t[i].s) < 2 {
			continue
		}
		if w, ok := spellings[t[i].s]; ok {
			t[i].s = w
			continue
		}
		if w, ok := lx.soundsLike(t[i].s); ok {
			t[i].s = w
			continue
		}
		if w, ok := lx.misheard(t, i); ok {
			t[i].s = w
			continue
		}
		if t[i].s == "know" && vocabularyMeans(wordAt(t, i+1), cBad|cLeak|cGeneral) {
			t[i].s = "no" // as dictation hears it
			continue
		}
		if vocabularyWords[t[i].s] || lx.known[t[i].s] {
			continue
		}
		if _, ok := check.ParseUnit(t[i].s); ok {
			continue
		}
		if w, ok := lx.correct(t[i].s); ok {
			t[i].s = w
		}
	}
}

// spellings are the vocabulary's own list of what people write for what.
var spellings = parseSpellings(vocabularyText)

const passing = cClosed | cOpened | cGood | cFull | cMid | cBlanket | cYes | cFixed | cPoured | cNot | cNone | cNo | cFiller | cNow

// correct finds the one known word that w is a misspelling of. Between two
// equally near words there is none.
func (lx *lexicon) correct(w string) (string, bool) {
	if s, ok := lx.unswap(w); ok {
		return s, true
	}
	if s := strings.TrimSuffix(w, "z") + "s"; len(w) > 3 && strings.HasSuffix(w, "z") && (lx.known[s] || vocabularyWords[s]) {
		return s, true
	}
	if len(w) == 3 {
		return lx.garbled(w)
	}
	if len(w) < 4 || len(w) > 24 {
		return "", false
	}
	limit := 1
	if len(w) >= 7 {
		limit = 2
	}
	best, found, tie := limit+1, "", false
	for _, cand := range lx.near[w[0]] {
		d := distance(w, cand, min(best, limit))
		if d > limit || d > best || !mayCorrect(lx, w, cand, d) {
			continue
		}
		if d == best && lx.known[found] != lx.known[cand] {
			if lx.known[cand] {
				found, tie = cand, false
			}
			continue
		}
		if d == best && found != "" && consonants(found) == consonants(w) && consonants(cand) != consonants(w) {
			continue
		}
		tie = d == best && cand != found && !lx.alike(cand, found) && !(consonants(cand) == consonants(w) && consonants(found) != consonants(w))
		best, found = d, cand
	}
	if found != "" && !tie {
		return found, true
	}
	return lx.garbled(w)
}

// garbled finds the one name of the department's of which w has the letters in
// another order, or only the consonants: "hadnle", "tiers", "pmp". Only names are
// reached so, never a word that passes anything.
func (lx *lexicon) garbled(w string) (string, bool) {
	found := ""
	for cand := range lx.known {
		if len(cand) < 4 || vocabularyMeans(cand, passing&^cFiller) || cand[0] != w[0] && len(w) < 6 {
			continue
		}
		if !(sameLetters(w, cand) || len(w) < len(cand) && (consonants(cand) == w || squeeze(consonants(cand)) == w || len(w) >= 5 && squeeze(consonants(cand)) == squeeze(consonants(w)) || len(cand) == 4 && cand[:3] == w)) {
			continue
		}
		if found != "" && found != cand {
			return "", false
		}
		found = cand
	}
	return found, found != ""
}

func sameLetters(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	var n [256]int
	for i := range len(a) {
		n[a[i]]++
		n[b[i]]--
	}
	return n == [256]int{}
}

func consonants(w string) string {
	b := make([]byte, 0, len(w))
	for i := range len(w) {
		if i == 0 || !strings.ContainsRune("aeiou", rune(w[i])) {
			b = append(b, w[i])
		}
	}
	return string(b)
}

// unswap finds the one known word of which w has two neighbouring letters
// exchanged. With three letters that may not lead into a pass.
func (lx *lexicon) unswap(w string) (string, bool) {
	if len(w) < 3 || len(w) > 24 {
		return "", false
	}
	found, b := "", []byte(w)
	for i := 0; i+1 < len(b); i++ {
		b[i], b[i+1] = b[i+1], b[i]
		s := string(b)
		b[i], b[i+1] = b[i+1], b[i]
		if s == w || !vocabularyWords[s] && !lx.known[s] || lx.single(s) == cThing && !lx.known[s] || len(w) == 3 && lx.single(s)&passing&^cFiller != 0 {
			continue
		}
		if found != "" && found != s {
			return "", false
		}
		found = s
	}
	return found, found != ""
}

// alike reports whether two candidates mean the same, so that either will do.
func (lx *lexicon) alike(a, b string) bool {
	x, y := lx.single(a), lx.single(b)
	return x != 0 && x == y
}

func (lx *lexicon) single(w string) class {
	for _, p := range vocabulary[w] {
		if len(p.words) == 1 {
			return p.cls
		}
	}
	return 0
}

func mayCorrect(lx *lexicon, w, cand string, d int) bool {
	c := lx.single(cand)
	if len(w) <= 4 && len(cand) == len(w) && !swapped(w, cand) {
		return false
	}
	for _, tail := range []string{"ed", "ing", "er", "ly"} { // an unknown form of a word is no misspelling of it
		if strings.HasSuffix(w, tail) && !strings.HasSuffix(cand, tail[len(tail)-1:]) {
			return false
		}
	}
	if len(cand)-len(w) > 2 || d > 1 && len(cand) < 6 {
		return false
	}
	if c&passing == 0 || c&cBad != 0 {
		return true
	}
	if c&(cFixed|cPoured|cNot|cNo|cFiller) != 0 && c&(cGood|cFull|cMid|cBlanket|cYes) == 0 {
		return d == 1 && len(cand) >= 5 || d == 2 && len(cand) >= 7
	}
	return d == 1 && len(cand) >= 4 && (swapped(w, cand) || doubled(w, cand))
}

// swapped reports whether w is cand with two neighbouring letters exchanged.
func swapped(w, cand string) bool {
	if len(w) != len(cand) {
		return false
	}
	for i := 0; i+1 < len(w); i++ {
		if w[i] != cand[i] {
			return w[i] == cand[i+1] && w[i+1] == cand[i] && w[i+2:] == cand[i+2:]
		}
	}
	return false
}

// doubled reports whether w and cand differ in a letter typed twice or once.
func doubled(w, cand string) bool { return squeeze(w) == squeeze(cand) }

func squeeze(s string) string {
	b := make([]byte, 0, len(s))
	for i := range len(s) {
		if i == 0 || s[i] != s[i-1] {
			b = append(b, s[i])
		}
	}
	return string(b)
}

// distance counts inserted, left out, changed and swapped letters, and gives up
// above the limit.
func distance(a, b string, limit int) int {
	if len(a)-len(b) > limit || len(b)-len(a) > limit || len(a) > 30 || len(b) > 30 {
		return limit + 1
	}
	var rows [3][32]int
	prev2, prev, cur := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			d := min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, prev2[j-2]+1)
			}
			cur[j] = d
			least = min(least, d)
		}
		if least > limit {
			return limit + 1
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(b)]
}
