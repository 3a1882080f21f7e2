package homes_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/ui/homes"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func row(t *testing.T, m *homes.Model, id inventory.PersonID) homes.Row {
	t.Helper()
	for _, r := range m.Rows {
		if r.ID == id {
			return r
		}
	}
	t.Fatalf("%s is not on the list", id)
	return homes.Row{}
}

func TestEverybodyIsListed(t *testing.T) {
	d := uitest.New(t)
	m := homes.NewModel(d.Work)
	m.Load()
	require.Len(t, m.Rows, len(d.Persons))
	assert.Equal(t, "14 persons · 10 on oxygen · facts as of 16:20", m.Title())

	ines := row(t, m, d.Persons["Ines"])
	assert.Equal(t, "short", ines.Verdict)
	assert.Equal(t, "Abara, Ines", ines.Name)
	assert.Equal(t, "D 1,400 psi", ines.Gas)
	assert.Equal(t, "read 30 min ago", ines.Read)
	assert.True(t, ines.Urgent)

	mira := row(t, m, d.Persons["Mira"])
	assert.Empty(t, mira.Verdict, "no oxygen, no verdict")
	assert.Equal(t, "2 things still there", mira.Gas)
	assert.Equal(t, "plan a visit: collect (oxygen stopped: recovered)", mira.Next)
	assert.Equal(t, "discharge", row(t, m, d.Persons["Nia"]).Next)
	cai := row(t, m, d.Persons["Cai"])
	assert.Equal(t, []string{"order is missing", "no order", "no address yet"}, []string{cai.Next, cai.Order, cai.Street})
	d.Clean()
}

func TestFilter(t *testing.T) {
	d := uitest.New(t)
	m := homes.NewModel(d.Work)
	for _, tc := range []struct {
		text string
		want int
	}{
		{"rowe", 2}, {"mill croft", 2}, {"anwen", 1}, {"555-0177", 1}, {"Q-A417", 1}, {"rowe bram", 1}, {"nobody", 0},
	} {
		m.Filter(tc.text)
		assert.Len(t, m.Rows, tc.want, "%q", tc.text)
	}
	assert.Contains(t, m.Empty(), "nobody")
}

func TestByKeys(t *testing.T) {
	d := uitest.New(t)
	v := homes.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Homes})
	uitest.Shoot(t, win, "homes")
	uitest.Type(win, "mill")
	uitest.Press(win, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, []work.Target{{Room: work.Person, Person: d.Persons["Bram"]}}, d.Opened)
	v.Open(work.Target{Room: work.Homes, Text: "kelp"})
	uitest.Press(win, fyne.KeyUp, fyne.KeyUp)
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	assert.Equal(t, d.Persons["Jory"], d.Opened[1].Person)
	d.Clean()
}

func TestEmptyBookSaysWhatToDoFirst(t *testing.T) {
	d := uitest.NewEmpty(t)
	m := homes.NewModel(d.Work)
	m.Load()
	assert.Contains(t, m.Empty(), "Discharge somebody, or take in your lists")
}
