package export

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// The measures of a printed page, in millimetres and points.
const (
	sheetMargin = 14.0
	lineHeight  = 4.3
	textSize    = 8.5
	mostLines   = 40 // of one row; a longer one is continued
)

// paper is a printed document that is being written from top to bottom.
type paper struct {
	*fpdf.Fpdf
	inner float64 // width between the margins
}

// newPaper begins a document; foot stands at the bottom of every page.
func newPaper(size, title, foot string, made time.Time) *paper {
	pdf := fpdf.New("P", "mm", size, "")
	pdf.AddUTF8FontFromBytes("go", "", goregular.TTF)
	pdf.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	pdf.SetMargins(sheetMargin, sheetMargin, sheetMargin)
	pdf.SetAutoPageBreak(true, 16)
	pdf.SetTitle(title, true)
	pdf.SetCreator("crosslay", true)
	pdf.SetLang("en")
	pdf.SetCreationDate(made)
	pdf.SetModificationDate(made)
	pdf.AliasNbPages("{pages}")
	width, _ := pdf.GetPageSize()
	p := &paper{pdf, width - 2*sheetMargin}
	pdf.SetFooterFunc(func() {
		pdf.SetY(-11)
		pdf.SetFont("go", "", 7.5)
		pdf.CellFormat(p.inner*0.75, 4, inPlane(foot), "", 0, "L", false, 0, "")
		pdf.CellFormat(p.inner*0.25, 4, fmt.Sprintf("page %d of {pages}", pdf.PageNo()), "", 0, "R", false, 0, "")
	})
	pdf.AddPage()
	return p
}

// inPlane leaves out what the font cannot have: characters beyond the basic
// plane are shown as a box.
func inPlane(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r > 0xffff:
			return '□'
		case r < ' ' && r != '\n':
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "□"))
}

// say writes a paragraph.
func (p *paper) say(style string, size float64, words string) {
	p.SetFont("go", style, size)
	p.MultiCell(p.inner, size*0.5, inPlane(words), "", "L", false)
	p.Ln(1)
}

// heading starts a part; it is not left alone at the foot of a page.
func (p *paper) heading(size float64, words string) {
	if _, height := p.GetPageSize(); p.GetY() > height-40 {
		p.AddPage()
	}
	p.Ln(2)
	p.say("B", size, words)
}

// grid is a table: the widths of its columns in parts of the page's, and the
// head that is repeated on every page.
type grid struct {
	*paper
	widths []float64
	head   []string
}

// table begins a table and writes its head.
func (p *paper) table(parts []float64, head ...string) *grid {
	total := 0.0
	for _, w := range parts {
		total += w
	}
	g := &grid{paper: p, head: head}
	for _, w := range parts {
		g.widths = append(g.widths, p.inner*w/total)
	}
	g.line(head, "B", true)
	return g
}

// row writes a row, a weighty one in bold. One that is longer than a page holds
// is continued in the next.
func (g *grid) row(bold bool, cells ...string) {
	style := map[bool]string{true: "B", false: ""}[bold]
	g.SetFont("go", style, textSize)
	var lines [][]string
	tallest := 0
	for i, c := range cells {
		split := g.SplitText(inPlane(c), g.widths[i])
		lines = append(lines, split)
		tallest = max(tallest, len(split))
	}
	for from := 0; from < max(tallest, 1); from += mostLines {
		part := make([]string, len(cells))
		for i, l := range lines {
			part[i] = strings.Join(l[min(from, len(l)):min(from+mostLines, len(l))], "\n")
		}
		g.line(part, style, false)
	}
}

// line writes cells of equal height side by side, on a new page if they need one.
func (g *grid) line(cells []string, style string, shaded bool) {
	g.SetFont("go", style, textSize)
	tall := 1
	lines := make([][]string, len(cells))
	for i, c := range cells {
		lines[i] = g.SplitText(inPlane(c), g.widths[i])
		tall = max(tall, len(lines[i]))
	}
	height := float64(tall)*lineHeight + 1
	if _, page := g.GetPageSize(); g.GetY()+height > page-17 && !slices.Equal(cells, g.head) {
		g.AddPage()
		g.line(g.head, "B", true)
		g.SetFont("go", style, textSize)
	}
	x, y := g.GetXY()
	g.SetFillColor(230, 230, 230)
	for i, width := range g.widths {
		g.Rect(x, y, width, height, map[bool]string{true: "FD", false: "D"}[shaded])
		for n, words := range lines[i] {
			g.SetXY(x, y+0.5+float64(n)*lineHeight)
			g.CellFormat(width, lineHeight, words, "", 0, "L", false, 0, "")
		}
		x += width
	}
	g.SetXY(sheetMargin, y+height)
}
