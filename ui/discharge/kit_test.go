package discharge_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/ui/discharge"
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
	d.Act(delivery.Visit{Person: d.Persons["Odd"], Left: []delivery.Piece{{Item: mine.Item.ID}}})
	m.HandOver()
	assert.Contains(t, d.Refusal().Says, "is on loan to another person")
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
