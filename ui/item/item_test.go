package item_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/ui/item"
	"lungwort/ui/tend"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func shown(t *testing.T, d *uitest.Desk, serial string) fyne.Window {
	t.Helper()
	v := item.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Item, Item: d.Things[serial]})
	win.Canvas().Focus(v.Keyboard())
	return win
}

func opened(d *uitest.Desk, serial string) *item.Model {
	m := item.NewModel(d.Work)
	m.Open(d.Things[serial])
	return m
}

func detail(m *item.Model, label string) string {
	for _, l := range m.Page.Details {
		if l.Label == label {
			return l.Text
		}
	}
	return ""
}

func TestLook(t *testing.T) {
	d := uitest.New(t)
	for _, serial := range []string{"E-20101", "E-20106", "CN00410", "E-20113"} {
		win := shown(t, d, serial)
		assert.LessOrEqual(t, win.Content().MinSize().Width, uitest.Stage.Width, "%s fits the window", serial)
		uitest.Shoot(t, win, "item-"+serial)
	}
	d.Clean()
}

func TestPageSaysWhatTheItemIs(t *testing.T) {
	d := uitest.New(t)
	for serial, want := range map[string]map[string]string{
		"E-20101": {"where": "with Jory V.", "gauge": "1,900 psi, told 55 h ago", "is": "oxygen cylinder US-E", "requalify": "by the end of June 2032"},
		"E-20106": {"recall": "2030-07: it must not be lent", "where": "with Rhea M."},
		"CN00409": {"why": "smells of smoke", "state": "quarantine since Fri 16:00"},
		"CN00903": {"where": "depot harbour, set aside for Tobin K."},
		"E-20104": {"where": "a vehicle, was with Otto H."},
		"D-10401": {"owner": "Gas works"},
	} {
		m := opened(d, serial)
		for label, text := range want {
			assert.Equal(t, text, detail(m, label), "%s of %s", label, serial)
		}
	}
	d.Clean()
}

func TestLifeLineOpensItsFacts(t *testing.T) {
	d := uitest.New(t)
	m := opened(d, "E-20101")
	require.NotEmpty(t, m.Page.Life.Events)
	ids := map[string]bool{}
	for _, r := range m.Page.Facts {
		ids[r.ID] = true
	}
	replaced := 0
	for _, e := range m.Page.Life.Events {
		assert.True(t, ids[e.Key], "the dot at %s opens a fact of the list", e.At)
		if e.Replaced {
			replaced++
		}
	}
	assert.Equal(t, 1, replaced, "the gauge told wrong keeps its dot")
	assert.Equal(t, "Jory V.", m.Page.Life.Persons[0].Name)
}

func TestReadingByKeys(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "E-20101")
	uitest.Type(win, "1")
	uitest.Type(win, "1850")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	assert.Nil(t, win.Canvas().Overlays().Top())
	got := d.Thing("E-20101").Gauge
	assert.InDelta(t, 1850, got.Value.PSI(), 0.1)
	assert.False(t, got.Told)
	assert.InDelta(t, 1850, d.Page("Jory").Care.Kit[0].Gauge.Value.PSI(), 0.1, "the reading is the person's as well")
	d.Clean()
}

func TestMoveByKeys(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "E-20112")
	uitest.Type(win, "2")
	uitest.Type(win, "v") // van
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "van")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	require.NotNil(t, win.Canvas().Overlays().Top(), "two vans fit: it asks which")
	uitest.Type(win, "van 2")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	assert.Nil(t, win.Canvas().Overlays().Top())
	assert.Equal(t, inventory.Place("vehicle:van 2"), d.Thing("E-20112").Place)
	d.Clean()
}

// A tag for the thing is printed; one that would lie is refused.
func TestTagsArePrinted(t *testing.T) {
	d := uitest.New(t)
	for serial, value := range map[string]string{"CN00409": "hold-tag", "CN00410": "bench-tag", "CN00401": "bench-tag"} {
		form := tend.Tender{Work: d.Work, Item: d.Thing(serial)}.Paper()
		assert.Equal(t, value, form.Answered()["paper"], serial)
		form.Submit(form.Answered(), func(err error) { require.NoError(t, err) })
	}
	assert.Len(t, d.Shown, 2)
	assert.Contains(t, d.Refusal().Says, "the bench has nothing to do on it")
}

func TestWhatIsOnLoanIsNotMoved(t *testing.T) {
	d := uitest.New(t)
	m := opened(d, "E-20101")
	form := m.Tender().Move()
	assert.Contains(t, form.Before, "on loan")
	var refused error
	a := form.Answered()
	a["kind"], a["name"] = "depot", "harbour"
	require.Empty(t, form.Submit(a, func(err error) { refused = err }))
	assert.ErrorContains(t, refused, "E-20101 is on loan")
}

func TestPersonByKey(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "E-20101")
	uitest.Type(win, "0")
	assert.Equal(t, []work.Target{{Room: work.Person, Person: d.Persons["Jory"]}}, d.Opened)
}

func TestTakeBackByKeys(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "OX-7704")
	uitest.Type(win, "9")
	require.NotNil(t, win.Canvas().Overlays().Top())
	uitest.Type(win, "found in the van")
	uitest.Press(win, fyne.KeyReturn)
	assert.Nil(t, win.Canvas().Overlays().Top())
	assert.Equal(t, inventory.Ready, d.Thing("OX-7704").State)
	d.Clean()
}
