package stocktake_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/stocktake"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// TestBlindCountIsSettledByKeys: what stands here and is booked elsewhere, what
// the book does not know, and what was not found; each settled by its key.
func TestBlindCountIsSettledByKeys(t *testing.T) {
	d := uitest.New(t)
	v := stocktake.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Stocktake})
	uitest.Shoot(t, win, "stocktake-1-empty")
	m := stocktake.NewModel(d.Work)
	m.Load()
	harbour := inventory.At(inventory.AtDepot, "harbour")
	require.Equal(t, harbour, m.Place)
	for _, scan := range []string{"D-10404", "RG-3304", "CN00499", "E-20101"} {
		require.True(t, v.Scan(scan), scan)
		require.True(t, m.Scan(scan), scan)
	}
	assert.Equal(t, scene.Sign{Verdict: scene.Holds, Word: "4", Below: "E-20101  oxygen cylinder US-E"}, m.Sign, "blind: nothing says it is on loan")
	m.Scan("E-20101")
	assert.Equal(t, "AGAIN", m.Sign.Word)
	m.Scan("E-2O1O1")
	assert.Equal(t, "STOP", m.Sign.Word, "a near serial is asked about")
	assert.Len(t, m.Rows, 4)
	assert.False(t, v.Scan("anwen"), "a name is the window's")
	win.Canvas().Focus(v.Keyboard())
	uitest.Shoot(t, win, "stocktake-2-counting")
	uitest.Type(win, "1")
	require.NotNil(t, win.Canvas().Overlays().Top(), "it asks who settles")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	uitest.Shoot(t, win, "stocktake-3-differences")

	m.Load()
	require.Len(t, m.Counts, 1)
	m.Open(m.Counts[0].Key)
	sorts := map[string]int{}
	for _, e := range m.Differences {
		sorts[e.Sort]++
		assert.False(t, e.Settled, e.Says)
	}
	assert.Equal(t, 2, sorts[inventory.Elsewhere], "the retired regulator and the lent cylinder")
	assert.Equal(t, 1, sorts[inventory.Stranger])
	require.Positive(t, sorts[inventory.NotFound])

	win.Canvas().Focus(v.Keyboard())
	uitest.Type(win, "3") // a retired one is looked at
	uitest.Press(win, fyne.KeyDown)
	uitest.Type(win, "3") // of a lent one the reading is asked for
	assert.Equal(t, []work.Target{{Room: work.Item, Item: d.Things["RG-3304"]}, {Room: work.Return, Text: "E-20101"}}, d.Opened)
	uitest.Press(win, fyne.KeyDown)
	lost := m.Differences[2]
	require.Equal(t, inventory.NotFound, lost.Sort)
	uitest.Type(win, "3")
	assert.Equal(t, inventory.Missing, d.Thing(lost.Serial).State)
	m.Load()
	assert.True(t, m.Differences[2].Settled)
	uitest.Shoot(t, win, "stocktake-4-settled")
	d.Offered()
	m.Load()
	assert.False(t, m.Differences[2].Settled, "taken back, it is open again")
	d.Clean()
}

// TestAnotherPlaceBeginsAnew: what was scanned at one place is not counted at
// another, and a scan while a finished count is shown begins a new one.
func TestAnotherPlaceBeginsAnew(t *testing.T) {
	d := uitest.New(t)
	m := stocktake.NewModel(d.Work)
	m.Load()
	m.Scan("D-10404")
	m.TakeOff(m.Rows[0].Key)
	assert.Empty(t, m.Rows)
	m.Scan("D-10404")
	m.Count(inventory.At(inventory.AtDepot, "ness"), "")
	assert.Empty(t, m.Rows)
	form := m.FinishForm()
	assert.Empty(t, form.Submit(form.Answered(), func(err error) { require.NoError(t, err) }))
	assert.Equal(t, "IT FITS", m.Sign.Word)
	assert.NotEmpty(t, m.Shown)
	m.Scan("D-10404")
	assert.Empty(t, m.Shown)
	assert.Len(t, m.Rows, 1)
	wrong := form.Submit(form.Answered().With(map[string]string{"owner": ""}), func(error) {})
	assert.Contains(t, wrong, "owner")
	d.Clean()
}

// A scanner does not wait: what it scans while the scan before is still looked up
// is counted too.
func TestNoScanIsLostWhileAnotherIsLookedUp(t *testing.T) {
	d := uitest.New(t)
	m := stocktake.NewModel(d.Work)
	m.Load()
	held := d.Hold()
	for _, scan := range []string{"D-10404", "RG-3304", "CN00499"} {
		require.True(t, m.Scan(scan), scan)
	}
	assert.Empty(t, m.Rows)
	held.LetGo()
	assert.Len(t, m.Rows, 3)
}

// A zone counts what its states belong to: a dirty thing on the clean shelf is a
// difference that only the bench settles, a clean one in the dirty bay is kept
// from being lent.
func TestAZoneOfADepotIsCounted(t *testing.T) {
	d := uitest.New(t)
	v := stocktake.New(d.Work)
	win := uitest.Show(t, v)
	m := stocktake.NewModel(d.Work)
	m.Load()
	require.Equal(t, inventory.Zones(), m.Zones())
	count := func(zone inventory.Zone, serial string) {
		m.Count(inventory.At(inventory.AtDepot, "harbour"), zone)
		require.True(t, m.Scan(serial))
		form := m.FinishForm()
		require.Empty(t, form.Submit(form.Answered(), func(err error) { require.NoError(t, err) }))
	}
	found := func(serial string) delivery.CountDifference {
		for _, e := range m.Differences {
			if e.Sort == inventory.OtherZone && e.Item == d.Things[serial] {
				return e
			}
		}
		t.Fatal(serial, m.Differences)
		return delivery.CountDifference{}
	}
	dirty, ready := "", ""
	for serial := range d.Things {
		switch i := d.Thing(serial); {
		case i.Place != "depot:harbour":
		case i.State == inventory.Dirty:
			dirty = serial
		case i.State == inventory.Ready:
			ready = serial
		}
	}
	count(inventory.CleanShelf, dirty)
	assert.False(t, found(dirty).Settled)
	m.Settle(string(inventory.OtherZone) + " " + string(d.Things[dirty]) + dirty)
	assert.Equal(t, work.Target{Room: work.Item, Item: d.Things[dirty]}, d.Opened[len(d.Opened)-1], "it is carried away; the book is right")

	count(inventory.DirtyBay, ready)
	m.Settle(string(inventory.OtherZone) + " " + string(d.Things[ready]) + ready)
	assert.Equal(t, inventory.InQuarantine, d.Thing(ready).State)
	assert.True(t, found(ready).Settled)
	v.Open(work.Target{})
	uitest.Shoot(t, win, "stocktake-5-zones")

	m.Count(inventory.At(inventory.AtVehicle, "van 1"), "")
	assert.Empty(t, m.Zones(), "a vehicle has none")
	d.Clean()
}
