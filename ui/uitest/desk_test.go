package uitest_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	items "lungwort/inventory/store"
	"lungwort/ui/uitest"
)

// TestStoryHasEverything holds the story to what the screens' tests count on:
// each verdict, each phase, each state of an item.
func TestStoryHasEverything(t *testing.T) {
	d := uitest.New(t)
	watch, err := d.Desk.Watch(context.Background(), uitest.Now)
	require.NoError(t, err)
	verdicts, phases := map[string]int{}, map[delivery.Phase]int{}
	for _, w := range watch {
		verdicts[string(w.Verdict)]++
		t.Logf("%-8s %-7s %-12s %-32s %s", w.Verdict, w.Person.Given, w.Situation, w.Gas, w.Next)
	}
	for _, v := range []string{"dry", "short", "unknown", "tight", "holds"} {
		assert.Positive(t, verdicts[v], "homes that are %s", v)
	}
	for given := range d.Persons {
		phases[d.Page(given).Care.Phase]++
	}
	for _, p := range []delivery.Phase{delivery.Known, delivery.OnBridge, delivery.Running, delivery.CylinderNow, delivery.Over} {
		assert.Positive(t, phases[p], "persons who are %s", p)
	}
	all, total, err := d.Desk.Items(context.Background(), items.Filter{})
	require.NoError(t, err)
	assert.GreaterOrEqual(t, total, 40)
	states := map[inventory.State]int{}
	for _, item := range all {
		states[item.State]++
	}
	for _, s := range []inventory.State{
		inventory.Ready, inventory.Held, inventory.HandedOver, inventory.AtWork, inventory.AsBackup, inventory.Idle,
		inventory.WithDriver, inventory.Dirty, inventory.InQuarantine, inventory.OnBench, inventory.InRepair,
		inventory.OutAtPlant, inventory.Missing, inventory.Gone,
	} {
		assert.Positive(t, states[s], "items that are %s", s)
	}
	d.Clean()
}
