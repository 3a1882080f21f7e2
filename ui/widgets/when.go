package widgets

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory/wall"
)

// When is an input for a date and time. Up and Down move it by a quarter of an
// hour, Page Up and Page Down by a day. Beside the text stands the weekday, to
// see a wrong date by.
type When struct {
	Text

	loc   *time.Location
	day   *widget.Label
	today func() time.Time
}

var _ Input = (*When)(nil)

// dayWidth holds the longest weekday with its date, in points.
const dayWidth = 96

// NewWhen returns an empty input for times in loc.
func NewWhen(loc *time.Location) *When {
	w := &When{loc: loc, day: widget.NewLabel("")}
	w.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	w.PlaceHolder = wall.Example
	w.ActionItem = container.New(fixedWidth(dayWidth), w.day) // the toolkit lays it out once
	w.day.Importance, w.day.Alignment = widget.LowImportance, fyne.TextAlignTrailing
	w.OnChanged = func(string) { w.showDay() }
	w.ExtendBaseWidget(w)
	return w
}

// SetTime shows t.
func (w *When) SetTime(t time.Time) {
	t = t.In(w.loc)
	layout := wall.Layout
	if wall.Twice(t) {
		layout = wall.OffsetLayout
	}
	w.SetText(t.Format(layout))
}

// ClockOn lets a person write the hour alone, "17:05": it is then the hour on
// the day of now. The weekday beside it shows which day that is.
func (w *When) ClockOn(now func() time.Time) { w.today = now }

// Time is the time written, or an error that says what to write.
func (w *When) Time() (time.Time, error) {
	if w.today != nil {
		return wall.ParseOn(w.Text.Text, w.today().In(w.loc))
	}
	return wall.Parse(w.Text.Text, w.loc)
}

func (w *When) showDay() {
	day := ""
	if t, err := w.Time(); err == nil {
		day = t.Format("Mon 2 Jan")
	}
	w.day.SetText(day)
}

// TypedKey moves the time.
func (w *When) TypedKey(e *fyne.KeyEvent) {
	Used()
	t, err := w.Time()
	if err != nil {
		w.Text.TypedKey(e)
		return
	}
	const quarter = 15 * time.Minute
	switch e.Name {
	case fyne.KeyUp:
		w.SetTime(t.Truncate(quarter).Add(quarter))
	case fyne.KeyDown:
		w.SetTime(t.Add(-1).Truncate(quarter))
	case fyne.KeyPageUp:
		w.SetTime(t.AddDate(0, 0, 1))
	case fyne.KeyPageDown:
		w.SetTime(t.AddDate(0, 0, -1))
	default:
		w.Text.TypedKey(e)
	}
}
