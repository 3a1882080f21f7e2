package delivery

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

var spell = time.Date(2031, 3, 4, 8, 0, 0, 0, time.UTC)

// breathing is a person on an E, read at the hours given with the gauges given.
func breathing(readings ...inventory.Fact) Care {
	facts := []inventory.Fact{
		{ID: 1, Person: "P-1", Happened: spell, Statement: &Ordered{Rest: 2, Hours: 24}},
		{ID: 2, Person: "P-1", Item: "E-1", Happened: spell, Statement: &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}},
		{ID: 3, Person: "P-1", Happened: spell, Statement: &Discharged{Opened: spell}},
	}
	for i, f := range readings {
		f.ID = inventory.FactID(10 + i)
		facts = append(facts, f)
	}
	return FoldCare("P-1", facts)
}

func readAfter(hours float64, psi float64, t *gas.Celsius) inventory.Fact {
	gauge := gas.PSI(psi)
	return inventory.Fact{Person: "P-1", Item: "E-1", Happened: spell.Add(time.Duration(hours * float64(time.Hour))),
		Statement: &inventory.Observed{Gauge: &gauge, Temperature: t}}
}

// Two readings of a cylinder that was breathed from show how fast; the
// forecast is sharper for it, and a new order forgets it.
func TestReadingsShowThePersonsOwnUse(t *testing.T) {
	care := breathing(readAfter(0, 2000, nil), readAfter(1.5, 1500, nil))
	require.Len(t, care.Uses, 1)
	assert.Equal(t, 90*time.Minute, care.Uses[0].Took)

	sharp := Home{Care: care}
	plain := sharp
	plain.Care.Uses = nil
	now := spell.Add(90 * time.Minute)
	_, f := sharp.Forecast(NewProgramme(), now)
	_, g := plain.Forecast(NewProgramme(), now)
	assert.Less(t, f.High.Sub(f.Low), g.High.Sub(g.Low))
	assert.Contains(t, f.Assumptions(), "sharpened by earlier readings: 1")

	ordered := inventory.Fact{Person: "P-1", Happened: spell.Add(2 * time.Hour), Statement: &Ordered{Rest: 3, Hours: 24}}
	assert.Empty(t, breathing(readAfter(0, 2000, nil), readAfter(1.5, 1500, nil), ordered).Uses)
}

// Readings of a closed cylinder, and two within minutes, show no use. While
// the concentrator ran in between, only the time on the cylinder counts.
func TestOnlyTimeOnTheCylinderIsUse(t *testing.T) {
	assert.Empty(t, breathing(readAfter(0, 2000, nil), readAfter(0.1, 1950, nil)).Uses, "six minutes")

	back := inventory.Fact{Person: "P-1", Happened: spell.Add(time.Hour), Statement: &Switched{To: FromConcentrator}}
	care := breathing(readAfter(0, 2000, nil), back, readAfter(30, 1650, nil))
	require.Len(t, care.Uses, 1)
	assert.Equal(t, time.Hour, care.Uses[0].Took)
	care = breathing(readAfter(0, 2000, nil), back, readAfter(30, 1650, nil), readAfter(60, 1600, nil))
	assert.Len(t, care.Uses, 1, "closed between the last two")
}

// 2,000 psi at 21 °C reads 1,705 psi at -10 °C with no gas lost (real gas; an
// ideal gas would show 1,790): no alarm, and no minutes more when it is warm
// again.
func TestAColdGaugeIsNoLeak(t *testing.T) {
	warm, cold := gas.Celsius(21), gas.Celsius(-10)
	counted := func(f inventory.Fact) float64 {
		h := Home{Care: breathing(f)}
		_, forecast := h.Forecast(NewProgramme(), f.Happened)
		return float64(forecast.Counted)
	}
	full := counted(readAfter(0, 2000, &warm))
	assert.InEpsilon(t, full, counted(readAfter(0, 1705, &cold)), 0.005)
	assert.Greater(t, full, counted(readAfter(0, 1705, nil))*1.1, "where no temperature is noted the careful side counts")
}
