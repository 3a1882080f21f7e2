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
	// By is when the vehicle has to be there at the latest; zero: as soon as can be.
	By time.Time `act:"not-after,optional" help:"take the slot with the least driving that is there by then; left out: the soonest"`
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
	chosen, err := a.choose(slots, v.At())
	if err != nil {
		return Change{}, err
	}
	plans := slices.DeleteFunc(chosen.Taken(stop).Plans(), func(p RunPlan) bool { return p.Vehicle != chosen.Vehicle() })
	change, err := PlanRuns{Runs: plans}.Decide(v)
	if err == nil && !a.Promised.IsZero() {
		a.promise(&change, board.stops[stop])
	}
	change.Says = fmt.Sprintf("%s goes there %s.", chosen.Vehicle(), Clock(chosen.Arrive, v.At()))
	return change, err
}

// choose returns the slot that is taken, the soonest unless there is time.
func (a TakeSlot) choose(slots []Slot, now time.Time) (Slot, error) {
	first := slots[0]
	if !a.Promised.IsZero() && first.Arrive.After(a.Promised) {
		return first, refusal.New(refusal.Conflict,
			fmt.Sprintf("The slot at %s is gone.", Clock(a.Promised, now)),
			fmt.Sprintf("The soonest is %s with %s: ask, and promise that.", Clock(first.Promise(), now), first.Name))
	}
	if a.By.IsZero() {
		return first, nil
	}
	by := a.By
	if !a.Promised.IsZero() && by.After(a.Promised) {
		by = a.Promised
	}
	chosen, inTime := LeastDriving(slots, by)
	if !inTime {
		return first, refusal.New(refusal.Unready,
			fmt.Sprintf("No vehicle can be there by %s.", Clock(by, now)),
			fmt.Sprintf("The soonest is %s with %s: take that, or plan the day anew.", Clock(first.Arrive, now), first.Name))
	}
	return chosen, nil
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
