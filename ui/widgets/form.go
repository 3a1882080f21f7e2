package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Form is fields from top to bottom and the button that is their purpose. Tab
// and Enter go from field to field, Enter in the last field and Ctrl+Enter
// anywhere submit, Esc cancels.
type Form struct {
	widget.BaseWidget

	// OnSubmit is called when the person is done.
	OnSubmit func()
	// OnCancel is called on Esc and by the Cancel button, which is there only
	// when OnCancel is set before the form is shown.
	OnCancel func()

	fields []*Field
	lead   *widget.Label
	note   *widget.Label
	submit *Button
	column *fyne.Container
}

var _ fyne.Widget = (*Form)(nil)

// NewForm returns a form; submit is what its button says.
func NewForm(submit string, fields ...*Field) *Form {
	f := &Form{fields: fields, lead: hiddenWords(), note: hiddenWords()}
	f.note.TextStyle.Bold = true
	f.ExtendBaseWidget(f)
	f.submit = NewMainButton(submit, f.Submit)
	for i, field := range fields {
		field.input.listen(formKeys{enter: func() { f.next(i) }, submit: f.Submit, escape: f.Cancel})
	}
	f.submit.keys.escape = f.Cancel
	return f
}

func hiddenWords() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping, l.Hidden = fyne.TextWrapWord, true
	return l
}

// SetLead shows what to know first, over the fields; alarm when it warns.
func (f *Form) SetLead(text string, alarm bool) { f.say(f.lead, text, alarm) }

// SetNote shows what the answers mean, or why they were refused, between the
// fields and the button.
func (f *Form) SetNote(text string, alarm bool) { f.say(f.note, text, alarm) }

// Note is what SetNote said.
func (f *Form) Note() string { return f.note.Text }

func (f *Form) say(l *widget.Label, text string, alarm bool) {
	l.Importance, l.Hidden = widget.MediumImportance, text == ""
	if alarm {
		l.Importance = widget.DangerImportance
	}
	l.SetText(text)
	if f.column != nil {
		f.column.Refresh()
	}
}

// SetDanger makes the button red: it takes something away.
func (f *Form) SetDanger() { f.submit.Importance = widget.DangerImportance }

// next goes from field i to the one after it in sight.
func (f *Form) next(i int) {
	for _, field := range f.fields[i+1:] {
		if field.Visible() {
			focus(field.input)
			return
		}
	}
	f.Submit()
}

// Submit does what the button does.
func (f *Form) Submit() {
	if f.OnSubmit != nil && !f.submit.Disabled() {
		f.OnSubmit()
	}
}

// Cancel does what Esc does.
func (f *Form) Cancel() {
	if f.OnCancel != nil {
		f.OnCancel()
	}
}

// SetReady says whether the form can be submitted; not while its work runs.
func (f *Form) SetReady(ready bool) {
	if ready {
		f.submit.Enable()
		return
	}
	f.submit.Disable()
}

// Begin brings the keyboard to the first field of a form that has been drawn.
func (f *Form) Begin() {
	if first := f.First(); first != nil {
		focus(first)
	}
}

// First is the first field that shows; nil when none does.
func (f *Form) First() fyne.Focusable {
	for _, field := range f.fields {
		if field.Visible() {
			return field.input
		}
	}
	return nil
}

// ShowErrors shows what is wrong under its field, takes every other error
// away, and brings the keyboard to the first that is wrong. It reports whether
// nothing was wrong.
func (f *Form) ShowErrors(errs map[*Field]error) bool {
	fine := true
	for _, field := range f.fields {
		err := errs[field]
		field.SetError(err)
		if err != nil && fine {
			fine = false
			focus(field.input)
		}
	}
	if f.column != nil {
		f.column.Refresh()
	}
	return fine
}

// CreateRenderer is called by the toolkit.
func (f *Form) CreateRenderer() fyne.WidgetRenderer {
	f.ExtendBaseWidget(f)
	rows := []fyne.CanvasObject{f.lead}
	for _, field := range f.fields {
		rows = append(rows, field)
	}
	buttons := container.NewHBox(layout.NewSpacer(), f.submit)
	if f.OnCancel != nil {
		cancel := NewButton("Cancel", f.Cancel)
		cancel.keys.escape = f.Cancel
		buttons = container.NewHBox(layout.NewSpacer(), cancel, f.submit)
	}
	f.column = container.New(columnLayout{}, append(rows, f.note, buttons)...)
	return widget.NewSimpleRenderer(f.column)
}

// columnLayout stacks objects whose height depends on their width: each gets
// its width first, and only then is asked for its height.
type columnLayout struct{}

func (columnLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		if o.Visible() {
			size = fyne.NewSize(max(size.Width, o.MinSize().Width), size.Height+o.MinSize().Height+theme.Padding())
		}
	}
	return size.SubtractWidthHeight(0, theme.Padding())
}

func (columnLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		o.Resize(fyne.NewSize(size.Width, o.MinSize().Height))
		height := o.MinSize().Height
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, height))
		y += height + theme.Padding()
	}
}

// Link makes one form of inputs that a screen lays out itself: Enter goes from
// each to the next in sight and from the last does what Ctrl+Enter does
// anywhere, submit. Esc does escape.
func Link(submit, escape func(), inputs ...Input) {
	for i, input := range inputs {
		input.listen(formKeys{submit: submit, escape: escape, enter: func() {
			for _, next := range inputs[i+1:] {
				if next.Visible() {
					focus(next)
					return
				}
			}
			submit()
		}})
	}
}
