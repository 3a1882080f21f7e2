package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// Dialog is a question over the window. Esc closes it, Enter confirms it, and
// the keyboard goes back to where it was.
type Dialog struct {
	popup   *widget.PopUp
	canvas  fyne.Canvas
	before  fyne.Focusable
	keys    func(*fyne.KeyEvent)
	closed  bool
	ended   func() // of a form that was shown
	onClose func()
}

// Ask shows a question with a button that confirms it. confirm is called
// after the dialog has closed; closing it any other way does nothing.
func Ask(win fyne.Window, title, text, button string, confirm func()) *Dialog {
	return ask(win, title, text, NewMainButton(button, nil), confirm)
}

// Warn is Ask for a step that takes something away: its button is red and the
// keyboard is on Cancel, so that Enter alone does nothing.
func Warn(win fyne.Window, title, text, button string, confirm func()) *Dialog {
	return ask(win, title, text, NewDangerButton(button, nil), confirm)
}

func ask(win fyne.Window, title, text string, yes *Button, confirm func()) *Dialog {
	d := &Dialog{canvas: win.Canvas()}
	no := NewButton("Cancel", d.Close)
	yes.OnTapped = func() {
		d.Close()
		if confirm != nil {
			confirm()
		}
	}
	for _, b := range []*Button{yes, no} {
		b.keys = formKeys{escape: d.Close}
	}
	words := widget.NewLabel(text)
	words.Wrapping = fyne.TextWrapWord
	body := container.NewVBox(words, container.NewHBox(layout.NewSpacer(), no, yes))
	first, enter := yes, yes.OnTapped
	if yes.Importance == widget.DangerImportance {
		first, enter = no, nil
	}
	d.show(title, body, enter)
	d.canvas.Focus(first)
	return d
}

// Tell shows something to read over the window, with a button that closes it.
func Tell(win fyne.Window, title string, body fyne.CanvasObject) *Dialog {
	d := &Dialog{canvas: win.Canvas()}
	done := NewMainButton("Close", d.Close)
	done.keys = formKeys{escape: d.Close}
	d.show(title, container.NewVBox(body, container.NewHBox(layout.NewSpacer(), done)), d.Close)
	d.canvas.Focus(done)
	return d
}

// WindowOf returns the window that shows an object, for a dialog over it; nil
// while none does.
func WindowOf(o fyne.CanvasObject) fyne.Window {
	driver := fyne.CurrentApp().Driver()
	shown := driver.CanvasForObject(o)
	for _, w := range driver.AllWindows() {
		if shown != nil && w.Canvas() == shown {
			return w
		}
	}
	return nil
}

// ShowForm shows a form over the window. It closes on Cancel or Esc; the
// form's OnSubmit closes it when its work is done.
func ShowForm(win fyne.Window, title string, form *Form) *Dialog {
	d := &Dialog{canvas: win.Canvas()}
	cancel := form.OnCancel
	form.OnCancel = func() {
		d.Close()
		if cancel != nil {
			cancel()
		}
	}
	d.show(title, form, form.Submit)
	inputs := make(map[string]Input, len(form.fields))
	for _, f := range form.fields {
		inputs[f.label] = f.input
	}
	d.ended = Shown(title, inputs)
	if first := form.First(); first != nil {
		d.canvas.Focus(first) // nothing of the form is drawn yet: only the canvas knows where it is
	}
	return d
}

// dialogWidth is the width of a dialog's text, in points.
const dialogWidth = 460

func (d *Dialog) show(title string, body fyne.CanvasObject, enter func()) {
	d.before = d.canvas.Focused()
	d.keys = d.canvas.OnTypedKey()
	head := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	head.SizeName = "subHeadingText"
	content := container.NewVBox(head, body)
	d.popup = widget.NewModalPopUp(container.NewPadded(content), d.canvas)
	d.popup.Show()
	d.Fit()
	// A click beside the fields takes the keyboard from all of them.
	d.canvas.SetOnTypedKey(func(e *fyne.KeyEvent) { formKeys{enter: enter, escape: d.Close}.handle(e) })
}

// Fit gives the dialog the height its content takes now.
func (d *Dialog) Fit() {
	// Twice: text wraps to the width it got, and only then knows its height.
	for range 2 {
		d.popup.Resize(fyne.NewSize(max(dialogWidth, d.popup.MinSize().Width), d.popup.MinSize().Height))
	}
}

// OnClose sets what is called once the dialog has closed, however it did.
func (d *Dialog) OnClose(f func()) { d.onClose = f }

// Close takes the dialog away.
func (d *Dialog) Close() {
	if d.closed {
		return
	}
	d.closed = true
	d.popup.Hide()
	d.canvas.SetOnTypedKey(d.keys)
	if d.before != nil {
		d.canvas.Focus(d.before)
	}
	if d.ended != nil {
		d.ended()
	}
	if d.onClose != nil {
		d.onClose()
	}
}
