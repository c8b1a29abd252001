package reply

import (
	"hash/maphash"
	"slices"
	"strings"
	"sync"

	"crosslay/bot/check"
)

// senses is what a word may mean by the department's own file. Numbers point
// into lexicon.refs and lexicon.items.
type senses struct {
	checks  []int // names a check
	hints   []int // part of a check's name
	items   []int // names an item
	traits  []int // part of an item's name, of that item alone
	places  []int // tells an item from others like it, by where it rides
	damages []damageOf
	options []optionOf
}

type damageOf struct {
	ref   int
	name  string
	check *check.Check
}

type optionOf struct {
	ref  int
	name string
	good bool
}

func (s *senses) merge(o senses) {
	s.checks = appendNew(s.checks, o.checks)
	s.hints = appendNew(s.hints, o.hints)
	s.items = appendNew(s.items, o.items)
	s.traits = appendNew(s.traits, o.traits)
	s.places = appendNew(s.places, o.places)
	s.damages = append(s.damages, o.damages...)
	s.options = append(s.options, o.options...)
}

func (s *senses) none() bool {
	return len(s.checks)+len(s.hints)+len(s.items)+len(s.traits)+len(s.places)+len(s.damages)+len(s.options) == 0
}

func appendNew(a, b []int) []int {
	for _, x := range b {
		if !slices.Contains(a, x) {
			a = append(a, x)
		}
	}
	return a
}

// asked is one check of one item, flat.
type asked struct {
	item  int
	n     int
	check *check.Check
	ref   check.Ref
	goodW map[string]bool // words of the check's own texts that say how it should be
	anyQ  bool            // asks "any ...?": none passes
}

// lexicon is the vocabulary of one prompt: its items and checks by name.
type lexicon struct {
	key    []Item
	items  []Item
	refs   []asked
	byItem [][]int
	byN    map[int]int
	maxN   int
	digits map[int]int // the item whose number ends so, among alike ones
	names  index
	near   map[byte][]string // words by first letter, for typing mistakes
	known  map[string]bool   // every word of a name
	gap    bool              // a short length is a check of its own
}

// The lexicon of a prompt is the same for every reply to it, and building one
// costs more than reading; the cache changes nothing but the time.
var (
	lexiconSeed = maphash.MakeSeed()
	lexiconMu   sync.Mutex
	lexicons    = map[uint64]*lexicon{}
)

func lexiconFor(items []Item) *lexicon {
	h := hashItems(items)
	lexiconMu.Lock()
	defer lexiconMu.Unlock()
	if lx, ok := lexicons[h]; ok && sameItems(lx.key, items) {
		return lx
	}
	if len(lexicons) >= 1024 {
		clear(lexicons)
	}
	lx := newLexicon(items)
	lexicons[h] = lx
	return lx
}

func hashItems(items []Item) uint64 {
	var h maphash.Hash
	h.SetSeed(lexiconSeed)
	for i := range items {
		_, _ = h.WriteString(string(items[i].ID))
		for _, a := range items[i].Checks {
			_ = h.WriteByte(byte(a.N))
			_, _ = h.WriteString(string(a.Check.ID))
		}
	}
	return h.Sum64()
}

func sameItems(a, b []Item) bool {
	return slices.EqualFunc(a, b, func(x, y Item) bool {
		return x.ID == y.ID && x.Place == y.Place && slices.Equal(x.Names, y.Names) && slices.Equal(x.Checks, y.Checks)
	})
}

func cloneItems(items []Item) []Item {
	out := make([]Item, len(items))
	for i, it := range items {
		out[i] = Item{ID: it.ID, Place: it.Place, Names: slices.Clone(it.Names), Checks: slices.Clone(it.Checks)}
	}
	return out
}

func newLexicon(given []Item) *lexicon {
	items := cloneItems(given)
	lx := &lexicon{key: items, items: items, byN: map[int]int{}, names: index{}, digits: map[int]int{}, byItem: make([][]int, len(items))}
	for i := range items {
		for _, a := range items[i].Checks {
			lx.addRef(i, a)
		}
	}
	for i := range items {
		lx.addItemNames(i)
	}
	for r := range lx.refs {
		lx.addCheckNames(r)
	}
	lx.gap = slices.ContainsFunc(lx.refs, func(a asked) bool {
		return a.check.Answer.Kind == check.Number && isAny(string(a.check.Answer.Unit), "in", "mm", "cm")
	})
	lx.addLeaks()
	lx.addOrdinals()
	lx.addTraits()
	lx.addMarks()
	lx.addTexts()
	lx.indexNear()
	return lx
}

func (lx *lexicon) addRef(item int, a Asked) {
	r := len(lx.refs)
	lx.refs = append(lx.refs, asked{
		item: item, n: a.N, check: a.Check, ref: check.Ref{Item: lx.items[item].ID, Check: a.Check.ID},
		goodW: goodWords(a.Check), anyQ: asksAny(a.Check),
	})
	lx.byItem[item] = append(lx.byItem[item], r)
	if a.N > 0 {
		lx.byN[a.N] = r
		lx.maxN = max(lx.maxN, a.N)
	}
}

func goodWords(c *check.Check) map[string]bool {
	m := map[string]bool{}
	for _, w := range words(c.Method + " " + c.Label + " " + c.Question) {
		m[w] = true
	}
	return m
}

func asksAny(c *check.Check) bool {
	q := strings.ToLower(c.Question)
	return c.Answer.Kind == check.Condition && (strings.HasPrefix(q, "any ") || strings.Contains(q, " any ") || strings.HasPrefix(q, "anything"))
}

func vocabularyMeans(word string, c class) bool {
	for _, p := range vocabulary[word] {
		if len(p.words) == 1 && p.cls&c != 0 {
			return true
		}
	}
	return false
}

func (lx *lexicon) indexNear() {
	lx.near, lx.known = map[byte][]string{}, map[string]bool{}
	for _, list := range lx.names {
		for i := range list {
			for _, w := range list[i].words {
				lx.known[w] = true
			}
		}
	}
	for w := range lx.known {
		if len(w) >= 4 && !slices.Contains(vocabularyNear[w[0]], w) {
			lx.near[w[0]] = append(lx.near[w[0]], w)
		}
	}
	for c, list := range vocabularyNear {
		lx.near[c] = append(lx.near[c], list...)
	}
	for _, list := range lx.near {
		slices.Sort(list)
	}
}
