package uitest

import (
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lungwort/ui/look"
)

// Room is what every screen offers.
type Room interface {
	Content() fyne.CanvasObject
	Keyboard() fyne.Focusable
}

// Stage is where a screen stands in a window of 1366 by 768: beside the side
// bar, under the field, above the notice line.
var Stage = fyne.NewSize(1366-148-16, 768-52-34-16)

// Show puts a screen into a window at the size of its stage and the keyboard
// into it.
func Show(t testing.TB, r Room) fyne.Window {
	t.Helper()
	win := test.NewTempWindow(t, container.NewPadded(r.Content()))
	fyne.CurrentApp().Settings().SetTheme(look.New(look.Light))
	win.Resize(Stage)
	if k := r.Keyboard(); k != nil {
		win.Canvas().Focus(k)
	}
	return win
}

// Press types keys where the keyboard is.
func Press(win fyne.Window, keys ...fyne.KeyName) {
	for _, k := range keys {
		event := &fyne.KeyEvent{Name: k}
		if focused := win.Canvas().Focused(); focused != nil {
			focused.TypedKey(event)
		} else if typed := win.Canvas().OnTypedKey(); typed != nil {
			typed(event)
		}
	}
}

// Type types text where the keyboard is.
func Type(win fyne.Window, text string) {
	for _, r := range text {
		if focused := win.Canvas().Focused(); focused != nil {
			focused.TypedRune(r)
		} else if typed := win.Canvas().OnTypedRune(); typed != nil {
			typed(r)
		}
	}
}

// Shoot draws the window in light and dark. With LUNGWORT_GALLERY set to a
// folder the pictures are kept there for a look.
func Shoot(t testing.TB, win fyne.Window, name string) {
	t.Helper()
	dir := os.Getenv("LUNGWORT_GALLERY")
	if dir == "" {
		return
	}
	require.NoError(t, os.MkdirAll(dir, 0o755))
	for label, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
		fyne.CurrentApp().Settings().SetTheme(look.New(shade))
		file, err := os.Create(filepath.Join(dir, name+"-"+label+".png"))
		require.NoError(t, err)
		require.NoError(t, png.Encode(file, win.Canvas().Capture()))
		require.NoError(t, file.Close())
	}
	fyne.CurrentApp().Settings().SetTheme(look.New(look.Light))
}
