package scene

import (
	"math"
	"slices"
)

// This file breaks shapes into simpler ones, for painters that lack gradients,
// dashes or polygons.

// Steps returns the bar as n even bars side by side, each of one fade.
func (b Bar) Steps(n int) []Bar {
	if n < 2 || b.Fade == b.FadeTo {
		mean := (b.Fade + b.FadeTo) / 2
		b.Fade, b.FadeTo = mean, mean
		return []Bar{b}
	}
	steps := make([]Bar, n)
	for i := range steps {
		share := (float64(i) + 0.5) / float64(n)
		fade := b.Fade + (b.FadeTo-b.Fade)*share
		steps[i] = Bar{
			X: b.X + b.W*float64(i)/float64(n), Y: b.Y, W: b.W / float64(n), H: b.H,
			Ink: b.Ink, Fade: fade, FadeTo: fade,
		}
	}
	return steps
}

// Dashes returns the line as its unbroken dashes.
func (l Line) Dashes() []Line {
	length := math.Hypot(l.X2-l.X1, l.Y2-l.Y1)
	if l.Dash <= 0 || length == 0 {
		l.Dash = 0
		return []Line{l}
	}
	at := func(d float64) Point {
		return Point{l.X1 + (l.X2-l.X1)*d/length, l.Y1 + (l.Y2-l.Y1)*d/length}
	}
	var dashes []Line
	for d := 0.0; d < length; d += 2 * l.Dash {
		from, to := at(d), at(math.Min(d+l.Dash, length))
		dashes = append(dashes, Line{from.X, from.Y, to.X, to.Y, l.Width, l.Ink, 0})
	}
	return dashes
}

// Sides returns the frame as four lines with square corners, dashed as it is.
func (f Frame) Sides() []Line {
	side := func(x1, y1, x2, y2 float64) Line { return Line{x1, y1, x2, y2, f.Width, f.Ink, f.Dash} }
	right, bottom := f.X+f.W, f.Y+f.H
	return []Line{
		side(f.X, f.Y, right, f.Y), side(right, f.Y, right, bottom),
		side(right, bottom, f.X, bottom), side(f.X, bottom, f.X, f.Y),
	}
}

// Strips returns the polygon as bars of the given height, stacked from its top;
// inside is what an odd number of edges encloses.
func (p Polygon) Strips(height float64) []Bar {
	if len(p.Points) < 3 || height <= 0 {
		return nil
	}
	top, bottom := p.Points[0].Y, p.Points[0].Y
	for _, q := range p.Points {
		top, bottom = math.Min(top, q.Y), math.Max(bottom, q.Y)
	}
	var strips []Bar
	for y := top; y < bottom; y += height {
		h := math.Min(height, bottom-y)
		cuts := p.cuts(y + h/2)
		for i := 0; i+1 < len(cuts); i += 2 {
			strips = append(strips, Bar{
				X: cuts[i], Y: y, W: cuts[i+1] - cuts[i], H: h,
				Ink: p.Ink, Fade: p.Fade, FadeTo: p.Fade,
			})
		}
	}
	return strips
}

// cuts returns where the level y crosses the polygon's edges, left to right.
func (p Polygon) cuts(y float64) []float64 {
	var xs []float64
	for i, a := range p.Points {
		b := p.Points[(i+1)%len(p.Points)]
		if (a.Y <= y) == (b.Y <= y) {
			continue
		}
		xs = append(xs, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
	}
	slices.Sort(xs)
	return xs
}
