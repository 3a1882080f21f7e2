// Package widgets holds the parts the screens are built from. They show what
// they are given and call OnXxx functions; they know no services and no clock.
package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Drawing makes a picture of the given size in points.
type Drawing func(w, h float64) scene.Scene

// Picture shows a drawing at whatever size it has, and draws it anew when the
// size or the theme changes. The pointer passes through it.
type Picture struct {
	widget.BaseWidget

	draw Drawing
	min  fyne.Size
	last scene.Scene
}

var _ fyne.Widget = (*Picture)(nil)

// NewPicture returns a picture that is never smaller than min. A nil drawing
// shows nothing.
func NewPicture(min fyne.Size, draw Drawing) *Picture {
	p := &Picture{draw: draw, min: min}
	p.ExtendBaseWidget(p)
	return p
}

// SetDrawing shows another drawing.
func (p *Picture) SetDrawing(draw Drawing) {
	p.draw = draw
	p.Refresh()
}

// SetMinSize changes the size below which the picture does not shrink.
func (p *Picture) SetMinSize(min fyne.Size) {
	p.min = min
	p.Refresh()
}

// Scene is the picture as last drawn.
func (p *Picture) Scene() scene.Scene { return p.last }

// CreateRenderer is called by the toolkit.
func (p *Picture) CreateRenderer() fyne.WidgetRenderer {
	p.ExtendBaseWidget(p)
	r := &pictureRenderer{picture: p, easel: easel{owner: p}}
	r.paint(p.Size())
	return r
}

type pictureRenderer struct {
	picture *Picture
	easel   easel
}

func (r *pictureRenderer) MinSize() fyne.Size           { return r.picture.min }
func (r *pictureRenderer) Objects() []fyne.CanvasObject { return r.easel.objects }
func (r *pictureRenderer) Layout(size fyne.Size)        { r.paint(size) }
func (r *pictureRenderer) Destroy()                     {}

func (r *pictureRenderer) Refresh() {
	r.paint(r.picture.Size())
	canvas.Refresh(r.picture)
}

func (r *pictureRenderer) paint(size fyne.Size) {
	p := r.picture
	if p.draw == nil || size.Width <= 0 || size.Height <= 0 {
		p.last = scene.Scene{}
	} else {
		p.last = p.draw(float64(size.Width), float64(size.Height))
	}
	r.easel.paint(p.last)
}
