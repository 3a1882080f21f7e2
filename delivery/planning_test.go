package delivery_test

import (
	"context"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// day is a planner at two in the afternoon of a programme with one van on the
// West island. A tenth of a degree of latitude is 22 min of driving, the ferry
// to Mid takes 30 min.
func day() delivery.Planner {
	p := isles()
	p.Hospital = delivery.Site{Name: "hospital", Point: point(36.5, "West")}
	p.Depots = []delivery.Site{{Name: "west", Title: "West depot", Point: point(36.5, "West")}}
	p.Vehicles = []delivery.Vehicle{{Name: "van 1", Depot: "west", Driver: "Esk", Pieces: 30, Kg: 100, From: "08:00", Until: "20:00"}}
	return delivery.Planner{Programme: p, Now: minute(0), Day: minute(0), Seed: 1, Steps: 2000}
}

// errand is a home at a point, with tasks. On the cylinder it has an E read at
// two, at 2 L/min; with no gauge the concentrator runs.
func errand(id inventory.PersonID, at delivery.Point, psi float64, tasks ...delivery.Tasked) delivery.Errand {
	steps := []step{
		{-60, "", "", &delivery.Ordered{Rest: 2, Hours: 24}},
		{-60, "", "", &delivery.Discharged{Opened: minute(-60), Leaves: minute(-60)}},
	}
	if psi > 0 {
		steps = append(steps, lend(-60, "e1", inventory.Cylinder), seen(0, "e1", psi))
	} else {
		steps = append(steps, lend(-60, "m1", inventory.Concentrator), step{-50, "", "", &delivery.Switched{To: delivery.FromConcentrator}})
	}
	for i := range tasks {
		steps = append(steps, step{-30, "", "", &tasks[i]})
	}
	facts := story(steps...)
	for i := range facts {
		facts[i].Person = id
	}
	home := delivery.Home{Care: delivery.FoldCare(id, facts), Address: delivery.Address{ID: inventory.AddressID("at " + id), Street: "Street of " + string(id), Point: at}}
	return delivery.Errand{Watch: delivery.WatchHome(day().Programme, delivery.Person{ID: id, Family: string(id)}, home, minute(0))}
}

func swap(kind inventory.Kind, size gas.SizeCode, count int) delivery.Tasked {
	return delivery.Tasked{Task: delivery.Swap, Why: "test", Bring: []delivery.Wanted{{Kind: kind, Size: size, Count: count}}}
}

func planned(t *testing.T, pl delivery.Planner, errands ...delivery.Errand) delivery.DayPlan {
	t.Helper()
	plan, err := pl.Plan(context.Background(), errands)
	require.NoError(t, err)
	return plan
}

// visits returns when each address is reached, over all runs.
func visits(plan delivery.DayPlan) map[inventory.AddressID]time.Time {
	at := make(map[inventory.AddressID]time.Time)
	for _, r := range plan.Runs {
		for _, s := range r.Stops {
			at[s.Address] = s.Arrive
		}
	}
	return at
}

// TestPlanGoesFirstWhereGasEnds: 900 psi at 2 L/min are 98 min, (900 - 200) ×
// 0.28 ÷ 2; the other two can wait, and lie nearer.
func TestPlanGoesFirstWhereGasEnds(t *testing.T) {
	e := swap(inventory.Cylinder, "US-E", 1)
	plan := planned(t, day(),
		errand("near", point(36.51, "West"), 2000, e), errand("far", point(36.7, "West"), 900, e), errand("next", point(36.52, "West"), 2000, e))
	assert.Empty(t, plan.Troubles)
	require.Len(t, plan.Runs, 1)
	run := plan.Runs[0]
	assert.Equal(t, "van 1", run.Vehicle)
	assert.Equal(t, "Esk", run.Driver)
	assert.Equal(t, "2030-03-04", run.Day)
	for _, s := range run.Stops {
		assert.False(t, s.Arrive.After(s.ActBy), "%s is reached %s, act-by %s", s.Address, s.Arrive, s.ActBy)
		assert.Zero(t, s.Late)
		assert.Len(t, s.Tasks, 1)
	}
	assert.False(t, run.Departs.Before(minute(10)), "loading takes 10 min")
	assert.Positive(t, run.Metres)
}

// TestPlanNamesWhoCannotBeKept: 500 psi at 2 L/min are 42 min; the way there is
// 10 min of loading and 44 of driving.
func TestPlanNamesWhoCannotBeKept(t *testing.T) {
	e := swap(inventory.Cylinder, "US-E", 1)
	plan := planned(t, day(), errand("far", point(36.7, "West"), 500, e), errand("near", point(36.51, "West"), 2000, e))
	require.Len(t, plan.Troubles, 1)
	trouble := plan.Troubles[0]
	assert.Equal(t, inventory.PersonID("far"), trouble.Person)
	assert.Equal(t, "Street of far", trouble.Where)
	assert.Contains(t, trouble.Says, "van 1 comes")
	assert.Contains(t, trouble.Says, "after act-by")
	assert.Positive(t, trouble.Late)
	at := visits(plan)
	assert.Len(t, at, 2, "late is better than never")
	assert.True(t, at["at far"].Before(at["at near"]), "who runs dry goes first")
}

func TestPlanKeepsWindowsAndShifts(t *testing.T) {
	window := swap(inventory.Cylinder, "US-E", 1)
	window.From, window.Until = minute(180), minute(240)
	tomorrow, today := swap(inventory.Cylinder, "US-E", 1), swap(inventory.Regulator, "", 1)
	tomorrow.From = minute(24 * 60)
	late := swap(inventory.Cylinder, "US-E", 1)
	late.From = minute(6*60 + 30) // half past eight: the shift is over

	plan := planned(t, day(), errand("a", point(36.51, "West"), 0, window), errand("b", point(36.52, "West"), 0, tomorrow),
		errand("c", point(36.53, "West"), 0, tomorrow, today), errand("d", point(36.54, "West"), 0, late))
	at := visits(plan)
	assert.Contains(t, at, inventory.AddressID("at a"))
	assert.False(t, at["at a"].Before(minute(180)))
	assert.False(t, at["at a"].After(minute(240)))
	assert.NotContains(t, at, inventory.AddressID("at b"), "agreed for tomorrow")
	assert.Contains(t, at, inventory.AddressID("at c"), "one of its tasks is for today")
	for _, r := range plan.Runs {
		assert.False(t, r.Back.After(minute(6*60)), "back %s, the shift ends at eight", r.Back)
		for _, s := range r.Stops {
			assert.Len(t, s.Tasks, 1, s.Address)
		}
	}
	require.Len(t, plan.Troubles, 1)
	assert.Equal(t, inventory.PersonID("d"), plan.Troubles[0].Person)
	assert.Contains(t, plan.Troubles[0].Says, "no vehicle comes that day")
}

// TestPlanKeepsCapacity: an H weighs about 70 kg, so that one is all the van may
// carry at a time; pieces count too.
func TestPlanKeepsCapacity(t *testing.T) {
	heavy := swap(inventory.Cylinder, "US-H", 1)
	one := delivery.NewProgramme().GrossKg(inventory.Cylinder, "US-H")
	require.Greater(t, 2*one, int64(100))
	require.LessOrEqual(t, one, int64(100))
	plan := planned(t, day(), errand("a", point(36.51, "West"), 0, heavy), errand("b", point(36.52, "West"), 0, heavy))
	assert.Len(t, visits(plan), 1)
	require.Len(t, plan.Troubles, 1)
	assert.Contains(t, plan.Troubles[0].Says, "no vehicle comes that day")

	two := day()
	two.Programme.Vehicles = append(two.Programme.Vehicles, two.Programme.Vehicles[0])
	two.Programme.Vehicles[1].Name = "van 2"
	plan = planned(t, two, errand("a", point(36.51, "West"), 0, heavy), errand("b", point(36.52, "West"), 0, heavy))
	assert.Len(t, visits(plan), 2)
	assert.Empty(t, plan.Troubles)

	small := day()
	small.Programme.Vehicles[0].Pieces = 2
	plan = planned(t, small, errand("a", point(36.51, "West"), 0, swap(inventory.Regulator, "", 3)))
	assert.Empty(t, plan.Runs)
	require.Len(t, plan.Troubles, 1)
}

// TestPlanTakesFerries: loading 10 min, a tenth of a degree less what the ferry
// covers 14 min, the crossing 30.
func TestPlanTakesFerries(t *testing.T) {
	e := swap(inventory.Cylinder, "US-E", 1)
	plan := planned(t, day(), errand("mid", point(36.6, "Mid"), 2000, e), errand("moon", point(36.6, "Moon"), 2000, e),
		errand("lost", delivery.Point{}, 2000, e))
	at := visits(plan)
	assert.Len(t, at, 1)
	assert.False(t, at["at mid"].Before(minute(54)))
	troubles := make(map[inventory.PersonID]string)
	for _, trouble := range plan.Troubles {
		troubles[trouble.Person] = trouble.Says
	}
	assert.Contains(t, troubles["moon"], "no vehicle comes that day")
	assert.Contains(t, troubles["lost"], "no place on the map")
}

// TestPlanMakesOneStopOfOneHome: two persons under one roof, each with a task.
func TestPlanMakesOneStopOfOneHome(t *testing.T) {
	e := swap(inventory.Cylinder, "US-E", 1)
	a, b := errand("a", point(36.51, "West"), 2000, e), errand("b", point(36.51, "West"), 1000, e)
	b.Address = a.Address
	plan := planned(t, day(), a, b)
	require.Len(t, plan.Runs, 1)
	require.Len(t, plan.Runs[0].Stops, 1)
	stop := plan.Runs[0].Stops[0]
	assert.Equal(t, []inventory.PersonID{"a", "b"}, stop.Persons)
	assert.Len(t, stop.Tasks, 2)
	assert.True(t, b.ActBy().Equal(stop.ActBy), "the sooner of the two")
	assert.Equal(t, 20*time.Minute, stop.Leave.Sub(stop.Arrive), "10 min at the door for each")
}

// TestPlanBringsTheMachineBeforeTheGasEnds: it has to be set up and warm before
// the act-by, unless a cylinder comes with it.
func TestPlanBringsTheMachineBeforeTheGasEnds(t *testing.T) {
	machine := delivery.Tasked{Task: delivery.Deliver, Bring: []delivery.Wanted{{Kind: inventory.Concentrator, Count: 1}}}
	e := errand("a", point(36.51, "West"), 1500, machine)
	stop := func(e delivery.Errand) delivery.PlannedStop {
		plan := planned(t, day(), e)
		require.Len(t, plan.Runs, 1)
		return plan.Runs[0].Stops[0]
	}
	p := day().Programme
	assert.True(t, e.ActBy().Add(-p.SetUp-p.WarmUp).Equal(stop(e).ActBy))
	assert.Equal(t, p.SetUp+p.WarmUp, stop(e).Leave.Sub(stop(e).Arrive))
	e.Reserved = []inventory.Item{{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}}
	assert.True(t, e.ActBy().Equal(stop(e).ActBy))
}

func TestPlanIsTheSameForTheSameSeed(t *testing.T) {
	var errands []delivery.Errand
	for i := range 12 {
		id := inventory.PersonID(rune('a' + i))
		errands = append(errands, errand(id, point(36.5+0.01*float64(i*7%12), "West"), 1200+float64(i)*50, swap(inventory.Cylinder, "US-E", 1)))
	}
	assert.Equal(t, planned(t, day(), errands...), planned(t, day(), errands...))
}

// When the shifts of today are over the runs are tomorrow's. Whoever breathes
// from a cylinder is visited at any hour, the others when doors open.
func TestPlanGoesOnTomorrow(t *testing.T) {
	pl := day()
	pl.Programme.Vehicles[0].From, pl.Programme.Vehicles[0].Until = "06:00", "14:05"
	e := swap(inventory.Cylinder, "US-E", 1)
	plan := planned(t, pl, errand("quiet", point(36.51, "West"), 0, e), errand("gas", point(36.52, "West"), 2000, e))
	require.Len(t, plan.Runs, 1)
	assert.Equal(t, "2030-03-05", plan.Runs[0].Day)
	at := visits(plan)
	assert.Equal(t, 6, at["at gas"].Hour(), "reached at %s", at["at gas"])
	assert.GreaterOrEqual(t, at["at quiet"].Hour(), 8, "reached at %s", at["at quiet"])
}

// On the third floor with no lift two persons carry the machine; who teaches
// speaks the language. What no vehicle has keeps nobody from coming.
func TestPlanSendsWhoCan(t *testing.T) {
	machine := delivery.Tasked{Task: delivery.Deliver, Bring: []delivery.Wanted{{Kind: inventory.Concentrator, Count: 1}}}
	e := errand("a", point(36.51, "West"), 2000, machine)
	e.Address.Stairs, e.Person.Language = 3, "Welsh"
	vans := func(pair, welsh bool) delivery.Planner {
		pl := day()
		second := pl.Programme.Vehicles[0]
		second.Name, second.Pair = "van 2", pair
		if welsh {
			second.Languages = []string{"Welsh"}
		}
		pl.Programme.Vehicles = append(pl.Programme.Vehicles, second)
		return pl
	}
	waits, calm := e, errand("a", point(36.51, "West"), 0, machine)
	calm.Address.Stairs, calm.Person.Language = 3, "Welsh"
	for _, c := range []struct {
		pl delivery.Planner
		e  delivery.Errand
	}{{vans(true, false), waits}, {vans(true, true), waits}, {vans(false, true), calm}, {vans(true, true), calm}} {
		plan := planned(t, c.pl, c.e)
		require.Len(t, plan.Runs, 1)
		assert.Equal(t, "van 2", plan.Runs[0].Vehicle)
	}
	plan := planned(t, vans(false, false), e)
	assert.Len(t, visits(plan), 1)
	e.Address.Stairs, e.Person.Language = 2, ""
	assert.Len(t, visits(planned(t, vans(true, true), e)), 1)
}

// On the days the clocks are changed a shift begins and a door opens by the
// clock on the wall: 31 March and 27 October 2030 in Central Europe (directive
// 2000/84/EC: at 01:00 UTC on the last Sundays of March and October).
func TestPlanOnTheDaysClocksChange(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	require.NoError(t, err)
	for _, date := range []string{"2030-03-30", "2030-03-31", "2030-10-27"} {
		pl := day()
		pl.Now, err = time.ParseInLocation("2006-01-02 15:04", date+" 00:30", berlin)
		require.NoError(t, err)
		pl.Day = pl.Now
		plan := planned(t, pl, errand("a", point(36.51, "West"), 0, swap(inventory.Cylinder, "US-E", 1)))
		require.Len(t, plan.Runs, 1, date)
		run := plan.Runs[0]
		assert.Equal(t, "08:00", run.Stops[0].Arrive.Truncate(time.Hour).In(berlin).Format("15:04"), date)
		assert.False(t, run.Departs.Before(time.Date(run.Departs.Year(), run.Departs.Month(), run.Departs.Day(), 8, 0, 0, 0, berlin)), "%s: leaves %s", date, run.Departs)
	}
}

// Who is still on the ward takes a cylinder more: no vehicle is cheaper. The
// 500 psi of an E at 2 L/min are 42 min; a full one more is 4 h 12 min,
// (2000 - 200) × 0.28 ÷ 2.
func TestReliefIsACylinderMoreAtDischarge(t *testing.T) {
	e := swap(inventory.Cylinder, "US-E", 1)
	far := errand("far", point(36.7, "West"), 500, e)
	plan := planned(t, day(), far)
	require.Len(t, plan.Troubles, 1)
	assert.NotContains(t, plan.Troubles[0].Relief, "at discharge", "they left the ward an hour ago")

	leaves := *far.Care.Discharge
	leaves.Leaves = minute(30)
	far.Care.Discharge = &leaves
	plan = planned(t, day(), far)
	require.Len(t, plan.Troubles, 1)
	assert.Equal(t, "1 full E more at discharge; they leave the ward 14:30", plan.Troubles[0].Relief)
}
