package widgets

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// SideEntry is one screen on the side bar.
type SideEntry struct {
	ID, Name string
	// Count is what waits there; 0 is not shown.
	Count int
	// Apart sets it and what follows apart from what is above.
	Apart bool
}

// Side is the side bar: the program's name and its screens, with what waits on
// each.
type Side struct {
	widget.BaseWidget

	// OnOpen is called with the screen to open.
	OnOpen func(id string)

	entries []SideEntry
	here    string // the screen now open
	hand    int    // the entry the keyboard is on
	hover   int
	focused bool
	picture *Picture
	icon    *canvas.Image
}

var (
	_ fyne.Widget       = (*Side)(nil)
	_ fyne.Focusable    = (*Side)(nil)
	_ fyne.Tappable     = (*Side)(nil)
	_ desktop.Hoverable = (*Side)(nil)
)

// Measures of the side bar in points at the ordinary text size. The entries
// draw together where the window is low.
const (
	sideWidth  = 148
	sideTop    = 58
	sideStep   = 33
	sideLeast  = 24 // step of entries drawn together
	sideApart  = 10
	sideMargin = 16
	sideBottom = 8
)

// NewSide returns a side bar of screens, the first of them open.
func NewSide(entries []SideEntry) *Side {
	s := &Side{hover: -1, icon: canvas.NewImageFromResource(look.Icon)}
	s.ExtendBaseWidget(s)
	s.icon.FillMode = canvas.ImageFillContain
	s.picture = NewPicture(fyne.NewSize(0, 0), s.draw)
	s.SetEntries(entries)
	if len(entries) > 0 {
		s.here = entries[0].ID
	}
	return s
}

// SetEntries shows other screens or other counts.
func (s *Side) SetEntries(entries []SideEntry) {
	s.entries = entries
	s.hand = min(s.hand, max(len(entries)-1, 0))
	s.picture.Refresh()
}

// SetHere marks the screen that is open.
func (s *Side) SetHere(id string) {
	s.here = id
	for i, e := range s.entries {
		if e.ID == id {
			s.hand = i
		}
	}
	s.picture.Refresh()
}

// Here is the screen marked as open.
func (s *Side) Here() string { return s.here }

func (s *Side) draw(w, h float64) scene.Scene {
	z := themeSizes()
	out := scene.Scene{W: w, H: h, Shapes: []scene.Shape{
		scene.Bar{W: w, H: h, Ink: look.SideGround},
		scene.Words{X: (sideMargin + 30) * z.scale, Y: 35 * z.scale, Size: z.sub + 1, Bold: true, Text: "Lungwort", Ink: look.SideText},
	}}
	top, step := sideTop*z.scale, s.step(h/z.scale)*z.scale
	for i, e := range s.entries {
		top += e.gap() * z.scale
		s.drawEntry(&out, i, top, step, w, z)
		top += step
	}
	return out
}

func (e SideEntry) gap() float64 {
	if e.Apart {
		return sideApart
	}
	return 0
}

// step is the height of an entry in a bar of a height, both at the ordinary
// text size.
func (s *Side) step(height float64) float64 {
	room := height - sideTop - sideBottom
	for _, e := range s.entries {
		room -= e.gap()
	}
	return min(sideStep, max(sideLeast, room/float64(max(1, len(s.entries)))))
}

func (s *Side) drawEntry(out *scene.Scene, i int, top, step, w float64, z sizes) {
	e := s.entries[i]
	name, count := look.SideText, look.SideCount
	switch {
	case e.ID == s.here:
		name, count = look.OnSideHere, look.OnSideHere
		out.Shapes = append(out.Shapes, scene.Bar{Y: top, W: w, H: step, Ink: look.SideHere})
	case i == s.hover:
		out.Shapes = append(out.Shapes, scene.Bar{Y: top, W: w, H: step, Ink: look.SideHover})
	}
	if s.focused && i == s.hand {
		out.Shapes = append(out.Shapes, scene.Bar{Y: top, W: 4, H: step, Ink: look.OnSideHere})
	}
	base := top + step/2 + z.text*0.36
	right := w - sideMargin*z.scale
	number := ""
	if e.Count != 0 {
		number = strconv.Itoa(e.Count)
		out.Shapes = append(out.Shapes, scene.Words{X: right, Y: base, Size: z.small + 1, Align: scene.Right, Text: number, Ink: count})
	}
	room := right - sideMargin*z.scale - scene.Width(number, z.small+1, false) - 6
	out.Shapes = append(out.Shapes, scene.Words{
		X: sideMargin * z.scale, Y: base, Size: z.text, Bold: e.ID == s.here,
		Text: scene.Shortened(e.Name, z.text, e.ID == s.here, room), Ink: name,
	})
}

// at is the entry at a height, or -1.
func (s *Side) at(y float32) int {
	scale := themeSizes().scale
	step, top := s.step(float64(s.picture.Size().Height)/scale), float64(sideTop)
	for i, e := range s.entries {
		top += e.gap()
		if at := float64(y)/scale - top; at >= 0 && at < step {
			return i
		}
		top += step
	}
	return -1
}

func (s *Side) open(i int) {
	if i < 0 || i >= len(s.entries) {
		return
	}
	s.SetHere(s.entries[i].ID)
	if s.OnOpen != nil {
		s.OnOpen(s.here)
	}
}

// Tapped opens the screen under the pointer.
func (s *Side) Tapped(e *fyne.PointEvent) { s.open(s.at(e.Position.Y)) }

// MouseIn shows what a click would open.
func (s *Side) MouseIn(e *desktop.MouseEvent) { s.setHover(s.at(e.Position.Y)) }

// MouseMoved shows what a click would open.
func (s *Side) MouseMoved(e *desktop.MouseEvent) { s.setHover(s.at(e.Position.Y)) }

// MouseOut ends that.
func (s *Side) MouseOut() { s.setHover(-1) }

func (s *Side) setHover(i int) {
	if s.hover != i {
		s.hover = i
		s.picture.Refresh()
	}
}

// FocusGained shows where the keyboard is.
func (s *Side) FocusGained() { s.focused = true; s.picture.Refresh() }

// FocusLost ends that.
func (s *Side) FocusLost() { s.focused = false; s.picture.Refresh() }

// TypedRune does nothing.
func (s *Side) TypedRune(rune) {}

// TypedKey moves along the screens and opens one.
func (s *Side) TypedKey(e *fyne.KeyEvent) {
	Used()
	switch e.Name {
	case fyne.KeyDown:
		s.hand = min(s.hand+1, len(s.entries)-1)
	case fyne.KeyUp:
		s.hand = max(s.hand-1, 0)
	case fyne.KeyHome:
		s.hand = 0
	case fyne.KeyEnd:
		s.hand = len(s.entries) - 1
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		s.open(s.hand)
	default:
		toWindow(e)
	}
	s.picture.Refresh()
}

// CreateRenderer is called by the toolkit.
func (s *Side) CreateRenderer() fyne.WidgetRenderer {
	s.ExtendBaseWidget(s)
	return &sideRenderer{s}
}

// Refresh redraws the side bar.
func (s *Side) Refresh() {
	s.picture.Refresh()
	s.BaseWidget.Refresh()
}

type sideRenderer struct{ side *Side }

func (r *sideRenderer) Destroy() {}
func (r *sideRenderer) Refresh() { r.side.picture.Refresh() }

func (r *sideRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.side.picture, r.side.icon}
}

func (r *sideRenderer) MinSize() fyne.Size {
	scale := float32(themeSizes().scale)
	height := float32(sideTop + sideBottom + len(r.side.entries)*sideLeast)
	for _, e := range r.side.entries {
		height += float32(e.gap())
	}
	return fyne.NewSize(sideWidth*scale, height*scale)
}

func (r *sideRenderer) Layout(size fyne.Size) {
	scale := float32(themeSizes().scale)
	r.side.picture.Resize(size)
	r.side.icon.Move(fyne.NewPos(sideMargin*scale-4, 17*scale))
	r.side.icon.Resize(fyne.NewSize(26*scale, 26*scale))
}
