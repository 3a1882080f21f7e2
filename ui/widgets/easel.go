package widgets

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// easel paints scenes with canvas objects. It keeps the objects from one scene
// to the next and touches only those whose shape or colour changed: a list of
// ribbons repaints a hundred times a day and mostly looks the same.
type easel struct {
	owner   fyne.Widget
	shapes  []scene.Shape
	colours []color.Color
	objects []fyne.CanvasObject
}

// paint shows s.
func (e *easel) paint(s scene.Scene) {
	shapes := plain(s.Shapes)
	objects := make([]fyne.CanvasObject, len(shapes))
	colours := make([]color.Color, len(shapes))
	for i, shape := range shapes {
		colours[i] = e.colour(inkOf(shape))
		var old fyne.CanvasObject
		if i < len(e.shapes) {
			old = e.objects[i]
			if same(e.shapes[i], shape) && e.colours[i] == colours[i] && !twoInked(shape) {
				objects[i] = old
				continue
			}
		}
		objects[i] = e.object(shape, colours[i], old)
	}
	e.shapes, e.colours, e.objects = shapes, colours, objects
}

func (e *easel) colour(ink scene.Ink) color.Color {
	if ink == "" {
		return color.Transparent
	}
	return colour(look.Ink(ink), e.owner)
}

// colour is a named colour in the widget's theme. A theme that is not ours, as
// in a test that sets none, may lack it: then it is our light one.
func colour(name fyne.ThemeColorName, w fyne.Widget) color.Color {
	if c := theme.ColorForWidget(name, w); c != nil {
		return c
	}
	c, _ := look.Colour(name, theme.VariantLight)
	return c
}

// plain breaks up what the canvas has no object for: dashes, and square-edged
// frames, which are crisper as four bars.
func plain(shapes []scene.Shape) []scene.Shape {
	out := make([]scene.Shape, 0, len(shapes))
	for _, shape := range shapes {
		switch s := shape.(type) {
		case scene.Line:
			for _, dash := range s.Dashes() {
				out = append(out, dash)
			}
		case scene.Frame:
			if s.Round > 0 {
				out = append(out, s)
				continue
			}
			for _, side := range s.Sides() {
				for _, dash := range side.Dashes() {
					out = append(out, dash)
				}
			}
		default:
			out = append(out, shape)
		}
	}
	return out
}

func inkOf(shape scene.Shape) scene.Ink {
	switch s := shape.(type) {
	case scene.Bar:
		return s.Ink
	case scene.Frame:
		return s.Ink
	case scene.Line:
		return s.Ink
	case scene.Polygon:
		return s.Ink
	case scene.Ring:
		return s.Ink
	case scene.Words:
		return s.Ink
	}
	return scene.Text
}

// twoInked tells the shapes whose second colour the easel does not remember.
func twoInked(shape scene.Shape) bool {
	ring, ok := shape.(scene.Ring)
	return ok && ring.Fill != ""
}

func same(a, b scene.Shape) bool {
	p, ok := a.(scene.Polygon)
	if !ok {
		if _, ok := b.(scene.Polygon); ok {
			return false
		}
		return a == b
	}
	q, ok := b.(scene.Polygon)
	return ok && p.Ink == q.Ink && p.Fade == q.Fade && slices.Equal(p.Points, q.Points)
}

// object returns a canvas object for shape: old where it is of the right kind,
// otherwise a new one.
func (e *easel) object(shape scene.Shape, c color.Color, old fyne.CanvasObject) fyne.CanvasObject {
	switch s := shape.(type) {
	case scene.Bar:
		if s.Fade == s.FadeTo {
			x, w := whole(s.X, s.W)
			return rectangle(old, x, s.Y, w, s.H, s.Round, faded(c, s.Fade))
		}
		return fading(old, s, c)
	case scene.Frame:
		return frame(old, s, c)
	case scene.Line:
		return line(old, s, c)
	case scene.Polygon:
		return polygon(s, faded(c, s.Fade))
	case scene.Ring:
		return ring(old, s, c, e.colour(s.Fill))
	case scene.Words:
		return words(old, s, c)
	}
	return canvas.NewRectangle(color.Transparent)
}

// reused returns old when it is a T, else a new T. A new object needs no
// refresh; an old one is refreshed once it has its new look.
func reused[T any, P interface {
	*T
	fyne.CanvasObject
}](old fyne.CanvasObject) P {
	if o, ok := old.(P); ok {
		return o
	}
	return P(new(T))
}
