package season

import (
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// searchSteps is the budget of the route search: a number of steps, not a time,
// so that the same season gives the same runs.
const searchSteps = 3000

// round is one trip of a vehicle as it is really driven.
type round struct {
	id      inventory.RunID
	vehicle string
	departs time.Time
	out     bool
	over    bool
	left    time.Time // the depot
	at      delivery.Point
	load    []cargo
	back    []*truth.Item // taken
	metres  int64
}

// cargo is a thing on board, and for whom.
type cargo struct {
	*truth.Item
	who inventory.PersonID
}

// heed takes up what an act planned: each run departs when its time comes.
func (o *office) heed(out store.Outcome) error {
	for _, f := range out.Facts {
		plan, is := f.Statement.(*delivery.Planned)
		if !is {
			continue
		}
		r := o.rounds[f.Run]
		if r == nil {
			r = &round{id: f.Run}
			o.rounds[f.Run] = r
		}
		if r.out || len(plan.Stops) == 0 || plan.Departs.Equal(r.departs) {
			continue
		}
		departs := plan.Departs
		r.vehicle, r.departs = plan.Vehicle, departs
		o.at(departs, func() error {
			if r.out || !r.departs.Equal(departs) {
				return nil // planned anew meanwhile
			}
			return o.depart(r)
		})
	}
	return nil
}

// plan plans what waits for a van, as far as the policy wants it driven today.
func (o *office) plan(wanted func(delivery.Errand) bool) error {
	errands, err := o.desk.Tasks(o.ctx, o.clock)
	if err != nil {
		return err
	}
	errands = slices.DeleteFunc(errands, func(e delivery.Errand) bool { return e.Run != "" || !wanted(e) })
	if len(errands) == 0 {
		return nil
	}
	planner, err := o.desk.Planner(o.ctx, o.clock)
	if err != nil {
		return err
	}
	planner.Steps = searchSteps
	day, err := planner.Plan(o.ctx, errands)
	if err != nil || len(day.Runs) == 0 {
		return err
	}
	act := delivery.PlanRuns{}
	for _, r := range day.Runs {
		act.Runs = append(act.Runs, delivery.RunPlan{Planned: r})
	}
	_, err = o.do(fate.Desk, act)
	return err
}

// vansFail is when a driver calls in ill, or the van does not start.
const vansFail = 7*time.Hour + 30*time.Minute

// standDown takes a vehicle out of service for the day; what it was to do goes to
// the others, or waits.
func (o *office) standDown(v delivery.Vehicle) error {
	_, err := o.do(fate.Desk, delivery.Withdraw{Vehicle: v.Name, Why: "driver ill", Until: midnight(o.clock).Add(20 * time.Hour)})
	if err != nil {
		return err
	}
	_, err = o.try(fate.Desk, delivery.PlanAnew{Steps: searchSteps})
	return err
}

// run returns a run as the book has it; false once it has ended.
func (o *office) run(id inventory.RunID) (delivery.Run, bool, error) {
	runs, err := o.desk.Runs(o.ctx, "")
	i := slices.IndexFunc(runs, func(r delivery.Run) bool { return r.ID == id })
	if err != nil || i < 0 {
		return delivery.Run{}, false, err
	}
	return runs[i], true, nil
}

// depart loads the vehicle and leaves the depot. Of a vehicle that is not back
// yet the next trip waits.
func (o *office) depart(r *round) error {
	if r.out || r.over {
		return nil
	}
	for _, other := range o.rounds {
		if other != r && other.out && other.vehicle == r.vehicle {
			o.at(o.clock.Add(10*time.Minute), func() error { return o.depart(r) })
			return nil
		}
	}
	run, goes, err := o.run(r.id)
	if err != nil {
		return err
	}
	if !goes || len(run.Open()) == 0 {
		return o.end(r)
	}
	r.out, r.left, r.at = true, o.clock, o.settings.Depots[0].Point
	for _, s := range run.Open() {
		for _, who := range s.Persons {
			if err := o.pack(r, who); err != nil {
				return err
			}
		}
	}
	return o.drive(r)
}

// pack loads what is to be brought to a person.
func (o *office) pack(r *round, who inventory.PersonID) error {
	w, err := o.desk.WatchOne(o.ctx, who, o.clock)
	if err != nil {
		return err
	}
	page, err := o.desk.Page(o.ctx, who, o.clock)
	if err != nil {
		return err
	}
	reserved := page.Reserved
	for _, t := range w.Care.Tasks {
		for _, want := range t.Bring {
			ready, err := o.ready(want.Kind)
			if err != nil {
				return err
			}
			for range want.Count {
				one := want
				one.Count = 1
				i := slices.IndexFunc(reserved, func(i inventory.Item) bool {
					return i.Spec.Kind == want.Kind && (want.Size == "" || i.Spec.Size == want.Size) && i.Spec.Rated >= want.Rated && !o.loaded[i.ID]
				})
				chosen := choose(ready, one)
				switch {
				case i >= 0:
					o.put(r, who, reserved[i].ID)
				case len(chosen) > 0:
					o.put(r, who, chosen[0].ID)
					ready = slices.DeleteFunc(ready, func(i inventory.Item) bool { return i.ID == chosen[0].ID })
				}
			}
		}
	}
	return nil
}

func (o *office) put(r *round, who inventory.PersonID, id inventory.ItemID) {
	r.load = append(r.load, cargo{o.items[id], who})
	o.loaded[id] = true
}

// drive goes to the next open stop, or home.
func (o *office) drive(r *round) error {
	run, goes, err := o.run(r.id)
	if err != nil {
		return err
	}
	if !goes || len(run.Open()) == 0 {
		leg := o.settings.RideAt(r.at, o.settings.Depots[0].Point, o.clock)
		r.metres += leg.Metres
		o.at(o.clock.Add(o.drag(r, leg.Takes)), func() error { return o.comeHome(r) })
		return nil
	}
	stop := run.Open()[0]
	h := o.homes[waiting(stop)]
	leg := o.settings.RideAt(r.at, h.Point, o.clock)
	r.at, r.metres = h.Point, r.metres+leg.Metres
	o.at(o.clock.Add(o.drag(r, leg.Takes)), func() error { return o.arrive(r, h) })
	return nil
}

// waiting returns the person a stop still waits for.
func waiting(s delivery.Stop) inventory.PersonID {
	i := slices.IndexFunc(s.Persons, s.Waits)
	return s.Persons[i]
}

// drag is how long a ride really takes: traffic, gates, stairs, and now and then
// a closed road.
func (o *office) drag(r *round, takes time.Duration) time.Duration {
	d := o.season.Dice("ride", r.vehicle, o.clock.Unix())
	late := 0.95 + 0.15*d.ExpFloat64()
	if d.Float64() < 0.02 {
		takes += time.Duration(20+20*d.Float64()) * time.Minute
	}
	return time.Duration(float64(takes) * late).Round(time.Minute)
}

// comeHome brings a vehicle home: what it took goes to the dirty bay, what it did
// not leave back on the shelf.
func (o *office) comeHome(r *round) error {
	for _, i := range r.load {
		delete(o.loaded, i.ID)
	}
	if err := o.takeBack(r.back); err != nil {
		return err
	}
	r.out = false
	o.tally.drove(r, o.clock)
	if err := o.end(r); err != nil || r.vehicle != fate.OnCall {
		return err
	}
	if o.duty.busy = len(o.duty.waits) > 0; o.duty.busy {
		o.at(o.clock.Add(loading), o.turnOut)
	}
	return nil
}

// end closes the run in the book.
func (o *office) end(r *round) error {
	r.over = true
	delete(o.rounds, r.id)
	run, goes, err := o.run(r.id)
	if err != nil || !goes || len(run.Open()) > 0 {
		return err
	}
	_, err = o.do("driver", delivery.EndRun{Run: r.id})
	return err
}
