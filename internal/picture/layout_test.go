package picture

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestEveryPageCanBeRead holds what makes a picture legible, whatever it shows.
func TestEveryPageCanBeRead(t *testing.T) {
	for name, p := range samples() {
		t.Run(name, func(t *testing.T) {
			bare := &page{height: p.height, shapes: p.shapes, faces: p.faces}
			ground := bare.paint()
			if ground.Bounds().Dx() != pageWidth {
				t.Errorf("%d wide", ground.Bounds().Dx())
			}
			for i, a := range p.texts {
				readable(t, p, a, ground)
				for _, b := range p.texts[i+1:] {
					if overlap(a, b) {
						t.Errorf("%q and %q overlap", a.words, b.words)
					}
				}
			}
		})
	}
}

// least is the contrast that WCAG 2.1 asks of text (success criterion 1.4.3).
const least = 4.5

func readable(t *testing.T, p *page, x text, ground *image.RGBA) {
	t.Helper()
	left, top, right, bottom := x.box()
	if x.style.size < smallest {
		t.Errorf("%q is %v px high", x.words, x.style.size)
	}
	if left < 0 || right > pageWidth-8 || top < 0 || bottom > p.height {
		t.Errorf("%q runs off the page: %v to %v, %v to %v of %v", x.words, left, right, top, bottom, p.height)
	}
	if c := Contrast(x.ink, x.on); c < least {
		t.Errorf("%q has a contrast of %.2f", x.words, c)
	}
	for _, at := range [][2]float64{{left + 1, top + 1}, {right - 1, top + 1}, {left + 1, bottom - 1}, {right - 1, bottom - 1}, {(left + right) / 2, x.base}} {
		if got := ground.RGBAAt(int(at[0]), int(at[1])); got != x.on {
			t.Errorf("%q stands on %v at %v, not on %v", x.words, got, at, x.on)
			return
		}
	}
}

func overlap(a, b text) bool {
	al, at, ar, ab := a.box()
	bl, bt, br, bb := b.box()
	return al < br && bl < ar && at < bb && bt < ab
}

func TestPNG(t *testing.T) {
	data, err := smallBoard().PNG()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil || img.Bounds().Dx() != pageWidth || len(data) > 500_000 {
		t.Errorf("%v, %d bytes: %v", img.Bounds(), len(data), err)
	}
}

// TestContrast: the pairs are those of "Understanding WCAG 2.1", 1.4.3, and of
// its definition: black on white is 21, #777777 on white is 4.48 and just fails.
func TestContrast(t *testing.T) {
	white := color.RGBA{255, 255, 255, 255}
	for _, c := range []struct {
		ink  color.RGBA
		want float64
	}{{color.RGBA{0, 0, 0, 255}, 21}, {white, 1}, {color.RGBA{0x77, 0x77, 0x77, 255}, 4.48}, {color.RGBA{0x76, 0x76, 0x76, 255}, 4.54}} {
		if got := Contrast(c.ink, white); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%v on white: %.3f, want %.2f", c.ink, got, c.want)
		}
	}
}

// TestMarksDifferWithoutColour: each mark, drawn in one ink, covers other pixels
// than every other.
func TestMarksDifferWithoutColour(t *testing.T) {
	masks := map[State][]bool{}
	for _, s := range states {
		p := newPage()
		p.height = 64
		p.mark(s, 0, 0, 64, ground)
		for i := range p.shapes {
			if p.shapes[i].ink != ground {
				p.shapes[i].ink = bright
			}
		}
		img := p.paint()
		for y := range 64 {
			for x := range 64 {
				r, _, _, _ := img.At(x, y).RGBA()
				masks[s] = append(masks[s], r > 0x8000)
			}
		}
	}
	for i, a := range states {
		for _, b := range states[i+1:] {
			differ := 0
			for k := range masks[a] {
				if masks[a][k] != masks[b][k] {
					differ++
				}
			}
			if differ < 64*64/20 {
				t.Errorf("the marks of %s and %s differ in %d of %d pixels only", a, b, differ, 64*64)
			}
		}
	}
}

// TestAltTextsFit: what chat services take, and never empty.
func TestAltTextsFit(t *testing.T) {
	for name, alt := range map[string]string{
		"board": smallBoard().Alt(), "board_many": bigBoard(40, 6).Alt(), "board_long": longBoard().Alt(), "board_dawn": dawnBoard().Alt(),
		"year": smallYear().Alt(), "year_long": longYear().Alt(), "month": bigMonth(8, "Engine %d").Alt(),
		"month_long": bigMonth(40, "Heavy Technical Rescue and Hazardous Materials Company %d, North Annex").Alt(),
	} {
		if n := utf8.RuneCountInString(alt); n < 60 || n > altMost || !utf8.ValidString(alt) {
			t.Errorf("%s: %d characters: %s", name, n, alt)
		}
	}
	for _, want := range []string{"3 of 5 companies", "CT-02 (Truck 1, crack)", "HH-01 (Engine 1, cover nick)", "Engine 2: 17 of 17"} {
		if alt := smallBoard().Alt(); !strings.Contains(alt, want) {
			t.Errorf("the board's text lacks %q: %s", want, alt)
		}
	}
}

func TestFitKeepsBothEnds(t *testing.T) {
	p := newPage()
	got := p.fit("Heavy Technical Rescue Company 14", strong, 300)
	if !strings.HasPrefix(got, "Heavy") || !strings.HasSuffix(got, "14") || p.faces.width(got, strong) > 300 {
		t.Errorf("fitted %q", got)
	}
	if got := p.fit("PU-01", strong, 300); got != "PU-01" {
		t.Errorf("shortened %q without need", got)
	}
}

// TestLettersThatTheFontLacks are shown as a box, and take up no other's room.
func TestLettersThatTheFontLacks(t *testing.T) {
	p := newPage()
	for words, want := range map[string]string{
		"PU-01 Żółw Ελλάδα Пожар ½ “”…·–": "PU-01 Żółw Ελλάδα Пожар ½ “”…·–",
		"nick 👍🏽 left\those\x00":          "nick □□ left hose",
		"消防":                              "□□",
		"e\u0301\u200b":                   "e",
	} {
		if got := p.fit(words, plain, 2000); got != want {
			t.Errorf("%q is written as %q, want %q", words, got, want)
		}
	}
}

func BenchmarkBoard(b *testing.B) {
	board := bigBoard(40, 6)
	for b.Loop() {
		if _, err := board.PNG(); err != nil {
			b.Fatal(err)
		}
	}
}
