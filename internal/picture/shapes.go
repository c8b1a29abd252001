package picture

import "math"

// rect is a rectangle.
func rect(x, y, w, h float64) []point {
	return []point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
}

// rounded is a rectangle with round corners.
func rounded(x, y, w, h, r float64) []point {
	r = min(r, w/2, h/2)
	var c []point
	for _, k := range []struct{ cx, cy, from float64 }{
		{x + w - r, y + r, -90}, {x + w - r, y + h - r, 0}, {x + r, y + h - r, 90}, {x + r, y + r, 180},
	} {
		c = append(c, arc(k.cx, k.cy, r, k.from, k.from+90, 8)...)
	}
	return c
}

// arc is the part of a circle between two angles in degrees.
func arc(cx, cy, r, from, to float64, steps int) []point {
	var c []point
	for i := 0; i <= steps; i++ {
		a := (from + (to-from)*float64(i)/float64(steps)) * math.Pi / 180
		c = append(c, point{cx + r*math.Cos(a), cy + r*math.Sin(a)})
	}
	return c
}

func circle(cx, cy, r float64) []point { return arc(cx, cy, r, 0, 360, 48) }

// hole turns a contour round, so that it cuts out of the one around it.
func hole(c []point) []point {
	back := make([]point, len(c))
	for i, p := range c {
		back[len(c)-1-i] = p
	}
	return back
}

// stroke is a straight line of a width.
func stroke(a, b point, width float64) []point {
	dx, dy := b.x-a.x, b.y-a.y
	n := math.Hypot(dx, dy)
	if n == 0 {
		return nil
	}
	ox, oy := -dy/n*width/2, dx/n*width/2
	return []point{{a.x + ox, a.y + oy}, {b.x + ox, b.y + oy}, {b.x - ox, b.y - oy}, {a.x - ox, a.y - oy}}
}

// frame is the outline of a rectangle.
func frame(x, y, w, h, width float64) [][]point {
	return [][]point{rect(x, y, w, h), hole(rect(x+width, y+width, w-2*width, h-2*width))}
}

// path strokes a line through points; its joints are round.
func path(points []point, width float64) [][]point {
	var cs [][]point
	for i := 1; i < len(points); i++ {
		if s := stroke(points[i-1], points[i], width); s != nil {
			cs = append(cs, s)
		}
		cs = append(cs, arc(points[i].x, points[i].y, width/2, 0, 360, 12))
	}
	return cs
}
