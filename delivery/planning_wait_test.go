package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
)

// A collection far from everything waits for a van that comes near; it goes where
// one does, where it has waited long enough, and where something hangs on it.
func TestCollectionWaitsForAVanNearby(t *testing.T) {
	collect := delivery.Tasked{Task: delivery.Collect, Why: "oxygen stopped"}
	promised := collect
	promised.Until = minute(120)
	e := delivery.Tasked{Task: delivery.Deliver, Why: "discharged", Bring: []delivery.Wanted{{Kind: inventory.Cylinder, Size: "US-E", Count: 1}}}
	near := errand("n", point(36.61, "West"), 0, e)
	for name, c := range map[string]struct {
		wait   time.Duration
		later  time.Duration
		errand delivery.Errand
		more   []delivery.Errand
		scarce bool
		goes   bool
	}{
		"no wait allowed":    {wait: 0, errand: errand("c", point(36.6, "West"), 0, collect), goes: true},
		"far from all":       {wait: 72 * time.Hour, errand: errand("c", point(36.6, "West"), 0, collect)},
		"a van comes near":   {wait: 72 * time.Hour, errand: errand("c", point(36.6, "West"), 0, collect), more: []delivery.Errand{near}, goes: true},
		"has waited":         {wait: 72 * time.Hour, later: 49 * time.Hour, errand: errand("c", point(36.6, "West"), 0, collect), goes: true},
		"a time was agreed":  {wait: 72 * time.Hour, errand: errand("c", point(36.6, "West"), 0, promised), goes: true},
		"gas is brought too": {wait: 72 * time.Hour, errand: errand("c", point(36.6, "West"), 0, collect, e), goes: true},
		"wanted back":        {wait: 72 * time.Hour, errand: errand("c", point(36.6, "West"), 0, collect), scarce: true, goes: true},
	} {
		pl := day()
		pl.Programme.CollectWait = c.wait
		pl.Now, pl.Day = pl.Now.Add(c.later), pl.Day.Add(c.later)
		pl.Scarce = map[inventory.Kind]bool{inventory.Concentrator: c.scarce}
		plan := planned(t, pl, append(c.more, c.errand)...)
		_, goes := visits(plan)["at c"]
		assert.Equal(t, c.goes, goes, name)
		assert.Empty(t, plan.Troubles, name)
		if !c.goes {
			require.Len(t, plan.Notes, 1, name)
			assert.Contains(t, plan.Notes[0], "Street of c: the collection waits for a vehicle that comes near, until ", name)
		}
	}
}

// Nobody stands at the door of somebody who is not home from the ward yet.
func TestHomeLaterThanTheWardSays(t *testing.T) {
	p := day().Programme
	home := delivery.Address{Street: "Gull Row 14", Point: point(36.6, "West")}
	said := p.Bringing(home, "", minute(30), time.Time{}, nil).From
	p.HomeLate = 20 * time.Minute
	assert.Equal(t, said.Add(20*time.Minute), p.Bringing(home, "", minute(30), time.Time{}, nil).From)
}
