package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// TakeSlot puts the open tasks of a person on the runs as they stand, where
// the visit is soonest and nobody else pays for it.
type TakeSlot struct {
	Person inventory.PersonID `act:"person" help:"record number, name or id"`
	// Promised is what was said on the phone; zero: nothing was.
	Promised time.Time `act:"promised,optional" help:"the time said on the phone"`
}

// Decide takes the slot, or says that it is gone.
func (a TakeSlot) Decide(v View) (Change, error) {
	board, err := v.Board()
	if err != nil {
		return Change{}, err
	}
	stop, on := board.StopOf(a.Person)
	switch {
	case !on:
		return Change{}, refusal.New(refusal.Conflict, "There is no task for today that a vehicle could be sent for.", "Open a task first, and give the address its place on the map.")
	case !board.Waits(stop):
		return Change{}, refusal.New(refusal.Conflict, "A vehicle goes there already.", "Look at the runs for when.")
	}
	slots := board.Slots(stop)
	if len(slots) == 0 {
		return Change{}, refusal.New(refusal.Unready, "No vehicle can go there today without harm to somebody else.", "Plan the day anew, or find another vehicle.")
	}
	first := slots[0]
	if !a.Promised.IsZero() && first.Arrive.After(a.Promised) {
		return Change{}, refusal.New(refusal.Conflict,
			fmt.Sprintf("The slot at %s is gone.", Clock(a.Promised, v.At())),
			fmt.Sprintf("The soonest is %s with %s: ask, and promise that.", Clock(first.Promise(), v.At()), first.Name))
	}
	plans := board.Put(stop, first.Round, first.Before).Plans()
	plans = slices.DeleteFunc(plans, func(p RunPlan) bool { return p.Vehicle != board.rounds[first.Round].Vehicle })
	change, err := PlanRuns{Runs: plans}.Decide(v)
	if err == nil && !a.Promised.IsZero() {
		a.promise(&change, board.stops[stop])
	}
	change.Says = fmt.Sprintf("%s goes there %s.", board.rounds[first.Round].Vehicle, Clock(first.Arrive, v.At()))
	return change, err
}

// promise records what was said, for each task the visit is for.
func (a TakeSlot) promise(c *Change, stop boardStop) {
	for _, e := range stop.errands {
		if e.Person.ID != a.Person {
			continue
		}
		for _, t := range e.Care.Tasks {
			if !t.Until.Equal(a.Promised) {
				c.person(a.Person, &Promised{Task: t.ID, By: a.Promised})
			}
		}
	}
}

// Withdraw takes a vehicle out of service: its driver is ill, it has broken
// down. What it was to do waits to be planned anew.
type Withdraw struct {
	Vehicle string    `act:"vehicle" help:"name of the vehicle"`
	Why     string    `act:"why" help:"driver ill, broken down"`
	Until   time.Time `act:"until,optional" help:"when it can go again; left out: the end of its shift"`
}

// Decide records it.
func (a Withdraw) Decide(v View) (Change, error) {
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	vehicle, known := p.Vehicle(a.Vehicle)
	_, ends, _ := vehicle.shift(v.At())
	if a.Until.IsZero() {
		a.Until = ends
	}
	switch {
	case !known:
		return Change{}, refusal.New(refusal.NotFound, fmt.Sprintf("The programme has no vehicle %q.", a.Vehicle), "Choose one of the vehicles in the settings.")
	case strings.TrimSpace(a.Why) == "":
		return Change{}, refusal.New(refusal.Invalid, "A vehicle goes out of service for a reason.", "Say why: driver ill, broken down.")
	case !a.Until.After(v.At()):
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%s would be out of service until %s, which is past.", a.Vehicle, Clock(a.Until, v.At())), "Say until when.")
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &StoodDown{Vehicle: a.Vehicle, From: v.At(), Until: a.Until, Why: a.Why}}},
		Says:  fmt.Sprintf("%s is out of service until %s. Plan the day anew: its stops wait.", a.Vehicle, Clock(a.Until, v.At())),
	}, nil
}
