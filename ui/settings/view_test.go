package settings

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/ask"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func TestViewByKeys(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Settings})
	uitest.Shoot(t, win, "settings")

	uitest.Type(win, "bri") // the page of the bridge
	require.Equal(t, "margin", v.model.Entries()[0].ID)
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	require.NotNil(t, win.Canvas().Overlays().Top(), "Enter on a setting asks")
	uitest.Type(win, "2")
	uitest.Press(win, fyne.KeyReturn)
	assert.Nil(t, win.Canvas().Overlays().Top())
	assert.Equal(t, 1, v.model.Changes())
	assert.Equal(t, "1 change not in force yet", v.state.Text)
	uitest.Shoot(t, win, "settings-bridge")

	uitest.Press(win, fyne.KeyEscape, fyne.KeyEscape) // to the pages, then out
	require.NotNil(t, win.Canvas().Overlays().Top(), "changes are not dropped without a question")
	uitest.Press(win, fyne.KeyReturn)
	assert.Equal(t, 1, v.model.Changes(), "Enter alone keeps them")

	uitest.Type(win, "9")
	assert.Zero(t, v.model.Changes())
	assert.InDelta(t, 2, inForce(t, d).Margin, 0)
}

func TestRowsByKeys(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Settings})
	uitest.Type(win, "veh")
	uitest.Type(win, "2")
	require.NotNil(t, win.Canvas().Overlays().Top())
	require.Equal(t, []string{"vehicle"}, v.model.Adds())
	uitest.Shoot(t, win, "settings-vehicle")
	uitest.Press(win, fyne.KeyEscape)
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "7")
	assert.Len(t, v.model.Entries(), 1)
	uitest.Shoot(t, win, "settings-vehicles")
	uitest.Type(win, "8")
	uitest.Press(win, fyne.KeyTab)
	uitest.Press(win, fyne.KeyEscape)
	assert.Equal(t, 1, v.model.Changes())
}

// A size is added by keys alone: its form opens over the page of cylinders.
func TestASizeByKeys(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Settings})
	uitest.Type(win, "cyl")
	uitest.Type(win, "2")
	require.NotNil(t, win.Canvas().Overlays().Top())
	uitest.Shoot(t, win, "settings-size")
	uitest.Press(win, fyne.KeyEscape)
	assert.Nil(t, win.Canvas().Overlays().Top())
	form, ok := v.model.NewRow("size")
	require.True(t, ok)
	require.Empty(t, answer(t, form, ask.Answers{"name": "QI", "letter": "Q", "contents": "682 L", "full": "2015", "water": "4.64 L", "empty": "3.6 kg", "valve": "post"}))
	uitest.Shoot(t, win, "settings-sizes")
	assert.Equal(t, 1, v.model.Changes())
}
