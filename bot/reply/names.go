package reply

import (
	"slices"
	"strconv"
	"strings"

	"crosslay/bot/check"
)

func (lx *lexicon) addItemNames(i int) {
	for k, name := range append([]string{string(lx.items[i].ID)}, lx.items[i].Names...) {
		if k == 0 && vocabularyMeans(strings.ToLower(name), predicates) {
			continue // an id is no name if it says something by itself
		}
		base := words(strings.ReplaceAll(name, "_", " "))
		for _, w := range variants(base) {
			lx.names.add(w, plural(base, w), senses{items: []int{i}})
		}
	}
}

// variants adds the plural or singular, the joined form of a number ("pu07") and
// the form without leading zeros ("pu 7").
func variants(w []string) [][]string {
	if len(w) == 0 {
		return nil
	}
	out := [][]string{w}
	last := w[len(w)-1]
	switch {
	case last[0] >= '0' && last[0] <= '9':
		if short := strings.TrimLeft(last, "0"); short != last && short != "" && len(w) > 1 {
			out = append(out, append(slices.Clone(w[:len(w)-1]), short))
		}
	case len(last) > 3 && strings.HasSuffix(last, "s") && !strings.HasSuffix(last, "ss"):
		out = append(out, append(slices.Clone(w[:len(w)-1]), strings.TrimSuffix(last, "s")))
	case last == "two" || last == "2":
		out = append(out, append(slices.Clone(w[:len(w)-1]), "too"))
	case len(last) > 3 && strings.HasSuffix(last, "y") && !strings.HasSuffix(last, "ey"):
		out = append(out, append(slices.Clone(w[:len(w)-1]), strings.TrimSuffix(last, "y")+"ies"))
	case len(last) > 2 && (len(w) == 1 || numberWords[last] == 0 && last != "one"):
		out = append(out, append(slices.Clone(w[:len(w)-1]), last+"s"))
	}
	if i := slices.Index(w, "s"); i > 0 { // officer's pack, officers pack, officer pack
		out = append(out, append(append(slices.Clone(w[:i-1]), w[i-1]+"s"), w[i+1:]...), slices.Delete(slices.Clone(w), i, i+1))
	}
	if len(w) > 1 && len(strings.Join(w, "")) > 4 {
		out = append(out, []string{strings.Join(w, "")})
	}
	return out
}

func (lx *lexicon) addCheckNames(r int) {
	c := lx.refs[r].check
	names := append([]string{c.Label, strings.ReplaceAll(string(c.ID), "_", " ")}, c.Names...)
	for _, name := range names {
		w := nameWords(name)
		for _, v := range variants(w) {
			lx.names.add(v, plural(w, v), senses{checks: []int{r}})
		}
		if full := words(name); stateWords(full) > 0 && c.Answer.Good != "no" && (c.Answer.Kind == check.YesNo || c.Answer.Kind == check.Condition) {
			cls := cGood // "lights go off" says it all
			if strings.HasSuffix(w[len(w)-1], "s") && !strings.HasSuffix(w[len(w)-1], "ss") {
				cls |= cPlural
			}
			lx.names.add(full, cls, senses{checks: []int{r}})
		}
		if len(w) > 1 {
			lx.addHints(r, w)
		}
		if k := c.Answer.Kind; len(w) == 1 && len(w[0]) > 3 && (k == check.Condition || k == check.YesNo && c.Answer.Good != "no") && isAny(w[0], "seal", "latch", "lock", "mount", "strap", "buckle", "charge") {
			lx.names.add([]string{strings.TrimSuffix(w[0], "e") + "ed"}, cGood, senses{checks: []int{r}})
		}
	}
	for _, d := range c.Fault.Damages {
		for _, name := range append([]string{d.Name}, d.Names...) {
			for _, v := range variants(words(name)) {
				lx.names.add(v, cBad, senses{damages: []damageOf{{r, d.Name, c}}})
			}
		}
	}
	for _, o := range c.Answer.Choices {
		for _, name := range append([]string{o.Name}, o.Names...) {
			lx.names.add(words(name), 0, senses{options: []optionOf{{r, o.Name, o.Good}}})
		}
	}
}

// nameWords cuts a name and leaves out a last word that says how it should be:
// "fuel valve closed" is called "fuel valve".
func nameWords(name string) []string {
	w := words(name)
	if n := len(w) - stateWords(w); n > 1 || n == 1 && mayHint(w[0]) {
		return w[:n]
	}
	return w
}

// stateWords counts the words at the end of a name that say how the thing should be.
func stateWords(w []string) int {
	n := len(w)
	switch {
	case n > 2 && phraseMeans(w[n-2:], cGood):
		return 2
	case n > 1 && vocabularyMeans(w[n-1], cGood|cClosed|cOpened|cFull):
		return 1
	}
	return 0
}

func phraseMeans(w []string, c class) bool {
	for _, p := range vocabulary[w[0]] {
		if equalWords(p.words, w) && p.cls&c != 0 {
			return true
		}
	}
	return false
}

// plural marks the variant that adds an s: it means all of them.
func plural(base, variant []string) class {
	if len(base) == len(variant) && base[len(base)-1]+"s" == variant[len(base)-1] {
		return cPlural
	}
	return 0
}

func (lx *lexicon) addHints(r int, w []string) {
	for _, one := range w {
		if len(one) < 3 || !mayHint(one) {
			continue
		}
		for _, v := range variants([]string{one}) {
			lx.names.add(v, 0, senses{hints: []int{r}})
		}
	}
}

// mayHint reports whether a word of a name may stand for it: a word that means
// something by itself may not, nor one that says nothing.
func mayHint(word string) bool {
	for _, p := range vocabulary[word] {
		if len(p.words) == 1 && (p.cls&^(cBad|cFiller|cNoun) != 0 || p.cls&(cFiller|cNoun) == cFiller) {
			return false
		}
	}
	return true
}

// addOrdinals lets "pack 2" and "mask two" mean the second of alike items.
func (lx *lexicon) addOrdinals() {
	type numbered struct {
		words []string
		s     senses
	}
	var more []numbered
	for _, list := range lx.names {
		for _, p := range list {
			for k := range lx.alikeItems(&p.senses) {
				s := senses{}
				if len(p.senses.items) > 1 {
					s.items = p.senses.items[k : k+1]
				} else {
					s.checks = p.senses.checks[k : k+1]
				}
				for _, n := range ordinals[k] {
					more = append(more, numbered{append(slices.Clone(p.words), n), s})
				}
				more = append(more, numbered{append([]string{ordinalOf[k]}, p.words...), s})
			}
		}
	}
	for _, m := range more {
		lx.names.add(m.words, 0, m.s)
	}
}

// addMarks lets what tells alike items apart stand for them: the digits of their
// numbers ("pack 42", "bottle forty two") and the places where they ride ("the
// officer seat").
func (lx *lexicon) addMarks() {
	for i := range lx.items {
		if !lx.hasTwin(i) {
			continue
		}
		for _, w := range lx.placeNames(i) {
			lx.names.add(w, 0, senses{places: []int{i}})
		}
		for _, d := range digitsOf(lx.items[i].Names) {
			lx.addDigits(i, d)
			if n, err := strconv.Atoi(d[0]); err == nil && n > lx.maxN {
				lx.digits[n] = i
			}
		}
	}
}

func (lx *lexicon) addDigits(i int, d []string) {
	for _, name := range lx.items[i].Names {
		if w := words(name); len(w) > 0 && !strings.ContainsAny(name, "0123456789") {
			lx.names.add(append(slices.Clone(w), d...), 0, senses{items: []int{i}})
		}
	}
	for _, r := range lx.byItem[i] {
		c := lx.refs[r].check
		for _, name := range append([]string{c.Label}, c.Names...) {
			if w := words(name); len(w) > 0 {
				lx.names.add(append(slices.Clone(w), d...), 0, senses{checks: []int{r}})
			}
		}
	}
}

// digitsOf are the digits at the end of an item's names, as written and as spoken.
func digitsOf(names []string) [][]string {
	var out [][]string
	for _, name := range names {
		w := words(name)
		if len(w) == 0 {
			continue
		}
		d := strings.TrimLeft(w[len(w)-1], "0")
		if n, err := strconv.Atoi(d); err == nil && n > 9 && n < 100 {
			out = append(out, []string{d}, spellOut(n))
		}
	}
	return out
}

// spellOut writes a number from 10 to 99 in words.
func spellOut(n int) []string {
	for w, v := range numberWords {
		if w == "fourty" {
			continue
		}
		if int(v) == n {
			return []string{w}
		}
		if n > 20 && int(v) == n/10*10 {
			for u, x := range numberWords {
				if int(x) == n%10 {
					return []string{w, u}
				}
			}
			return []string{w, "one"}
		}
	}
	return nil
}

func (lx *lexicon) hasTwin(i int) bool {
	for k := range lx.items {
		if lx.sameSheet(i, k) {
			return true
		}
	}
	return false
}

// placeNames are the words for where an item rides that no item like it shares:
// "officer seat", "officer", "officers".
func (lx *lexicon) placeNames(i int) [][]string {
	place := words(lx.items[i].Place)
	if len(place) == 0 {
		return nil
	}
	var out [][]string
	for _, w := range place {
		if len(w) > 2 && !isAny(w, "side", "seat", "rig", "the", "compartment") && !lx.twinRides(i, w) {
			out = append(out, []string{w}, []string{w + "s"}, []string{w, "s"})
		}
	}
	if len(out) > 0 && len(place) > 1 {
		out = append(out, place, []string{strings.Join(place, "")})
	}
	return out
}

// twinRides reports whether the place of another item like it has the word too.
func (lx *lexicon) twinRides(i int, w string) bool {
	for k := range lx.items {
		if lx.sameSheet(i, k) && slices.Contains(words(lx.items[k].Place), w) {
			return true
		}
	}
	return false
}

var ordinals = [][]string{{"1", "one"}, {"2", "two"}, {"3", "three"}, {"4", "four"}}

var ordinalOf = []string{"first", "second", "third", "fourth"}

// alikeItems counts the items that a name fits and that share one sheet, or the
// items whose one shared check it fits; 0 where they are not alike.
func (lx *lexicon) alikeItems(s *senses) int {
	if n := len(s.items); n > 1 && n <= len(ordinals) && len(s.checks) == 0 {
		for _, i := range s.items {
			if !slices.EqualFunc(lx.items[i].Checks, lx.items[s.items[0]].Checks, func(a, b Asked) bool { return a.Check == b.Check }) {
				return 0
			}
		}
		return n
	}
	if n := len(s.checks); n > 1 && n <= len(ordinals) && len(s.items) == 0 {
		for _, r := range s.checks {
			if a := &lx.refs[r]; a.check != lx.refs[s.checks[0]].check || a.check.Answer.Kind == check.Run {
				return 0
			}
		}
		return n
	}
	return 0
}

// addLeaks lets every word for a leak name the checks that ask about leaks.
func (lx *lexicon) addLeaks() {
	var refs []int
	for w := range lx.names {
		if vocabularyMeans(w, cLeak) {
			for _, p := range lx.names[w] {
				if len(p.words) == 1 {
					refs = appendNew(refs, p.senses.checks)
				}
			}
		}
	}
	slices.Sort(refs)
	if len(refs) == 0 {
		return
	}
	for w, list := range vocabulary {
		for _, p := range list {
			if len(p.words) == 1 && p.cls&cLeak != 0 {
				lx.names.add([]string{w}, 0, senses{checks: slices.Clone(refs)})
			}
		}
	}
}

// addTexts makes the words of questions and methods known: those that a text
// denies ("no nicks, burrs") are bad news, the others say nothing.
func (lx *lexicon) addTexts() {
	for r := range lx.refs {
		c := lx.refs[r].check
		for _, text := range []string{c.Question, c.Method, c.Label} {
			cls := cFiller
			for _, t := range lex(normalise(strings.ToLower(text))) {
				switch {
				case t.kind == aPunct && t.s != ",":
					cls = cFiller
				case isAny(t.s, "no", "any", "free", "without", "not"):
					cls = cBad
				case t.kind == aWord && len(vocabulary[t.s]) == 0 && len(lx.names[t.s]) == 0:
					lx.names.add([]string{t.s}, cls, senses{})
				}
			}
		}
	}
}

// addTraits lets a word stand for an item where it is in no other's name: "the
// blue one". Words that are an item's whole name need no trait.
func (lx *lexicon) addTraits() {
	owners := map[string][]int{}
	for i := range lx.items {
		for _, name := range append([]string{string(lx.items[i].ID)}, lx.items[i].Names...) {
			for _, w := range words(name) {
				if len(w) > 2 && !isAny(w, "the", "and", "our", "for", "its", "all", "with", "unit", "set", "kit") && !vocabularyMeans(w, ^(cFiller|cUnitWord)) || w == "left" || w == "right" {
					owners[w] = appendNew(owners[w], []int{i})
				}
			}
		}
	}
	for w, o := range owners {
		if len(o) < max(2, len(lx.items)) || len(lx.items) == 1 {
			lx.names.add([]string{w}, 0, senses{traits: o})
		}
	}
}
