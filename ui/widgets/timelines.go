package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Timelines shows rounds side by side and lets a stop be put elsewhere, by
// keys or by dragging. It holds no state of the day: it says what is asked for
// and is given what to draw.
type Timelines struct {
	widget.BaseWidget

	// OnKey is offered each key, and reports whether it took it.
	OnKey func(fyne.KeyName) bool
	// OnRune is offered each letter.
	OnRune func(rune)
	// OnTake is called with the key of the block that was pointed at.
	OnTake func(key string)
	// OnDrag is called while a block is dragged, with where the pointer is, and
	// OnDrop when it is let go.
	OnDrag func(key string, x, y, w, h float64)
	OnDrop func()
	// OnDone is called on Ctrl+Enter.
	OnDone func()

	picture *Picture
	dragged string
	focused bool
}

var (
	_ fyne.Focusable    = (*Timelines)(nil)
	_ fyne.Shortcutable = (*Timelines)(nil)
	_ fyne.Tappable     = (*Timelines)(nil)
	_ fyne.Draggable    = (*Timelines)(nil)
)

// NewTimelines returns timelines that are never lower than high.
func NewTimelines(high float32, draw Drawing) *Timelines {
	t := &Timelines{}
	t.ExtendBaseWidget(t)
	t.picture = NewPicture(fyne.NewSize(0, high), func(w, h float64) scene.Scene {
		s := draw(w, h)
		if t.focused {
			s.Shapes = append(s.Shapes, scene.Frame{X: 1, Y: 1, W: w - 2, H: h - 2, Width: 1.5, Ink: scene.Outline})
		}
		return s
	})
	return t
}

// SetHigh changes how high the timelines are at least.
func (t *Timelines) SetHigh(high float32) { t.picture.SetMinSize(fyne.NewSize(0, high)) }

// at returns the key of the block at a place; empty beside the blocks.
func (t *Timelines) at(p fyne.Position) string {
	const tall = 12.0
	for _, s := range t.picture.Scene().Spots {
		if dx, dy := float64(p.X)-s.X, float64(p.Y)-s.Y; dx >= -s.R && dx <= s.R && dy >= -tall && dy <= tall {
			return s.Key
		}
	}
	return ""
}

// Tapped takes the block under the pointer.
func (t *Timelines) Tapped(e *fyne.PointEvent) {
	focus(t)
	if key := t.at(e.Position); key != "" && t.OnTake != nil {
		t.OnTake(key)
	}
}

// Dragged carries the block under the pointer.
func (t *Timelines) Dragged(e *fyne.DragEvent) {
	if t.dragged == "" {
		t.dragged = t.at(e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY))
	}
	if t.dragged != "" && t.OnDrag != nil {
		size := t.Size()
		t.OnDrag(t.dragged, float64(e.Position.X), float64(e.Position.Y), float64(size.Width), float64(size.Height))
	}
}

// DragEnd lets the block go where it is.
func (t *Timelines) DragEnd() {
	if t.dragged != "" && t.OnDrop != nil {
		t.OnDrop()
	}
	t.dragged = ""
}

// FocusGained marks the timelines.
func (t *Timelines) FocusGained() { t.focused = true; t.picture.Refresh() }

// FocusLost takes the mark away.
func (t *Timelines) FocusLost() { t.focused = false; t.picture.Refresh() }

// TypedRune passes letters on.
func (t *Timelines) TypedRune(r rune) {
	if t.OnRune != nil {
		t.OnRune(r)
	}
}

// TypedKey passes keys on.
func (t *Timelines) TypedKey(e *fyne.KeyEvent) {
	Used()
	if t.OnKey == nil || !t.OnKey(e.Name) {
		toWindow(e)
	}
}

// TypedShortcut does what the screen is for on Ctrl+Enter.
func (t *Timelines) TypedShortcut(s fyne.Shortcut) { formKeys{submit: t.OnDone}.handleShortcut(s) }

// CreateRenderer is called by the toolkit.
func (t *Timelines) CreateRenderer() fyne.WidgetRenderer {
	t.ExtendBaseWidget(t)
	return widget.NewSimpleRenderer(t.picture)
}

// Refresh redraws the timelines.
func (t *Timelines) Refresh() {
	t.picture.Refresh()
	t.BaseWidget.Refresh()
}
