package places_test

import (
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/store"
	"lungwort/ui/items"
	"lungwort/ui/places"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// Every item is counted at one place, and each count leads to as many items.
func TestEachCountLeadsToItsItems(t *testing.T) {
	d := uitest.New(t)
	m := places.NewModel(d.Work)
	m.Load()
	_, total, err := d.Desk.Items(t.Context(), store.Filter{})
	require.NoError(t, err)
	counted, order := 0, []string{}
	for _, r := range m.Rows {
		n, err := strconv.Atoi(r.Count)
		require.NoError(t, err)
		counted += n
		if r.Place != "" {
			order = append(order, r.Place)
		}
		d.Opened = nil
		m.Open(r.Key)
		require.Len(t, d.Opened, 1)
		list := items.NewModel(d.Work)
		list.Among = d.Opened[0].Among
		list.Load()
		assert.Equal(t, n, list.Total, "%s %s %s", r.Find, r.What, r.State)
	}
	assert.Equal(t, total, counted)
	assert.Equal(t, []string{"depot harbour", "ward 6B", "a vehicle", "homes", "plant works", "workshop", "missing", "retired"}, order)
	assert.Equal(t, strconv.Itoa(total)+" items in 8 places", m.Title)
	d.Clean()
}

// Letters find a place, Enter opens what stands there; there it says what is
// shown, and a choice of the list's own shows all again.
func TestByKeysToTheItems(t *testing.T) {
	d := uitest.New(t)
	v := places.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Places})
	uitest.Shoot(t, win, "places")
	uitest.Type(win, "plant")
	uitest.Press(win, fyne.KeyReturn)
	require.Len(t, d.Opened, 1)

	list := items.NewModel(d.Work)
	list.Among = d.Opened[0].Among
	list.Load()
	assert.Equal(t, "1 item · plant works · oxygen cylinder US-E · at plant", list.Title())
	list.Choose("all")
	assert.Greater(t, list.Total, 1)
	d.Clean()
}

func TestEmptyBookSaysWhatWillStandHere(t *testing.T) {
	d := uitest.NewEmpty(t)
	v := places.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Places})
	uitest.Shoot(t, win, "places-empty")
	uitest.Press(win, fyne.KeyReturn)
	assert.Empty(t, d.Opened)
}
