package widgets

import (
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// Action is one thing a page can do.
type Action struct {
	// Key does it wherever the keyboard is on the page: a digit, so that it
	// never stands in the way of finding a row by its letters.
	Key    rune
	Label  string
	Danger bool // takes something away
	Off    bool // not possible now
	Do     func()
}

// Actions shows what a page can do side by side, each with its key. The lists
// of the page pass keys on by Press; Left, Right and Enter work as well.
type Actions struct {
	widget.BaseWidget

	actions []Action
	hand    int
	over    int
	focused bool
	picture *Picture
}

var (
	_ fyne.Widget       = (*Actions)(nil)
	_ fyne.Focusable    = (*Actions)(nil)
	_ fyne.Tappable     = (*Actions)(nil)
	_ desktop.Hoverable = (*Actions)(nil)
)

// NewActions returns a bar of actions.
func NewActions(actions ...Action) *Actions {
	a := &Actions{actions: actions, over: -1}
	a.ExtendBaseWidget(a)
	a.picture = NewPicture(fyne.NewSize(0, 0), a.draw)
	return a
}

// SetActions shows other actions.
func (a *Actions) SetActions(actions ...Action) {
	a.actions = actions
	a.hand = min(a.hand, max(0, len(actions)-1))
	a.Refresh()
}

// Press does the action of a key and reports whether there is one.
func (a *Actions) Press(key rune) bool {
	for i := range a.actions {
		if a.actions[i].Key == unicode.ToLower(key) {
			a.do(i)
			return true
		}
	}
	return false
}

func (a *Actions) do(i int) {
	if i >= 0 && i < len(a.actions) && !a.actions[i].Off && a.actions[i].Do != nil {
		a.hand = i
		a.actions[i].Do()
	}
}

// Space within an action, in points.
const (
	actionMargin = 11.0
	actionKey    = 7.0 // between the key and the label
)

func (a *Actions) places(z sizes) []span {
	out, x := make([]span, len(a.actions)), 0.0
	for i, act := range a.actions {
		w := scene.Width(string(act.Key), z.small, true) + actionKey + scene.Width(act.Label, z.text, false) + 2*actionMargin
		out[i] = span{x, w}
		x += w + optionGap + 2
	}
	return out
}

func (a *Actions) draw(w, h float64) scene.Scene {
	z := themeSizes()
	s := scene.Scene{W: w, H: h}
	for i, at := range a.places(z) {
		act := a.actions[i]
		ground, text, key := look.Key, scene.Text, scene.Faint
		switch {
		case act.Off:
			text = scene.Faint
		case i == a.over:
			ground = look.InHand
		}
		if act.Danger && !act.Off {
			text, key = scene.Alarm, scene.Alarm
		}
		base := h/2 + z.text*0.36
		s.Shapes = append(s.Shapes,
			scene.Bar{X: at.x, Y: 2, W: at.w, H: h - 5, Round: 4, Ink: ground},
			scene.Words{X: at.x + actionMargin, Y: base, Size: z.small, Bold: true, Text: string(act.Key), Ink: key},
			scene.Words{X: at.x + actionMargin + scene.Width(string(act.Key), z.small, true) + actionKey, Y: base, Size: z.text, Text: act.Label, Ink: text})
		if a.focused && i == a.hand {
			s.Shapes = append(s.Shapes, scene.Bar{X: at.x + 2, Y: h - 3, W: at.w - 4, H: 2, Ink: scene.Outline})
		}
	}
	return s
}

func (a *Actions) at(p fyne.Position) int {
	for i, at := range a.places(themeSizes()) {
		if x := float64(p.X); x >= at.x && x < at.x+at.w {
			return i
		}
	}
	return -1
}

// Tapped does the action under the pointer.
func (a *Actions) Tapped(e *fyne.PointEvent) { a.do(a.at(e.Position)) }

// MouseIn marks the action under the pointer.
func (a *Actions) MouseIn(e *desktop.MouseEvent) { a.hover(a.at(e.Position)) }

// MouseMoved marks the action under the pointer.
func (a *Actions) MouseMoved(e *desktop.MouseEvent) { a.hover(a.at(e.Position)) }

// MouseOut takes the mark away.
func (a *Actions) MouseOut() { a.hover(-1) }

func (a *Actions) hover(i int) {
	if a.over != i {
		a.over = i
		a.picture.Refresh()
	}
}

// FocusGained marks the action in hand.
func (a *Actions) FocusGained() { a.focused = true; a.picture.Refresh() }

// FocusLost takes the mark away.
func (a *Actions) FocusLost() { a.focused = false; a.picture.Refresh() }

// TypedRune does the action of a key.
func (a *Actions) TypedRune(r rune) { a.Press(r) }

// TypedKey moves along the actions and does one.
func (a *Actions) TypedKey(e *fyne.KeyEvent) {
	Used()
	switch e.Name {
	case fyne.KeyRight:
		a.hand = min(a.hand+1, max(0, len(a.actions)-1))
	case fyne.KeyLeft:
		a.hand = max(a.hand-1, 0)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		a.do(a.hand)
	}
	a.picture.Refresh()
}

// MinSize holds all actions.
func (a *Actions) MinSize() fyne.Size {
	w := 0.0
	for _, at := range a.places(themeSizes()) {
		w = at.x + at.w
	}
	h := theme.Size(theme.SizeNameText) + 2*theme.Size(theme.SizeNameInnerPadding) + 4
	return fyne.NewSize(float32(w), h)
}

// CreateRenderer is called by the toolkit.
func (a *Actions) CreateRenderer() fyne.WidgetRenderer {
	a.ExtendBaseWidget(a)
	return widget.NewSimpleRenderer(a.picture)
}

// Refresh redraws the bar.
func (a *Actions) Refresh() {
	a.picture.Refresh()
	a.BaseWidget.Refresh()
}
