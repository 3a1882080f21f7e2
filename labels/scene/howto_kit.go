package scene

import "math"

// What the drawings of a household's oxygen are made of. The corner given is
// the top left one of the thing.

// edge is the width of an outline.
const edge = 2.0

// body adds a filled, outlined, rounded box.
func (s *Scene) body(x, y, w, h, round float64, ink Ink) {
	s.add(Bar{X: x, Y: y, W: w, H: h, Round: round, Ink: ink}, Frame{X: x, Y: y, W: w, H: h, Round: round, Width: edge, Ink: Text})
}

// curve adds a line bent towards a point, as a tube or a cord lies.
func (s *Scene) curve(from, towards, to Point, width float64, ink Ink) {
	const parts = 14
	last := from
	for i := 1; i <= parts; i++ {
		t := float64(i) / parts
		at := func(a, b, c float64) float64 { return (1-t)*(1-t)*a + 2*t*(1-t)*b + t*t*c }
		next := Point{at(from.X, towards.X, to.X), at(from.Y, towards.Y, to.Y)}
		s.add(Line{last.X, last.Y, next.X, next.Y, width, ink, 0}, Ring{X: next.X, Y: next.Y, R: width / 2, Ink: ink, Fill: ink})
		last = next
	}
}

// arrow adds a fat arrow.
func (s *Scene) arrow(x1, y1, x2, y2 float64) {
	long := math.Hypot(x2-x1, y2-y1)
	dx, dy := (x2-x1)/long, (y2-y1)/long
	const head, half = 13.0, 8.0
	s.add(
		Line{x1, y1, x2 - dx*head, y2 - dy*head, 5, Alarm, 0},
		Polygon{Points: []Point{{x2, y2}, {x2 - dx*head - dy*half, y2 - dy*head + dx*half}, {x2 - dx*head + dy*half, y2 - dy*head - dx*half}}, Ink: Alarm},
	)
}

// turn adds an arrow around a point, over its top; to the left opens a valve.
func (s *Scene) turn(x, y, r float64, left bool) {
	const parts = 16
	way := 1.0
	if left {
		way = -1
	}
	on := func(i int) Point {
		a := way * (-1.15 + 2.0*float64(i)/parts)
		return Point{x + r*math.Sin(a), y - r*math.Cos(a)*0.55}
	}
	for i := range parts - 1 {
		a, b := on(i), on(i+1)
		s.add(Line{a.X, a.Y, b.X, b.Y, 5, Alarm, 0}, Ring{X: b.X, Y: b.Y, R: 2.5, Ink: Alarm, Fill: Alarm})
	}
	tail, tip := on(parts-2), on(parts+2)
	s.arrow(tail.X, tail.Y, tip.X, tip.Y)
}

// cylinder adds a cylinder with valve and regulator, 30 wide and h tall, with
// the outlet of the regulator returned.
func (s *Scene) cylinder(x, y, h float64) (outlet Point) {
	mid := x + 15
	s.add(Bar{X: mid - 4, Y: y, W: 8, H: 20, Ink: Text}, Bar{X: mid - 9, Y: y, W: 18, H: 5, Round: 2, Ink: Text})
	s.body(x, y+18, 30, h-18, 9, Gas)
	s.add(Bar{X: x + 4, Y: y + h*0.55, W: 22, H: 12, Ink: Ground})
	s.add(Words{X: mid, Y: y + h*0.55 + 10, Size: 10, Bold: true, Align: Middle, Text: "O₂", Ink: Text})
	s.add(Bar{X: mid + 4, Y: y + 8, W: 15, H: 7, Ink: Text})
	s.add(Ring{X: mid + 23, Y: y + 11.5, R: 6, Width: edge, Ink: Text, Fill: Ground}, Line{mid + 23, y + 11.5, mid + 26, y + 8, 1.5, Alarm, 0})
	return Point{mid + 23, y + 18}
}

// machine adds a concentrator, 44 wide and 68 tall: flow meter, switch, outlet
// at its top right corner, wheels.
func (s *Scene) machine(x, y float64) {
	s.body(x, y, 44, 62, 5, Panel)
	s.body(x+6, y+8, 9, 26, 2, Ground)
	s.add(Ring{X: x + 10.5, Y: y + 21, R: 3, Ink: Text, Fill: Text})
	s.body(x+28, y+18, 10, 12, 2, Ground)
	s.add(Line{x + 33, y + 21, x + 33, y + 27, 2, Text, 0})
	for i := range 4 {
		s.add(Line{x + 8, y + 42 + 4*float64(i), x + 36, y + 42 + 4*float64(i), 1, Faint, 0})
	}
	s.add(Bar{X: x + 30, Y: y - 6, W: 6, H: 7, Ink: Text})
	for _, at := range []float64{x + 8, x + 36} {
		s.add(Ring{X: at, Y: y + 65, R: 3.5, Width: edge, Ink: Text, Fill: Ground})
	}
}

// machineOutlet is where a tube leaves a machine drawn at x, y.
func machineOutlet(x, y float64) Point { return Point{x + 33, y - 6} }

func (s *Scene) socket(x, y float64) {
	s.body(x, y, 24, 24, 3, Ground)
	s.add(Ring{X: x + 8, Y: y + 12, R: 2, Ink: Text, Fill: Text}, Ring{X: x + 16, Y: y + 12, R: 2, Ink: Text, Fill: Text})
}

func (s *Scene) plug(x, y float64) {
	s.add(Bar{X: x, Y: y - 7, W: 13, H: 14, Round: 3, Ink: Text}, Bar{X: x + 13, Y: y - 4.5, W: 7, H: 2.5, Ink: Text}, Bar{X: x + 13, Y: y + 2, W: 7, H: 2.5, Ink: Text})
}

func (s *Scene) clock(x, y, r float64) {
	s.add(Ring{X: x, Y: y, R: r, Width: 3, Ink: Text, Fill: Ground})
	for i := range 12 {
		a := float64(i) * math.Pi / 6
		s.add(Line{x + (r-6)*math.Sin(a), y - (r-6)*math.Cos(a), x + (r-3)*math.Sin(a), y - (r-3)*math.Cos(a), 1.5, Text, 0})
	}
	s.add(Line{x, y, x, y - r*0.62, 3, Text, 0}, Line{x, y, x + r*0.42, y + r*0.2, 3, Text, 0})
}

// face adds a head that breathes through prongs; the tube leaves at the point
// returned.
func (s *Scene) face(x, y, r float64) (tube Point) {
	s.add(Ring{X: x, Y: y, R: r, Width: edge, Ink: Text, Fill: Ground})
	s.add(Ring{X: x - r*0.36, Y: y - r*0.22, R: 2, Ink: Text, Fill: Text}, Ring{X: x + r*0.36, Y: y - r*0.22, R: 2, Ink: Text, Fill: Text})
	s.curve(Point{x - r*0.3, y + r*0.52}, Point{x, y + r*0.72}, Point{x + r*0.3, y + r*0.52}, 1.8, Text)
	s.curve(Point{x - r, y - r*0.05}, Point{x, y + r*0.5}, Point{x + r, y - r*0.05}, 2.6, Gas)
	s.add(Line{x - 3, y + r*0.22, x - 3, y + r*0.04, 2.4, Gas, 0}, Line{x + 3, y + r*0.22, x + 3, y + r*0.04, 2.4, Gas, 0})
	return Point{x + r, y - r*0.05}
}

// strike adds the ring and bar that forbid what lies under them.
func (s *Scene) strike(x, y, r float64) {
	off := r * math.Sqrt2 / 2
	s.add(Ring{X: x, Y: y, R: r, Width: r * 0.16, Ink: Alarm}, Line{x - off, y - off, x + off, y + off, r * 0.16, Alarm, 0})
}

// cigarette adds a burning cigarette around a point.
func (s *Scene) cigarette(x, y, scale float64) {
	at := func(dx, dy float64) Point { return Point{x + dx*scale, y + dy*scale} }
	a, b, c := at(-32, 4), at(-12, 4), at(28, 4)
	s.add(
		Bar{X: a.X, Y: a.Y, W: 60 * scale, H: 9 * scale, Ink: Ground}, Frame{X: a.X, Y: a.Y, W: 60 * scale, H: 9 * scale, Width: edge * scale, Ink: Text},
		Bar{X: a.X, Y: a.Y, W: b.X - a.X, H: 9 * scale, Ink: Faint}, Bar{X: c.X, Y: c.Y, W: 5 * scale, H: 9 * scale, Ink: Alarm},
	)
	s.curve(at(31, 0), at(20, -10), at(29, -18), 2.4*scale, Text)
	s.curve(at(29, -18), at(36, -24), at(28, -31), 2.4*scale, Text)
}

// flame adds a candle with its flame.
func (s *Scene) flame(x, y float64) {
	s.body(x-6, y, 12, 34, 1, Panel)
	s.add(
		Line{x, y, x, y - 5, 2, Text, 0},
		Polygon{Points: []Point{{x, y - 30}, {x + 6, y - 18}, {x + 7, y - 10}, {x, y - 4}, {x - 7, y - 10}, {x - 6, y - 18}}, Ink: Caution},
	)
}

// bolt adds a flash of lightning, 16 wide and 40 tall.
func (s *Scene) bolt(x, y float64) {
	s.add(Polygon{Points: []Point{{x + 10, y}, {x - 2, y + 24}, {x + 5, y + 24}, {x + 1, y + 42}, {x + 15, y + 16}, {x + 7, y + 16}, {x + 13, y}}, Ink: Caution})
}

// tickMark adds a tick.
func (s *Scene) tickMark(x, y float64) {
	s.add(
		Ring{X: x, Y: y, R: 8, Width: 1.5, Ink: Fine, Fill: Ground},
		Line{x - 4, y, x - 1, y + 4, 2.2, Fine, 0}, Line{x - 1, y + 4, x + 5, y - 4, 2.2, Fine, 0},
	)
}
