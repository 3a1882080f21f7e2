package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// step is a fact at so many minutes past two, recorded in the order given.
// Facts about a thing are about the person "p" too, unless by says otherwise.
type step struct {
	at   int
	item inventory.ItemID
	by   inventory.PersonID
	says inventory.Statement
}

var two = time.Date(2030, time.March, 4, 14, 0, 0, 0, time.FixedZone("", -3*3600))

func minute(at int) time.Time { return two.Add(time.Duration(at) * time.Minute) }

// none marks a step about a thing alone.
const none inventory.PersonID = "-"

func story(steps ...step) []inventory.Fact {
	facts := make([]inventory.Fact, len(steps))
	for i, s := range steps {
		f := inventory.Fact{ID: inventory.FactID(i + 1), Happened: minute(s.at), Item: s.item, Person: "p", Statement: s.says}
		if s.by != "" {
			f.Person = s.by
		}
		if s.by == none {
			f.Person = ""
		}
		facts[i] = f
	}
	return facts
}

func lend(at int, item inventory.ItemID, kind inventory.Kind) step {
	spec := inventory.Spec{Kind: kind}
	if kind == inventory.Cylinder {
		spec.Size = "US-E"
	}
	return step{at, item, "", &inventory.Lent{Spec: spec}}
}

func seen(at int, item inventory.ItemID, psi float64) step {
	return step{at, item, "", &inventory.Observed{Gauge: new(gas.PSI(psi))}}
}

var (
	orders    = step{0, "", "", &delivery.Ordered{Rest: 2, Exertion: 3, Hours: 24}}
	leaves    = step{0, "", "", &delivery.Discharged{Opened: two}}
	cylinderE = lend(0, "e1", inventory.Cylinder)
	machine   = lend(60, "m1", inventory.Concentrator)
	runs      = step{60, "", "", &delivery.Switched{To: delivery.FromConcentrator}}
)

// onConcentrator is somebody whose bridge ended an hour after the discharge.
func onConcentrator(more ...step) []step {
	return append([]step{orders, leaves, cylinderE, seen(0, "e1", 2000), machine, runs}, more...)
}

func TestFoldCarePhases(t *testing.T) {
	out := step{120, "", "", &delivery.Switched{To: delivery.FromCylinder, Why: "power out"}}
	back := step{150, "", "", &delivery.Switched{To: delivery.FromConcentrator, Why: "power back"}}
	stop := step{200, "", "", &delivery.Stopped{Reason: "recovered", OrderedBy: "clinic"}}
	for name, c := range map[string]struct {
		steps    []step
		phase    delivery.Phase
		breathes delivery.Breathes
		since    int
		doubts   int
	}{
		"in the book":               {[]step{{0, "", "", &delivery.Registered{}}, orders}, delivery.Known, "", -1, 0},
		"bridge, from the valve on": {[]step{orders, {5, "", "", &delivery.Discharged{Opened: minute(-10)}}}, delivery.OnBridge, delivery.FromCylinder, -10, 0},
		"running":                   {onConcentrator(), delivery.Running, delivery.FromConcentrator, 60, 0},
		"power out":                 {onConcentrator(out), delivery.CylinderNow, delivery.FromCylinder, 120, 0},
		"power back":                {onConcentrator(out, back), delivery.Running, delivery.FromConcentrator, 150, 0},
		"keyed late":                {onConcentrator(back, out), delivery.Running, delivery.FromConcentrator, 150, 0},
		"no concentrator comes":     {[]step{orders, leaves, cylinderE, out}, delivery.CylinderNow, delivery.FromCylinder, 120, 0},
		"stopped":                   {onConcentrator(stop), delivery.Over, "", 200, 0},
		"readmitted and home again": {onConcentrator(stop, step{300, "", "", &delivery.Discharged{Opened: minute(300)}}), delivery.OnBridge, delivery.FromCylinder, 300, 0},
		"a stop stands against a later switch": {
			onConcentrator(stop, step{210, "", "", &delivery.Switched{To: delivery.FromConcentrator}}), delivery.Over, "", 200, 1},
		"a stop keyed late takes its place": {
			onConcentrator(step{250, "", "", &delivery.Switched{To: delivery.FromCylinder}}, stop), delivery.Over, "", 200, 1},
		"the machine went": {
			onConcentrator(step{90, "m1", "", &inventory.Collected{Vehicle: "van 1"}}), delivery.Running, "", 60, 1},
		"the machine was swapped": {
			onConcentrator(lend(90, "m2", inventory.Concentrator), step{91, "m1", "", &inventory.Collected{Vehicle: "van 1"}}), delivery.Running, delivery.FromConcentrator, 60, 0},
	} {
		care := delivery.FoldCare("p", story(c.steps...))
		assert.Equal(t, c.phase, care.Phase, name)
		assert.Equal(t, c.breathes, care.Breathes, name)
		if c.since >= -10 && c.phase != delivery.Known {
			assert.Equal(t, minute(c.since), care.Since, name)
		}
		assert.Len(t, care.Doubts, c.doubts, "%s: %v", name, care.Doubts)
	}
}

func kitOf(c delivery.Care) []inventory.ItemID {
	var ids []inventory.ItemID
	for _, h := range c.Kit {
		ids = append(ids, h.Item)
	}
	return ids
}

func TestFoldCareKit(t *testing.T) {
	for name, c := range map[string]struct {
		steps []step
		want  []inventory.ItemID
	}{
		"in order of hand-over":           {onConcentrator(), []inventory.ItemID{"e1", "m1"}},
		"returned":                        {onConcentrator(step{90, "e1", "", &inventory.Returned{}}), []inventory.ItemID{"m1"}},
		"lost":                            {onConcentrator(step{90, "e1", none, &inventory.Moved{To: "missing"}}), []inventory.ItemID{"m1"}},
		"cleared by our bench":            {onConcentrator(step{90, "e1", none, &inventory.Cleared{}}), []inventory.ItemID{"m1"}},
		"lent to another":                 {onConcentrator(step{90, "e1", "q", &inventory.Lent{}}), []inventory.ItemID{"m1"}},
		"reserved is not had":             {onConcentrator(step{90, "e2", "", &inventory.Reserved{}}), []inventory.ItemID{"e1", "m1"}},
		"returned before it was lent":     {onConcentrator(step{-5, "e1", none, &inventory.Returned{}}), []inventory.ItemID{"e1", "m1"}},
		"moved by another before the day": {onConcentrator(step{-5, "e1", none, &inventory.Moved{To: "depot:harbour"}}), []inventory.ItemID{"e1", "m1"}},
	} {
		assert.Equal(t, c.want, kitOf(delivery.FoldCare("p", story(c.steps...))), name)
	}
	idle := story(onConcentrator(step{90, "e1", "q", &inventory.Serving{As: inventory.NotNeeded}})...)
	assert.Empty(t, delivery.FoldCare("p", idle).Kit[0].Role, "what is said of another's loan says nothing of this one")
}

// TestCylinderKeepsTheReadingItCameWith: what was read in the depot is as old
// at the home as it is, and a new fill makes it nothing.
func TestCylinderKeepsTheReadingItCameWith(t *testing.T) {
	depot := step{-600, "e2", none, &inventory.Observed{Gauge: new(gas.PSI(1900))}}
	care := delivery.FoldCare("p", story(depot, lend(10, "e2", inventory.Cylinder)))
	require.NotNil(t, care.Kit[0].Gauge)
	assert.Equal(t, gas.PSI(1900), care.Kit[0].Gauge.Value)
	assert.Equal(t, minute(-600), care.Kit[0].Gauge.At)

	refilled := story(depot, step{-60, "e2", none, &inventory.Filled{}}, lend(10, "e2", inventory.Cylinder))
	assert.Nil(t, delivery.FoldCare("p", refilled).Kit[0].Gauge)
}

func TestFoldCareTasks(t *testing.T) {
	deliver := step{0, "", "", &delivery.Tasked{Task: delivery.Deliver, Why: "discharged"}} // fact 1
	open := func(more ...step) []delivery.OpenTask {
		return delivery.FoldCare("p", story(append([]step{deliver}, more...)...)).Tasks
	}
	require.Len(t, open(), 1)
	assert.Empty(t, open(step{5, "", "", &delivery.Done{Task: 1}}))
	assert.Len(t, open(step{-5, "", "", &delivery.Done{Task: 1}}), 1, "nobody did a task before it was opened")
	tried := open(step{5, "", "", &delivery.Done{Task: 1, Failed: "nobody home", Next: minute(90)}})
	assert.Equal(t, []string{"nobody home"}, tried[0].Tries)
	assert.Equal(t, minute(90), tried[0].From)
	assert.Equal(t, minute(120), open(step{5, "", "", &delivery.Promised{Task: 1, By: minute(120)}})[0].Until)
	assert.Zero(t, open(step{5, "", "", &delivery.Promised{Task: 2, By: minute(120)}})[0].Until, "of another task")

	stopped := open(
		step{30, "", "", &delivery.Tasked{Task: delivery.Swap, Why: "backup low", Backup: true}},
		step{10, "", "", &delivery.Stopped{}}, // keyed late: the swap was opened after it
		step{10, "", "", &delivery.Done{Task: 1}},
		step{10, "", "", &delivery.Tasked{Task: delivery.Collect, Why: "oxygen stopped"}},
	)
	require.Len(t, stopped, 1)
	assert.Equal(t, delivery.Collect, stopped[0].Tasked.Task, "after a stop nothing more is brought")
}

func TestFoldCareCalls(t *testing.T) {
	heard := func(at int, flow gas.Flow) step {
		return step{at, "", "", &delivery.Called{Answered: true, Flow: &flow}}
	}
	missed := func(at int) step { return step{at, "", "", &delivery.Called{}} }
	care := delivery.FoldCare("p", story(orders, heard(10, 4), missed(20), missed(30)))
	assert.Equal(t, 2, care.Tried)
	rest, highest := care.Flow()
	assert.Equal(t, []gas.Flow{4, 4}, []gas.Flow{rest, highest}, "what is seen in use counts where it is more")

	late := delivery.FoldCare("p", story(orders, heard(40, 1), heard(10, 4), missed(20)))
	assert.Zero(t, late.Tried)
	seen, at := late.Observed()
	assert.Equal(t, gas.Flow(1), seen)
	assert.Equal(t, minute(40), at)
	rest, highest = late.Flow()
	assert.Equal(t, []gas.Flow{2, 3}, []gas.Flow{rest, highest}, "turned down to save gas is not an order")

	renewed := delivery.FoldCare("p", story(orders, heard(10, 6), step{20, "", "", &delivery.Ordered{Rest: 3, Hours: 24}}))
	_, highest = renewed.Flow()
	assert.Equal(t, gas.Flow(3), highest, "a new order replaces the whole old one and what was seen under it")
}

// TestFoldCareIsTheSameInAnyOrder: what the facts say of a person does not
// depend on the order they are handed over in.
func TestFoldCareIsTheSameInAnyOrder(t *testing.T) {
	facts := story(onConcentrator(
		seen(70, "e1", 1800),
		step{80, "", "", &delivery.Switched{To: delivery.FromCylinder}},
		step{95, "", "", &delivery.Switched{To: delivery.FromConcentrator}},
		step{99, "", "", &delivery.Tasked{Task: delivery.Swap}},
		step{100, "e1", "", &inventory.Collected{Vehicle: "van 1"}},
	)...)
	want := delivery.FoldCare("p", facts)
	rapid.Check(t, func(rt *rapid.T) {
		assert.Equal(rt, want, delivery.FoldCare("p", rapid.Permutation(facts).Draw(rt, "order")))
	})
}

// TestSpellsOnTheCylinder: half an hour at 3 L/min, the highest ordered, takes
// 90 L; what one cylinder did not hold comes out of the next.
func TestSpellsOnTheCylinder(t *testing.T) {
	spell := []step{
		{100, "", "", &delivery.Switched{To: delivery.FromCylinder}},
		{130, "", "", &delivery.Switched{To: delivery.FromConcentrator}},
	}
	left := func(steps ...step) []gas.Litres {
		household := delivery.Home{Care: delivery.FoldCare("p", story(steps...))}.Household(delivery.NewProgramme(), minute(200))
		var all []gas.Litres
		for _, c := range household.Cylinders {
			all = append(all, c.Size.ContentsAt(c.Gauge, gas.Room))
		}
		return all
	}
	e, _ := gas.LookUp("US-E")
	full := e.ContentsAt(gas.PSI(2000), gas.Room)
	small := e.ContentsAt(gas.PSI(150), gas.Room)

	one := left(onConcentrator(append([]step{seen(70, "e1", 2000)}, spell...)...)...)
	assert.InDelta(t, float64(full-90), float64(one[0]), 0.5)

	both := left(onConcentrator(append([]step{lend(61, "e2", inventory.Cylinder), seen(70, "e1", 150), seen(70, "e2", 2000)}, spell...)...)...)
	assert.InDelta(t, 0, float64(both[0]), 0.5)
	assert.InDelta(t, float64(full-(90-small)), float64(both[1]), 0.5)

	read := left(onConcentrator(append(append([]step{lend(61, "e2", inventory.Cylinder), seen(70, "e1", 150)}, spell...), seen(140, "e2", 2000))...)...)
	assert.InDelta(t, float64(full), float64(read[1]), 0.5, "read after the spell: nothing more comes off")
}

// TestNextCylinderIsBreathedFromWhenTheFirstGoes: in a home on cylinders for
// good, the one that is full was closed until the empty one was taken.
func TestNextCylinderIsBreathedFromWhenTheFirstGoes(t *testing.T) {
	care := delivery.FoldCare("p", story(
		orders, leaves, cylinderE, lend(0, "e2", inventory.Cylinder), seen(0, "e1", 2000), seen(0, "e2", 2000),
		step{10, "", "", &delivery.Switched{To: delivery.FromCylinder, Why: "no mains"}},
		step{240, "e1", "", &inventory.Collected{Vehicle: "van 1"}},
	))
	home := delivery.Home{Care: care}
	cylinders := home.Household(delivery.NewProgramme(), minute(250)).Cylinders
	require.Len(t, cylinders, 1)
	assert.Equal(t, minute(240), cylinders[0].OpenedAt)
	_, forecast := home.Forecast(delivery.NewProgramme(), minute(250))
	assert.Equal(t, minute(240+168), forecast.PlanningDry, "(2,000 - 200) psi × 0.28 ÷ 3 L/min from when it was opened")
}

// TestAnEmptyCylinderIsLeftBehind: two full cylinders of 168 planning minutes
// each at 3 L/min were there at 0. However often the first is read empty, the
// gas ends 336 minutes later, until the second is read itself.
func TestAnEmptyCylinderIsLeftBehind(t *testing.T) {
	p := delivery.NewProgramme()
	ends := func(steps ...step) (time.Time, delivery.Care) {
		care := delivery.FoldCare("p", story(append([]step{
			orders, leaves, cylinderE, lend(0, "e2", inventory.Cylinder), seen(0, "e1", 2000), seen(0, "e2", 2000),
			{0, "", "", &delivery.Switched{To: delivery.FromCylinder, Why: "no mains"}},
		}, steps...)...))
		_, forecast := (delivery.Home{Care: care}).Forecast(p, minute(300))
		require.True(t, forecast.Known)
		return forecast.PlanningDry, care
	}
	whole, _ := ends()
	once, care := ends(seen(200, "e1", 0))
	assert.Equal(t, minute(2*168), whole)
	assert.Equal(t, whole, once)
	held, has := care.InUse()
	assert.True(t, has)
	assert.Equal(t, inventory.ItemID("e2"), held.Item, "asked about from now on")

	twice, _ := ends(seen(200, "e1", 0), seen(290, "e1", 0))
	assert.Equal(t, whole, twice)

	later, care := ends(seen(200, "e1", 0), seen(290, "e2", 1600))
	assert.Equal(t, minute(290+130), later, "(1,600 - 200) psi × 0.28 ÷ 3 L/min from its own reading")
	assert.Len(t, care.Uses, 1, "since when the second is open nobody knows: it teaches nothing")

	_, forecast := (delivery.Home{Care: care}).Forecast(p, minute(290+13*60))
	assert.False(t, forecast.Known, "the second was read longer ago than is relied on")
}
