package wording

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"crosslay/bot/chat"
)

// Width is the most characters that a line may have: what a phone shows without
// breaking it.
const Width = 60

// wrap breaks a text into lines of at most Width characters, at blanks where
// there are any. Line breaks and runs of blanks inside the text, which people
// type, count as one blank.
func wrap(text string) []string {
	var lines []string
	line := ""
	keep := func() {
		if line = strings.TrimSpace(strings.ReplaceAll(line, tie, " ")); line != "" {
			lines = append(lines, line)
		}
	}
	for _, word := range strings.FieldsFunc(text, breaks) {
		if line != "" && size(line)+1+size(word) <= Width {
			line += " " + word
			continue
		}
		keep()
		for line = word; size(line) > Width; {
			rest := string([]rune(line)[Width:])
			line = string([]rune(line)[:Width])
			keep()
			line = rest
		}
	}
	keep()
	return lines
}

// tie is a blank at which no line is broken.
const tie = "\u00a0"

func breaks(r rune) bool { return r != '\u00a0' && (unicode.IsSpace(r) || unicode.IsControl(r)) }

// tied keeps a short text on one line: a date, a name, an item with its figure.
func tied(s string) string {
	if size(s) > Width*2/3 {
		return s
	}
	return strings.ReplaceAll(s, " ", tie)
}

// block wraps every text and puts the lines into one block.
func block(role chat.Role, texts ...string) chat.Block {
	b := chat.Block{Role: role}
	for _, text := range texts {
		b.Lines = append(b.Lines, wrap(text)...)
	}
	return b
}

// blocks leaves out the blocks that have nothing to say.
func blocks(all ...chat.Block) []chat.Block {
	return slices.DeleteFunc(all, func(b chat.Block) bool { return len(b.Lines) == 0 })
}

// say is one block of body text.
func say(texts ...string) []chat.Block { return blocks(block(chat.Body, texts...)) }

// sayf is say with a format.
func sayf(format string, args ...any) []chat.Block { return say(fmt.Sprintf(format, args...)) }

// clip shortens a text to one line of at most n characters; the mark at its end
// says that there was more.
func clip(text string, n int) string {
	text = strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == '\u00a0' || breaks(r) }), " ")
	if size(text) <= n {
		return text
	}
	if n < 2 {
		return "…"
	}
	short := string([]rune(text)[:n-1])
	if i := strings.LastIndexByte(short, ' '); i > len(short)/2 {
		short = short[:i]
	}
	return strings.TrimRight(short, " ,;:") + "…"
}

// quote sets off what somebody wrote, in at most n characters of it.
func quote(words string, n int) string {
	if words = clip(words, n); words == "" {
		return ""
	}
	return `"` + words + `"`
}

func size(s string) int { return utf8.RuneCountInString(s) }

// capital starts a text with a capital letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// join drops empty parts and puts sep between the others.
func join(sep string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(parts), func(s string) bool { return s == "" }), sep)
}

// either lists what may be chosen: "saw, fan or pump".
func either(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
	return strings.Join(names, "")
}

// ranges writes numbers the way crews do: 1-4, 6, 8-9.
func ranges(numbers []int) string {
	ns := slices.Compact(slices.Sorted(slices.Values(numbers)))
	var parts []string
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		if i == j {
			parts = append(parts, fmt.Sprint(ns[i]))
		} else {
			parts = append(parts, fmt.Sprintf("%d-%d", ns[i], ns[j]))
		}
		i = j + 1
	}
	return strings.Join(parts, ", ")
}

// String is the item as it is spoken of inside a sentence: "saw S-01".
func (t Thing) String() string { return join(" ", t.Name, t.Number) }

// first is the item at the start of a sentence.
func (t Thing) first() string { return capital(t.String()) }

// part names an item's check: "saw S-01, chain".
func part(t Thing, label string) string { return join(", ", t.String(), label) }

func day(t time.Time) string    { return tied(t.Format("Mon Jan 2")) }
func clock(t time.Time) string  { return t.Format("15:04") }
func moment(t time.Time) string { return tied(t.Format("Mon Jan 2 15:04")) }

// within puts a text in brackets, if there is one.
func within(text string) string {
	if text == "" {
		return ""
	}
	return tied("(" + text + ")")
}
