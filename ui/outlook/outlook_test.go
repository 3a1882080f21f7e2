package outlook_test

import (
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/inventory/store"
	"lungwort/ui/outlook"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func load(t *testing.T, d *uitest.Desk) *outlook.Model {
	t.Helper()
	m := outlook.NewModel(d.Work)
	m.Load()
	require.Empty(t, d.Refused)
	return m
}

func row(t *testing.T, m *outlook.Model, what string) outlook.Row {
	t.Helper()
	for _, r := range m.Rows {
		if r.What == what {
			return r
		}
	}
	require.Fail(t, "no row", what)
	return outlook.Row{}
}

// What is ready here is what the list of items shows as ready.
func TestReadyIsWhatTheItemsSay(t *testing.T) {
	d := uitest.New(t)
	m := load(t, d)
	_, ready, err := d.Desk.Items(t.Context(), store.Filter{Kind: inventory.Cylinder, Size: "US-E", States: []inventory.State{inventory.Ready}})
	require.NoError(t, err)
	assert.Equal(t, strconv.Itoa(ready), row(t, m, "oxygen cylinder US-E").Ready)
	m.Choose("oxygen cylinder US-E")
	assert.Equal(t, ready, m.Chart().Ready)
}

// The same facts are put before another supposition, and the kind in hand stays
// in hand.
func TestSupposingKeepsTheKindInHand(t *testing.T) {
	d := uitest.New(t)
	m := load(t, d)
	m.Choose("concentrator to 5 L/min")
	usual := m.Chart().Days[13].Short
	m.SetSuppose(outlook.Twice)
	assert.Equal(t, "concentrator to 5 L/min", m.What())
	assert.Greater(t, m.Chart().Days[13].Short, usual)
	m.SetSuppose(outlook.Recall)
	assert.Equal(t, "Still 5", m.Model())
	assert.Greater(t, m.Chart().Days[0].Short, usual)
	assert.Contains(t, m.Verdict(), "concentrator to 5 L/min: ")
	assert.Equal(t, "hire", m.Ways()[len(m.Ways())-2].Name)
	m.SetSuppose(outlook.Usual)
	assert.InDelta(t, usual, m.Chart().Days[13].Short, 1e-12)
}

func TestWhatItRestsOnIsSaid(t *testing.T) {
	d := uitest.New(t)
	m := load(t, d)
	m.Choose("oxygen cylinder US-E")
	says := strings.Join(m.Lasting(), "\n")
	assert.Contains(t, says, "oxygen: ")
	assert.Contains(t, says, "hand-overs ")
	assert.Contains(t, says, "Needed for, by flow")
	assert.Contains(t, says, "Needed for, by ward")
	assert.Contains(t, says, "concentrator and cylinder: ")
	assert.Contains(t, says, "not counted on: ")
	assert.Contains(t, says, "published lengths and common practice stand in")
}

func TestByKeys(t *testing.T) {
	d := uitest.New(t)
	v := outlook.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Outlook})
	uitest.Shoot(t, win, "outlook")
	uitest.Type(win, "regul")
	uitest.Press(win, fyne.KeyReturn)
	require.Len(t, d.Opened, 1)
	assert.Equal(t, inventory.Regulator, d.Opened[0].Among.Kind)
	d.Clean()
}

func TestEmptyBookSaysWhatWillStandHere(t *testing.T) {
	d := uitest.NewEmpty(t)
	v := outlook.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Outlook})
	uitest.Shoot(t, win, "outlook-empty")
	d.Clean()
}
