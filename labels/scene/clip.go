package scene

import "math"

// clipRing returns what of a closed ring lies in a rectangle (Sutherland &
// Hodgman, Communications of the ACM 17(1), 1974).
func clipRing(ring []Point, b box) []Point {
	for _, side := range []struct {
		inside func(Point) bool
		cut    func(p, q Point) Point
	}{
		{func(p Point) bool { return p.X >= b.left }, func(p, q Point) Point { return atX(p, q, b.left) }},
		{func(p Point) bool { return p.X <= b.right }, func(p, q Point) Point { return atX(p, q, b.right) }},
		{func(p Point) bool { return p.Y >= b.top }, func(p, q Point) Point { return atY(p, q, b.top) }},
		{func(p Point) bool { return p.Y <= b.bottom }, func(p, q Point) Point { return atY(p, q, b.bottom) }},
	} {
		var kept []Point
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			if side.inside(p) {
				kept = append(kept, p)
			}
			if side.inside(p) != side.inside(q) {
				kept = append(kept, side.cut(p, q))
			}
		}
		ring = kept
	}
	return ring
}

func atX(p, q Point, x float64) Point { return Point{x, p.Y + (q.Y-p.Y)*(x-p.X)/(q.X-p.X)} }
func atY(p, q Point, y float64) Point { return Point{p.X + (q.X-p.X)*(y-p.Y)/(q.Y-p.Y), y} }

// clipLine returns what of a line lies in a rectangle (Liang & Barsky, ACM
// Transactions on Graphics 3(1), 1984), and whether anything does.
func clipLine(p, q Point, b box) (Point, Point, bool) {
	from, to := 0.0, 1.0
	dx, dy := q.X-p.X, q.Y-p.Y
	for _, edge := range [][2]float64{{-dx, p.X - b.left}, {dx, b.right - p.X}, {-dy, p.Y - b.top}, {dy, b.bottom - p.Y}} {
		run, room := edge[0], edge[1]
		switch {
		case run == 0 && room < 0:
			return p, q, false
		case run < 0:
			from = math.Max(from, room/run)
		case run > 0:
			to = math.Min(to, room/run)
		}
	}
	if from > to {
		return p, q, false
	}
	return Point{p.X + from*dx, p.Y + from*dy}, Point{p.X + to*dx, p.Y + to*dy}, true
}

// thinned leaves out points so near the one before that nobody sees them.
func thinned(points []Point) []Point {
	const unseen = 0.8
	kept := points[:0]
	for i, p := range points {
		if i == 0 || i == len(points)-1 || math.Abs(p.X-kept[len(kept)-1].X)+math.Abs(p.Y-kept[len(kept)-1].Y) >= unseen {
			kept = append(kept, p)
		}
	}
	return kept
}
