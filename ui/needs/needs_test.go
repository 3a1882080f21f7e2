package needs_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/ui/needs"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func loaded(t *testing.T) (*uitest.Desk, *needs.Model) {
	t.Helper()
	d := uitest.New(t)
	m := needs.NewModel(d.Work)
	m.Load()
	require.Empty(t, d.Refused)
	return d, m
}

func rowOf(t *testing.T, m *needs.Model, id inventory.PersonID) needs.Row {
	t.Helper()
	for _, r := range m.Rows {
		if r.ID == id {
			return r
		}
	}
	t.Fatalf("%s is not on the list", id)
	return needs.Row{}
}

// Nothing that can wait stands above something that can't.
func TestMostUrgentFirst(t *testing.T) {
	d, m := loaded(t)
	require.NotEmpty(t, m.Rows)
	assert.Equal(t, "dry", m.Rows[0].Verdict)
	assert.Contains(t, m.Rows[0].Next, "emergency number", "the number comes first")
	assert.True(t, m.Rows[0].Urgent)
	ines := rowOf(t, m, d.Persons["Ines"])
	assert.Equal(t, "short", ines.Verdict, "her gas ends before help")
	assert.Contains(t, ines.State, "1,400 psi read 15:50", "a reading shows its age")
	for i := 1; i < len(m.Rows); i++ {
		before, after := depletion.Verdict(m.Rows[i-1].Verdict), depletion.Verdict(m.Rows[i].Verdict)
		assert.LessOrEqual(t, before.Rank(), after.Rank(), "%s above %s", m.Rows[i-1].Name, m.Rows[i].Name)
	}
}

// The list holds those that need somebody; every home is one key away.
func TestNeedsOrEveryHome(t *testing.T) {
	_, m := loaded(t)
	few := len(m.Rows)
	assert.Less(t, few, m.Total, "one home of the story holds with nothing due")
	m.SetAll(true)
	assert.Len(t, m.Rows, m.Total)
	m.SetAll(false)
	assert.Len(t, m.Rows, few)
}

func TestRowsShowNoFamilyName(t *testing.T) {
	d, m := loaded(t)
	assert.Regexp(t, `^Ines A\., `, rowOf(t, m, d.Persons["Ines"]).Name)
}

func TestHorizonReachesEveryRibbon(t *testing.T) {
	_, m := loaded(t)
	m.SetHorizon(72 * time.Hour)
	for _, r := range m.Rows {
		assert.Equal(t, 72*time.Hour, r.Ribbon.Horizon)
	}
}

// As time passes the list sorts itself anew, and the row in hand stays in
// hand.
func TestTheRowInHandStays(t *testing.T) {
	d := uitest.New(t)
	v := needs.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Needs})
	uitest.Press(win, fyne.KeyDown, fyne.KeyReturn)
	require.Len(t, d.Opened, 1)
	second := d.Opened[0].Person
	d.At(uitest.Now.Add(20 * time.Minute))
	v.Open(work.Target{Room: work.Needs})
	uitest.Press(win, fyne.KeyReturn)
	assert.Equal(t, second, d.Opened[1].Person)
}

// An empty book says what to do first.
func TestEmptyBook(t *testing.T) {
	d := uitest.NewEmpty(t)
	m := needs.NewModel(d.Work)
	m.Load()
	assert.Empty(t, m.Rows)
	assert.Contains(t, m.Title(), "0 of 0 homes")
}

func TestStockCountsWhatIsReady(t *testing.T) {
	d, m := loaded(t)
	before := m.Stock
	d.Act(delivery.Quarantine{Item: readyCylinder(t, d), Why: "leaks"})
	m.Load()
	assert.NotEqual(t, before, m.Stock)
	assert.Contains(t, m.Stock, "not needed in homes")
}

func readyCylinder(t *testing.T, d *uitest.Desk) inventory.ItemID {
	t.Helper()
	for serial := range d.Things {
		if i := d.Thing(serial); i.State == inventory.Ready && i.Spec.Kind == inventory.Cylinder {
			return i.ID
		}
	}
	t.Fatal("no cylinder of the story is ready")
	return ""
}
