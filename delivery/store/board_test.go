package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// TestHandOverTakesTheSlot: the discharge and its place on the runs are one
// transaction; a promise nobody can keep any more writes nothing.
func TestHandOverTakesTheSlot(t *testing.T) {
	d := newDesk(t)
	cylinder, machine := kit(d)
	act := admission(d, cylinder, machine)
	act.Discharge.HandOver[0].Gauge = new(gas.PSI(2000))
	act.Discharge.Arrives, act.Discharge.Until = d.now.Add(15*time.Minute), d.now.Add(15*time.Minute)
	_, err := d.HandOver(context.Background(), d.hand(), act)
	require.ErrorContains(t, err, "is gone")
	homes, err := d.Homes(context.Background(), "", 9)
	require.NoError(t, err)
	require.Empty(t, homes, "nobody is half discharged")

	act.Discharge.Arrives, act.Discharge.Until = d.now.Add(2*time.Hour), time.Time{}
	out, err := d.HandOver(context.Background(), d.hand(), act)
	require.NoError(t, err)
	assert.Contains(t, out.Says, "van 1 goes there")
	runs, err := d.Runs(context.Background(), "")
	require.NoError(t, err)
	require.Len(t, runs, 1)
	assert.Equal(t, []inventory.PersonID{out.Facts[0].Person}, runs[0].Stops[0].Persons)
	assert.NotEmpty(t, runs[0].Stops[0].Tasks)
	d.clean()
}

// TestWithdrawnVanMakesNoRun: its stops wait, and nothing is planned on it
// until it is back.
func TestWithdrawnVanMakesNoRun(t *testing.T) {
	d := newDesk(t)
	who := promisedAt(d, d.now.Add(2*time.Hour))
	d.do(delivery.TakeSlot{Person: who})
	d.do(delivery.Withdraw{Vehicle: "van 1", Why: "broken down"})
	board, err := d.Board(context.Background(), d.now)
	require.NoError(t, err)
	stop, on := board.StopOf(who)
	require.True(t, on)
	assert.True(t, board.Waits(stop))
	d.do(delivery.PlanAnew{Steps: 500})
	runs, err := d.Runs(context.Background(), "")
	require.NoError(t, err)
	require.Len(t, runs, 1, "the run of today is over: the one van is gone")
	assert.Equal(t, "2030-03-05", runs[0].Day)
	assert.Equal(t, []inventory.PersonID{who}, runs[0].Stops[0].Persons)
	d.clean()
}
