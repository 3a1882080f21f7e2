package discharge_test

import (
	"context"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/discharge"
	"lungwort/ui/runner"
	"lungwort/ui/uitest"
)

// stocked is the desk of the story with two machines that are ready.
func stocked(t *testing.T) *uitest.Desk {
	d := uitest.New(t)
	for serial, rated := range map[string]gas.Flow{"CN00421": 5, "CN00921": 10} {
		d.Things[serial] = d.Act(delivery.Enrol{
			Spec: inventory.Spec{Kind: inventory.Concentrator, Serial: serial, Rated: rated}, Depot: "harbour", Cleared: true,
		}).Facts[0].Item
	}
	return d
}

// atWard is the model with Nia chosen and everything answered but the gauge.
func atWard(t *testing.T, d *uitest.Desk) *discharge.Model {
	m := discharge.NewModel(d.Work)
	m.Load("")
	require.True(t, m.Choosing)
	require.Len(t, m.Waiting, 1)
	assert.Equal(t, "Lund, Nia", m.Waiting[0].Name)
	m.Choose(m.Waiting[0].ID)
	for f, text := range map[discharge.Field]string{
		discharge.Ward: "6B", discharge.Smoker: "no",
		discharge.Sharing: discharge.Yes, discharge.Notice: discharge.No, discharge.Risk: discharge.Yes,
	} {
		m.Set(f, text)
	}
	return m
}

func cylinder(t *testing.T, m *discharge.Model) discharge.Piece {
	t.Helper()
	for _, p := range m.Pieces {
		if p.Want.Kind == inventory.Cylinder {
			return p
		}
	}
	t.Fatal("no cylinder in the kit")
	return discharge.Piece{}
}

// TestVerdictFollowsEveryKeystroke: the planning minutes are the textbook
// rule, (gauge - 200 psi) × 0.28 ÷ flow for an E cylinder, as
// respiratory-therapy texts give it; at 3 L/min, 1,970 psi are 165 min and
// 1,000 psi are 74 min. The way home takes 30 min on the ward, 12 min of
// riding, 15 min of set-up and 20 min of warm-up.
func TestVerdictFollowsEveryKeystroke(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	id := cylinder(t, m).ID()
	late := uitest.Now.Add(3 * time.Hour)
	for _, c := range []struct {
		name, gauge string
		do          func()
		verdict     string
		has         time.Duration
	}{
		{"plenty of gas", "1970", nil, "holds", 165 * time.Minute},
		{"the margin is not kept", "1200", nil, "tight", 93 * time.Minute},
		{"gas ends first", "1000", nil, "short", 74 * time.Minute},
		{"the unit is heeded", "100 bar", nil, "tight", 116 * time.Minute},
		{"a late delivery", "1970", func() { m.SetTime(discharge.Arrives, late, nil) }, "short", 165 * time.Minute},
		{"a lower flow is the clinician's to order", "1970", func() { m.Set(discharge.Exertion, "1"); m.Set(discharge.Rest, "1") }, "holds", 495 * time.Minute},
		{"a pulse setting", "1970", func() { m.Set(discharge.Setting, "2") }, "unknown", 0},
	} {
		if c.do != nil {
			c.do()
		}
		m.SetGauge(id, c.gauge)
		assert.Equal(t, c.verdict, string(m.Answer.Verdict), "%s: %s", c.name, m.Answer.Title)
		assert.Equal(t, c.has, m.Answer.Has.Round(time.Minute), c.name)
	}
	assert.Contains(t, m.Answer.Title, "not litres a minute")
}

// counting counts what reads the book.
type counting struct {
	runner.Runner
	runs int
}

func (c *counting) Go(kind string, work func(context.Context) error, done func(error)) {
	c.runs++
	c.Runner.Go(kind, work, done)
}

func TestKeystrokesReadNothing(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	c := &counting{Runner: runner.Inline{}}
	d.Work.Run = c
	m.Set(discharge.Rest, "2")
	m.Set(discharge.Hours, "16")
	m.SetGauge(cylinder(t, m).ID(), "1800")
	m.Turn(cylinder(t, m).ID())
	assert.Zero(t, c.runs)
}

func TestHandOverWritesOnce(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	m.SetGauge(cylinder(t, m).ID(), "1950")
	serial := cylinder(t, m).Item.Label()
	m.HandOver()
	require.Empty(t, m.Wrong)
	d.Clean()

	page := d.Page("Nia")
	assert.Equal(t, delivery.OnBridge, page.Care.Phase)
	assert.Equal(t, map[string]bool{"data sharing": true, "fire service notice": false, "risk form": true}, page.Care.Consents)
	assert.Equal(t, inventory.HandedOver, d.Thing(serial).State)
	require.Len(t, page.Reserved, 1)
	assert.Equal(t, "CN00421", page.Reserved[0].Label(), "the smallest machine that is large enough")
	assert.Empty(t, m.Waiting, "the screen is ready for the next")

	require.NotNil(t, d.Offered)
	d.Offered()
	require.Empty(t, d.Refused)
	require.Len(t, d.Shown, 2, "the receipt and the leaflet")
	info, err := os.Stat(d.Shown[0])
	require.NoError(t, err)
	assert.Positive(t, info.Size())
	assert.NotContains(t, d.Shown[0], "Lund", "no name in a file name")
}

func TestSomebodyNewIsRegisteredWithTheKit(t *testing.T) {
	d := stocked(t)
	m := discharge.NewModel(d.Work)
	m.Load("")
	m.Choose("")
	for f, text := range map[discharge.Field]string{
		discharge.Family: "Tarn", discharge.Given: "Ysolt", discharge.Born: "1948-02-29", discharge.Phones: "555-0150, son 555-0151",
		discharge.Street: "Kelp Street 40", discharge.Mains: "mains", discharge.Smoker: "no", discharge.Stairs: "2",
		discharge.Rest: "2 L/min", discharge.Hours: "24", discharge.Review: "2030-04-02", discharge.Prescriber: "ward 6B",
		discharge.Ward: "6B", discharge.Sharing: discharge.No, discharge.Notice: discharge.No, discharge.Risk: discharge.Yes,
	} {
		m.Set(f, text)
	}
	assert.Equal(t, "about right: taken as Kelp Street 22, Quillet Town", m.Hint(discharge.Spot), "a neighbour is known")
	m.SetGauge(cylinder(t, m).ID(), "1950")
	m.HandOver()
	require.Empty(t, m.Wrong)
	d.Clean()
	found, err := d.Desk.Homes(context.Background(), "tarn", 5)
	require.NoError(t, err)
	require.Len(t, found, 1)
	assert.Equal(t, delivery.OnBridge, found[0].Care.Phase)
	assert.Equal(t, []delivery.Phone{{Number: "555-0150"}, {Number: "555-0151", Whose: "son"}}, found[0].Person.Phones)
	assert.Equal(t, uitest.Great, found[0].Address.Point.Area)
}

func TestWhatLacksIsNamed(t *testing.T) {
	d := stocked(t)
	m := discharge.NewModel(d.Work)
	m.Load("")
	m.Choose("")
	m.HandOver()
	for _, f := range []discharge.Field{
		discharge.Family, discharge.Street, discharge.Mains, discharge.Smoker, discharge.Sharing, discharge.Notice, discharge.Risk,
		discharge.Rest, discharge.Hours, discharge.Review, discharge.Prescriber, discharge.Ward,
	} {
		assert.NotEmpty(t, m.Wrong[f], f)
	}
	for f, text := range map[discharge.Field]string{
		discharge.Born: "29.2.1948", discharge.Phones: "ask the son", discharge.Spot: "north", discharge.Rest: "2-3",
		discharge.Hours: "25", discharge.Review: "2030-01-01", discharge.Stairs: "many",
	} {
		m.Set(f, text)
		assert.NotEmpty(t, m.Wrong[f], "%s: %q", f, text)
	}
	require.Empty(t, d.Refused)
}

func TestShortIsAskedAboutNotForbidden(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	m.SetGauge(cylinder(t, m).ID(), "900")
	var asked string
	var anyway func()
	m.Confirm = func(title, _, _ string, do func()) { asked, anyway = title, do }
	m.HandOver()
	assert.Contains(t, asked, "gas ends")
	assert.Equal(t, delivery.Known, d.Page("Nia").Care.Phase)
	anyway()
	assert.Equal(t, delivery.OnBridge, d.Page("Nia").Care.Phase)
	d.Clean()
}

func TestNotesForThisHome(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	assert.Empty(t, m.Notes())
	m.Set(discharge.Exertion, "4")
	assert.Contains(t, m.Notes()[0], "call bands from the clinician")
	m.Set(discharge.Smoker, "yes")
	m.Set(discharge.Mains, "no mains")
	assert.Len(t, m.Notes(), 3)
	m.HandOver()
	assert.Contains(t, m.Wrong[discharge.Mains], "no concentrator runs there")
	m.Set(discharge.Spot, "")
	m.Set(discharge.Street, "Nowhere Lane 1")
	assert.Equal(t, "not known: the ride is taken as 2 h", m.Hint(discharge.Spot))
}

// A pulse device has no bridge until its bolus and the breaths a minute are known.
// An E at 1,970 psi holds (1,970 - 200) psi × 0.28 = 495 L above the reserve; 16.5 mL
// at 20 breaths are 0.33 L/min.
func TestAPulseDeviceIsForetoldByItsBolus(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	m.SetGauge(cylinder(t, m).ID(), "1970psi")
	for _, f := range []discharge.Field{discharge.Rest, discharge.Exertion, discharge.Asleep} {
		m.Set(f, "")
	}
	m.Set(discharge.Setting, "2")
	assert.Contains(t, m.Answer.Title, "no prediction: pulse setting 2 is not litres a minute")
	m.Set(discharge.Bolus, "16.5 mL")
	assert.Contains(t, m.Wrong[discharge.Bolus], "the breaths a minute")
	m.Set(discharge.Bolus, "16.5 mL, 20 a minute")
	assert.Empty(t, m.Wrong[discharge.Bolus])
	assert.InDelta(t, 495/0.33, m.Answer.Has.Minutes(), 5)
}
