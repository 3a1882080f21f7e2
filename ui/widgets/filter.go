package widgets

import "fyne.io/fyne/v2"

// Filter is a field over a list: what is typed narrows the list, Down and
// Enter go on to it, Esc empties the field.
type Filter struct {
	Text

	// OnText is called when the text has changed.
	OnText func(text string)

	rows *Rows
}

var _ fyne.Focusable = (*Filter)(nil)

// NewFilter returns an empty field over a list. The list gives the keyboard
// back to it from its first row.
func NewFilter(hint string, rows *Rows) *Filter {
	f := &Filter{rows: rows}
	f.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	f.PlaceHolder = hint
	f.OnChanged = func(text string) {
		if f.OnText != nil {
			f.OnText(text)
		}
	}
	rows.OnLeave = func() { focus(f) }
	f.ExtendBaseWidget(f)
	return f
}

// TypedKey goes on to the list.
func (f *Filter) TypedKey(e *fyne.KeyEvent) {
	Used()
	switch e.Name {
	case fyne.KeyDown, fyne.KeyReturn, fyne.KeyEnter:
		if f.rows.Len() > 0 {
			focus(f.rows.list)
		}
	case fyne.KeyEscape:
		f.SetText("")
	default:
		f.Text.TypedKey(e)
	}
}

// MinSize is wide enough for a name and a street.
func (f *Filter) MinSize() fyne.Size {
	return fyne.NewSize(280, f.Text.MinSize().Height)
}
