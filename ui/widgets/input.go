package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Input is anything a Field can hold.
type Input interface {
	fyne.CanvasObject
	fyne.Focusable
	listen(formKeys)
}

// formKeys are what a form or dialog does on the keys its inputs pass on.
type formKeys struct {
	enter  func() // Enter: on to the next field, or done
	submit func() // Ctrl+Enter, from anywhere
	escape func()
}

// handle acts on a key and reports whether it was one of the form's.
func (k formKeys) handle(e *fyne.KeyEvent) bool {
	act := k.escape
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		act = k.enter
	case fyne.KeyEscape:
	default:
		return false
	}
	if act != nil {
		act()
	}
	return act != nil
}

// handleShortcut acts on Ctrl+Enter and reports whether it did.
func (k formKeys) handleShortcut(s fyne.Shortcut) bool {
	c, ok := s.(*desktop.CustomShortcut)
	if !ok || k.submit == nil || c.Modifier != fyne.KeyModifierControl {
		return false
	}
	if c.KeyName != fyne.KeyReturn && c.KeyName != fyne.KeyEnter {
		return false
	}
	k.submit()
	return true
}

// toWindow gives F1 to F12 to the window, which never sees a key while a
// widget has the keyboard. It reports whether the key was one of them.
func toWindow(e *fyne.KeyEvent) bool {
	if len(e.Name) < 2 || e.Name[0] != 'F' || e.Name[1] < '1' || e.Name[1] > '9' {
		return false
	}
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		if typed := w.Canvas().OnTypedKey(); typed != nil && w.Canvas().Focused() != nil {
			typed(e)
		}
	}
	return true
}

// Text is an input of one line, or of several.
type Text struct {
	widget.Entry

	keys   formKeys
	limit  int
	byHand bool // what stands here was typed
}

var _ Input = (*Text)(nil)

// NewText returns an input of one line.
func NewText() *Text {
	t := &Text{}
	t.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	t.ExtendBaseWidget(t)
	return t
}

// notesLimit keeps notes short: the toolkit's wrapped entry takes seconds over
// a few thousand characters.
const notesLimit = 600

// NewNotes returns an input of several lines, of up to 600 characters.
func NewNotes() *Text {
	t := NewText()
	t.MultiLine, t.Wrapping, t.limit = true, fyne.TextWrapWord, notesLimit
	return t
}

func (t *Text) listen(keys formKeys) { t.keys = keys }

// FocusGained selects a line, so that typing replaces it.
func (t *Text) FocusGained() {
	t.Entry.FocusGained()
	if !t.MultiLine {
		t.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// AcceptsTab is false also for notes: Tab goes to the next field.
func (t *Text) AcceptsTab() bool { return false }

// TypedKey passes Enter and Esc on to the form.
func (t *Text) TypedKey(e *fyne.KeyEvent) {
	Used()
	defer t.heed(t.Text)
	if toWindow(e) {
		return
	}
	enter := e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter
	if enter && t.MultiLine || !t.keys.handle(e) {
		t.Entry.TypedKey(e)
	}
}

// TypedRune stops at the limit of notes.
func (t *Text) TypedRune(r rune) {
	defer t.heed(t.Text)
	if t.limit == 0 || len([]rune(t.Text)) < t.limit || t.SelectedText() != "" {
		t.Entry.TypedRune(r)
	}
}

// TypedShortcut passes Ctrl+Enter on to the form.
func (t *Text) TypedShortcut(s fyne.Shortcut) {
	defer t.heed(t.Text)
	if !t.keys.handleShortcut(s) {
		t.Entry.TypedShortcut(s)
	}
}

// Button is a button that Enter presses as well as Space, and that passes Esc
// on to its dialog.
type Button struct {
	widget.Button

	keys formKeys
}

var _ fyne.Focusable = (*Button)(nil)

// NewButton returns a button.
func NewButton(label string, tapped func()) *Button {
	b := &Button{}
	b.Text, b.OnTapped = label, tapped
	b.ExtendBaseWidget(b)
	return b
}

// NewMainButton returns the button for what a screen or dialog is there for.
func NewMainButton(label string, tapped func()) *Button {
	b := NewButton(label, tapped)
	b.Importance = widget.HighImportance
	return b
}

// NewDangerButton returns the button for a step that takes something away.
func NewDangerButton(label string, tapped func()) *Button {
	b := NewButton(label, tapped)
	b.Importance = widget.DangerImportance
	return b
}

// TypedKey presses the button on Enter.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	Used()
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if b.OnTapped != nil && !b.Disabled() {
			b.OnTapped()
		}
	case fyne.KeyEscape:
		b.keys.handle(e)
	default:
		if !toWindow(e) {
			b.Button.TypedKey(e)
		}
	}
}
