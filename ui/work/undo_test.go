package work_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/uitest"
)

func TestUndoTakesBackEveryFactOrNone(t *testing.T) {
	d := uitest.New(t)
	out := d.Act(delivery.StopOxygen{Person: d.Persons["Jory"], Reason: "recovered", OrderedBy: "clinic"})
	require.Greater(t, len(out.Facts), 2)
	after := 0
	d.OfferUndo(out, func() { after++ })
	d.Offered()
	assert.Equal(t, 1, after)
	assert.Equal(t, delivery.Running, d.Page("Jory").Care.Phase)
	assert.Equal(t, inventory.AsBackup, d.Thing("E-20101").State)
	d.Offered() // a second time there is nothing left to take back
	assert.Equal(t, 1, after)
	assert.Contains(t, d.Refusal().Says, "already")
}

func TestNothingWrittenOffersNoUndo(t *testing.T) {
	d := uitest.NewEmpty(t)
	d.OfferUndo(store.Outcome{Says: "Nothing."}, func() {})
	assert.Nil(t, d.Offered)
}
