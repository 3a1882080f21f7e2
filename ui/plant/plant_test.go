package plant_test

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/plant"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// TestExchangeByScansAndKeys: two rented go out, one unknown of theirs comes
// in, our own one does not; it is signed with exceptions.
func TestExchangeByScansAndKeys(t *testing.T) {
	d := uitest.New(t)
	v := plant.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Plant})
	uitest.Shoot(t, win, "plant-1-empty")
	win.Canvas().Focus(v.Keyboard())
	require.True(t, v.Scan("D-10404"))
	require.True(t, v.Scan("E-20114"))
	uitest.Type(win, "2") // what comes in
	require.True(t, v.Scan("GW-771"))
	require.NotNil(t, win.Canvas().Overlays().Top(), "it asks whose it is")
	uitest.Type(win, "Gas works")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Press(win, fyne.KeyBackspace)
	uitest.Type(win, "US-D")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "W3")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "900")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	win.Canvas().Focus(v.Keyboard())
	uitest.Shoot(t, win, "plant-2-scanned")
	uitest.Type(win, "6")
	uitest.Type(win, "Tam Orr")
	uitest.Shoot(t, win, "plant-3-sign")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())

	assert.Equal(t, inventory.OutAtPlant, d.Thing("E-20114").State)
	assert.Equal(t, inventory.OutAtPlant, d.Thing("E-20113").State, "another is no replacement")
	assert.Equal(t, inventory.Gone, d.Thing("D-10404").State, "theirs, settled by count")
	signed, err := d.Desk.Exchanges(t.Context())
	require.NoError(t, err)
	require.Len(t, signed, 1)
	v.Print()
	require.Len(t, d.Shown, 1, "the slip opens")
	assert.Contains(t, d.Shown[0], "exchange-slip")
	v.Open(work.Target{Room: work.Plant, Text: fmt.Sprint(signed[0].ID)}) // the slip is scanned
	v.Print()
	assert.Empty(t, d.Refused)
	v.Open(work.Target{Room: work.Plant, Text: "1"})
	assert.Contains(t, d.Refusal().Says, "not in the book", "the number of another fact is no slip")
	d.Refused = nil
	s, is := signed[0].Statement.(*inventory.Exchanged)
	require.True(t, is)
	assert.Equal(t, "Tam Orr", s.Driver)
	var sorts []string
	for _, e := range s.Exceptions {
		sorts = append(sorts, e.Sort)
	}
	assert.Equal(t, []string{inventory.Stranger, inventory.NotFull, inventory.OwnMissing}, sorts)
	d.Clean()
}

// TestStop: what must not leave is shown large and does not get on the truck.
func TestStop(t *testing.T) {
	d := uitest.New(t)
	m := plant.NewModel(d.Work)
	m.Load()
	for _, c := range []struct{ scan, says string }{
		{"E-20101", "on loan"}, {"CN00409", "is not filled"}, {"E-20113", "at plant in the book"}, {"E-2O112", "E-20112 is near"}, {"ZZ-99", "not in the book"},
	} {
		require.True(t, m.Scan(c.scan), c.scan)
		assert.Equal(t, "STOP", m.Sign.Word, c.scan)
		assert.Contains(t, m.Sign.Below, c.says)
		assert.Empty(t, m.Out)
	}
	assert.False(t, m.Scan("anwen"), "a name is the window's")
	m.Scan("E-20112")
	assert.Equal(t, scene.Sign{Verdict: scene.Holds, Word: "OUT 1", Below: "E-20112  US-E, own"}, m.Sign)
	m.TakeOff(plant.Out, string(d.Things["E-20112"]))
	assert.Empty(t, m.Out)
	d.Clean()
}

// What is scanned while the scan before is still looked up goes along too.
func TestNoScanIsLostWhileAnotherIsLookedUp(t *testing.T) {
	d := uitest.New(t)
	m := plant.NewModel(d.Work)
	m.Load()
	held := d.Hold()
	require.True(t, m.Scan("D-10404"))
	require.True(t, m.Scan("E-20114"))
	assert.Empty(t, m.Out)
	held.LetGo()
	assert.Len(t, m.Out, 2)
}
