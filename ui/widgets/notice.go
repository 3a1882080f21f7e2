package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Notice is the line that says what just happened, with one step that may
// follow: undo it, or go on.
type Notice struct {
	widget.BaseWidget

	mark   *Picture
	text   *widget.Label
	next   *widget.Label
	button *Button
	act    func()
	kind   string
}

var _ fyne.Widget = (*Notice)(nil)

// NewNotice returns an empty line.
func NewNotice() *Notice {
	n := &Notice{text: widget.NewLabel(""), next: widget.NewLabel("")}
	n.ExtendBaseWidget(n)
	n.next.Truncation = fyne.TextTruncateEllipsis
	n.mark = NewPicture(fyne.NewSize(15, 15), func(w, h float64) scene.Scene {
		s := scene.Scene{W: w, H: h}
		s.Place(scene.VerdictMark(n.kind, 15), 0, (h-15)/2)
		return s
	})
	n.button = NewButton("", n.Act)
	n.Clear()
	return n
}

// Say tells what was done.
func (n *Notice) Say(text string) { n.show(scene.Holds, text, "", "", nil) }

// Offer tells what was done and the step that may follow, such as "Undo".
func (n *Notice) Offer(text, step string, do func()) { n.show(scene.Holds, text, "", step, do) }

// Refuse tells why something was not done, and what to do about it.
func (n *Notice) Refuse(text, next string) { n.show(scene.Short, text, next, "", nil) }

// RefuseOffering is Refuse with a button for the next step.
func (n *Notice) RefuseOffering(text, next, step string, do func()) {
	n.show(scene.Short, text, next, step, do)
}

// Clear empties the line.
func (n *Notice) Clear() { n.show("", "", "", "", nil) }

// Act takes the offered step, once: the window binds its undo key to it.
func (n *Notice) Act() {
	if do := n.act; do != nil {
		n.Clear()
		do()
	}
}

// Text is what the line says.
func (n *Notice) Text() string { return n.text.Text }

func (n *Notice) show(kind, text, next, step string, do func()) {
	n.kind, n.act = kind, do
	n.text.Importance, n.text.TextStyle.Bold = widget.MediumImportance, kind == scene.Short
	if kind == scene.Short {
		n.text.Importance = widget.DangerImportance
	}
	n.text.SetText(text)
	n.next.SetText(next)
	n.button.SetText(step)
	n.mark.Hidden = kind == ""
	n.next.Hidden = next == ""
	n.button.Hidden = do == nil
	n.mark.Refresh()
	n.BaseWidget.Refresh()
}

// CreateRenderer is called by the toolkit.
func (n *Notice) CreateRenderer() fyne.WidgetRenderer {
	n.ExtendBaseWidget(n)
	words := container.New(wordsLayout{}, n.text, n.next)
	line := container.NewBorder(nil, nil, container.NewPadded(container.NewCenter(n.mark)), n.button, words)
	return widget.NewSimpleRenderer(line)
}

// wordsLayout puts the next step right behind the text. A text too long for the
// line runs on below it, and never makes the window wider; what does not fit of
// the next step is cut.
type wordsLayout struct{}

func (wordsLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(0, max(objects[0].MinSize().Height, objects[1].MinSize().Height))
}

func (wordsLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	label := objects[0].(*widget.Label)
	wrap(label, fyne.TextWrapOff)
	text := label.MinSize().Width
	if text > size.Width {
		text = size.Width
		wrap(label, fyne.TextWrapWord)
	}
	label.Resize(fyne.NewSize(text, size.Height))
	objects[1].Move(fyne.NewPos(text, 0))
	objects[1].Resize(fyne.NewSize(max(size.Width-text, 0), size.Height))
}

func wrap(label *widget.Label, how fyne.TextWrap) {
	if label.Wrapping != how {
		label.Wrapping = how
		label.Refresh()
	}
}
