package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// ScanLine says large what a scan did: its mark and ground tell taken, asked
// and refused apart from across the room, the words say the rest.
type ScanLine struct {
	widget.BaseWidget

	verdict, title, detail string
	picture                *Picture
}

var _ fyne.Widget = (*ScanLine)(nil)

// scanLineHeight is in points at the ordinary text size.
const scanLineHeight = 52

// NewScanLine returns a hidden line.
func NewScanLine() *ScanLine {
	l := &ScanLine{}
	l.ExtendBaseWidget(l)
	l.picture = NewPicture(fyne.NewSize(0, scanLineHeight), l.draw)
	l.Hide()
	return l
}

// Tell shows what a scan did.
func (l *ScanLine) Tell(verdict, title, detail string) {
	l.verdict, l.title, l.detail = verdict, title, detail
	l.Show()
	l.picture.Refresh()
}

// Text is what the line says; empty while it is hidden.
func (l *ScanLine) Text() string {
	if !l.Visible() {
		return ""
	}
	return l.title + "\n" + l.detail
}

func (l *ScanLine) draw(w, h float64) scene.Scene {
	z := themeSizes()
	s := scene.Scene{W: w, H: h, Shapes: []scene.Shape{scene.Bar{W: w, H: h, Round: 5, Ink: scene.VerdictInk(l.verdict)}}}
	size := z.sub + 6
	a := answer{Scene: s, sizes: z}
	a.mark(l.verdict, scene.VerdictInk(l.verdict), (h-size)/2, size)
	x := cardMargin + size + 14
	base := h/2 + size*0.36
	title := scene.Shortened(l.title, size, true, (w-x)*0.6)
	a.Shapes = append(a.Shapes, scene.Words{X: x, Y: base, Size: size, Bold: true, Text: title, Ink: look.OnVerdict})
	x += scene.Width(title, size, true) + 22
	lines := wrapped(l.detail, z.text, false, w-x-cardMargin)
	lead := z.text * 1.35
	lines = lines[:min(len(lines), 2)]
	for i, line := range lines {
		y := h/2 + z.text*0.36 + (float64(i)-float64(len(lines)-1)/2)*lead
		a.Shapes = append(a.Shapes, scene.Words{X: x, Y: y, Size: z.text, Text: line, Ink: look.OnVerdict})
	}
	return a.Scene
}

// CreateRenderer is called by the toolkit.
func (l *ScanLine) CreateRenderer() fyne.WidgetRenderer {
	l.ExtendBaseWidget(l)
	return widget.NewSimpleRenderer(l.picture)
}
