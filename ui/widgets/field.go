package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Field is an input with its label beside it, and below it a hint or what is
// wrong with what was entered.
type Field struct {
	widget.BaseWidget

	label, hint, wrong string
	input              Input
	side, below        *Picture
	room, least        float32 // for the label, and for the input at least
}

var _ fyne.Widget = (*Field)(nil)

// NewField returns a field; hint may be empty.
func NewField(label string, input Input, hint string) *Field {
	f := &Field{label: label, hint: hint, input: input, room: labelWidth, least: inputWidth}
	f.ExtendBaseWidget(f)
	f.side = NewPicture(fyne.NewSize(0, 0), f.drawLabel)
	f.below = NewPicture(fyne.NewSize(0, 0), f.drawBelow)
	return f
}

// Narrow gives the label another room than usual, and lets the input become
// small, for fields that stand beside each other.
func (f *Field) Narrow(label float32) *Field {
	f.room, f.least = label, narrowInput
	return f
}

// Input is the field's input.
func (f *Field) Input() Input { return f.input }

// SetError shows what is wrong; nil takes it away.
func (f *Field) SetError(err error) {
	wrong := ""
	if err != nil {
		wrong = err.Error()
	}
	f.setWrong(wrong)
}

func (f *Field) setWrong(wrong string) {
	if f.wrong != wrong {
		f.wrong = wrong
		f.Refresh()
	}
}

// Wrong is what SetError said, empty while nothing is wrong.
func (f *Field) Wrong() string { return f.wrong }

// SetHint shows another hint.
func (f *Field) SetHint(hint string) {
	f.hint = hint
	f.Refresh()
}

// labelWidth is the room for labels, so that inputs stand under each other.
const labelWidth = 140

func (f *Field) drawLabel(w, h float64) scene.Scene {
	z := themeSizes()
	in := float64(theme.Size(theme.SizeNameInnerPadding)) // in line with the toolkit's labels
	return scene.Scene{W: w, H: h, Shapes: []scene.Shape{scene.Words{
		X: in, Y: h/2 + z.text*0.36, Size: z.text, Text: scene.Shortened(f.label, z.text, false, w-in), Ink: scene.Faint,
	}}}
}

// drawBelow writes the hint, or in its place the error with the mark of short.
func (f *Field) drawBelow(w, h float64) scene.Scene {
	z := themeSizes()
	s := scene.Scene{W: w, H: h}
	text, ink, x, bold := f.hint, scene.Faint, 0.0, false
	if f.wrong != "" {
		text, ink, x, bold = f.wrong, scene.Alarm, z.small+6, true
		s.Place(scene.VerdictMark(scene.Short, z.small), 0, 2)
	}
	for i, line := range wrapped(text, z.small, bold, w-x) {
		s.Shapes = append(s.Shapes, scene.Words{X: x, Y: z.small + float64(i)*z.small*1.4, Size: z.small, Bold: bold, Text: line, Ink: ink})
	}
	return s
}

// belowHeight is what the hint or error takes at a width.
func (f *Field) belowHeight(w float64) float32 {
	z := themeSizes()
	text, bold := f.hint, false
	if f.wrong != "" {
		text, bold, w = f.wrong, true, w-z.small-6
	}
	lines := wrapped(text, z.small, bold, max(w, 60))
	if len(lines) == 0 {
		return 0
	}
	return float32(float64(len(lines))*z.small*1.4 + 3)
}

// CreateRenderer is called by the toolkit.
func (f *Field) CreateRenderer() fyne.WidgetRenderer {
	f.ExtendBaseWidget(f)
	return widget.NewSimpleRenderer(container.New(&fieldLayout{f}, f.side, f.input, f.below))
}

// Refresh redraws label, hint and error.
func (f *Field) Refresh() {
	f.side.Refresh()
	f.below.Refresh()
	f.BaseWidget.Refresh()
	if size := f.Size(); !size.IsZero() {
		f.Resize(size)
	}
}

type fieldLayout struct{ field *Field }

// The least an input takes, and what it is taken to have before it is laid
// out, in points.
const (
	inputWidth  = 220
	narrowInput = 60
	usualWidth  = 400
)

func (l *fieldLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	f, label := l.field, l.field.room*float32(themeSizes().scale)
	in := f.input.MinSize()
	width := max(in.Width, f.least, f.Size().Width-label)
	if f.Size().Width == 0 {
		width = usualWidth
	}
	return fyne.NewSize(label+max(in.Width, f.least), in.Height+f.belowHeight(float64(width)))
}

func (l *fieldLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	f, label := l.field, l.field.room*float32(themeSizes().scale)
	in, width := f.input.MinSize(), size.Width-label
	one := theme.Size(theme.SizeNameText) + 2*theme.Size(theme.SizeNameInnerPadding) + 4
	f.side.Resize(fyne.NewSize(label-8, min(in.Height, one)))
	f.input.Move(fyne.NewPos(label, 0))
	f.input.Resize(fyne.NewSize(width, in.Height))
	f.below.Move(fyne.NewPos(label, in.Height+3))
	f.below.Resize(fyne.NewSize(width, f.belowHeight(float64(width))))
}
