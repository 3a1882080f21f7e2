package visit_test

import (
	"context"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	items "lungwort/inventory/store"
	"lungwort/ui/uitest"
	"lungwort/ui/visit"
	"lungwort/ui/work"
)

func at(d *uitest.Desk, given string) *visit.Model {
	m := visit.NewModel(d.Work)
	m.Load(d.Run, d.Persons[given])
	return m
}

func labels(things []visit.Thing) []string {
	var names []string
	for _, t := range things {
		names = append(names, t.Item.Label())
	}
	return names
}

func done(win fyne.Window) {
	ctrlEnter := &desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl}
	win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(ctrlEnter)
}

// TestSetUpByKeys closes the stop at which the machine is started: by scan,
// with hours and oxygen, keyed in 25 minutes late.
func TestSetUpByKeys(t *testing.T) {
	d := uitest.New(t)
	d.Day(0, "17:40")
	v := visit.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Visit, Run: d.Run, Person: d.Persons["Tobin"]})
	require.True(t, v.Scan("CN00903"))
	uitest.Type(win, "2401.5")
	uitest.Press(win, fyne.KeyReturn) // on to what was taken: nothing
	uitest.Press(win, fyne.KeyReturn) // on to the time
	uitest.Type(win, "17:15")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn) // the stop is done
	uitest.Type(win, "y")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "94.1")
	uitest.Shoot(t, win, "visit-1-set-up")
	done(win)

	require.Empty(t, d.Refused)
	page := d.Page("Tobin")
	assert.Equal(t, delivery.Running, page.Care.Phase)
	assert.Equal(t, "17:15", page.Care.Since.Format("15:04"), "late keying takes its true time")
	assert.InDelta(t, 2401.5, d.Thing("CN00903").Hours.Value, 1e-9)
	assert.Equal(t, inventory.AsBackup, d.Thing("E-20111").State)
	assert.Equal(t, work.Target{Room: work.Runs, Run: d.Run}, d.Opened[len(d.Opened)-1])
	d.Clean()
}

// TestExpected: what a stop leaves and takes comes from its tasks.
func TestExpected(t *testing.T) {
	d := uitest.New(t)
	m := at(d, "Tobin")
	assert.Equal(t, []string{"CN00903"}, labels(m.Leave))
	assert.Empty(t, m.Take)
	m = at(d, "Anwen") // a low backup: a full cylinder for the used one
	assert.Equal(t, []string{"no. 0"}, labels(m.Leave), "none was set aside")
	assert.Equal(t, []string{"E-20105"}, labels(m.Take))
	assert.Contains(t, m.Mind(), "Leave D-10401 alone: it is lent to Bram R. in the same house.")
	m = visit.NewModel(d.Work)
	m.Load("", d.Persons["Mira"])
	assert.ElementsMatch(t, []string{"E-20103", "CN00403"}, labels(m.Take))
	assert.Equal(t, "outside any run", m.Planned())
}

// TestSwap leaves one, takes one, and reads both.
func TestSwap(t *testing.T) {
	d := uitest.New(t)
	m := at(d, "Anwen")
	m.Tick(m.Leave[0].ID())
	assert.Equal(t, "Scan the one that was left.", m.Bad[m.Leave[0].ID()])
	require.True(t, m.Scan("E-20112"))
	m.SetValue(string(d.Things["E-20112"]), "1980")
	m.SetValue(string(d.Things["E-20105"]), "850")
	m.Close()
	require.Empty(t, d.Refused)
	require.Empty(t, m.Bad)
	assert.Equal(t, inventory.AsBackup, d.Thing("E-20112").State)
	assert.Equal(t, inventory.WithDriver, d.Thing("E-20105").State)
	assert.InDelta(t, 850, d.Thing("E-20105").Gauge.Value.PSI(), 1e-6)
	assert.False(t, d.Page("Anwen").Care.Has(delivery.Swap))
	d.Clean()
}

// TestScanRefusals: what belongs to somebody else, or can't be lent, is
// refused and nothing is ticked.
func TestScanRefusals(t *testing.T) {
	d := uitest.New(t)
	for scan, says := range map[string]string{
		"D-10401":   "is on loan to somebody else", // the other person in the house
		"E-20115":   "is on bench",
		"ZX 9981":   "belongs to Other supplier",
		"E-99999":   "not in the book",
		"CN00903":   "is reserved for another person",
		"E-2O112":   "is near", // the letter O
		"LW-00012X": "",        // a failed check character: asked about
	} {
		m := at(d, "Anwen")
		d.Refused = nil
		require.True(t, m.Scan(scan), scan)
		assert.Contains(t, d.Refusal().Says+d.Refusal().Next, says, scan)
		for _, thing := range m.Leave {
			assert.False(t, thing.Ticked, scan)
		}
	}
	assert.False(t, at(d, "Anwen").Scan("rowe"), "a name is the window's")
}

// TestCloseRefusals: each answer that lacks is named by its field, and nothing
// is written.
func TestCloseRefusals(t *testing.T) {
	d := uitest.New(t)
	before, err := d.Desk.Facts(context.Background(), items.About{})
	require.NoError(t, err)
	for _, c := range []struct {
		name string
		do   func(m *visit.Model)
		at   visit.Field
		says string
	}{
		{"nothing ticked", func(*visit.Model) {}, visit.Things, "Nothing is ticked"},
		{"a time to come", func(m *visit.Model) { m.SetTime(visit.Happened, uitest.Now.Add(time.Hour), nil) }, visit.Happened, "still to come"},
		{"no time", func(m *visit.Model) { m.SetTime(visit.Happened, time.Time{}, nil) }, visit.Happened, "when was it"},
		{"does it run?", func(m *visit.Model) { m.TickAll() }, visit.Runs, "does it run"},
		{"no oxygen to speak of", func(m *visit.Model) { m.TickAll(); m.Set(visit.Runs, visit.Yes); m.Set(visit.Oxygen, "75") }, visit.Oxygen, "under 82 %"},
		{"not a percentage", func(m *visit.Model) { m.TickAll(); m.Set(visit.Runs, visit.Yes); m.Set(visit.Oxygen, "lots") }, visit.Oxygen, "20 to 100"},
		{"failed, but why?", func(m *visit.Model) { m.Set(visit.Outcome, visit.Failed) }, visit.Reason, "why"},
		{"failed, and next?", func(m *visit.Model) { m.Set(visit.Outcome, visit.Failed); m.Set(visit.Reason, "nobody home") }, visit.Next, "next try"},
	} {
		m := at(d, "Tobin")
		c.do(m)
		m.Close()
		assert.Contains(t, m.Wrong[c.at], c.says, c.name)
	}
	m := at(d, "Tobin")
	m.SetValue(string(d.Things["CN00903"]), "a lot")
	m.Set(visit.Runs, visit.Yes)
	m.Close()
	assert.Contains(t, m.Bad[string(d.Things["CN00903"])], "hours meter")
	after, err := d.Desk.Facts(context.Background(), items.About{})
	require.NoError(t, err)
	assert.Len(t, after, len(before))
	require.Empty(t, d.Refused)
}

// TestNotTickedIsAskedAbout: a collection that left something behind stays
// open.
func TestNotTickedIsAskedAbout(t *testing.T) {
	d := uitest.New(t)
	m := visit.NewModel(d.Work)
	m.Load("", d.Persons["Mira"])
	m.SetValue(string(d.Things["E-20103"]), "700")
	var asked string
	m.Confirm = func(_, text, _ string, do func()) { asked = text; do() }
	m.Close()
	assert.Contains(t, asked, "1 was to be taken and is not ticked")
	assert.True(t, d.Page("Mira").Care.Has(delivery.Collect))
	assert.Equal(t, inventory.WithDriver, d.Thing("E-20103").State)
	d.Clean()
}

// TestLastStopOffersToEndTheRun closes every stop of a run, two of them
// failed.
func TestLastStopOffersToEndTheRun(t *testing.T) {
	d := uitest.New(t)
	d.Day(0, "18:00")
	for _, who := range []string{"Tobin", "Anwen"} {
		m := at(d, who)
		m.Set(visit.Outcome, visit.Failed)
		m.Set(visit.Reason, "nobody home")
		m.SetTime(visit.Next, d.Now().Add(15*time.Hour), nil)
		m.Close()
		require.Empty(t, m.Wrong, who)
		assert.Nil(t, d.Offered, who)
	}
	assert.Equal(t, []string{"nobody home"}, d.Page("Tobin").Care.Tasks[0].Tries)
	v := visit.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Visit, Run: d.Run, Person: d.Persons["Ines"]})
	done(win)
	uitest.Shoot(t, win, "visit-2-nothing-ticked")
	m := at(d, "Ines")
	m.Scan("CN00903") // reserved for Tobin
	assert.Contains(t, d.Refusal().Says, "reserved for another person")
	d.Refused = nil
	m.Set(visit.Outcome, visit.Failed)
	m.Set(visit.Reason, "taken to hospital")
	m.SetTime(visit.Next, d.Now().Add(20*time.Hour), nil)
	m.Close()
	require.NotNil(t, d.Offered)
	d.Offered()
	assert.Equal(t, work.Target{Room: work.Runs, Run: d.Run, Text: work.EndRun}, d.Opened[len(d.Opened)-1])
	d.Clean()
}
