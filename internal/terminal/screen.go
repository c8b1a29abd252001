package terminal

import (
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"
)

// width is the width that everything fits into.
const width = 80

// screen writes what is said, with colours only where they are wanted.
type screen struct {
	out    io.Writer
	colour bool
	zone   *time.Location
}

type ink string

const (
	bold   ink = "1"
	dim    ink = "2"
	cyan   ink = "36"
	yellow ink = "33"
	green  ink = "32"
)

func (s screen) paint(i ink, text string) string {
	if !s.colour || text == "" {
		return text
	}
	return "\x1b[" + string(i) + "m" + text + "\x1b[0m"
}

func (s screen) line(format string, args ...any) { fmt.Fprintf(s.out, format+"\n", args...) }

// note is a word of the station's own.
func (s screen) note(text string) {
	for _, l := range wrap(text, width-3) {
		s.line("%s", s.paint(yellow, "-- "+l))
	}
}

// rule is a heading across the screen.
func (s screen) rule(text string) {
	n := max(width-4-utf8.RuneCountInString(text), 0)
	s.line("%s", s.paint(cyan, "== "+text+" "+strings.Repeat("=", n)))
}

// post shows a message in full: a head with its number, and its lines under it.
func (s screen) post(p Post, label string) {
	s.line("%s %s", s.head(p), s.paint(cyan, "in "+label))
	s.body(p.Text, bar(p))
	if p.Pics > 0 && p.Key == "" { // the bot's own are told in its text
		s.line("    (%d photo)", p.Pics)
	}
}

// own acknowledges what the person at the station typed; the words stand on the
// line above.
func (s screen) own(p Post, label string) {
	s.line("%s", s.paint(dim, fmt.Sprintf("[%d] %s %s in %s", p.N, s.clock(p.At), p.Author, label)))
}

// teaser shows in one line what was said elsewhere.
func (s screen) teaser(p Post, label string) {
	first, rest, more := strings.Cut(clean(p.Text), "\n")
	if more {
		first += " " + strings.ReplaceAll(rest, "\n", " ")
	}
	head := fmt.Sprintf("[%d] %s %s: ", p.N, s.clock(p.At), label)
	s.line("%s%s", s.paint(dim, head), cut(first, width-utf8.RuneCountInString(head)))
}

// changed shows only the lines that an edit brought.
func (s screen) changed(p Post, was, label string) {
	const most = 6
	had := map[string]bool{}
	for _, l := range strings.Split(was, "\n") {
		had[l] = true
	}
	var fresh []string
	for _, l := range strings.Split(clean(p.Text), "\n") {
		if !had[l] && strings.TrimSpace(l) != "" {
			fresh = append(fresh, l)
		}
	}
	if len(fresh) == 0 {
		return
	}
	s.line("%s", s.paint(dim, fmt.Sprintf("[%d] in %s is changed:", p.N, label)))
	for i, l := range fresh {
		if i == most {
			s.line("%s", s.paint(dim, fmt.Sprintf("  ~ and %d lines more; /look shows them", len(fresh)-most)))
			break
		}
		s.line("  ~ %s", cut(l, width-4))
	}
}

func (s screen) head(p Post) string {
	who, i := p.Author, green
	if p.Key != "" {
		who, i = "crosslay", bold
	}
	return fmt.Sprintf("[%d] %s %s", p.N, s.clock(p.At), s.paint(i, who))
}

func (s screen) body(text, margin string) {
	for _, l := range strings.Split(clean(text), "\n") {
		for _, w := range wrap(l, width-len(margin)) {
			s.line("%s%s", margin, w)
		}
	}
}

func (s screen) clock(t time.Time) string { return t.In(s.zone).Format("15:04") }

// bar sets what stands in a thread off from what stands in the room.
func bar(p Post) string {
	if p.Place.Thread != "" {
		return "  | "
	}
	return "    "
}

// wrap breaks a line at blanks so that no part is longer than n.
func wrap(text string, n int) []string {
	var lines []string
	for utf8.RuneCountInString(text) > n {
		runes := []rune(text)
		at := strings.LastIndex(string(runes[:n]), " ")
		if at <= 0 {
			at = len(string(runes[:n]))
		}
		lines = append(lines, strings.TrimRight(text[:at], " "))
		text = strings.TrimLeft(text[at:], " ")
	}
	return append(lines, text)
}

func cut(text string, n int) string {
	runes := []rune(text)
	if len(runes) <= n {
		return text
	}
	return string(runes[:max(n-3, 0)]) + "..."
}

// clean takes out what would move the cursor or change colours: a message never
// gets at the screen.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' {
			return r
		}
		if r == '\t' {
			return ' '
		}
		if r < 0x20 || r == 0x7f || r >= 0x80 && r < 0xa0 {
			return -1
		}
		return r
	}, text)
}
