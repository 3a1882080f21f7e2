package chase_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/chase"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// TestAskedByKeys: what is due first; asking is noted with its answer and the
// next step comes up; the last asking can be undone.
func TestAskedByKeys(t *testing.T) {
	d := uitest.New(t)
	v := chase.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Chase})
	win.Canvas().Focus(v.Keyboard())
	uitest.Shoot(t, win, "chase")
	m := chase.NewModel(d.Work)
	m.Load()
	require.NotEmpty(t, m.Rows)
	first := m.Rows[0]
	assert.Equal(t, d.Persons["Mira"], first.ID)
	assert.Equal(t, "call, and agree when it suits", first.Next)
	assert.True(t, first.Over)

	uitest.Type(win, "1")
	require.NotNil(t, win.Canvas().Overlays().Top())
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "after Friday")
	uitest.Shoot(t, win, "chase-asked")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	m.Load()
	row := m.Rows[rowOf(m, d.Persons["Mira"])]
	assert.Equal(t, "call, and agree when it suits: after Friday", row.Last)
	assert.Equal(t, "call again, another number at another hour", row.Next)
	assert.False(t, row.Over)
	require.NotNil(t, d.Offered)
	d.Offered()
	m.Load()
	assert.Equal(t, "not yet", m.Rows[rowOf(m, d.Persons["Mira"])].Asked)
	d.Clean()
}

// TestSilenceAfterADeath: nobody is asked before the day; then one person, once,
// and no value is named.
func TestSilenceAfterADeath(t *testing.T) {
	d := uitest.New(t)
	d.Act(delivery.Die{Person: d.Persons["Jory"], ToldBy: "ward 6B", Contact: "daughter", Phone: "555-0177", NotBefore: uitest.Now.AddDate(0, 0, 7)})
	m := chase.NewModel(d.Work)
	m.Load()
	row := m.Rows[rowOf(m, d.Persons["Jory"])]
	assert.True(t, row.Silent)
	assert.Equal(t, "ask daughter, 555-0177 once, when it suits them; no letter, no value", row.Next)
	h, ok := m.InHand(d.Persons["Jory"])
	require.True(t, ok)
	assert.True(t, m.Mute(h))
	require.Len(t, d.Refused, 1)
	assert.ErrorContains(t, d.Refused[0], "Nobody is asked before Tue 12 Mar")
	d.Refused = nil
	_, lost := m.LostForm(h)
	assert.False(t, lost)

	d.Day(8, "10:00")
	m.Load()
	h, _ = m.InHand(d.Persons["Jory"])
	form := m.AskedForm(h)
	assert.Contains(t, form.Before, "Nobody is pressed, and no value is named")
	require.Empty(t, form.Submit(form.Answered(), func(err error) { require.NoError(t, err) }))
	assert.Equal(t, "wait for daughter, 555-0177; nothing more is asked", m.Rows[rowOf(m, d.Persons["Jory"])].Next)
	d.Clean()
}

// TestLostWithValueAndReason: a thing nobody brings back is entered as lost, and
// leaves the list.
func TestLostWithValueAndReason(t *testing.T) {
	d := uitest.New(t)
	m := chase.NewModel(d.Work)
	m.Load()
	m.Sort(chase.ByDistance)
	h, ok := m.InHand(d.Persons["Mira"])
	require.True(t, ok)
	before := len(h.Things)
	form, ok := m.LostForm(h)
	require.True(t, ok)
	wrong := form.Submit(form.Answered(), func(error) { t.Fatal("nothing is done") })
	assert.Len(t, wrong, 1)
	var refused error
	form.Submit(form.Answered().With(map[string]string{"why": "thrown away"}), func(err error) { refused = err })
	assert.ErrorContains(t, refused, "not in the settings", "nobody knows its worth")
	require.Empty(t, form.Submit(form.Answered().With(map[string]string{"worth": "900", "why": "thrown away"}), func(err error) { require.NoError(t, err) }))
	h, _ = m.InHand(d.Persons["Mira"])
	assert.Len(t, h.Things, before-1)
	lost := 0
	for _, serial := range []string{"E-20103", "CN00403"} {
		if i := d.Thing(serial); i.State == inventory.Missing {
			lost++
			assert.InDelta(t, 900, i.Loss.Worth, 0)
		}
	}
	assert.Equal(t, 1, lost)
	d.Clean()
}

func rowOf(m *chase.Model, id inventory.PersonID) int {
	for i, r := range m.Rows {
		if r.ID == id {
			return i
		}
	}
	return -1
}
