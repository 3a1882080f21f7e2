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

// promisedAt hands a cylinder over to somebody and promises the machine.
func promisedAt(d *desk, at time.Time) inventory.PersonID {
	cylinder, machine := kit(d)
	act := admission(d, cylinder, machine)
	act.Discharge.Arrives, act.Discharge.Until = at, at
	act.Discharge.HandOver[0].Gauge = new(gas.PSI(2000))
	return d.do(act).Facts[0].Person
}

func proposed(t *testing.T, d *desk) delivery.DayPlan {
	plan, err := d.Propose(context.Background(), d.now, 2000, nil, nil)
	require.NoError(t, err)
	return plan
}

// TestPromiseNeverKeepsTheVanAway: somebody waits on a cylinder for a machine
// promised for a time that is past, or too soon to be kept.
func TestPromiseNeverKeepsTheVanAway(t *testing.T) {
	for name, c := range map[string]struct {
		promised, later time.Duration
		says            string
	}{
		"kept":     {2 * time.Hour, 0, ""},
		"past":     {30 * time.Minute, time.Hour, ""},
		"too soon": {45 * time.Minute, 40 * time.Minute, "after the promised"},
	} {
		d := newDesk(t)
		who := promisedAt(d, d.now.Add(c.promised))
		d.now = d.now.Add(c.later)
		plan := proposed(t, d)
		require.Len(t, plan.Runs, 1, name)
		require.Len(t, plan.Runs[0].Stops, 1, name)
		stop := plan.Runs[0].Stops[0]
		assert.Equal(t, []inventory.PersonID{who}, stop.Persons, name)
		assert.Zero(t, stop.Late, "%s: the gas lasts", name)
		if c.says == "" {
			assert.Empty(t, plan.Troubles, name)
			continue
		}
		require.Len(t, plan.Troubles, 1, name)
		assert.Contains(t, plan.Troubles[0].Says, c.says, name)
		assert.Zero(t, plan.Troubles[0].Late, name)
	}
}

// TestWindowOfACollectionHolds: nobody waits for gas, so nobody opens the door
// after the time agreed.
func TestWindowOfACollectionHolds(t *testing.T) {
	d := newDesk(t)
	who := d.register("Rowe")
	d.do(delivery.Ask{Person: who, Task: delivery.Collect, Why: "recovered", Until: d.now.Add(5 * time.Minute)})
	plan := proposed(t, d)
	assert.Empty(t, plan.Runs)
	require.Len(t, plan.Troubles, 1)
	assert.Contains(t, plan.Troubles[0].Says, "no vehicle comes that day")
}

// TestHalfDoneStaysOpen: what was not left or not taken is planned again.
func TestHalfDoneStaysOpen(t *testing.T) {
	d := newDesk(t)
	who := promisedAt(d, d.now.Add(time.Hour))
	d.now = d.now.Add(time.Hour)
	spare := d.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-20140"}, 2000)
	machine := d.watchPage(who).Reserved[0].ID
	cylinder := d.watchPage(who).Kit[0].ID

	out := d.do(delivery.Visit{Person: who, Left: []delivery.Piece{{Item: spare}}})
	assert.Contains(t, out.Says, "The task to deliver stays open.")
	assert.True(t, d.watch(who).Care.Has(delivery.Deliver), "the machine was not left")
	d.do(delivery.Visit{Person: who, Left: []delivery.Piece{{Item: machine}}, Running: true})
	assert.False(t, d.watch(who).Care.Has(delivery.Deliver))

	d.do(delivery.StopOxygen{Person: who, Reason: "recovered", OrderedBy: "clinic"})
	d.do(delivery.Visit{Person: who, Took: []delivery.Taken{{Item: machine}, {Item: spare}}})
	assert.True(t, d.watch(who).Care.Has(delivery.Collect), "a cylinder is still there")
	d.do(delivery.Visit{Person: who, Took: []delivery.Taken{{Item: cylinder}}})
	assert.False(t, d.watch(who).Care.Has(delivery.Collect))
	d.clean()
}

// TestThePlanOfTheDayTheClocksGoForward: planned an hour before, by the clock of
// that hour; the vehicle leaves at eight on the wall all the same, which is an
// hour sooner. 10 March 2030, 02:00 in New York, by the IANA time zone database.
func TestThePlanOfTheDayTheClocksGoForward(t *testing.T) {
	d := newDesk(t)
	p, err := d.Programme(context.Background())
	require.NoError(t, err)
	p.TimeZone = "America/New_York"
	d.do(delivery.Settings{Programme: p})
	who := d.register("Rowe")
	d.do(delivery.Ask{Person: who, Task: delivery.Collect, Why: "recovered"})
	for name, c := range map[string]struct{ at, opens, closes time.Time }{
		"forward": {time.Date(2030, time.March, 10, 1, 0, 0, 0, time.FixedZone("", -5*3600)),
			time.Date(2030, time.March, 10, 12, 0, 0, 0, time.UTC), time.Date(2030, time.March, 11, 0, 0, 0, 0, time.UTC)},
		"back": {time.Date(2030, time.November, 3, 1, 0, 0, 0, time.FixedZone("", -4*3600)),
			time.Date(2030, time.November, 3, 13, 0, 0, 0, time.UTC), time.Date(2030, time.November, 4, 1, 0, 0, 0, time.UTC)},
	} {
		plan, err := d.Propose(context.Background(), c.at, 200, nil, nil)
		require.NoError(t, err, name)
		require.Len(t, plan.Runs, 1, name)
		arrive := plan.Runs[0].Stops[0].Arrive
		assert.False(t, arrive.Before(c.opens), "%s: %s", name, arrive)
		assert.Less(t, arrive.Sub(c.opens), time.Hour, "%s: %s is not soon after eight", name, arrive)
		assert.True(t, plan.Runs[0].Stops[0].Leave.Before(c.closes), name)
		assert.Equal(t, c.at.Format(time.DateOnly), plan.Runs[0].Day, name)

		board, err := d.Board(context.Background(), c.at)
		require.NoError(t, err, name)
		stop, on := board.StopOf(who)
		require.True(t, on, name)
		slots := board.Slots(stop)
		require.NotEmpty(t, slots, name)
		assert.False(t, slots[0].Arrive.Before(c.opens), "%s: %s", name, slots[0].Arrive)
		assert.Less(t, slots[0].Arrive.Sub(c.opens), time.Hour, "%s: %s", name, slots[0].Arrive)
	}
}
