package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Chart is a picture whose spots open what they stand for: a fact, a person, a
// home. The pointer finds them, and so do Left, Right, Home, End and Enter.
type Chart struct {
	widget.BaseWidget

	// OnSpot is called with the key of the spot that was opened.
	OnSpot func(key string)
	// OnHand is called with the key of the spot that came to hand.
	OnHand func(key string)
	// OnRune is offered each letter, and reports whether it took it.
	OnRune func(rune) bool

	picture *Picture
	hand    int
	focused bool
}

var (
	_ fyne.Widget        = (*Chart)(nil)
	_ fyne.Focusable     = (*Chart)(nil)
	_ fyne.Tappable      = (*Chart)(nil)
	_ desktop.Cursorable = (*Chart)(nil)
)

// NewChart returns a chart that is never smaller than min.
func NewChart(min fyne.Size, draw Drawing) *Chart {
	c := &Chart{}
	c.ExtendBaseWidget(c)
	c.picture = NewPicture(min, nil)
	c.SetDrawing(draw)
	return c
}

// SetDrawing shows another drawing.
func (c *Chart) SetDrawing(draw Drawing) {
	c.picture.SetDrawing(func(w, h float64) scene.Scene {
		s := draw(w, h)
		if c.focused && c.hand < len(s.Spots) {
			at := s.Spots[c.hand]
			s.Shapes = append(s.Shapes, scene.Ring{X: at.X, Y: at.Y, R: at.R + 3, Width: 2, Ink: scene.Outline})
		}
		return s
	})
}

func (c *Chart) spots() []scene.Spot { return c.picture.Scene().Spots }

// reach is how far beside a small spot a click still finds it, in points.
const reach = 8

// at is the nearest spot to a place, or -1.
func (c *Chart) at(p fyne.Position) int {
	best, nearest := -1, math.Inf(1)
	for i, s := range c.spots() {
		d := math.Hypot(float64(p.X)-s.X, float64(p.Y)-s.Y)
		if d <= math.Max(s.R, reach) && d < nearest {
			best, nearest = i, d
		}
	}
	return best
}

// Tapped opens the spot under the pointer.
func (c *Chart) Tapped(e *fyne.PointEvent) {
	focus(c)
	if i := c.at(e.Position); i >= 0 {
		c.take(i)
		c.open()
	}
}

// Cursor is a pointing hand where there is something to open.
func (c *Chart) Cursor() desktop.Cursor {
	if len(c.spots()) > 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

func (c *Chart) take(i int) {
	spots := c.spots()
	if len(spots) == 0 {
		return
	}
	c.hand = min(max(i, 0), len(spots)-1)
	c.picture.Refresh()
	if c.OnHand != nil {
		c.OnHand(spots[c.hand].Key)
	}
}

func (c *Chart) open() {
	if spots := c.spots(); c.hand < len(spots) && c.OnSpot != nil {
		c.OnSpot(spots[c.hand].Key)
	}
}

// FocusGained marks the spot in hand.
func (c *Chart) FocusGained() { c.focused = true; c.take(c.hand) }

// FocusLost takes the mark away.
func (c *Chart) FocusLost() { c.focused = false; c.picture.Refresh() }

// TypedRune offers the letter to the page.
func (c *Chart) TypedRune(r rune) {
	if c.OnRune != nil {
		c.OnRune(r)
	}
}

// TypedKey moves along the spots and opens one.
func (c *Chart) TypedKey(e *fyne.KeyEvent) {
	Used()
	switch e.Name {
	case fyne.KeyRight, fyne.KeyDown:
		c.take(c.hand + 1)
	case fyne.KeyLeft, fyne.KeyUp:
		c.take(c.hand - 1)
	case fyne.KeyHome:
		c.take(0)
	case fyne.KeyEnd:
		c.take(len(c.spots()) - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		c.open()
	default:
		toWindow(e)
	}
}

// CreateRenderer is called by the toolkit.
func (c *Chart) CreateRenderer() fyne.WidgetRenderer {
	c.ExtendBaseWidget(c)
	return widget.NewSimpleRenderer(c.picture)
}

// Refresh redraws the chart.
func (c *Chart) Refresh() {
	c.picture.Refresh()
	c.BaseWidget.Refresh()
}
