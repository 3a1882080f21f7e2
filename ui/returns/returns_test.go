package returns_test

import (
	"context"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/returns"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func labels(list []inventory.Item) []string {
	var names []string
	for _, i := range list {
		names = append(names, i.Label())
	}
	return names
}

// model is the screen with Mira's kit expected at the harbour depot.
func model(t *testing.T, d *uitest.Desk) *returns.Model {
	m := returns.NewModel(d.Work)
	m.Load("")
	m.Choose(string(d.Persons["Mira"]))
	m.SetDepot("harbour")
	return m
}

// TestReturnByKeys scans a kit in from the keyboard: expected, not expected
// and unknown.
func TestReturnByKeys(t *testing.T) {
	d := uitest.New(t)
	v := returns.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Return})
	uitest.Shoot(t, win, "returns-1-open")
	uitest.Type(win, "mira")
	uitest.Press(win, fyne.KeyReturn)
	require.True(t, v.Scan("CN00403"))
	uitest.Press(win, fyne.KeyReturn) // no depot is chosen yet: the keyboard is at it
	uitest.Press(win, fyne.KeyRight, fyne.KeyReturn)
	assert.Equal(t, inventory.Dirty, d.Thing("CN00403").State, "hours are asked for and not forced")
	require.True(t, v.Scan("E-20103"))
	uitest.Press(win, fyne.KeyReturn)
	uitest.Shoot(t, win, "returns-2-gauge")
	assert.Equal(t, inventory.Idle, d.Thing("E-20103").State, "no cylinder is booked without a reading")
	uitest.Type(win, "640")
	uitest.Press(win, fyne.KeyReturn)
	require.True(t, v.Scan("CN00404")) // with a driver, of somebody else
	uitest.Press(win, fyne.KeyReturn)
	require.True(t, v.Scan("QZ 55120"))
	uitest.Type(win, "Other supplier")
	uitest.Shoot(t, win, "returns-3-stranger")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Shoot(t, win, "returns-4-done")

	require.Empty(t, d.Refused)
	assert.InDelta(t, 640, d.Thing("E-20103").Gauge.Value.PSI(), 1e-6)
	assert.Equal(t, inventory.NotOurs, d.Thing("QZ 55120").State, "never silently into stock")
	assert.False(t, d.Page("Mira").Care.Has(delivery.Collect), "all is back")
	d.Clean()
}

func TestColumns(t *testing.T) {
	d := uitest.New(t)
	m := model(t, d)
	assert.ElementsMatch(t, []string{"E-20103", "CN00403"}, labels(m.Columns().Missing))
	m.Scan("CN00403")
	m.Scan("CN00404") // the next scan books the one before
	m.Book()
	m.Scan("ZZ-4711")
	m.Book()
	r := m.Columns()
	assert.Equal(t, []string{"CN00403"}, labels(r.Back))
	assert.Equal(t, []string{"E-20103"}, labels(r.Missing))
	assert.Equal(t, []string{"CN00404"}, labels(r.Extra))
	assert.Equal(t, []string{"ZZ-4711"}, r.Unknown)
	require.Empty(t, d.Refused)
	d.Clean()
}

// TestVehicleIsFollowed: the first scan says where the things come from, and
// a vehicle's things are taken in at its depot.
func TestVehicleIsFollowed(t *testing.T) {
	d := uitest.New(t)
	d.Day(0, "16:00")
	d.Act(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{
		Vehicle: "van 2", Day: "2030-03-05", Stops: []delivery.PlannedStop{{Address: d.Page("Mira").Address.ID, Persons: []inventory.PersonID{d.Persons["Mira"]}}},
	}}}})
	runs, err := d.Desk.Runs(context.Background(), "")
	require.NoError(t, err)
	d.Act(delivery.Visit{Run: runs[len(runs)-1].ID, Person: d.Persons["Mira"], Took: []delivery.Taken{{Item: d.Things["E-20103"]}}})
	m := returns.NewModel(d.Work)
	m.Load("")
	m.Scan("E-20103")
	assert.Equal(t, "vehicle:van 2", m.From)
	assert.Equal(t, "harbour", m.Depot)
	m.SetValue("500")
	m.Book()
	assert.Equal(t, []string{"E-20103"}, labels(m.Columns().Back))
	require.Empty(t, d.Refused)
}

// TestRefusals: what lacks is said at the thing in hand, and nothing is
// booked.
func TestRefusals(t *testing.T) {
	d := uitest.New(t)
	for _, c := range []struct{ name, scan, value, says string }{
		{"no reading", "E-20103", "", "no cylinder is booked without one"},
		{"more than it holds", "E-20103", "4000", "more than this cylinder holds"},
		{"not a reading", "E-20103", "empty", "0 psi"},
		{"not hours", "CN00403", "many", "not an hours meter reading"},
		{"nobody has it", "E-20112", "900", "nobody has it on loan"},
	} {
		m := model(t, d)
		require.True(t, m.Scan(c.scan), c.name)
		m.SetValue(c.value)
		m.Book()
		assert.Contains(t, m.Hand.Wrong, c.says, c.name)
		assert.Empty(t, m.Columns().Back, c.name)
	}
	require.Empty(t, d.Refused)

	m := returns.NewModel(d.Work)
	m.Load("")
	m.Scan("ZZ-4711")
	m.Book()
	assert.Contains(t, m.Hand.Wrong, "Choose the depot")
	m.Put()
	assert.True(t, m.Hand.Empty())
	m.Scan("LW-00012X")
	assert.Contains(t, d.Refusal().Says, "check character", "a slip in our own tag is no stranger")
	assert.False(t, m.Scan("mira"), "a name is the window's")
}

// What is scanned while a reading is still to be typed waits for its turn; the
// same thing scanned twice does not.
func TestNoScanIsLostWhileAReadingLacks(t *testing.T) {
	d := uitest.New(t)
	m := model(t, d)
	for _, text := range []string{"E-20103", "CN00403", "CN00403", "E-20103", "ZZ-4711"} {
		require.True(t, m.Scan(text))
	}
	assert.Equal(t, d.Things["E-20103"], m.Hand.Item.ID)
	assert.Contains(t, m.Hand.Wrong, "Read the gauge")
	assert.Contains(t, m.Below(), "next: CN00403, ZZ-4711")
	assert.Contains(t, d.Scans[len(d.Scans)-1].Detail, "E-20103 is booked. Read the gauge")
	m.SetValue("640")
	m.Book() // and what needs no reading, as the next was scanned
	assert.Equal(t, []string{"E-20103", "CN00403"}, labels(m.Columns().Back))
	assert.Equal(t, "ZZ-4711", m.Hand.Serial)
	m.Put()
	assert.True(t, m.Hand.Empty())
	d.Clean()
}

// TestNearSerialIsAsked: what is close to one of ours is asked about, never
// taken and never made a stranger by itself.
func TestNearSerialIsAsked(t *testing.T) {
	d := uitest.New(t)
	m := model(t, d)
	m.Scan("E-2O103") // the letter O
	require.Len(t, m.Hand.Near, 1)
	m.Book()
	assert.Contains(t, m.Hand.Wrong, "Is it one of these")
	m.ItIs(m.Hand.Near[0].ID)
	m.SetValue("800")
	m.Book()
	assert.Equal(t, []string{"E-20103"}, labels(m.Columns().Back))

	m.Scan("CN0O403")
	require.Len(t, m.Hand.Near, 1)
	m.ItIs("stranger")
	m.SetOwner("Other supplier")
	m.Book()
	assert.Equal(t, []string{"CN0O403"}, m.Columns().Unknown)
	assert.Equal(t, inventory.Idle, d.Thing("CN00403").State)
	require.Empty(t, d.Refused)
	d.Clean()
}

// TestEmptyThatIsNot: a cylinder given back as empty that still holds gas opens
// a question to the clinician.
func TestEmptyThatIsNot(t *testing.T) {
	d := uitest.New(t)
	m := model(t, d)
	m.Scan("E-20103")
	m.SetValue("1600")
	m.SetDrained(true)
	m.Book()
	assert.Contains(t, d.Said[len(d.Said)-1], "Called empty, but its gauge reads 1,600 psi: ask the clinician whether this person had gas.")
	questions := d.Thing("E-20103").Questions
	require.NotEmpty(t, questions)
	assert.Equal(t, inventory.FullAsEmpty, questions[len(questions)-1].Clash)
	require.Empty(t, d.Refused)
	d.Clean()
}

// TestSmallPartsOfTheLoan: what went along is ticked off at the return; what
// lacks holds the release up until another is put with it.
func TestSmallPartsOfTheLoan(t *testing.T) {
	d := uitest.New(t)
	d.Act(delivery.Visit{Person: d.Persons["Jory"], Left: []delivery.Piece{{Item: d.Things["E-20112"], Gauge: uitest.PSI(1900), With: []string{"key", "stand"}}}})
	m := returns.NewModel(d.Work)
	m.Load(d.Persons["Jory"])
	m.SetDepot("harbour")
	m.Scan("E-20112")
	assert.Equal(t, []string{"key", "stand"}, m.Hand.With)
	m.SetValue("900")
	m.SetWith([]string{"stand"})
	m.SetLacks("label")
	m.Book()
	require.Empty(t, m.Hand.Wrong)
	assert.Equal(t, []string{"key", "label"}, d.Thing("E-20112").Lacks)
	_, err := d.Desk.Do(t.Context(), d.Hand(inventory.Keyed), delivery.Release{Item: d.Things["E-20112"], Depot: "harbour"})
	assert.ErrorContains(t, err, "came back without key, label")
	d.Act(delivery.Release{Item: d.Things["E-20112"], Depot: "harbour", Whole: true})
	assert.Empty(t, d.Thing("E-20112").Lacks)
	d.Clean()
}

// TestUndo takes a return back by new facts.
func TestUndo(t *testing.T) {
	d := uitest.New(t)
	m := model(t, d)
	m.Scan("E-20103")
	m.SetValue("1990")
	m.SetSoiled(true)
	m.SetLacks("washer, key")
	m.Book()
	assert.Contains(t, d.Said[len(d.Said)-1], "nearly full: ask the clinician")
	assert.True(t, d.Thing("E-20103").Soiled)
	d.Offered()
	assert.Equal(t, inventory.Idle, d.Thing("E-20103").State)
	assert.Equal(t, d.Persons["Mira"], d.Thing("E-20103").Person)
	assert.Equal(t, []string{"E-20103"}, labels(m.Columns().Missing)[:1])
	require.Empty(t, d.Refused)
	d.Clean()
}

// TestReceiptForWhoGaveBack: one paper for each person whose things were booked;
// nothing for nobody.
func TestReceiptForWhoGaveBack(t *testing.T) {
	d := uitest.New(t)
	m := model(t, d)
	m.Receipt()
	assert.Contains(t, d.Refusal().Says, "Nothing that a person gave back")
	d.Refused = nil
	for serial, read := range map[string]string{"E-20103": "640", "E-20104": "1100"} { // hers, and his with the driver
		require.True(t, m.Scan(serial))
		m.SetValue(read)
		m.Book()
	}
	assert.ElementsMatch(t, []inventory.PersonID{d.Persons["Mira"], d.Persons["Otto"]}, m.Givers())
	m.Receipt()
	d.Clean()
	assert.Len(t, d.Shown, 2)
}

// What is scanned while the scan before is still looked up never takes its place:
// the first stays in hand until it is booked.
func TestNoScanIsLostWhileAnotherIsLookedUp(t *testing.T) {
	d := uitest.New(t)
	m := returns.NewModel(d.Work)
	m.Load("")
	held := d.Hold()
	require.True(t, m.Scan("CN00403"))
	require.True(t, m.Scan("CN00404"))
	held.LetGo()
	assert.Equal(t, d.Things["CN00403"], m.Hand.Item.ID)
}

// A reading that is typed right after the scan goes to the reading, not into the
// choice of a depot, which is asked for when the thing is booked.
func TestAReadingNeverChoosesTheDepot(t *testing.T) {
	d := uitest.New(t)
	v := returns.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Return})
	require.True(t, v.Scan("CN00403"))
	uitest.Type(win, "9021")
	uitest.Press(win, fyne.KeyReturn)
	assert.Equal(t, inventory.Idle, d.Thing("CN00403").State, "no depot is chosen yet")
	uitest.Press(win, fyne.KeyRight, fyne.KeyReturn)
	require.Equal(t, inventory.Dirty, d.Thing("CN00403").State)
	assert.InDelta(t, 9021, d.Thing("CN00403").Hours.Value, 1e-9)
	d.Clean()
}
