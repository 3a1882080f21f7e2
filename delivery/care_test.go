package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
)

// TestBridgeEndsOnCylindersWhereNoConcentratorComes: a home without mains is
// on the cylinder for good; a switch said on the bridge ends the bridge.
func TestBridgeEndsOnCylindersWhereNoConcentratorComes(t *testing.T) {
	start := time.Date(2030, time.March, 4, 14, 0, 0, 0, time.UTC)
	facts := []inventory.Fact{
		{ID: 1, Person: "p1", Happened: start, Statement: &delivery.Discharged{Opened: start}},
		{ID: 2, Person: "p1", Happened: start.Add(2 * time.Hour), Statement: &delivery.Switched{To: delivery.FromCylinder, Why: "no mains"}},
	}
	assert.Equal(t, delivery.OnBridge, delivery.FoldCare("p1", facts[:1]).Phase)
	care := delivery.FoldCare("p1", facts)
	assert.Equal(t, delivery.CylinderNow, care.Phase)
	assert.Equal(t, delivery.FromCylinder, care.Breathes)
	assert.True(t, care.Watched())
}

// Who declines that the fire service is told gets oxygen all the same; the
// order says wherever it is shown that the person tells it.
func TestDeclinedFireServiceStandsOnTheOrder(t *testing.T) {
	care := delivery.FoldCare("p", []inventory.Fact{{ID: 1, Person: "p", Statement: &delivery.Consented{To: delivery.FireService}}})
	assert.Equal(t, []string{"Fire service not told: consent declined. The person tells it."}, care.OrderNotes())
	care = delivery.FoldCare("p", []inventory.Fact{{ID: 1, Person: "p", Statement: &delivery.Consented{To: delivery.FireService, Given: true}}})
	assert.Empty(t, care.OrderNotes())
}
