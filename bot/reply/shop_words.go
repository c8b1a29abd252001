package reply

import (
	"strings"
	"unicode"

	"crosslay/bot/dept"
)

// shopLong writes contractions out, typed with or without the apostrophe.
var shopLong = map[string]string{
	"dont": "do not", "cant": "can not", "cannot": "can not", "wont": "will not", "isnt": "is not", "arent": "are not",
	"wasnt": "was not", "werent": "were not", "didnt": "did not", "doesnt": "does not", "hasnt": "has not", "havent": "have not",
	"couldnt": "could not", "wouldnt": "would not", "shouldnt": "should not", "aint": "is not", "hadnt": "had not", "neednt": "need not",
	"its": "it is", "thats": "that is", "whats": "what is", "whos": "who is", "hows": "how is", "wheres": "where is", "im": "i am",
	"ive": "i have", "weve": "we have", "itll": "it will", "theyre": "they are", "til": "until", "till": "until", "w/": "with",
	"yeah": "yes", "whens": "when is", "whys": "why is",
}

var shopEndings = []struct{ short, long string }{
	{"can't", "can not"}, {"won't", "will not"}, {"n't", " not"}, {"'ll", " will"}, {"'re", " are"}, {"'m", " am"}, {"'ve", " have"},
	{"'s", " is"}, {"'d", " would"},
}

// shopPlain is text in lower case with contractions written out. Marks that end
// a clause stay; hyphens within words become blanks ("back-ordered").
func shopPlain(text string) string {
	text = strings.NewReplacer("’", "'", "‘", "'", "`", "'", "“", "", "”", "", `"`, "", "(", ", ", ")", ", ").Replace(strings.ToLower(text))
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		words := strings.Fields(line)
		for j, w := range words {
			words[j] = shopPlainWord(w)
		}
		lines[i] = strings.Join(words, " ")
	}
	return strings.Join(lines, "\n")
}

func shopPlainWord(w string) string {
	for _, e := range shopEndings {
		w = strings.ReplaceAll(w, e.short, e.long)
	}
	core := strings.TrimRight(w, ".,!?;:")
	tail := w[len(core):]
	if long, ok := shopLong[core]; ok {
		core = long
	}
	return shopUnhyphen(core) + tail
}

// shopUnhyphen turns hyphens between letters into blanks and leaves numbers of
// items and dates alone.
func shopUnhyphen(w string) string {
	r := []rune(w)
	for i := 1; i+1 < len(r); i++ {
		if r[i] == '-' && unicode.IsLetter(r[i-1]) && unicode.IsLetter(r[i+1]) {
			r[i] = ' '
		}
	}
	return string(r)
}

// shopTokens cuts words where letters and digits meet and drops leading zeros,
// so that PU-07, pu07 and PU 7 are the same tokens.
func shopTokens(text string) []string {
	var tokens []string
	kind, from := 0, 0
	text = strings.ToLower(text)
	flush := func(to int) {
		if kind == 1 {
			tokens = append(tokens, text[from:to])
		}
		if kind == 2 {
			tokens = append(tokens, strings.TrimLeft(text[from:to-1], "0")+text[to-1:to])
		}
	}
	for i, r := range text {
		now := 0
		switch {
		case unicode.IsLetter(r):
			now = 1
		case r >= '0' && r <= '9':
			now = 2
		}
		if now != kind {
			flush(i)
			kind, from = now, i
		}
	}
	flush(len(text))
	return tokens
}

// shopFind is where the tokens of name stand in text, or -1.
func shopFind(text, name []string) int {
	for i := 0; len(name) > 0 && i+len(name) <= len(text); i++ {
		if strings.Join(text[i:i+len(name)], " ") == strings.Join(name, " ") {
			return i
		}
	}
	return -1
}

// shopNamed is the item that the words name. Of two, the one after "with", "for"
// or "spare" is the one placed; where that does not settle it, none.
func shopNamed(text string, items []NamedItem) dept.ItemID {
	tokens := shopTokens(text)
	for _, mark := range []string{"with", "for", "spare"} {
		if at := shopFind(tokens, []string{mark}); at >= 0 {
			if id := shopLongest(tokens[at+1:], items); id != "" {
				return id
			}
		}
	}
	return shopLongest(tokens, items)
}

// shopLongest is the item with the longest name among the tokens, none where two
// items are named equally well.
func shopLongest(tokens []string, items []NamedItem) dept.ItemID {
	var best dept.ItemID
	length := 0
	for _, it := range items {
		for _, name := range it.Names {
			n := shopTokens(name)
			if len(n) < length || len(n) == 0 || shopFind(tokens, n) < 0 {
				continue
			}
			if len(n) == length && best != it.ID {
				best = ""
				continue
			}
			best, length = it.ID, len(n)
		}
	}
	return best
}
