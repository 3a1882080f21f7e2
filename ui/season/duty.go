package season

import (
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// duty is the car of who is on call, and who waits for it.
type duty struct {
	waits []*truth.Home
	busy  bool
}

// loading is what it takes to put cylinders into the car.
const loading = 10 * time.Minute

// emergency sends the duty car to a person for whom a visit with gas is open.
func (o *office) emergency(h *truth.Home) error {
	if slices.Contains(o.duty.waits, h) {
		return nil
	}
	o.duty.waits = append(o.duty.waits, h)
	if o.duty.busy {
		return nil
	}
	o.duty.busy = true
	ready := o.clock.Add(loading)
	if !open(o.clock) {
		ready = ready.Add(o.settings.TurnOut)
	}
	o.at(ready, o.turnOut)
	return nil
}

// turnOut plans the trip to everybody who waits, nearest first, and leaves.
func (o *office) turnOut() error {
	var stops []delivery.PlannedStop
	var metres int64
	at, now := o.settings.Depots[0].Point, o.clock
	for len(o.duty.waits) > 0 && len(stops) < 4 {
		i := o.nearest(at)
		h := o.duty.waits[i]
		o.duty.waits = slices.Delete(o.duty.waits, i, i+1)
		w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
		if err != nil {
			return err
		}
		var tasks []inventory.FactID
		for _, t := range w.Care.Tasks {
			tasks = append(tasks, t.ID)
		}
		if off, err := o.takeOff(h, w.Run); err != nil {
			return err
		} else if !off || len(tasks) == 0 || !w.Care.Watched() {
			continue
		}
		leg := o.settings.RideAt(at, h.Point, now)
		arrive := now.Add(leg.Takes)
		now, at, metres = arrive.Add(o.settings.SwapTime), h.Point, metres+leg.Metres
		stops = append(stops, delivery.PlannedStop{Address: h.Address, Persons: []inventory.PersonID{h.ID}, Tasks: tasks, Arrive: arrive, Leave: now, ActBy: w.ActBy()})
	}
	if len(stops) == 0 {
		o.duty.busy = len(o.duty.waits) > 0
		if o.duty.busy {
			return o.turnOut()
		}
		return nil
	}
	home := o.settings.RideAt(at, o.settings.Depots[0].Point, now)
	plan := delivery.Planned{
		Vehicle: fate.OnCall, Driver: "Bram Tideman", Day: o.clock.Format(time.DateOnly),
		Departs: o.clock, Back: now.Add(home.Takes), Stops: stops, Metres: metres + home.Metres,
	}
	o.tally.Emergencies++
	_, err := o.do(fate.Desk, delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: plan}}})
	return err
}

func (o *office) nearest(at delivery.Point) int {
	best, takes := 0, time.Duration(0)
	for i, h := range o.duty.waits {
		if leg := o.settings.RideAt(at, h.Point, o.clock); i == 0 || leg.Takes < takes {
			best, takes = i, leg.Takes
		}
	}
	return best
}

// takeOff takes a person off the run that was to go there later, as long as it
// has not left. False: it is on its way and comes soon enough.
func (o *office) takeOff(h *truth.Home, id inventory.RunID) (bool, error) {
	run, goes, err := o.run(id)
	if id == "" || err != nil || !goes {
		return true, err
	}
	if r := o.rounds[id]; r != nil && r.out {
		return false, nil
	}
	plan := delivery.Planned{Vehicle: run.Vehicle, Driver: run.Driver, Day: run.Day, Departs: run.Departs, Back: run.Back, Metres: run.Metres, Rests: run.Rests}
	for _, s := range run.Stops {
		if s.Address != h.Address {
			plan.Stops = append(plan.Stops, s.PlannedStop)
		}
	}
	return o.try(fate.Desk, delivery.PlanRuns{Runs: []delivery.RunPlan{{ID: id, Planned: plan}}})
}
