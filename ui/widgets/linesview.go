package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

func (l *Lines) keepInSight() {
	if l.hand >= len(l.lines) {
		return
	}
	at := lineSpans(l.lines, float64(l.Size().Width), themeSizes())[l.hand]
	top, room := float64(l.scroll.Offset.Y), float64(l.scroll.Size().Height)
	switch {
	case at.x < top:
		top = at.x
	case at.x+at.w > top+room:
		top = at.x + at.w - room
	default:
		return
	}
	l.scroll.ScrollToOffset(fyne.NewPos(0, float32(top)))
}

// MinSize leaves room for two lines.
func (l *Lines) MinSize() fyne.Size {
	return fyne.NewSize(260, 2*tallRow*float32(themeSizes().scale))
}

// Tapped brings the line under the pointer to hand, and does what stands
// there.
func (l *Lines) Tapped(e *fyne.PointEvent) {
	focus(l)
	z := themeSizes()
	x, y := float64(e.Position.X), float64(e.Position.Y+l.scroll.Offset.Y)
	for i, at := range lineSpans(l.lines, float64(l.Size().Width), z) {
		if y < at.x || y >= at.x+at.w {
			continue
		}
		line := l.lines[i]
		l.take(i)
		parts := partsOf(float64(l.Size().Width), z)
		switch {
		case line.Tick != nil && x < parts.text:
			call(l.OnTick, line.ID)
		case line.Offer != "" && y > at.x+at.w-offerHeight*z.scale:
			call(l.OnOffer, line.ID)
		case line.Aside != "" && x > parts.aside && x < parts.value:
			call(l.OnAside, line.ID)
		}
	}
}

// CreateRenderer is called by the toolkit.
func (l *Lines) CreateRenderer() fyne.WidgetRenderer {
	l.ExtendBaseWidget(l)
	return widget.NewSimpleRenderer(l.scroll)
}

// Resize breaks the lines anew.
func (l *Lines) Resize(size fyne.Size) {
	l.BaseWidget.Resize(size)
	l.fit()
}

// Refresh redraws the lines.
func (l *Lines) Refresh() {
	l.fit()
	l.BaseWidget.Refresh()
}

func (l *Lines) fit() {
	height := 0.0
	for _, at := range lineSpans(l.lines, float64(l.Size().Width), themeSizes()) {
		height = at.x + at.w
	}
	l.picture.SetMinSize(fyne.NewSize(0, float32(height)))
	l.scroll.Refresh()
}
