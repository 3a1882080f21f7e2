package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// homeWith folds a person with a concentrator and one full E, and whatever else
// happened.
func homeWith(more ...inventory.Statement) delivery.Home {
	facts := []inventory.Fact{
		{ID: 1, Happened: told, Person: "p1", Statement: &delivery.Ordered{Rest: 2, Hours: 24}},
		{ID: 2, Happened: told, Person: "p1", Item: "e1", Statement: &inventory.Lent{Role: inventory.Backup, Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}},
		{ID: 3, Happened: told, Person: "p1", Item: "e1", Statement: &inventory.Observed{Gauge: new(gas.PSI(2000))}},
		{ID: 5, Happened: told, Person: "p1", Statement: &delivery.Discharged{Opened: told}},
		{ID: 6, Happened: told.Add(time.Second), Person: "p1", Statement: &delivery.Switched{To: delivery.FromConcentrator}},
	}
	for i, s := range more {
		facts = append(facts, inventory.Fact{ID: inventory.FactID(10 + i), Happened: told.Add(time.Minute), Person: "p1", Statement: s})
	}
	return delivery.Home{Care: delivery.FoldCare("p1", facts)}
}

func TestTripOfCare(t *testing.T) {
	now := told.Add(time.Hour)
	away := &delivery.TripBooked{From: told.Add(24 * time.Hour), Until: told.Add(34 * time.Hour)}
	d, f := homeWith(away).Forecast(delivery.NewProgramme(), now)
	require.Equal(t, []depletion.Span{{From: away.From, Until: away.Until}}, d.Trips)
	assert.Equal(t, away.From, f.ActBy, "an E lasts no ten hours at 2 L/min: more gas before they leave")
	assert.Equal(t, depletion.CauseTrip, f.ActByCause)

	_, f = homeWith(away, &delivery.TripOff{Trip: 10}).Forecast(delivery.NewProgramme(), now)
	assert.Zero(t, f.ActBy, "called off")
	_, f = homeWith(&delivery.TripBooked{From: away.From, Until: away.From.Add(2 * time.Hour)}).Forecast(delivery.NewProgramme(), now)
	assert.Zero(t, f.ActBy, "an E lasts two hours at 2 L/min")
}

// Aguiar et al., Respir Care 2015;60:179: 15 m on a cylinder by an older
// guideline. A note, and no minute less.
func TestLongTubingIsANote(t *testing.T) {
	now := told.Add(time.Hour)
	_, short := homeWith(&delivery.TubingLaid{Metres: 15}).Forecast(delivery.NewProgramme(), now)
	_, long := homeWith(&delivery.TubingLaid{Metres: 30}).Forecast(delivery.NewProgramme(), now)
	assert.Equal(t, short.CoverLow, long.CoverLow)
	note := "30 m of tubing: on a cylinder less may arrive; check the flow at the cannula end"
	assert.Contains(t, long.Assumptions(), note)
	assert.NotContains(t, short.Assumptions(), note)
}

// 16.5 mL at 20 breaths a minute is 0.33 L/min; without the bolus there is no
// prediction, since a setting is not a flow.
func TestPulseDeviceByItsBolus(t *testing.T) {
	now := told.Add(time.Hour)
	d, f := homeWith(&delivery.Ordered{Setting: "2", Hours: 24}).Forecast(delivery.NewProgramme(), now)
	assert.True(t, d.Pulse)
	assert.False(t, f.Known)
	assert.Contains(t, f.Status, "a pulse setting is not a flow")
	d, f = homeWith(&delivery.Ordered{Setting: "2", Bolus: 16.5, Breaths: 20, Hours: 24}).Forecast(delivery.NewProgramme(), now)
	assert.True(t, f.Known, f.Status)
	assert.InDelta(t, 0.33, float64(d.Flow), 1e-9)
	assert.Greater(t, f.CoverMid, 30*time.Hour, "a full E holds over 660 L")

	for _, o := range []delivery.Ordered{{Setting: "2", Bolus: 16.5, Hours: 24}, {Setting: "2", Breaths: 20, Hours: 24}, {Rest: 2, Bolus: 16.5, Breaths: 20, Hours: 24}} {
		assert.Error(t, o.Check(), "%+v", o)
	}
}
