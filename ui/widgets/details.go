package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Detail is one line of what is known: what it is, and what it says.
type Detail struct {
	Label, Text string
	// Ink is the colour of Text; empty means ordinary text.
	Ink  scene.Ink
	Bold bool
}

// Details is what is known of a thing or a person, line under line. A long
// text takes as many lines as it needs.
type Details struct {
	widget.BaseWidget

	lines   []Detail
	picture *Picture
}

var _ fyne.Widget = (*Details)(nil)

// NewDetails returns an empty list of details.
func NewDetails() *Details {
	d := &Details{}
	d.ExtendBaseWidget(d)
	d.picture = NewPicture(fyne.Size{}, func(w, _ float64) scene.Scene { return detailsScene(d.lines, w, themeSizes()) })
	return d
}

// SetDetails shows other details; those without a text are left out.
func (d *Details) SetDetails(lines []Detail) {
	d.lines = d.lines[:0:0]
	for _, l := range lines {
		if l.Text != "" {
			d.lines = append(d.lines, l)
		}
	}
	d.Refresh()
}

// detailsWidth is the width details have before they are laid out, and the
// least they take, in points.
const detailsWidth = 260

// MinSize is as high as the details need at their present width.
func (d *Details) MinSize() fyne.Size {
	width := max(float64(d.Size().Width), detailsWidth)
	return fyne.NewSize(detailsWidth, float32(detailsScene(d.lines, width, themeSizes()).H))
}

func detailsScene(lines []Detail, w float64, z sizes) scene.Scene {
	s := scene.Scene{W: w}
	label := 0.0
	for _, l := range lines {
		label = max(label, scene.Width(l.Label, z.small, false))
	}
	left, y := label+12, 2.0
	for _, l := range lines {
		ink := l.Ink
		if ink == "" {
			ink = scene.Text
		}
		s.Shapes = append(s.Shapes, scene.Words{X: 0, Y: y + z.text, Size: z.small, Text: l.Label, Ink: scene.Faint})
		for _, text := range wrapped(l.Text, z.text, l.Bold, w-left) {
			s.Shapes = append(s.Shapes, scene.Words{X: left, Y: y + z.text, Size: z.text, Bold: l.Bold, Text: text, Ink: ink})
			y += z.text * 1.36
		}
		y += 1.5
	}
	s.H = y + 2
	return s
}

// CreateRenderer is called by the toolkit.
func (d *Details) CreateRenderer() fyne.WidgetRenderer {
	d.ExtendBaseWidget(d)
	return widget.NewSimpleRenderer(d.picture)
}

// Refresh redraws the details.
func (d *Details) Refresh() {
	d.picture.Refresh()
	d.BaseWidget.Refresh()
}
