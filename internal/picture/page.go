package picture

import (
	"image/color"
	"strings"
	"unicode/utf8"
)

// The measures of every page, in pixels.
const (
	pageWidth = 1080
	margin    = 36
	inner     = pageWidth - 2*margin
	smallest  = 28 // no text is smaller
)

// page is a picture laid out: shapes in the order in which they are painted, and
// the texts on top of them.
type page struct {
	height float64
	shapes []shape
	texts  []text
	faces  *faces
}

type point struct{ x, y float64 }

// shape is an area of one ink, of closed contours.
type shape struct {
	contours [][]point
	ink      color.RGBA
}

// text is one line of words; left and base are where its first letter stands.
type text struct {
	words      string
	left, base float64
	width      float64
	style      style
	ink, on    color.RGBA // on is what it stands on
}

// style is how large and heavy letters are.
type style struct {
	size float64
	bold bool
}

// The styles that pages use.
var (
	plain  = style{smallest, false}
	strong = style{smallest, true}
	label  = style{32, true}
	name   = style{38, true}
	title  = style{54, true}
	figure = style{58, true}
)

func newPage() *page { return &page{faces: newFaces()} }

// say puts words at a place and returns the x at which they end.
func (p *page) say(x, base float64, s style, ink, on color.RGBA, words string) float64 {
	words = p.faces.clean(words, s.bold)
	w := p.faces.width(words, s)
	if words != "" {
		p.texts = append(p.texts, text{words, x, base, w, s, ink, on})
	}
	return x + w
}

// sayRight ends words at x and returns where they begin.
func (p *page) sayRight(x, base float64, s style, ink, on color.RGBA, words string) float64 {
	left := x - p.faces.width(p.faces.clean(words, s.bold), s)
	p.say(left, base, s, ink, on, words)
	return left
}

// sayMiddle centres words on x.
func (p *page) sayMiddle(x, base float64, s style, ink, on color.RGBA, words string) {
	p.say(x-p.faces.width(words, s)/2, base, s, ink, on, words)
}

// fill adds a shape.
func (p *page) fill(ink color.RGBA, contours ...[]point) {
	p.shapes = append(p.shapes, shape{contours, ink})
}

// fit shortens words to a width. What is left out is in the middle: names that
// differ mostly differ at their ends.
func (p *page) fit(words string, s style, width float64) string {
	words = strings.Join(strings.Fields(p.faces.clean(words, s.bold)), " ")
	if p.faces.width(words, s) <= width {
		return words
	}
	runes := []rune(words)
	for keep := len(runes) - 1; keep > 0; keep-- {
		head := (keep + 1) / 2
		short := strings.TrimRight(string(runes[:head]), " ,") + "…" + strings.TrimLeft(string(runes[len(runes)-keep+head:]), " ,")
		if p.faces.width(short, s) <= width {
			return short
		}
	}
	return "…"
}

// wrap breaks words into at most n lines of a width; the last is shortened.
func (p *page) wrap(words string, s style, width float64, n int) []string {
	var lines []string
	line := ""
	fields := strings.Fields(p.faces.clean(words, s.bold))
	for i, word := range fields {
		longer := strings.TrimSpace(line + " " + word)
		if line == "" || p.faces.width(longer, s) <= width {
			line = longer
			continue
		}
		if len(lines) == n-1 {
			line += " " + strings.Join(fields[i:], " ")
			break
		}
		lines = append(lines, p.fit(line, s, width))
		line = word
	}
	if line == "" {
		return lines
	}
	return append(lines, p.fit(line, s, width))
}

// box is the space that a text takes up, without the room for accents.
func (t text) box() (left, top, right, bottom float64) {
	return t.left, t.base - 0.76*t.style.size, t.left + t.width, t.base + 0.22*t.style.size
}

// list joins the entries of a text for those who cannot see; what does not fit
// is counted.
func list(entries []string, most int) string {
	out := ""
	for i, e := range entries {
		rest := ""
		if left := len(entries) - i - 1; left > 0 {
			rest = ", and " + count(left, "more", "more")
		}
		next := e
		if i > 0 {
			next = out + ", " + e
		}
		if i > 0 && utf8.RuneCountInString(next+rest) > most {
			return out + ", and " + count(len(entries)-i, "more", "more")
		}
		out = next
	}
	return out
}
