package season

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

const (
	patience  = 45 * time.Minute // for a person who is still on the way home
	knocking  = 10 * time.Minute // at a door nobody opens
	handling  = 5 * time.Minute  // of a collection, beside the swap time
	takenFrom = 0.35             // of its full pressure: under it a cylinder is taken along
)

// arrive is a vehicle at a door.
func (o *office) arrive(r *round, h *truth.Home) error {
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil {
		return err
	}
	switch open, err := o.expects(r, h); {
	case err != nil:
		return err
	case !open: // called off on the way
		return o.drive(r)
	}
	if wait := h.At.Sub(o.clock); wait > 0 {
		if most := o.policy.waitsAtDoor(o, h, wait); wait > most {
			return o.fail(r, h, "not home from the ward yet", most)
		}
		o.at(h.At, func() error { return o.arrive(r, h) })
		return nil
	}
	if w.Care.Breathes != delivery.FromCylinder && o.season.Happens(fate.NotHome, "door", h.N, o.clock.YearDay()) {
		return o.fail(r, h, "nobody opened", knocking)
	}
	takes := o.settings.SwapTime
	switch {
	case brings(w.Care, inventory.Concentrator) && w.Care.Watched():
		takes = o.settings.SetUp + o.settings.WarmUp
	case w.Care.Has(delivery.Collect):
		takes += handling
	}
	o.at(o.clock.Add(takes), func() error { return o.visit(r, h) })
	return nil
}

// expects reports whether a run still has a stop for a person.
func (o *office) expects(r *round, h *truth.Home) (bool, error) {
	run, goes, err := o.run(r.id)
	return goes && slices.ContainsFunc(run.Stops, func(s delivery.Stop) bool { return s.Waits(h.ID) }), err
}

// brings reports whether a thing of a kind is to be brought to a person.
func brings(c delivery.Care, kind inventory.Kind) bool {
	return slices.ContainsFunc(c.Tasks, func(t delivery.OpenTask) bool {
		return slices.ContainsFunc(t.Bring, func(w delivery.Wanted) bool { return w.Kind == kind })
	})
}

// fail records that a stop could not be made, and when it is tried again.
func (o *office) fail(r *round, h *truth.Home, why string, after time.Duration) error {
	o.at(o.clock.Add(after), func() error {
		switch open, err := o.expects(r, h); {
		case err != nil:
			return err
		case !open: // called off meanwhile
			return o.drive(r)
		}
		w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
		if err != nil {
			return err
		}
		o.tally.Failed++
		act := delivery.Visit{Run: r.id, Person: h.ID, Failed: why, Next: o.policy.again(o, w)}
		if done, err := o.try(r.vehicle, act); err != nil || !done {
			return errors.Join(err, fmt.Errorf("%s: a stop can't even fail", o.clock))
		}
		if err := o.policy.missed(o, h); err != nil {
			return err
		}
		return o.drive(r)
	})
	return nil
}

// visit leaves what was brought and takes what is used or not needed.
func (o *office) visit(r *round, h *truth.Home) error {
	h.Reckon(o.clock)
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil {
		return err
	}
	care := w.Care
	act := delivery.Visit{Run: r.id, Person: h.ID}
	var left, took []*truth.Item
	if care.Watched() {
		left = r.unload(care)
		for _, i := range left {
			piece := delivery.Piece{Item: i.ID}
			if i.Kind == inventory.Cylinder {
				piece.Gauge = o.read(i, fate.MisreadsUs, "left", h.N, o.clock.Unix())
			}
			act.Left = append(act.Left, piece)
		}
		took = o.used(h, care, left)
	} else {
		took = slices.Clone(h.Kit)
	}
	for _, i := range took {
		taken := delivery.Taken{Item: i.ID}
		if i.Kind == inventory.Cylinder {
			taken.Gauge = o.read(i, fate.MisreadsUs, "taken", h.N, o.clock.Unix())
		}
		act.Took = append(act.Took, taken)
	}
	if took, err = o.missing(h, care, took, &act); err != nil {
		return err
	}
	act.Running = care.Watched() && care.Breathes == delivery.FromCylinder && (h.Concentrator() != nil || has(left, inventory.Concentrator)) && !o.dark(h)
	if len(act.Left)+len(act.Took) == 0 && !act.Running {
		act.Failed, act.Next = "the van did not have it", o.policy.again(o, w)
		o.tally.Failed++
	}
	margin := h.Gas() / (float64(h.Flow) * h.Pace)
	done, err := o.try(r.vehicle, act)
	if err != nil {
		return err
	}
	if !done { // somebody at the desk was first: the stop is given up
		return o.fail(r, h, "it was to be otherwise", 0)
	}
	if act.Failed == "" {
		if err := o.visited(r, h, left, took, margin, act.Running); err != nil {
			return err
		}
	}
	return o.drive(r)
}

// visited is what a visit changes in truth.
func (o *office) visited(r *round, h *truth.Home, left, took []*truth.Item, margin float64, running bool) error {
	for _, i := range took {
		o.tally.IdleDays += h.Idle(o.clock)
		h.Take(i, inventory.At(inventory.AtVehicle, r.vehicle))
		r.back = append(r.back, i)
		o.tally.moved(i)
	}
	for _, i := range left {
		h.Give(i)
		delete(o.loaded, i.ID)
		r.load = slices.DeleteFunc(r.load, func(c cargo) bool { return c.Item == i })
		o.tally.moved(i)
	}
	if h.Source == truth.Nothing {
		return nil
	}
	if running {
		if h.Why == truth.Bridge && h.Source == truth.Cylinder {
			o.tally.Margins = append(o.tally.Margins, margin)
		}
		o.backOnMachine(h)
	}
	if h.CylinderOnly && h.Why == truth.Bridge && has(left, inventory.Cylinder) {
		o.tally.Margins = append(o.tally.Margins, margin)
		h.Breathe(o.clock, truth.Cylinder, truth.CylinderOnly)
		if _, err := o.do(r.vehicle, delivery.Switch{Person: h.ID, To: delivery.FromCylinder, Why: "no mains: cylinders are set up"}); err != nil {
			return err
		}
	}
	o.watchGas(h)
	return o.readRest(r, h, left)
}

// readRest reads the gauges of the cylinders that stand there and were not
// brought now.
func (o *office) readRest(r *round, h *truth.Home, left []*truth.Item) error {
	for _, i := range h.Kit {
		if i.Kind != inventory.Cylinder || slices.Contains(left, i) {
			continue
		}
		i.Open = false // whoever reads a gauge closes a valve that was forgotten
		act := delivery.Read{Item: i.ID, Gauge: o.read(i, fate.MisreadsUs, "seen", h.N, o.clock.Unix())}
		if _, err := o.do(r.vehicle, act); err != nil {
			return err
		}
	}
	return nil
}

// unload takes from the vehicle what a person is to get: what was packed for
// them.
func (r *round) unload(care delivery.Care) (left []*truth.Item) {
	for _, t := range care.Tasks {
		for _, want := range t.Bring {
			for range want.Count {
				i := slices.IndexFunc(r.load, func(c cargo) bool {
					return c.who == care.Person && c.Kind == want.Kind && (want.Size == "" || c.Size.Code == want.Size) && !slices.Contains(left, c.Item)
				})
				if i >= 0 {
					left = append(left, r.load[i].Item)
				}
			}
		}
	}
	return left
}

// used returns what is taken along from somebody who goes on: the machine that
// failed, and cylinders that are used up where full ones were left.
func (o *office) used(h *truth.Home, care delivery.Care, left []*truth.Item) (took []*truth.Item) {
	for _, i := range h.Kit {
		low := i.Kind == inventory.Cylinder && i.Gauge() < i.Size.Service*takenFrom && has(left, inventory.Cylinder)
		bridged := h.CylinderOnly && i.Size.Code == "US-E" && has(left, inventory.Cylinder)
		swapped := i.Kind == inventory.Concentrator && has(left, inventory.Concentrator)
		if low || bridged || swapped {
			took = append(took, i)
		}
	}
	return took
}

// dark reports whether power is out at a home.
func (o *office) dark(h *truth.Home) bool {
	return slices.ContainsFunc(o.season.Cuts, func(c fate.Cut) bool {
		return c.Line == h.Line && !o.clock.Before(c.From) && o.clock.Before(c.Until)
	})
}

func has(list []*truth.Item, kind inventory.Kind) bool {
	return slices.ContainsFunc(list, func(i *truth.Item) bool { return i.Kind == kind })
}

// missing is what should be there and is not: an oximeter nobody finds.
func (o *office) missing(h *truth.Home, care delivery.Care, took []*truth.Item, act *delivery.Visit) ([]*truth.Item, error) {
	if care.Watched() {
		return took, nil
	}
	for n, i := range took {
		if i.Kind != inventory.Oximeter || !o.season.Happens(losesOximeter, "oximeter", h.N) {
			continue
		}
		act.Took = slices.Delete(act.Took, n, n+1)
		return slices.Delete(slices.Clone(took), n, n+1), o.lose(h, i, "not found when the kit was collected")
	}
	return took, nil
}

// losesOximeter is the chance that the oximeter is not there any more: invented.
// It is the thing most often lost (Nova Scotia Health, 2022: 2,800 in a few
// months); no share is published.
const losesOximeter = 0.06

// lose enters a thing as lost.
func (o *office) lose(h *truth.Home, i *truth.Item, why string) error {
	worth := map[inventory.Kind]float64{inventory.Concentrator: 700, inventory.Cylinder: 90, inventory.Oximeter: 25}[i.Kind]
	if _, err := o.do(fate.Desk, delivery.Lose{Item: i.ID, Worth: &worth, Why: why}); err != nil {
		return err
	}
	h.Take(i, inventory.At(inventory.AtMissing, ""))
	o.tally.Lost++
	return nil
}

// fullFor returns how many full cylinders of a size last for a time at a flow.
func (o *office) fullFor(size gas.SizeCode, flow gas.Flow, d time.Duration) int {
	s, _ := gas.LookUp(size)
	plan, err := gas.PlanMinutes(s, s.Service, o.settings.Reserve, flow, gas.Room)
	if err != nil || plan.Minutes == 0 {
		return 1
	}
	return max(1, int((d.Minutes()+float64(plan.Minutes)-1)/float64(plan.Minutes)))
}
