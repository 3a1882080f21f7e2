package widgets

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// Ticks is an input of a few things side by side, each of which is there or is
// not: its number or its first letter turns it.
type Ticks struct {
	widget.BaseWidget

	// OnChanged is called when a person turned one.
	OnChanged func(ticked []string)

	names   []string
	ticked  []string
	focused bool
	keys    formKeys
	picture *Picture
}

var (
	_ Input         = (*Ticks)(nil)
	_ fyne.Tappable = (*Ticks)(nil)
)

// NewTicks returns an input of things, none of them ticked.
func NewTicks(names ...string) *Ticks {
	t := &Ticks{names: names}
	t.ExtendBaseWidget(t)
	t.picture = NewPicture(fyne.NewSize(0, 0), t.draw)
	return t
}

// Set asks about things, some of them ticked already, without telling
// OnChanged.
func (t *Ticks) Set(names, ticked []string) {
	t.names, t.ticked = names, ticked
	t.Refresh()
}

// Ticked returns what is there, in the order asked.
func (t *Ticks) Ticked() []string { return t.ticked }

func (t *Ticks) turn(i int) {
	if i < 0 || i >= len(t.names) {
		return
	}
	var ticked []string
	for n, name := range t.names {
		if slices.Contains(t.ticked, name) != (n == i) {
			ticked = append(ticked, name)
		}
	}
	t.ticked = ticked
	t.picture.Refresh()
	if t.OnChanged != nil {
		t.OnChanged(ticked)
	}
}

func (t *Ticks) label(i int) string {
	if slices.Contains(t.ticked, t.names[i]) {
		return "✓ " + t.names[i]
	}
	return t.names[i]
}

func (t *Ticks) places(z sizes) []span {
	out, x := make([]span, len(t.names)), 0.0
	for i, name := range t.names {
		w := scene.Width("✓ "+name, z.text, true) + 2*optionMargin
		out[i] = span{x, w}
		x += w + optionGap
	}
	return out
}

func (t *Ticks) draw(w, h float64) scene.Scene {
	z := themeSizes()
	s := scene.Scene{W: w, H: h}
	for i, at := range t.places(z) {
		ground, text, there := look.Key, scene.Text, slices.Contains(t.ticked, t.names[i])
		if there {
			ground, text = look.SideHere, look.OnSideHere
		}
		s.Shapes = append(s.Shapes,
			scene.Bar{X: at.x, Y: 3, W: at.w, H: h - 6, Round: 4, Ink: ground},
			scene.Words{X: at.x + at.w/2, Y: h/2 + z.text*0.36, Size: z.text, Bold: there, Align: scene.Middle, Text: t.label(i), Ink: text})
	}
	if t.focused && len(t.names) > 0 {
		last := t.places(z)[len(t.names)-1]
		s.Shapes = append(s.Shapes, scene.Bar{X: 2, Y: h - 2, W: last.x + last.w - 4, H: 2, Ink: scene.Outline})
	}
	return s
}

// Tapped turns what is under the pointer.
func (t *Ticks) Tapped(e *fyne.PointEvent) {
	focus(t)
	for i, at := range t.places(themeSizes()) {
		if x := float64(e.Position.X); x >= at.x && x < at.x+at.w {
			t.turn(i)
		}
	}
}

// FocusGained shows that the keys go here.
func (t *Ticks) FocusGained() { t.focused = true; t.picture.Refresh() }

// FocusLost ends that.
func (t *Ticks) FocusLost() { t.focused = false; t.picture.Refresh() }

// TypedRune turns by number or first letter.
func (t *Ticks) TypedRune(r rune) {
	if n, err := strconv.Atoi(string(r)); err == nil {
		t.turn(n - 1)
		return
	}
	t.turn(slices.IndexFunc(t.names, func(name string) bool { return starts(name, r) }))
}

// TypedKey passes keys on to the form.
func (t *Ticks) TypedKey(e *fyne.KeyEvent) {
	Used()
	if !toWindow(e) {
		t.keys.handle(e)
	}
}

// TypedShortcut passes Ctrl+Enter on to the form.
func (t *Ticks) TypedShortcut(s fyne.Shortcut) { t.keys.handleShortcut(s) }

func (t *Ticks) listen(keys formKeys) { t.keys = keys }

// MinSize holds all of them.
func (t *Ticks) MinSize() fyne.Size {
	w := 0.0
	if places := t.places(themeSizes()); len(places) > 0 {
		last := places[len(places)-1]
		w = last.x + last.w
	}
	return fyne.NewSize(float32(w), theme.Size(theme.SizeNameText)+2*theme.Size(theme.SizeNameInnerPadding)+6)
}

// CreateRenderer is called by the toolkit.
func (t *Ticks) CreateRenderer() fyne.WidgetRenderer {
	t.ExtendBaseWidget(t)
	return widget.NewSimpleRenderer(t.picture)
}

// Refresh redraws it.
func (t *Ticks) Refresh() {
	t.picture.Refresh()
	t.BaseWidget.Refresh()
}
