package widgets_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/widgets"
)

// asked is a window with an entry that has the keyboard.
func asked(t *testing.T) (fyne.Window, *widgets.Text) {
	app(t)
	e := widgets.NewText()
	win := open(t, container.NewVBox(e), 800, 600)
	win.Canvas().Focus(e)
	return win, e
}

func key(win fyne.Window, name fyne.KeyName) {
	if f := win.Canvas().Focused(); f != nil {
		f.TypedKey(&fyne.KeyEvent{Name: name})
		return
	}
	win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: name})
}

func TestDialogKeys(t *testing.T) {
	ask, warn := widgets.Ask, widgets.Warn
	for _, tc := range []struct {
		name     string
		show     func(fyne.Window, string, string, string, func()) *widgets.Dialog
		unfocus  bool
		keys     []fyne.KeyName
		confirms bool
	}{
		{"Enter confirms", ask, false, []fyne.KeyName{fyne.KeyReturn}, true},
		{"Esc closes", ask, false, []fyne.KeyName{fyne.KeyEscape}, false},
		{"Space presses", ask, false, []fyne.KeyName{fyne.KeySpace}, true},
		{"Enter after a click beside", ask, true, []fyne.KeyName{fyne.KeyEnter}, true},
		{"Esc after a click beside", ask, true, []fyne.KeyName{fyne.KeyEscape}, false},
		{"Enter alone takes nothing away", warn, false, []fyne.KeyName{fyne.KeyReturn}, false},
		{"Esc closes a warning", warn, false, []fyne.KeyName{fyne.KeyEscape}, false},
		{"Enter beside takes nothing away", warn, true, []fyne.KeyName{fyne.KeyReturn, fyne.KeyEscape}, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			win, entry := asked(t)
			confirmed, closed := 0, 0
			d := tc.show(win, "Close run 3?", "Two stops are open.", "Close it", func() { confirmed++ })
			d.OnClose(func() { closed++ })
			require.NotNil(t, win.Canvas().Overlays().Top())
			if tc.unfocus {
				win.Canvas().Unfocus()
			}
			for _, k := range tc.keys {
				key(win, k)
			}
			assert.Equal(t, tc.confirms, confirmed == 1, "confirmed %d times", confirmed)
			assert.Equal(t, 1, closed)
			assert.Nil(t, win.Canvas().Overlays().Top())
			assert.Same(t, entry, win.Canvas().Focused(), "the keyboard goes back")
			d.Close()
			assert.Equal(t, 1, closed, "closed once")
		})
	}
}

func TestDialogWithForm(t *testing.T) {
	win, entry := asked(t)
	form, fields := readingForm()
	cancelled := 0
	form.OnCancel = func() { cancelled++ }
	var d *widgets.Dialog
	form.OnSubmit = func() { d.Close() }
	d = widgets.ShowForm(win, "Record a reading", form)
	assert.Same(t, fields[0].Input(), win.Canvas().Focused())
	key(win, fyne.KeyEscape)
	assert.Equal(t, 1, cancelled)
	assert.Same(t, entry, win.Canvas().Focused())

	form, _ = readingForm()
	form.OnSubmit = func() { d.Close() }
	d = widgets.ShowForm(win, "Record a reading", form)
	form.Submit()
	assert.Nil(t, win.Canvas().Overlays().Top())
}

func TestTellClosesOnAnyOfItsKeys(t *testing.T) {
	for _, k := range []fyne.KeyName{fyne.KeyReturn, fyne.KeySpace, fyne.KeyEscape} {
		win, entry := asked(t)
		assert.Same(t, win, widgets.WindowOf(entry))
		widgets.Tell(win, "Keys", widget.NewLabel("Ctrl+F finds."))
		key(win, k)
		assert.Nil(t, win.Canvas().Overlays().Top(), "after %s", k)
		assert.Same(t, entry, win.Canvas().Focused(), "after %s", k)
	}
}

// A widget that has the keyboard keeps its own keys and gives F1 to the window.
func TestFunctionKeysReachTheWindow(t *testing.T) {
	win, entry := asked(t)
	var got []fyne.KeyName
	win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) { got = append(got, e.Name) })
	for _, k := range []fyne.KeyName{fyne.KeyF1, fyne.KeyF, fyne.KeyHome, fyne.KeyF12} {
		key(win, k)
	}
	assert.Equal(t, []fyne.KeyName{fyne.KeyF1, fyne.KeyF12}, got)
	assert.Empty(t, entry.Text)
}
