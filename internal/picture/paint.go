package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// letters are the two weights of the font, parsed once. They are compiled in:
// that they can be read is a fact of the build.
var letters = sync.OnceValue(func() map[bool]*opentype.Font {
	fonts := map[bool]*opentype.Font{}
	for bold, data := range map[bool][]byte{false: goregular.TTF, true: gobold.TTF} {
		f, err := opentype.Parse(data)
		if err != nil {
			panic(fmt.Sprintf("the font that is compiled in cannot be read: %v", err))
		}
		fonts[bold] = f
	}
	return fonts
})

// faces are the letters in the sizes that a page uses. A face must not be used
// by two goroutines, so each page has its own.
type faces struct {
	made   map[style]font.Face
	buffer sfnt.Buffer
}

func newFaces() *faces { return &faces{made: map[style]font.Face{}} }

func (f *faces) face(s style) font.Face {
	if face, ok := f.made[s]; ok {
		return face
	}
	face, err := opentype.NewFace(letters()[s.bold], &opentype.FaceOptions{Size: s.size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		panic(fmt.Sprintf("letters of %v px cannot be made: %v", s.size, err))
	}
	f.made[s] = face
	return face
}

// clean is words with every character that the font can show; another is a box,
// and what has no width is gone.
func (f *faces) clean(words string, bold bool) string {
	return strings.Map(func(r rune) rune {
		switch i, err := letters()[bold].GlyphIndex(&f.buffer, r); {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Mn, r), unicode.Is(unicode.Cf, r), r >= 0xfe00 && r <= 0xfe0f:
			return -1
		case err != nil || i == 0:
			return '□'
		}
		return r
	}, words)
}

// width is how many pixels words take.
func (f *faces) width(words string, s style) float64 {
	return float64(font.MeasureString(f.face(s), words)) / 64
}

// paint paints the page.
func (p *page) paint() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, pageWidth, int(math.Ceil(p.height))))
	draw.Draw(img, img.Bounds(), image.NewUniform(ground), image.Point{}, draw.Src)
	for _, s := range p.shapes {
		s.paint(img)
	}
	for _, t := range p.texts {
		d := font.Drawer{Dst: img, Src: image.NewUniform(t.ink), Face: p.faces.face(t.style),
			Dot: fixed.Point26_6{X: fixed.Int26_6(t.left * 64), Y: fixed.Int26_6(math.Round(t.base) * 64)}}
		d.DrawString(t.words)
	}
	return img
}

// png is the painted page as a file.
func (p *page) png() ([]byte, error) {
	var out bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(&out, p.paint()); err != nil {
		return nil, fmt.Errorf("write the picture: %w", err)
	}
	return out.Bytes(), nil
}

// paint fills the shape; only its own part of the picture is touched.
func (s shape) paint(img *image.RGBA) {
	b := s.bounds().Intersect(img.Bounds())
	if b.Empty() {
		return
	}
	var r vector.Rasterizer
	r.Reset(b.Dx(), b.Dy())
	for _, c := range s.contours {
		for i, pt := range c {
			x, y := float32(pt.x-float64(b.Min.X)), float32(pt.y-float64(b.Min.Y))
			if i == 0 {
				r.MoveTo(x, y)
			} else {
				r.LineTo(x, y)
			}
		}
		r.ClosePath()
	}
	r.Draw(img, b, image.NewUniform(color.Color(s.ink)), image.Point{})
}

func (s shape) bounds() image.Rectangle {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, c := range s.contours {
		for _, pt := range c {
			x0, y0, x1, y1 = min(x0, pt.x), min(y0, pt.y), max(x1, pt.x), max(y1, pt.y)
		}
	}
	if x0 > x1 {
		return image.Rectangle{}
	}
	return image.Rect(int(math.Floor(x0)), int(math.Floor(y0)), int(math.Ceil(x1)), int(math.Ceil(y1)))
}
