package picture

import (
	"image/color"
	"math"
)

// The inks. Every text stands on ground or panel in one of them, with a contrast
// of 4.5 to 1 or better.
var (
	ground = color.RGBA{0x0e, 0x13, 0x19, 0xff}
	panel  = color.RGBA{0x1c, 0x25, 0x2f, 0xff}
	edge   = color.RGBA{0x3c, 0x4a, 0x59, 0xff} // lines that only divide
	bright = color.RGBA{0xf4, 0xf7, 0xfa, 0xff}
	soft   = color.RGBA{0xb6, 0xc2, 0xce, 0xff}
	green  = color.RGBA{0x58, 0xc9, 0x8b, 0xff}
	amber  = color.RGBA{0xff, 0xc2, 0x47, 0xff}
	red    = color.RGBA{0xff, 0x85, 0x7a, 0xff}
	blue   = color.RGBA{0x86, 0xbc, 0xff, 0xff}
)

// Contrast is the contrast ratio of two colours, 1 to 21, by the formula of WCAG
// 2.1, "contrast ratio" and "relative luminance".
func Contrast(a, b color.RGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c color.RGBA) float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func linear(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.03928 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}
