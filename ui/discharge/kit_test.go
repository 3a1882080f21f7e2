package discharge_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/discharge"
	"lungwort/ui/uitest"
)

func TestRefusalsStandByTheLine(t *testing.T) {
	d := stocked(t)
	for _, c := range []struct{ name, scan, says, instead string }{
		{"lent", "E-20101", "is on loan to another person", "E-20114"},
		{"on the bench", "E-20115", "is on bench", "E-20114"},
		{"reserved", "CN00903", "is reserved for another person", "CN00921"},
		{"another owner's", "ZX 9981", "belongs to Other supplier", ""},
		{"too small", "CN00421", "gives 5 L/min at most, 6 L/min is ordered", "CN00921"},
	} {
		m := atWard(t, d)
		m.Set(discharge.Exertion, "6")
		require.True(t, m.Scan(c.scan), c.name)
		require.Empty(t, d.Refused, c.name)
		var trouble discharge.Trouble
		for _, p := range m.Pieces {
			if p.Item.Label() == c.scan {
				trouble = m.Troubles[p.ID()]
			}
		}
		assert.Contains(t, trouble.Says, c.says, c.name)
		if c.instead == "" {
			assert.Nil(t, trouble.Instead, c.name)
			continue
		}
		require.NotNil(t, trouble.Instead, c.name)
		if c.name != "on the bench" && c.name != "lent" { // the kit may hold the best already
			assert.Equal(t, c.instead, trouble.Instead.Label(), c.name)
		}
		m.Swap(string(d.Things[c.scan]))
		assert.NotContains(t, m.Troubles, string(d.Things[c.scan]), "%s: one key takes the alternative", c.name)
		m.HandOver()
		assert.Equal(t, delivery.Known, d.Page("Nia").Care.Phase, c.name)
	}
}

// TestTakenMeanwhile: another desk lends the cylinder while this one types.
// The hand-over is refused whole, and the line says what to take instead.
func TestTakenMeanwhile(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	mine := cylinder(t, m)
	m.SetGauge(mine.ID(), "1950")
	ben := d.Hand(inventory.Keyed)
	ben.By = "Ben"
	_, err := d.Desk.Do(context.Background(), ben, delivery.Visit{Person: d.Persons["Odd"], Left: []delivery.Piece{{Item: mine.Item.ID}}})
	require.NoError(t, err)
	m.HandOver()
	assert.Contains(t, d.Refusal().Says, "is on loan to another person")
	assert.Contains(t, d.Refusal().Next, "Ben was first, at 16:20: ")
	assert.Equal(t, "1950", cylinder(t, m).Gauge, "what was typed stays")
	d.Refused = nil
	require.NotNil(t, m.Troubles[mine.ID()].Instead)
	m.Swap(mine.ID())
	m.SetGauge(cylinder(t, m).ID(), "1950")
	m.HandOver()
	assert.Equal(t, delivery.OnBridge, d.Page("Nia").Care.Phase)
	d.Clean()
}

func TestGaugeIsReadAgain(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	id := cylinder(t, m).ID()
	for gauge, says := range map[string]string{
		"":         "Read the gauge with the nurse",
		"5000":     "more than this cylinder holds",
		"high":     "is not a gauge reading",
		"full":     "what does the gauge show?",
		"97 carat": "unit",
	} {
		m.SetGauge(id, gauge)
		m.HandOver()
		assert.Contains(t, m.Troubles[id].Says, says, "gauge %q", gauge)
	}
	assert.Equal(t, delivery.Known, d.Page("Nia").Care.Phase)
}

// TestKitForTheOrder: the kit list follows the ordered flow, and two small
// cylinders stand in for a large one of which none is ready.
func TestKitForTheOrder(t *testing.T) {
	d := stocked(t)
	p := uitest.Programme()
	p.Kits = []delivery.Kit{
		{Name: "low flow", Upto: 1, Items: []delivery.Wanted{{Kind: inventory.Oximeter, Count: 1}}},
		{Name: "large", Items: []delivery.Wanted{{Kind: inventory.Cylinder, Size: "US-M60", Count: 1}, {Kind: inventory.Concentrator, Count: 1}}},
	}
	p.Instead = []delivery.Instead{{Of: "US-M60", Take: "US-H", Count: 1}, {Of: "US-M60", Take: "US-E", Count: 2}}
	d.Act(delivery.Settings{Programme: p})
	m := atWard(t, d)
	assert.Equal(t, "large", m.KitName, "more than 1 L/min is ordered")
	var kit []string
	for _, line := range m.Pieces {
		kit = append(kit, line.Item.Spec.What())
	}
	assert.Equal(t, []string{"oxygen cylinder US-E", "oxygen cylinder US-E", "concentrator to 5 L/min"}, kit)
	assert.Empty(t, m.Wrong[discharge.Kit])

	p.Instead = nil
	d.Act(delivery.Settings{Programme: p})
	m = atWard(t, d)
	require.Len(t, m.Pieces, 2)
	assert.Contains(t, m.Troubles[m.Pieces[0].ID()].Says, "No oxygen cylinder US-M60 is ready")
}

// TestSmallPartsAreTicked: what goes along is asked for by kind, what is ticked
// is on the loan, and what lacks is asked about before anybody leaves.
func TestSmallPartsAreTicked(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	assert.Equal(t, []string{"key", "seal washer", "stand"}, m.AsksParts())
	mine := cylinder(t, m)
	m.SetGauge(mine.ID(), "1950")
	m.Set(discharge.Parts, "key,stand")
	assert.Equal(t, "not there yet: seal washer", m.Hint(discharge.Parts))
	asked := ""
	m.Confirm = func(_, text, _ string, do func()) { asked += text; do() }
	m.HandOver()
	require.Empty(t, d.Refused)
	assert.Contains(t, asked, "not there yet: seal washer")
	assert.Equal(t, []string{"key", "stand"}, d.Thing(mine.Item.Label()).With)
	d.Clean()
}

// TestSuppliesOfTheKit: the kit's supplies are taken from the ward's store with
// the one lot that lies there; of two lots the bag decides.
func TestSuppliesOfTheKit(t *testing.T) {
	d := stocked(t)
	d.Act(delivery.ReceiveSupply{Supply: "cannula", Count: 30, Lot: "C78", To: "ward:6B"})
	d.Act(delivery.ReceiveSupply{Supply: "extension tubing", Count: 30, Lot: "X1", To: "ward:6B"})
	d.Act(delivery.ReceiveSupply{Supply: "extension tubing", Count: 30, Lot: "X2", To: "ward:6B"})
	m := atWard(t, d)
	assert.Equal(t, "2 cannula lot C78, 1 extension tubing, 1 swivel connector", m.Text(discharge.Supplies))
	assert.Equal(t, "from ward 6B: which lot of extension tubing? X1 (30), X2 (30)", m.Hint(discharge.Supplies))
	m.Set(discharge.Supplies, "cannula")
	assert.Contains(t, m.Wrong[discharge.Supplies], "how many")
	m.Set(discharge.Supplies, "3 cannula lot C78, 1 extension tubing lot X2")
	m.SetGauge(cylinder(t, m).ID(), "1950")
	m.HandOver()
	require.Empty(t, d.Refused)
	stock, err := d.Desk.Supplies(t.Context())
	require.NoError(t, err)
	left := map[string]int{}
	for _, s := range stock {
		left[s.Lot] = s.Count
	}
	assert.Equal(t, map[string]int{"C78": 27, "X1": 30, "X2": 29}, left)
	d.Clean()
}
