package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Map shows part of the earth. It is pushed and zoomed by pointer and keys,
// and an area can be drawn on it. It holds the sight; what is drawn is the
// screen's.
type Map struct {
	widget.BaseWidget

	// OnSpot is called with the key of the spot that was opened, and OnHand
	// with that of the spot that came to hand.
	OnSpot, OnHand func(key string)
	// OnPlace is called with the position that was pointed at beside every spot.
	OnPlace func(scene.Position)
	// OnArea is called with the closed line drawn, while it grows; done when it
	// is let go.
	OnArea func(line []scene.Position, done bool)
	// OnRune and OnKey are offered what the map has no use for.
	OnRune func(rune)
	OnKey  func(fyne.KeyName) bool
	// OnDone is called on Ctrl+Enter.
	OnDone func()

	// Whole returns everything the map is to show at first.
	Whole func() []scene.Position

	sight    scene.Sight
	draw     func(scene.Sight, float64, float64) scene.Scene
	picture  *Picture
	inHand   string
	focused  bool
	modifier fyne.KeyModifier // held while the pointer pulls
	shift    bool             // held on the keyboard
	line     []scene.Position // being drawn
	corner   scene.Position   // where a rectangle began
	grown    scene.Point      // by keys, from the rectangle's corner
	pulling  bool
}

var (
	_ fyne.Focusable    = (*Map)(nil)
	_ fyne.Shortcutable = (*Map)(nil)
	_ fyne.Tappable     = (*Map)(nil)
	_ fyne.Draggable    = (*Map)(nil)
	_ fyne.Scrollable   = (*Map)(nil)
	_ desktop.Mouseable = (*Map)(nil)
	_ desktop.Keyable   = (*Map)(nil)
)

// NewMap returns a map that draws what it is told for a sight.
func NewMap(draw func(sight scene.Sight, w, h float64) scene.Scene) *Map {
	m := &Map{draw: draw, Whole: func() []scene.Position { return nil }}
	m.ExtendBaseWidget(m)
	m.picture = NewPicture(fyne.NewSize(200, 160), func(w, h float64) scene.Scene {
		s := m.draw(m.sightFor(w, h), w, h)
		if m.focused {
			s.Shapes = append(s.Shapes, scene.Frame{X: 1, Y: 1, W: w - 2, H: h - 2, Width: 1.5, Ink: scene.Outline})
		}
		return s
	})
	return m
}

// sightFor returns the sight; everything until it was pushed or zoomed.
func (m *Map) sightFor(w, h float64) scene.Sight {
	if m.sight.Scale > 0 {
		return m.sight
	}
	all, _ := scene.Fit(m.Whole(), w, h)
	return all
}

func (m *Map) extent() (w, h float64) {
	return float64(m.Size().Width), float64(m.Size().Height)
}

func (m *Map) current() scene.Sight {
	w, h := m.extent()
	return m.sightFor(w, h)
}

// Sight is the part shown.
func (m *Map) Sight() scene.Sight { return m.current() }

// SetSight shows another part; the zero Sight everything.
func (m *Map) SetSight(s scene.Sight) {
	m.sight = s
	m.picture.Refresh()
}

// Bring brings a position into sight when it lies outside, or near the rim.
func (m *Map) Bring(p scene.Position) {
	const rim = 40
	w, h := m.extent()
	s := m.current()
	at := s.Point(p, w, h)
	if at.X < rim || at.Y < rim || at.X > w-rim || at.Y > h-rim {
		m.SetSight(s.Moved(w/2-at.X, h/2-at.Y))
	}
}

// Take brings a spot to hand.
func (m *Map) Take(key string) {
	m.inHand = key
	m.picture.Refresh()
}

func (m *Map) position(at fyne.Position) scene.Position {
	w, h := m.extent()
	return m.current().Position(scene.Point{X: float64(at.X), Y: float64(at.Y)}, w, h)
}

// spot is the key of the nearest spot to a point, or "".
func (m *Map) spot(at fyne.Position) string {
	key, nearest := "", math.Inf(1)
	for _, s := range m.picture.Scene().Spots {
		if d := math.Hypot(float64(at.X)-s.X, float64(at.Y)-s.Y); d <= math.Max(s.R, reach) && d < nearest {
			key, nearest = s.Key, d
		}
	}
	return key
}

// Tapped takes the spot under the pointer; taken already, it opens.
func (m *Map) Tapped(e *fyne.PointEvent) {
	focus(m)
	key := m.spot(e.Position)
	switch {
	case key == "":
		if m.OnPlace != nil {
			m.OnPlace(m.position(e.Position))
		}
	case key == m.inHand:
		m.open()
	default:
		m.hand(key)
	}
}

func (m *Map) hand(key string) {
	m.inHand = key
	if m.OnHand != nil {
		m.OnHand(key)
	}
	m.picture.Refresh()
}

func (m *Map) open() {
	if m.inHand != "" && m.OnSpot != nil {
		m.OnSpot(m.inHand)
	}
}

// Scrolled zooms where the pointer is.
func (m *Map) Scrolled(e *fyne.ScrollEvent) {
	m.zoom(math.Exp(float64(e.Scrolled.DY)*0.012), scene.Point{X: float64(e.Position.X), Y: float64(e.Position.Y)})
}

func (m *Map) zoom(times float64, at scene.Point) {
	w, h := m.extent()
	m.SetSight(m.current().Zoomed(times, at, w, h))
}

// MouseDown remembers what is held while the pointer pulls.
func (m *Map) MouseDown(e *desktop.MouseEvent) { m.modifier = e.Modifier }

// MouseUp does nothing.
func (m *Map) MouseUp(*desktop.MouseEvent) {}

// Dragged pushes the map; with Shift it draws a rectangle, with Ctrl a line
// around an area.
func (m *Map) Dragged(e *fyne.DragEvent) {
	here := m.position(e.Position)
	began := !m.pulling
	m.pulling = true
	from := here
	if began {
		from = m.position(e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY))
	}
	switch {
	case m.modifier&fyne.KeyModifierShift != 0:
		if began {
			m.corner = from
		}
		m.area(rectangleOf(m.corner, here), false)
	case m.modifier&fyne.KeyModifierControl != 0:
		if began {
			m.line = []scene.Position{from}
		}
		m.area(append(m.line, here), false)
	default:
		m.SetSight(m.current().Moved(float64(e.Dragged.DX), float64(e.Dragged.DY)))
	}
}

// DragEnd lets the area go where it is.
func (m *Map) DragEnd() {
	if m.pulling && len(m.line) > 0 {
		m.area(m.line, true)
	}
	m.pulling, m.line = false, nil
}

func (m *Map) area(line []scene.Position, done bool) {
	m.line = line
	if m.OnArea != nil {
		m.OnArea(line, done)
	}
	m.picture.Refresh()
}

func rectangleOf(a, b scene.Position) []scene.Position {
	return []scene.Position{a, {Lat: a.Lat, Lon: b.Lon}, b, {Lat: b.Lat, Lon: a.Lon}}
}

// CreateRenderer is called by the toolkit.
func (m *Map) CreateRenderer() fyne.WidgetRenderer {
	m.ExtendBaseWidget(m)
	return widget.NewSimpleRenderer(m.picture)
}

// Refresh redraws the map.
func (m *Map) Refresh() {
	m.picture.Refresh()
	m.BaseWidget.Refresh()
}
