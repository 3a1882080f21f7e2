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

// TestSlotWithTheLeastDriving: a round goes past later in the day; who needs no
// hurry is put on it, and who does gets a trip of their own before it: the van
// does not leave hours early to stand before a door.
func TestSlotWithTheLeastDriving(t *testing.T) {
	for name, c := range map[string]struct {
		by, promised time.Duration
		runs         int
		refused      string
	}{
		"no hurry":           {by: 6 * time.Hour, runs: 1},
		"no hurry, promised": {by: 6 * time.Hour, promised: 2 * time.Hour, runs: 2},
		"soon":               {by: 2 * time.Hour, runs: 2},
		"the soonest":        {runs: 2},
		"too soon":           {by: 10 * time.Minute, runs: 1, refused: "No vehicle can be there by 14:10."},
	} {
		d := newDesk(t)
		visit := func(family string, from time.Time) inventory.PersonID {
			who := d.do(delivery.Register{
				Person:  delivery.Person{Family: family},
				Address: delivery.Address{Street: "Shore Road " + family, Mains: delivery.MainsYes, Point: delivery.Point{Lat: 36.6, Lon: -40.5, Area: "Great Quillet"}},
			}).Facts[0].Person
			d.do(delivery.Ask{Person: who, Task: delivery.Swap, Why: "tubing", Parts: "tubing", From: from})
			return who
		}
		d.do(delivery.TakeSlot{Person: visit("8", d.now.Add(4*time.Hour))})
		act := delivery.TakeSlot{Person: visit("9", time.Time{})}
		if c.by > 0 {
			act.By = d.now.Add(c.by)
		}
		if c.promised > 0 {
			act.Promised = d.now.Add(c.promised)
		}
		_, err := d.Do(context.Background(), d.hand(), act)
		if c.refused != "" {
			require.ErrorContains(t, err, c.refused, name)
		} else {
			require.NoError(t, err, name)
		}
		runs, err := d.Runs(context.Background(), "")
		require.NoError(t, err)
		assert.Len(t, runs, c.runs, name)
		d.clean()
	}
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
