package stocking_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/stocking"
	"lungwort/inventory"
	"lungwort/inventory/outlook"
)

var concentrator = inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Model: "Still 5"}

// fleet is a programme that hands over one concentrator a day for weeks, each
// needed for ten days, two days idle, one on the bench; so many are ready.
func fleet(now time.Time, ready int) stocking.Outlook {
	var items []inventory.Item
	cycles := make(map[inventory.ItemID][]stocking.Cycle)
	for day := range 42 {
		id := inventory.ItemID(fmt.Sprintf("i%02d", day))
		lent := now.AddDate(0, 0, day-42)
		c := stocking.Cycle{Item: id, Person: "p", Lent: lent}
		item := inventory.Item{ID: id, Spec: concentrator, State: inventory.AtWork, Person: "p", Since: lent}
		for _, step := range []struct {
			after int
			at    *time.Time
			state inventory.State
		}{{10, &c.Idle, inventory.Idle}, {12, &c.Back, inventory.Dirty}, {13, &c.Ready, inventory.Gone}} { // used up, so that only these are ready:
			if when := lent.AddDate(0, 0, step.after); !when.After(now) {
				*step.at, item.State, item.Since = when, step.state, when
			}
		}
		items, cycles[id] = append(items, item), []stocking.Cycle{c}
	}
	for i := range ready {
		items = append(items, inventory.Item{ID: inventory.ItemID(fmt.Sprintf("r%02d", i)), Spec: concentrator, State: inventory.Ready})
	}
	return stocking.Outlook{Programme: delivery.NewProgramme(), Shelves: stocking.Shelves(items, cycles), Now: now}
}

func TestEnoughHoldsAndTooFewRunShort(t *testing.T) {
	now := on(0)
	plenty := fleet(now, 12).Lines(stocking.WhatIf{})
	require.Len(t, plenty, 1)
	line := plenty[0]
	assert.Equal(t, "concentrator to 5 L/min", line.What)
	assert.Equal(t, []int{12, 9, 2, 1}, []int{line.Ready, line.Needed, line.Idle, line.Coming})
	assert.False(t, line.Short(delivery.NewProgramme()), "worst %.3f", line.Worst().Short)
	assert.Empty(t, line.Ways, "what holds needs no help")
	assert.InDelta(t, 7, line.Weekly, 1.5)

	bare := fleet(now, 0).Lines(stocking.WhatIf{})[0]
	assert.True(t, bare.Short(delivery.NewProgramme()))
	assert.Greater(t, bare.Days[0].Short, 0.2, "one a day comes and none is ready")
}

// The pieces that meet the demand: the number lent at any moment is Poisson
// with mean 1 a day times 13 days (M/G/infinity); its 95 % point is 19 by the
// published table of the Poisson distribution.
func TestTargetIsThePoissonPoint(t *testing.T) {
	line := fleet(on(0), 3).Lines(stocking.WhatIf{})[0]
	assert.InDelta(t, 19, line.Target, 1, "weekly %.2f", line.Weekly)
}

func TestWaysComeCheapestFirstAndHelp(t *testing.T) {
	o := fleet(on(0), 1)
	idle := o.Shelves[0].Items[31] // ten days ago
	require.Equal(t, inventory.Idle, idle.State)
	o.Hidden = []delivery.Hidden{
		{Person: delivery.Person{Given: "Jory", Family: "Wick"}, Ride: 20 * time.Minute, Things: []delivery.Holding{{Item: idle.ID}}},
		{Person: delivery.Person{Given: "Ines"}, Silent: true, Things: []delivery.Holding{{Item: o.Shelves[0].Items[30].ID}}},
	}
	line := o.Lines(stocking.WhatIf{})[0]
	var names []string
	for _, w := range line.Ways {
		names = append(names, w.Name)
		assert.LessOrEqual(t, w.Worst, w.Before+1e-9, w.Name)
	}
	assert.Equal(t, []string{"collect what is not needed", "hurry the bench", "hire", "buy"}, names)
	assert.Len(t, line.Ways[0].Do, 1, "nobody is asked who may not be")
	assert.Contains(t, line.Ways[0].Do[0], "Wick, Jory, 20 min away")
}

func TestWhatIf(t *testing.T) {
	o := fleet(on(0), 6)
	usual := o.Lines(stocking.WhatIf{})[0].Worst().Short
	assert.Greater(t, o.Lines(stocking.WhatIf{Surge: 2})[0].Worst().Short, usual)
	recalled := o.Lines(stocking.WhatIf{Recalled: "Still 5"})[0]
	assert.InDelta(t, 1, recalled.Days[0].Short, 1e-6, "none is left, and those in homes have to be replaced")
	assert.Equal(t, usual, o.Lines(stocking.WhatIf{Strike: true})[0].Worst().Short, "a plant fills no concentrators")
	assert.Equal(t, usual, o.Lines(stocking.WhatIf{Recalled: "another"})[0].Worst().Short)
}

// What nobody can count on is named, not counted.
func TestKeptBackIsNamed(t *testing.T) {
	spec := inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}
	overdue := spec
	overdue.Requal = "2029-01"
	shelves := stocking.Shelves([]inventory.Item{
		{ID: "a", Spec: spec, State: inventory.InQuarantine}, {ID: "b", Spec: spec, State: inventory.Missing},
		{ID: "c", Spec: spec, State: inventory.Ready, Recall: "notice 4"}, {ID: "d", Spec: overdue, State: inventory.OutAtPlant},
		{ID: "e", Spec: spec, State: inventory.InRepair}, {ID: "f", Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Foreign: true}, State: inventory.Ready},
	}, nil)
	line := stocking.Outlook{Programme: delivery.NewProgramme(), Shelves: shelves, Now: on(0)}.Lines(stocking.WhatIf{})[0]
	assert.Zero(t, line.Ready)
	assert.Equal(t, map[string]int{"in quarantine": 1, "missing": 1, "recalled": 1, "to be requalified before it is filled": 1, "in repair": 1}, line.Kept)
}

// Loans that are still open count as longer: without them the stay would seem
// shorter than it is.
func TestLastingKeepsOpenLoans(t *testing.T) {
	var cycles []stocking.Cycle
	for i := range 10 {
		c := stocking.Cycle{Item: "i", Lent: on(0)}
		if i < 4 {
			c.Back = on(float64(i + 1))
		}
		cycles = append(cycles, c)
	}
	curve := stocking.Shelf{Cycles: cycles}.Lasting(stocking.Oxygen, on(20))
	assert.Equal(t, 4, curve.Ended)
	_, known := curve.Quantile(0.5)
	assert.False(t, known, "six of ten are still out")
	assert.InDelta(t, 0.6, curve.Beyond(outlook.Days(4)), 1e-9)
}

// Maintenance that falls due takes a ready machine from the shelf on its day
// and gives it back when the bench is done; one that is due later stays.
func TestUpkeepTakesReadyMachinesAway(t *testing.T) {
	now := on(0)
	ready := func(id string, entered float64) inventory.Item {
		return inventory.Item{ID: inventory.ItemID(id), Spec: concentrator, State: inventory.Ready, Entered: on(entered)}
	}
	o := stocking.Outlook{Programme: delivery.NewProgramme(), Now: now, Shelves: stocking.Shelves([]inventory.Item{
		ready("due on day 5", -360), ready("due already", -400), ready("due later", -100),
	}, nil)}
	o.Programme.Upkeep = nil
	without := o.Lines(stocking.WhatIf{})[0]
	assert.Zero(t, without.Upkeep)

	o.Programme.Upkeep = []delivery.UpkeepRule{{Kind: inventory.Concentrator, What: "inlet filter", Days: 365}}
	o.Programme.Lead.Bench = 48 * time.Hour
	line := o.Lines(stocking.WhatIf{})[0]
	assert.Equal(t, 2, line.Upkeep)
	assert.Equal(t, 3, line.Ready, "they are on the shelf now")
	var less []float64
	for i := range line.Days[:9] {
		less = append(less, math.Round(without.Days[i].Left-line.Days[i].Left))
	}
	assert.Equal(t, []float64{1, 1, 0, 0, 0, 1, 1, 0, 0}, less)
}
