package scene

import "math"

// choosing adds the area that is being drawn and the place that is being set.
func (m *islands) choosing(data MapData) {
	if len(data.Area) >= 2 {
		points := m.points(data.Area)
		m.stroke(append(points, points[0]), 1.8, Outline, 5)
	}
	if data.Pin == nil {
		return
	}
	if p := m.point(*data.Pin); m.sees(p, 26) {
		m.add(
			Ring{p.X, p.Y, 9, 2, Text, ""},
			Line{p.X - 12, p.Y, p.X + 12, p.Y, 1.2, Text, 0},
			Line{p.X, p.Y - 12, p.X, p.Y + 12, 1.2, Text, 0},
		)
	}
}

// scale adds a bar of a round length and the north sign.
func (m *islands) scale() {
	unit, name := m.sight.PerKm(), " km"
	if unit > 400 {
		unit, name = unit/1000, " m"
	}
	step := niceStep(60 / unit)
	long, y := step*unit, m.H-10
	m.add(
		Line{10, y, 10 + long, y, 2, Text, 0},
		Line{10, y - 4, 10, y + 1, 2, Text, 0},
		Line{10 + long, y - 4, 10 + long, y + 1, 2, Text, 0},
		Words{X: 14, Y: y - 5, Size: 10, Text: thousands(step) + name, Ink: Text},
		Polygon{Points: []Point{{m.W - 16, 8}, {m.W - 11, 20}, {m.W - 21, 20}}, Ink: Text},
		Words{X: m.W - 16, Y: 31, Size: 10, Bold: true, Align: Middle, Text: "N", Ink: Text},
	)
	m.taken.take(box{6, y - 18, math.Max(60, 14+long), m.H})
	m.taken.take(box{m.W - 24, 4, m.W - 8, 34})
}

// MapKey explains the signs of the map in one row.
func MapKey(w, h float64) Scene {
	const least, mark = 14, 11.0
	s := Scene{W: w, H: h}
	if h < least {
		return s
	}
	k := keyRow{&s, 0, h/2 + keySize*0.36}
	for _, verdict := range []string{Dry, Short, Unknown, Tight, Holds} {
		k.say(verdict, mark, func(x, mid float64) []Shape { return placed(VerdictMark(verdict, mark), x, mid-mark/2) })
	}
	k.say("no oxygen now", 8, func(x, mid float64) []Shape { return []Shape{Ring{X: x + 4, Y: mid, R: 3, Width: 1.5, Ink: Faint}} })
	k.say("depot", mark, func(x, mid float64) []Shape {
		return []Shape{Bar{X: x, Y: mid - 5, W: 10, H: 10, Ink: Text}, Bar{X: x + 3.5, Y: mid - 1.5, W: 3, H: 3, Ink: Ground}}
	})
	for i, run := range []string{"run", "another run"} {
		k.say(run, 26, func(x, mid float64) []Shape { return []Shape{Line{x, mid, x + 26, mid, 2, Gas, routeDash[i]}} })
	}
	k.say("place only about right", 7, func(x, mid float64) []Shape {
		return []Shape{Words{X: x, Y: mid + 4, Size: keySize, Bold: true, Text: "?", Ink: Text}}
	})
	return s
}

// placed returns the shapes of a scene with its top left corner at (x, y).
func placed(inner Scene, x, y float64) []Shape {
	var s Scene
	s.Place(inner, x, y)
	return s.Shapes
}
