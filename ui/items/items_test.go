package items_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/ui/items"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func TestRows(t *testing.T) {
	d := uitest.New(t)
	m := items.NewModel(d.Work)
	m.Load()
	require.Len(t, m.Rows, m.Total)
	by := map[string]items.Row{}
	for _, r := range m.Rows {
		by[r.Label] = r
	}
	for label, want := range map[string][4]string{ // state, where, whose, why
		"E-20101": {"backup", "Jory V.", "", ""},
		"CN00903": {"reserved", "depot harbour", "for Tobin K.", ""},
		"E-20113": {"at plant", "plant works", "", ""},
		"CN00409": {"quarantine", "depot harbour", "", "smells of smoke"},
		"E-20106": {"backup", "Rhea M.", "", "recall 2030-07"},
		"OX-7704": {"missing", "missing", "", ""},
	} {
		r := by[label]
		assert.Equal(t, want, [4]string{r.State, r.Where, r.Whose, r.Why}, label)
	}
	assert.Equal(t, "1,900 psi", by["E-20101"].Gauge)
	assert.Equal(t, "told 55 h ago", by["E-20101"].Age)
	assert.True(t, by["E-20106"].Alarm)
	assert.Contains(t, m.Count, "1 at plant")
	assert.Contains(t, m.Count, "2 with driver")
	d.Clean()
}

func TestFilters(t *testing.T) {
	d := uitest.New(t)
	m := items.NewModel(d.Work)
	for _, tc := range []struct {
		text, group string
		kind        inventory.Kind
		want        int
	}{
		{"", "all", inventory.Regulator, 4},
		{"e-201", "all", "", 16},
		{"cn009", "all", "", 3},
		{"", "away", "", 3},
		{"", "gone", inventory.Regulator, 1},
		{"works", "all", inventory.Cylinder, 4}, // the plant, and what it owns
		{"no such thing", "all", "", 0},
	} {
		m.ChooseKind(tc.kind)
		m.Choose(tc.group)
		m.Filter(tc.text)
		if tc.text == "works" {
			assert.GreaterOrEqual(t, len(m.Rows), tc.want, "%+v", tc)
			continue
		}
		assert.Len(t, m.Rows, tc.want, "%+v", tc)
	}
	assert.Contains(t, m.Empty(), "No item fits")
}

// Every state belongs to one group, so that no item is in none.
func TestGroupsHoldEveryState(t *testing.T) {
	seen := map[inventory.State]int{}
	for _, g := range items.Groups {
		for _, s := range g.States {
			seen[s]++
		}
	}
	for _, s := range []inventory.State{
		inventory.Ready, inventory.Held, inventory.HandedOver, inventory.AtWork, inventory.AsBackup, inventory.Idle,
		inventory.Waiting, inventory.WithDriver, inventory.Dirty, inventory.InQuarantine, inventory.OnBench,
		inventory.InRepair, inventory.OutAtPlant, inventory.Missing, inventory.Gone, inventory.NotOurs,
	} {
		assert.Equal(t, 1, seen[s], "%s", s)
	}
}

func TestByKeys(t *testing.T) {
	d := uitest.New(t)
	v := items.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Items})
	uitest.Shoot(t, win, "items")
	uitest.Type(win, "cn00")
	test.FocusNext(win.Canvas())
	uitest.Press(win, fyne.KeyRight) // ready
	test.FocusPrevious(win.Canvas())
	uitest.Press(win, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, []work.Target{{Room: work.Item, Item: d.Things["CN00901"]}}, d.Opened)
	d.Clean()
}

func TestEmptyBookSaysWhatToDoFirst(t *testing.T) {
	m := items.NewModel(uitest.NewEmpty(t).Work)
	m.Load()
	assert.Contains(t, m.Empty(), "Take in your lists")
}
