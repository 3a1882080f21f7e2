package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// Panel is a ground with an edge behind its content, in colours that follow
// the theme.
type Panel struct {
	widget.BaseWidget

	ground, edge scene.Ink
	round        float32
	fill         *canvas.Rectangle
	content      fyne.CanvasObject
}

var _ fyne.Widget = (*Panel)(nil)

// NewPanel returns a card: a surface set off from the window, with a thin edge.
func NewPanel(content fyne.CanvasObject) *Panel {
	return newPanel(scene.Panel, scene.Rule, 5, container.NewPadded(content))
}

// NewFoot returns the band along the bottom of the window.
func NewFoot(content fyne.CanvasObject) *Panel { return newPanel(look.Foot, "", 0, content) }

func newPanel(ground, edge scene.Ink, round float32, content fyne.CanvasObject) *Panel {
	p := &Panel{ground: ground, edge: edge, round: round, fill: canvas.NewRectangle(nil), content: content}
	p.ExtendBaseWidget(p)
	return p
}

// CreateRenderer is called by the toolkit.
func (p *Panel) CreateRenderer() fyne.WidgetRenderer {
	p.ExtendBaseWidget(p)
	p.paint()
	return widget.NewSimpleRenderer(container.NewStack(p.fill, p.content))
}

// Refresh takes up the colours of the theme.
func (p *Panel) Refresh() {
	p.paint()
	p.content.Refresh()
	p.BaseWidget.Refresh()
}

func (p *Panel) paint() {
	p.fill.FillColor = colour(look.Ink(p.ground), p)
	p.fill.CornerRadius = p.round
	if p.edge != "" {
		p.fill.StrokeColor, p.fill.StrokeWidth = colour(look.Ink(p.edge), p), 1
	}
	p.fill.Refresh()
}
