package widgets

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Suggestion is one thing the text in the AnyField may mean.
type Suggestion struct {
	// ID is what OnPicked is told.
	ID string
	// Text names the thing, Below tells it from its like, Kind says what it is.
	Text, Below, Kind string
}

// AnyField is the one field that takes anything: a scan, a serial, a name, a
// phone number, a street. A scanner types fast and ends with Enter or Tab;
// both submit. What was submitted stays, selected, so that the next scan takes
// its place.
type AnyField struct {
	widget.BaseWidget

	// OnChanged is called with the text at each change, for suggestions.
	OnChanged func(text string)
	// OnSubmitted is called with a scan, or with text ended by Enter.
	OnSubmitted func(text string)
	// OnPicked is called with the ID of the suggestion that was chosen.
	OnPicked func(id string)
	// OnLeave is called on Down without suggestions, and on Esc in the empty
	// field or after a scan: the keyboard goes to what is below.
	OnLeave func()

	now    func() time.Time
	entry  *anyEntry
	drop   *fyne.Container
	list   *Rows
	typing bool

	last   string
	lastAt time.Time
}

var _ fyne.Widget = (*AnyField)(nil)

// repeatWithin is the time in which the same scan again is taken for the
// scanner's stutter (common practice, no source).
const repeatWithin = time.Second

// NewAnyField returns the field. now is the clock of the window.
func NewAnyField(now func() time.Time) *AnyField {
	f := &AnyField{now: now}
	f.ExtendBaseWidget(f)
	f.entry = newAnyEntry(f)
	f.list = newRows([]Column{{}, {Width: 90, Right: true}}, "", tallRow, true)
	f.list.OnOpen = f.pick
	f.list.OnLeave = func() { focus(f.entry) }
	f.drop = container.New(&dropLayout{f}, &veil{onTapped: f.Close}, newPanel(scene.Panel, scene.Faint, 5, container.NewPadded(f.list)))
	f.drop.Hide()
	return f
}

// Over lays the suggestions over what the window shows below the field.
func (f *AnyField) Over(below fyne.CanvasObject) fyne.CanvasObject {
	return container.NewStack(below, f.drop)
}

// Keyboard is what to focus so that the keys reach the field.
func (f *AnyField) Keyboard() fyne.Focusable { return f.entry }

// Text is what the field holds.
func (f *AnyField) Text() string { return f.entry.Text }

// SetText puts text into the field without taking it for typing.
func (f *AnyField) SetText(text string) {
	f.entry.silent = true
	f.clear()
	f.entry.SetText(text)
	f.entry.silent = false
	f.Close()
}

// SetSuggestions shows what the text may mean. Suggestions that come after the
// text was submitted or cleared are not shown.
func (f *AnyField) SetSuggestions(suggestions []Suggestion) {
	rows := make([]Row, len(suggestions))
	for i, s := range suggestions {
		rows[i] = Row{ID: s.ID, Cells: []Cell{{Text: s.Text, Below: s.Below, Bold: true}, {Text: s.Kind, Ink: scene.Faint}}}
	}
	f.list.SetRows(rows)
	if !f.typing || len(rows) == 0 {
		f.drop.Hide()
		return
	}
	f.drop.Show()
	f.drop.Refresh()
}

// Close hides the suggestions.
func (f *AnyField) Close() {
	f.typing = false
	f.drop.Hide()
}

func (f *AnyField) changed(text string) {
	f.typing = strings.TrimSpace(text) != ""
	if !f.typing {
		f.drop.Hide()
	}
	if f.OnChanged != nil {
		f.OnChanged(text)
	}
}

func (f *AnyField) submit() {
	text := strings.TrimSpace(f.entry.Text)
	if text == "" {
		return
	}
	f.Close()
	f.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	now := f.now()
	if text == f.last && now.Sub(f.lastAt) < repeatWithin {
		f.lastAt = now
		return
	}
	f.last, f.lastAt = text, now
	if f.OnSubmitted != nil {
		f.OnSubmitted(text)
	}
}

func (f *AnyField) pick(id string) {
	f.Close()
	focus(f.entry)
	f.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	if f.OnPicked != nil {
		f.OnPicked(id)
	}
}

// escape clears the field. It leaves the empty field, and one whose text was
// submitted: after the last scan the keys of the screen are one key away.
func (f *AnyField) escape() {
	done := f.entry.Text == "" || !f.typing && strings.TrimSpace(f.entry.Text) == f.last
	f.clear()
	if done {
		f.leave()
	}
}

// clear empties the field by keys: where a text that is selected is only set, the
// selection stays, and swallows the first letter of the next scan.
func (f *AnyField) clear() {
	f.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	f.entry.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	f.entry.SetText("")
}

func (f *AnyField) down() {
	if f.drop.Visible() {
		focus(f.list.Keyboard())
		return
	}
	f.leave()
}

func (f *AnyField) leave() {
	if f.OnLeave != nil {
		f.OnLeave()
	}
}

// CreateRenderer is called by the toolkit.
func (f *AnyField) CreateRenderer() fyne.WidgetRenderer {
	f.ExtendBaseWidget(f)
	return widget.NewSimpleRenderer(f.entry)
}

// focus brings the keyboard to an object that is shown.
func focus(o fyne.Focusable) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o.(fyne.CanvasObject)); c != nil {
		c.Focus(o)
	}
}

// anyEntry is the entry inside the AnyField, with its keys.
type anyEntry struct {
	widget.Entry

	field  *AnyField
	silent bool
}

var _ fyne.Tabbable = (*anyEntry)(nil)

func newAnyEntry(f *AnyField) *anyEntry {
	e := &anyEntry{field: f}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.PlaceHolder = "Scan or type anything: tag, serial, name, phone, street"
	e.Icon = theme.SearchIcon()
	e.OnChanged = func(text string) {
		if !e.silent {
			f.changed(text)
		}
	}
	e.ExtendBaseWidget(e)
	return e
}

// AcceptsTab takes Tab for the end of a scan while there is fresh text, and
// otherwise lets it go to the next widget.
func (e *anyEntry) AcceptsTab() bool { return e.field.typing }

// TypedKey handles the keys that end a scan, open the list or clear.
func (e *anyEntry) TypedKey(k *fyne.KeyEvent) {
	Used()
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyTab:
		e.field.submit()
	case fyne.KeyDown:
		e.field.down()
	case fyne.KeyEscape:
		e.field.escape()
	default:
		if !toWindow(k) {
			e.Entry.TypedKey(k)
		}
	}
}

// veil lies behind the suggestions: a click beside them closes them.
type veil struct {
	widget.BaseWidget

	onTapped func()
}

func (v *veil) Tapped(*fyne.PointEvent) { v.onTapped() }

func (v *veil) CreateRenderer() fyne.WidgetRenderer {
	v.ExtendBaseWidget(v)
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// dropLayout places the suggestions under the field, as wide as it.
type dropLayout struct{ field *AnyField }

// shownSuggestions are in sight before the list scrolls.
const shownSuggestions = 7

func (l *dropLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

func (l *dropLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Resize(size)
	d := fyne.CurrentApp().Driver()
	x := d.AbsolutePositionForObject(l.field).X - d.AbsolutePositionForObject(l.field.drop).X
	step := tallRow*float32(themeSizes().scale) + theme.Padding()
	height := float32(min(l.field.list.Len(), shownSuggestions))*step + 2*theme.Padding()
	objects[1].Move(fyne.NewPos(x, 0))
	objects[1].Resize(fyne.NewSize(min(l.field.Size().Width, size.Width-x), min(height, size.Height)))
}
