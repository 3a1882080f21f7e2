package person_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/person"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func shown(t *testing.T, d *uitest.Desk, given string) fyne.Window {
	t.Helper()
	v := person.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Person, Person: d.Persons[given]})
	win.Canvas().Focus(v.Keyboard())
	return win
}

func TestLook(t *testing.T) {
	d := uitest.New(t)
	for _, given := range []string{"Anwen", "Ines", "Odd", "Mira", "Jory", "Rhea", "Cai"} {
		win := shown(t, d, given)
		assert.LessOrEqual(t, win.Content().MinSize().Width, uitest.Stage.Width, "%s fits the window", given)
		uitest.Shoot(t, win, "person-"+given)
	}
	d.Clean()
}

// The calls that can't wait, and the usual one, each have their key; they lead to
// the screens made for them.
func TestCallsByKeys(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "Jory")
	uitest.Type(win, "1")
	assert.Equal(t, work.Target{Room: work.Calls, Person: d.Persons["Jory"]}, d.Opened[len(d.Opened)-1])
}

func TestEachActHasItsKey(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "Jory")
	for _, key := range "234567890" {
		uitest.Type(win, string(key))
		require.NotNil(t, win.Canvas().Overlays().Top(), "key %c", key)
		uitest.Shoot(t, win, "person-form-"+string(key))
		uitest.Press(win, fyne.KeyEscape)
		require.Nil(t, win.Canvas().Overlays().Top(), "key %c", key)
	}
	assert.Zero(t, d.Changes)
}

func TestEnterOpensTheThingInHand(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "Anwen")
	test.FocusPrevious(win.Canvas())
	test.FocusPrevious(win.Canvas())
	uitest.Press(win, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, []work.Target{{Room: work.Item, Item: d.Things["CN00405"]}}, d.Opened)
}

// The gas is a chart or, by one key from anywhere on the page, a table; a row
// of it opens the fact of its reading.
func TestGasAsATable(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "Ines")
	uitest.Type(win, "+")
	table := win.Canvas().Focused()
	uitest.Shoot(t, win, "person-gas-table")
	uitest.Press(win, fyne.KeyHome, fyne.KeyReturn)
	uitest.Type(win, "+")
	assert.NotEqual(t, table, win.Canvas().Focused(), "the chart has the keyboard")
	uitest.Shoot(t, win, "person-gas-chart")
	uitest.Type(win, "2")
	assert.NotNil(t, win.Canvas().Overlays().Top(), "keys of the page work on the chart")
	d.Clean()
}
