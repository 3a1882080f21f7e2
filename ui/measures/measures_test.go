package measures_test

import (
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/inventory/store"
	"lungwort/ui/measures"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func load(t *testing.T, d *uitest.Desk) *measures.Model {
	t.Helper()
	m := measures.NewModel(d.Work)
	m.Load()
	require.Empty(t, d.Refused)
	return m
}

// What is in use is what the list of items shows in those states.
func TestInUseIsWhatTheItemsSay(t *testing.T) {
	d := uitest.New(t)
	m := load(t, d)
	_, used, err := d.Desk.Items(t.Context(), store.Filter{States: []inventory.State{inventory.AtWork, inventory.AsBackup, inventory.HandedOver}})
	require.NoError(t, err)
	m.Choose("In use now")
	count := 0
	for _, c := range m.Cases {
		if c.Says == "in use" {
			count++
		}
	}
	assert.Equal(t, used, count)
	assert.Contains(t, strings.Join(m.Parts(), "\n"), "concentrator: ")
}

// Every row leads to its cases, and a case to its person or its thing.
func TestDrillDown(t *testing.T) {
	d := uitest.New(t)
	m := load(t, d)
	require.Len(t, m.Rows, 18)
	for _, r := range m.Rows {
		m.Choose(r.Name)
		assert.Equal(t, r.Cases, strconv.Itoa(len(m.Cases)), r.Name)
		assert.NotEmpty(t, m.Definition(), r.Name)
	}
	m.Choose("Complete order to running")
	require.NotEmpty(t, m.Cases)
	m.OpenCase(m.Cases[0].Key)
	require.Len(t, d.Opened, 1)
	assert.Equal(t, work.Person, d.Opened[0].Room)
	m.OpenCase("999")
	assert.Len(t, d.Opened, 1)
}

func TestByKeys(t *testing.T) {
	d := uitest.New(t)
	v := measures.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Measures})
	uitest.Shoot(t, win, "measures")
	uitest.Type(win, "days o")
	uitest.Shoot(t, win, "measures-days")
	uitest.Press(win, fyne.KeyEscape)
	d.Clean()
}

// Ctrl+P prints every measure with its definition.
func TestPrint(t *testing.T) {
	d := uitest.New(t)
	load(t, d).Print()
	require.Empty(t, d.Refused)
	require.Len(t, d.Shown, 1)
	assert.Contains(t, d.Shown[0], "measures-")
}

func TestEmptyBook(t *testing.T) {
	d := uitest.NewEmpty(t)
	m := load(t, d)
	for _, r := range m.Rows {
		m.Choose(r.Name)
		assert.Equal(t, "no case", r.Says, r.Name)
		assert.Empty(t, m.Chart().Months)
	}
}
