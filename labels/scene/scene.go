// Package scene draws our pictures (ribbon, gas chart, life line, islands) as
// bars, lines, polygons, rings and words. Screen and paper paint the same
// scene, so what the desk sees is what the night pack prints.
//
// Lengths are points: one pixel at scale 1 on the screen, one typographic point
// on paper. X runs right, Y runs down, the scene's top left corner is (0, 0).
// Shapes are painted in their order, and every shape lies inside its scene.
package scene

// Ink is the role of a colour, never a colour: screen (light and dark) and
// paper each map every ink to one of their own.
type Ink string

// The inks.
const (
	Ground  Ink = "ground"  // what the scene lies on: the window, the sheet
	Panel   Ink = "panel"   // a surface a little set off from the ground
	Rule    Ink = "rule"    // grid lines and separators, quiet
	Text    Ink = "text"    // words, axes, notches and flags
	Faint   Ink = "faint"   // words of second rank, still 4.5:1 on the ground
	Gas     Ink = "gas"     // oxygen in the house
	Loan    Ink = "loan"    // the time a thing spends with a person
	Outline Ink = "outline" // the edge of a hollow bar
	Alarm   Ink = "alarm"   // short and dry: act now
	Caution Ink = "caution" // tight: act soon
	Fine    Ink = "fine"    // holds
	Unsure  Ink = "unsure"  // unknown: ask
	Hatch   Ink = "hatch"   // power out
	Sea     Ink = "sea"     // water on the chart of the islands
	Land    Ink = "land"    // land on the chart of the islands
	Coast   Ink = "coast"   // where land meets water, and the way of a ferry
	Road    Ink = "road"    // on land
)

// Inks lists every ink, so that a painter's test can prove it maps them all.
var Inks = []Ink{Ground, Panel, Rule, Text, Faint, Gas, Loan, Outline, Alarm, Caution, Fine, Unsure, Hatch, Sea, Land, Coast, Road}

// Scene is one picture of W by H points.
type Scene struct {
	W, H   float64
	Shapes []Shape
	Spots  []Spot
}

// Spot is a place in the picture that opens something: a fact, a person, a
// home. Key is the caller's own name for it.
type Spot struct {
	X, Y, R float64
	Key     string
}

// Shape is one of Bar, Frame, Line, Polygon, Ring and Words.
type Shape interface{ moved(dx, dy float64) Shape }

// Bar is a filled rectangle with its top left corner at (X, Y). Fade runs from
// 0, solid, to 1, invisible; between its left and right end the bar fades
// evenly from Fade to FadeTo. Most bars are even: Fade and FadeTo are the same.
type Bar struct {
	X, Y, W, H   float64
	Round        float64 // corner radius; 0 on every bar that fades
	Ink          Ink
	Fade, FadeTo float64
}

// Frame is the edge of a rectangle, drawn centred on its sides. Dash is the
// length of a dash and of the gap after it; 0 draws it unbroken.
type Frame struct {
	X, Y, W, H float64
	Round      float64 // corner radius; 0 when dashed
	Width      float64
	Ink        Ink
	Dash       float64
}

// Line is a straight line. Dash is as in Frame.
type Line struct {
	X1, Y1, X2, Y2 float64
	Width          float64
	Ink            Ink
	Dash           float64
}

// Polygon is a filled polygon; Fade is as in Bar.
type Polygon struct {
	Points []Point
	Ink    Ink
	Fade   float64
}

// Point is one place in a scene.
type Point struct{ X, Y float64 }

// Ring is a circle of radius R around (X, Y), filled with Fill and edged with a
// line of the given Width in Ink, centred on R. An empty Fill leaves it hollow.
type Ring struct {
	X, Y, R, Width float64
	Ink, Fill      Ink
}

// Align says which part of the words stands at X.
type Align int

// The alignments.
const (
	Left Align = iota
	Middle
	Right
)

// Words is one line of text. Y is the baseline, Size the height of the em.
type Words struct {
	X, Y, Size float64
	Bold       bool
	Align      Align
	Text       string
	Ink        Ink
}

// Place paints inner into s with inner's top left corner at (x, y).
func (s *Scene) Place(inner Scene, x, y float64) {
	for _, sh := range inner.Shapes {
		s.add(sh.moved(x, y))
	}
	for _, sp := range inner.Spots {
		sp.X, sp.Y = sp.X+x, sp.Y+y
		s.Spots = append(s.Spots, sp)
	}
}

func (s *Scene) add(shapes ...Shape) { s.Shapes = append(s.Shapes, shapes...) }

func (b Bar) moved(dx, dy float64) Shape {
	b.X, b.Y = b.X+dx, b.Y+dy
	return b
}

func (f Frame) moved(dx, dy float64) Shape {
	f.X, f.Y = f.X+dx, f.Y+dy
	return f
}

func (l Line) moved(dx, dy float64) Shape {
	l.X1, l.X2, l.Y1, l.Y2 = l.X1+dx, l.X2+dx, l.Y1+dy, l.Y2+dy
	return l
}

func (p Polygon) moved(dx, dy float64) Shape {
	points := make([]Point, len(p.Points))
	for i, q := range p.Points {
		points[i] = Point{q.X + dx, q.Y + dy}
	}
	p.Points = points
	return p
}

func (r Ring) moved(dx, dy float64) Shape {
	r.X, r.Y = r.X+dx, r.Y+dy
	return r
}

func (w Words) moved(dx, dy float64) Shape {
	w.X, w.Y = w.X+dx, w.Y+dy
	return w
}
