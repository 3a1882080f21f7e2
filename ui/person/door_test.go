package person

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
)

// A door that stays shut fails the stop of today, never one of a later day.
func TestTheStopOfTheDoorIsTodays(t *testing.T) {
	now := time.Date(2026, time.March, 4, 16, 0, 0, 0, time.UTC)
	run := func(id inventory.RunID, at time.Time) delivery.Run {
		stop := delivery.Stop{PlannedStop: delivery.PlannedStop{Persons: []inventory.PersonID{"p1"}, Arrive: at}}
		return delivery.Run{ID: id, Day: at.Format(time.DateOnly), Stops: []delivery.Stop{stop}}
	}
	tomorrow, today, later := run("r1", now.AddDate(0, 0, 1)), run("r2", now.Add(time.Hour)), run("r3", now.Add(3*time.Hour))
	on := func(runs ...delivery.Run) inventory.RunID {
		m := &Model{id: "p1", page: store.PersonPage{Runs: runs}}
		return m.stopsToday(now)
	}
	assert.Equal(t, inventory.RunID("r2"), on(tomorrow, later, today))
	assert.Empty(t, on(tomorrow))
	assert.Empty(t, on())
}
