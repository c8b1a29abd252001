package reply

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

type tokenKind uint8

const (
	aWord tokenKind = iota
	aNumber
	aPunct
)

// token is a word, a run of digits or a punctuation mark, lower case, with its
// place in the normalised message.
type token struct {
	kind    tokenKind
	s       string
	b, e    int
	glued   bool // no blank before it
	number  float64
	capital bool // a capital letter inside a sentence
	upper   bool // a capital letter anywhere
}

// lex cuts a message into tokens. Hyphens between letters vanish, so that
// "warm-up" and "warm up" are alike; contractions are opened or closed up
// ("we'll" is "we will", "isn't" is "isnt").
func lex(s string) []token {
	out := make([]token, 0, len(s)/4+4)
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == '\n':
			out = append(out, token{kind: aPunct, s: "\n", b: i, e: i + 1})
			i++
		case unicode.IsSpace(r):
			i += n
		case r >= '0' && r <= '9' || r == '.' && digitAt(s, i+1) && !digitAt(s, i-1):
			t := lexNumber(s, i)
			out, i = append(out, t), t.e
		case unicode.IsLetter(r):
			end := wordEnd(s, i)
			n := len(out)
			out = appendWord(out, s, i, end)
			out[n].upper = unicode.IsUpper(r) && end-i > 2
			out[n].capital = unicode.IsUpper(r) && end-i > 2 && n > 0 && !endsSentence(&out[n-1]) && s[i+1:end] == strings.ToLower(s[i+1:end])
			i = end
		case r == '@':
			out = append(out, token{s: "at", b: i, e: i + 1})
			i++
		case r == '-' && letterAt(s, i-1) && (letterAt(s, i+1) || digitAt(s, i+1)),
			r == '/' && letterAt(s, i-1) && letterAt(s, i+1) && !letterAt(s, i-2):
			i += n
		default:
			out = append(out, token{kind: aPunct, s: s[i : i+n], b: i, e: i + n, glued: i > 0 && s[i-1] != ' '})
			i += n
		}
	}
	return out
}

func digitAt(s string, i int) bool { return i >= 0 && i < len(s) && s[i] >= '0' && s[i] <= '9' }

func letterAt(s string, i int) bool {
	return i >= 0 && i < len(s) && (s[i]|0x20 >= 'a' && s[i]|0x20 <= 'z' || s[i] >= 0x80)
}

func wordEnd(s string, i int) int {
	for i < len(s) {
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == '\'' && letterAt(s, i+1) {
			i += n
			continue
		}
		if !unicode.IsLetter(r) && !unicode.Is(unicode.Mn, r) {
			break
		}
		i += n
	}
	return i
}

// lexNumber reads digits with a decimal point and commas between thousands.
func lexNumber(s string, i int) token {
	t := token{kind: aNumber, b: i, glued: i > 0 && s[i-1] != ' '}
	var scale float64
	for i < len(s) {
		c := s[i]
		if zeroLike(s, i) {
			c = '0'
		}
		switch {
		case c >= '0' && c <= '9':
			if scale == 0 {
				t.number = t.number*10 + float64(c-'0')
			} else {
				t.number += float64(c-'0') * scale
				scale /= 10
			}
		case c == '.' && scale == 0 && digitAt(s, i+1):
			scale = 0.1
		case c == ',' && thousands(s, i):
		default:
			t.e, t.s = i, zeros.Replace(s[t.b:i])
			return t
		}
		i++
	}
	t.e, t.s = i, zeros.Replace(s[t.b:i])
	return t
}

var zeros = strings.NewReplacer("o", "0", "O", "0")

// zeroLike reports whether the letter o stands for a nought: "29o", "2o.4".
func zeroLike(s string, i int) bool {
	if s[i] != 'o' && s[i] != 'O' || !digitAt(s, i-1) && !(i > 1 && (s[i-1]|0x20) == 'o' && digitAt(s, i-2)) {
		return false
	}
	if i+1 < len(s) && (s[i+1]|0x20) == 'o' && digitAt(s, i-1) {
		i++ // "44oo"
	}
	return i+1 == len(s) || !letterAt(s, i+1) && s[i+1] != '\''
}

func thousands(s string, i int) bool {
	return digitAt(s, i-1) && digitAt(s, i+1) && digitAt(s, i+2) && digitAt(s, i+3) && !digitAt(s, i+4) &&
		(i < 4 || !digitAt(s, i-4))
}

var contractions = map[string]string{"ll": "will", "re": "are", "ve": "have", "m": "am", "d": "would", "s": "s"}

func appendWord(out []token, s string, b, e int) []token {
	w := strings.ToLower(s[b:e])
	glued := b > 0 && s[b-1] != ' ' && s[b-1] != '\n'
	q := strings.LastIndexByte(w, '\'')
	if q < 0 || len(w) != e-b {
		return append(out, token{s: strings.ReplaceAll(w, "'", ""), b: b, e: e, glued: glued})
	}
	if tail, ok := contractions[w[q+1:]]; ok && q > 0 {
		out = append(out, token{s: strings.ReplaceAll(w[:q], "'", ""), b: b, e: b + q, glued: glued})
		return append(out, token{s: tail, b: b + q, e: e, glued: true})
	}
	return append(out, token{s: strings.ReplaceAll(w, "'", ""), b: b, e: e, glued: glued})
}

func endsSentence(t *token) bool {
	return t.kind == aPunct && (t.s == "." || t.s == "\n" || t.s == "!" || t.s == "?" || t.s == ":" || t.s == ";")
}
