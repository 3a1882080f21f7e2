package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"lungwort/labels/scene"
)

// What a key pushes, zooms and grows at once.
const (
	keyPush = 80.0 // points
	keyZoom = 1.35
	keyGrow = 24.0 // points
)

// ways are the directions of the arrows, in points.
var ways = map[fyne.KeyName]scene.Point{
	fyne.KeyLeft: {X: -1}, fyne.KeyRight: {X: 1}, fyne.KeyUp: {Y: -1}, fyne.KeyDown: {Y: 1},
}

// FocusGained marks the map.
func (m *Map) FocusGained() { m.focused = true; m.picture.Refresh() }

// FocusLost takes the mark away.
func (m *Map) FocusLost() { m.focused, m.shift = false, false; m.picture.Refresh() }

// KeyDown and KeyUp follow the Shift key, which turns arrows into a rectangle.
func (m *Map) KeyDown(e *fyne.KeyEvent) { m.holds(e.Name, true) }

// KeyUp is KeyDown's end: with Shift let go the rectangle stands.
func (m *Map) KeyUp(e *fyne.KeyEvent) {
	m.holds(e.Name, false)
	if !m.shift && !m.pulling && len(m.line) > 0 {
		m.area(m.line, true)
		m.line, m.grown = nil, scene.Point{}
	}
}

func (m *Map) holds(key fyne.KeyName, down bool) {
	if key == desktop.KeyShiftLeft || key == desktop.KeyShiftRight {
		m.shift = down
	}
}

// TypedRune zooms, and passes other letters on.
func (m *Map) TypedRune(r rune) {
	w, h := m.extent()
	middle := scene.Point{X: w / 2, Y: h / 2}
	switch r {
	case '+', '=':
		m.zoom(keyZoom, middle)
	case '-':
		m.zoom(1/keyZoom, middle)
	default:
		if m.OnRune != nil {
			m.OnRune(r)
		}
	}
}

// TypedKey goes to the next spot in a direction, grows the rectangle with
// Shift, opens the spot in hand, and shows everything again on Home.
func (m *Map) TypedKey(e *fyne.KeyEvent) {
	Used()
	way, arrow := ways[e.Name]
	switch {
	case m.OnKey != nil && m.OnKey(e.Name):
	case arrow && m.shift:
		m.grow(way)
	case arrow:
		m.step(way)
	case e.Name == fyne.KeyHome:
		m.SetSight(scene.Sight{})
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter || e.Name == fyne.KeySpace:
		m.open()
	default:
		toWindow(e)
	}
}

// TypedShortcut pushes the map with Ctrl and an arrow.
func (m *Map) TypedShortcut(s fyne.Shortcut) {
	if custom, is := s.(*desktop.CustomShortcut); is && custom.Modifier == fyne.KeyModifierControl {
		if way, arrow := ways[custom.KeyName]; arrow {
			m.SetSight(m.current().Moved(-way.X*keyPush, -way.Y*keyPush))
			return
		}
	}
	formKeys{submit: m.OnDone}.handleShortcut(s)
}

// grow makes the rectangle larger from the spot in hand, or the middle.
func (m *Map) grow(way scene.Point) {
	w, h := m.extent()
	at := scene.Point{X: w / 2, Y: h / 2}
	for _, s := range m.picture.Scene().Spots {
		if s.Key == m.inHand && m.inHand != "" {
			at = scene.Point{X: s.X - 10, Y: s.Y - 10}
		}
	}
	if m.grown == (scene.Point{}) {
		m.corner = m.current().Position(at, w, h)
		m.grown = scene.Point{X: keyGrow, Y: keyGrow}
	} else {
		m.grown.X += way.X * keyGrow
		m.grown.Y += way.Y * keyGrow
	}
	from := m.current().Point(m.corner, w, h)
	far := m.current().Position(scene.Point{X: from.X + m.grown.X, Y: from.Y + m.grown.Y}, w, h)
	m.area(rectangleOf(m.corner, far), false)
}

// step takes the nearest spot in a direction: what lies straight ahead counts
// nearer than what lies aside. Where none does, the map is pushed.
func (m *Map) step(way scene.Point) {
	spots := m.picture.Scene().Spots
	w, h := m.extent()
	from := scene.Point{X: w / 2, Y: h / 2}
	for _, s := range spots {
		if s.Key == m.inHand && m.inHand != "" {
			from = scene.Point{X: s.X, Y: s.Y}
		}
	}
	key, nearest := "", math.Inf(1)
	for _, s := range spots {
		dx, dy := s.X-from.X, s.Y-from.Y
		ahead, aside := dx*way.X+dy*way.Y, math.Abs(dx*way.Y)+math.Abs(dy*way.X)
		if d := ahead + 2.5*aside; s.Key != "" && s.Key != m.inHand && ahead > 0.5 && d < nearest {
			key, nearest = s.Key, d
		}
	}
	if key == "" {
		m.SetSight(m.current().Moved(-way.X*keyPush, -way.Y*keyPush))
		return
	}
	m.hand(key)
}
