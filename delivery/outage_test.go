package delivery_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// dark is a home whose concentrator runs, with a few E beside it, all read at
// the same gauge an hour ago.
func dark(name string, flow gas.Flow, psi ...float64) delivery.Watch {
	hour := told.Add(-time.Hour)
	about := func(item string, s inventory.Statement) inventory.Fact {
		return inventory.Fact{Happened: hour, Person: "p", Item: inventory.ItemID(item), Statement: s}
	}
	facts := []inventory.Fact{
		about("", &delivery.Ordered{Rest: flow, Hours: 24}),
		about("m", &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 10}}),
		about("", &delivery.Switched{To: delivery.FromConcentrator}),
	}
	for i, p := range psi {
		e := fmt.Sprintf("e%d", i)
		facts = append(facts,
			about(e, &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, Role: inventory.Backup}),
			about(e, &inventory.Observed{Gauge: new(gas.PSI(p))}))
	}
	for i := range facts {
		facts[i].ID = inventory.FactID(i + 1)
	}
	h := delivery.Home{Care: delivery.FoldCare("p", facts), Address: delivery.Address{Street: "Kelp Street 22", Line: "Mill line"}}
	return delivery.WatchHome(delivery.NewProgramme(), delivery.Person{ID: "p", Family: name}, h, told)
}

func blackout(hours float64, ready int, rows ...delivery.Watch) delivery.OutagePlan {
	cut := delivery.PowerCut{By: delivery.Everywhere, From: told}
	return delivery.PlanOutage(delivery.NewProgramme(), cut, time.Duration(hours*float64(time.Hour)), rows, map[gas.SizeCode]int{"US-E": ready}, told)
}

// TestCylindersNeeded: full E at 2,000 psi, 200 psi kept, 0.28 L/psi give 504 L
// each (textbook factor of respiratory-therapy texts); the counts are worked by
// hand: hours × 60 × flow ÷ 504, rounded up. More than 300 ft³ (12 E, NFPA 99
// 2012, 11.3) is not brought: they go where power is.
func TestCylindersNeeded(t *testing.T) {
	for _, c := range []struct {
		flow, hours float64
		need        int
		relocate    bool
	}{
		{1, 8, 1, false}, {1, 24, 3, false}, {1, 72, 9, false},
		{2, 8, 2, false}, {2, 24, 6, false}, {2, 72, 18, true},
		{4, 8, 4, false}, {4, 24, 12, false}, {4, 72, 35, true},
	} {
		h := blackout(c.hours, 40, dark("Abara", gas.Flow(c.flow))).Homes[0]
		assert.Equal(t, c.need, h.Need, "%g L/min for %g h", c.flow, c.hours)
		assert.Equal(t, c.relocate, h.Relocate, "%g L/min for %g h", c.flow, c.hours)
		assert.Equal(t, depletion.Dry, h.State, "power is out and nothing is there")
	}
}

// TestOutageCover: an E at 2,000 psi lasts (2000 - 200) × 0.28 ÷ 2 = 252 min at
// 2 L/min, two of them 504 min, by the textbook rule.
func TestOutageCover(t *testing.T) {
	one := blackout(8, 1, dark("One", 2, 2000)).Homes[0]
	assert.Equal(t, 252*time.Minute, one.Cover)
	assert.Equal(t, told.Add(252*time.Minute), one.Ends)
	assert.Equal(t, depletion.Short, one.State)
	assert.Equal(t, 1, one.Need)
	two := blackout(8, 1, dark("Two", 2, 2000, 2000)).Homes[0]
	assert.InDelta(t, 504, two.Cover.Minutes(), 1)
	assert.Equal(t, depletion.Tight, two.State, "8 h 24 min for 8 h keep no margin")
	assert.Equal(t, depletion.Holds, blackout(5, 0, dark("Two", 2, 2000, 2000)).Homes[0].State)
}

// Who runs out first gets what is ready first; what is lacking is counted by
// size; the list is called in the same order.
func TestStockGoesToWhoEndsFirst(t *testing.T) {
	o := blackout(8, 2, dark("Later", 2, 1500), dark("Sooner", 2, 900), dark("Last", 1, 2000))
	var order []string
	for _, h := range o.Homes {
		order = append(order, h.Person.Family)
	}
	assert.Equal(t, []string{"Sooner", "Later", "Last"}, order)
	assert.Equal(t, 0, o.Homes[0].Lack)
	assert.Equal(t, 2, o.Homes[1].Need)
	assert.Equal(t, 2, o.Homes[1].Lack, "none is left for the second")
	assert.Equal(t, delivery.OutageSize{Size: "US-E", Need: 4, Ready: 2}, o.Sizes[0])
	assert.Equal(t, 2, o.Sizes[0].Short())
	a := o.Answer(delivery.NewProgramme())
	assert.Equal(t, "gas ends within 8 h in 2 of 3 homes", a.Title)
	assert.Contains(t, a.Do, "4 E needed, 2 ready: 2 short")
}

func TestOutageNext(t *testing.T) {
	p := delivery.NewProgramme()
	told1 := func(w delivery.Watch, c delivery.CutContact) delivery.Watch {
		c.Cut, c.At = 9, told
		w.Care.InCut = &c
		return w
	}
	cut := delivery.PowerCut{ID: 9, By: delivery.Everywhere, From: told.Add(-time.Hour), Until: told.Add(8 * time.Hour)}
	of := func(w delivery.Watch) delivery.OutagePlan {
		return delivery.PlanOutage(p, cut, time.Hour, []delivery.Watch{w}, map[gas.SizeCode]int{"US-E": 3}, told)
	}
	pulse := dark("Pulse", 2, 2000)
	pulse.Forecast.Known = false
	for name, c := range map[string]struct {
		row  delivery.Watch
		next string
		call time.Duration // until the next one
	}{
		"not called":     {dark("A", 2, 2000), "bring 1 E before 20:32", 0},
		"on backup":      {told1(dark("A", 2, 2000), delivery.CutContact{Found: delivery.FoundBackup}), "bring 1 E before 20:32", 126 * time.Minute},
		"turned down":    {told1(dark("A", 3, 2000), delivery.CutContact{Found: delivery.FoundSaving, Flow: new(gas.Flow(1))}), "turned down to save: tell the clinician; bring 2 E before 19:08", 84 * time.Minute},
		"power is on":    {told1(dark("A", 2, 2000), delivery.CutContact{Found: delivery.FoundRunning}), "power is on there: call again 20:20", 4 * time.Hour},
		"one try":        {told1(dark("A", 2, 2000), delivery.CutContact{Tried: 1}), "bring 1 E before 20:32", 10 * time.Minute},
		"two tries":      {told1(dark("A", 2, 2000), delivery.CutContact{Tried: 2}), "no answer twice: have somebody look in", 10 * time.Minute},
		"cannot be told": {pulse, "call: ask for a gauge reading", 0},
		"nothing there":  {dark("A", 2), "emergency number 911 first, then call the home", 0},
		"lasts":          {dark("A", 0.5, 2000), "gas lasts: call again 16:20", 0},
	} {
		o := of(c.row)
		require.Len(t, o.Homes, 1, name)
		next, _ := o.Next(p, o.Homes[0])
		assert.Equal(t, c.next, next, name)
		assert.Equal(t, c.call, o.Homes[0].NextCall.Sub(told), name)
	}
	saving := of(told1(dark("A", 3, 2000), delivery.CutContact{Found: delivery.FoundSaving, Flow: new(gas.Flow(1))}))
	assert.Equal(t, "ends 19:08 at the order, Wed 00:44 at 1 L/min", saving.Homes[0].Saved(told), "both times are kept")
}

// More gas never makes a home end sooner, and never needs more brought.
func TestMoreGasNeverHurtsInAnOutage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flow := gas.Flow(rapid.SampledFrom([]float64{0.5, 1, 2, 3, 4, 6}).Draw(t, "flow"))
		psi := rapid.Float64Range(0, 1900).Draw(t, "psi")
		hours := rapid.Float64Range(1, 72).Draw(t, "hours")
		less, more := blackout(hours, 5, dark("A", flow, psi)).Homes[0], blackout(hours, 5, dark("A", flow, psi+100)).Homes[0]
		assert.LessOrEqual(t, less.Cover, more.Cover)
		assert.GreaterOrEqual(t, less.Need, more.Need)
	})
}
