package season

import (
	"errors"
	"math"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// mostBridge is how many cylinders a person takes along from the ward at most.
const mostBridge = 4

// going is one discharge being prepared.
type going struct {
	fate.Person
	again  *truth.Home // of one who was at home before; their kit is there
	bridge []inventory.Item
	bring  []inventory.Item
	along  []inventory.Item // beside the bridge
	lacks  string
}

// discharge sends a person home, or holds them back until the kit, the van and
// the gas are there.
func (o *office) discharge(p fate.Person, again *truth.Home) error {
	later := func(t time.Time) error {
		o.at(opening(t), func() error { return o.discharge(p, again) })
		return nil
	}
	if !open(o.clock) {
		return later(o.clock)
	}
	g := going{Person: p, again: again}
	if err := o.pick(&g); err != nil {
		return err
	}
	if g.lacks != "" {
		o.hold(p, &o.tally.HeldForKit)
		return later(o.clock.Add(time.Hour))
	}
	act := o.admission(g)
	arrives, any, err := o.slot(act, g)
	if err != nil {
		return err
	}
	if !any {
		o.hold(p, &o.tally.HeldForVan)
		return later(o.clock.Add(time.Hour))
	}
	act.Discharge.Arrives, act.Discharge.Until = arrives, arrives
	if holds, err := o.bridge(&act, &g); err != nil {
		return err
	} else if !holds {
		o.hold(p, &o.tally.HeldForGas)
		return later(o.clock.Add(time.Hour))
	}
	return o.handOver(g, act)
}

// hold counts a discharge that is held back, once.
func (o *office) hold(p fate.Person, count *int) {
	if !o.waits[p.N] {
		o.waits[p.N] = true
		*count++
	}
}

// pick chooses the kit of what is ready.
func (o *office) pick(g *going) error {
	cylinders, err := o.ready(inventory.Cylinder)
	if err != nil {
		return err
	}
	g.bridge = choose(cylinders, delivery.Wanted{Kind: inventory.Cylinder, Size: "US-E", Count: mostBridge})
	if g.again != nil {
		return nil
	}
	highest := max(g.Flow, g.Exertion)
	if g.CylinderOnly {
		g.bring = choose(cylinders, delivery.Wanted{Kind: inventory.Cylinder, Size: "US-H", Count: 2})
	} else {
		machines, err := o.ready(inventory.Concentrator)
		if err != nil {
			return err
		}
		g.bring = choose(machines, delivery.Wanted{Kind: inventory.Concentrator, Rated: highest, Count: 1})
		more := choose(cylinders[:], delivery.Wanted{Kind: inventory.Cylinder, Size: "US-E", Count: mostBridge + o.backups(highest)})
		if len(g.bring) == 0 || len(more) < mostBridge+o.backups(highest) {
			g.lacks = "kit"
			return nil
		}
		g.bring = append(g.bring, more[mostBridge:]...)
	}
	oximeters, err := o.ready(inventory.Oximeter)
	if err != nil {
		return err
	}
	g.along = choose(oximeters, delivery.Wanted{Kind: inventory.Oximeter, Count: 1})
	if len(g.bring) == 0 || len(g.bridge) == 0 || len(g.along) == 0 {
		g.lacks = "kit"
	}
	return nil
}

// backups is how many full cylinders a home needs to be covered for the
// programme's backup hours at the highest flow ordered.
func (o *office) backups(flow gas.Flow) int {
	size, _ := gas.LookUp("US-E")
	plan, err := gas.PlanMinutes(size, size.Service, o.settings.Reserve, flow, gas.Room)
	if err != nil || plan.Minutes == 0 {
		return 1
	}
	return int(math.Ceil(o.settings.BackupHours.Minutes() / float64(plan.Minutes)))
}

// admission is the discharge as the desk enters it, without what bridges.
func (o *office) admission(g going) delivery.Admission {
	mains := delivery.MainsYes
	if g.CylinderOnly {
		mains = delivery.MainsNo
	}
	a := delivery.Admission{
		Register: delivery.Register{
			Person:  delivery.Person{Family: g.Family, Given: g.Given, Born: g.Born, Record: g.Record, Phones: []delivery.Phone{{Number: g.Phone}}},
			Address: delivery.Address{Street: g.Street, Town: g.Town, Point: g.Point, Line: g.Line, Mains: mains},
		},
		Order:     &delivery.Order{Rest: g.Flow, Exertion: g.Exertion, Hours: 24, Device: "cannula", Prescriber: fate.Doctor},
		Discharge: delivery.Discharge{Ward: fate.Ward, Leaves: o.clock.Add(o.settings.WardDelay), Consents: map[string]bool{delivery.FireService: true}},
	}
	if g.again != nil {
		a.Register = delivery.Register{Person: a.Register.Person}
		a.Register.Person.ID = g.again.ID
	}
	if max(g.Flow, g.Exertion) >= o.settings.Bands.Emergency {
		a.Bands = &delivery.GiveBands{By: fate.Doctor, Waived: true}
	}
	for _, i := range g.bring {
		a.Discharge.Bring = append(a.Discharge.Bring, i.ID)
	}
	return a
}

// slot returns when a van can be there with the kit, as the runs stand.
func (o *office) slot(act delivery.Admission, g going) (time.Time, bool, error) {
	if g.again != nil {
		return o.clock.Add(o.settings.WardDelay), true, nil
	}
	board, err := o.desk.Board(o.ctx, o.clock)
	if err != nil {
		return time.Time{}, false, err
	}
	var bring []delivery.Wanted
	for _, i := range g.bring {
		bring = append(bring, delivery.Wanted{Kind: i.Spec.Kind, Size: i.Spec.Size, Rated: i.Spec.Rated, Count: 1})
	}
	with, stop, known := board.With(o.settings.Bringing(act.Register.Address, "", act.Discharge.Leaves, time.Time{}, bring))
	if !known {
		return time.Time{}, false, nil
	}
	slots := with.Slots(stop)
	if len(slots) == 0 {
		return time.Time{}, false, nil
	}
	return o.policy.promises(slots).Promise(), true, nil
}

// bridge adds cylinders until the program says that the bridge holds.
func (o *office) bridge(act *delivery.Admission, g *going) (bool, error) {
	for n := range g.bridge {
		act.Discharge.HandOver = nil
		for _, i := range g.bridge[:n+1] {
			thing := o.items[i.ID]
			act.Discharge.HandOver = append(act.Discharge.HandOver, delivery.Piece{Item: i.ID, Gauge: o.read(thing, fate.MisreadsUs, "ward", g.N)})
		}
		for _, i := range g.along {
			act.Discharge.HandOver = append(act.Discharge.HandOver, delivery.Piece{Item: i.ID})
		}
		holds := false
		err := o.desk.Ask(o.ctx, o.clock, func(v delivery.View) error {
			b, err := act.Bridge(v)
			if err != nil {
				return err
			}
			answer, err := b.Answer(o.settings)
			holds = answer.Verdict == depletion.Holds || g.CylinderOnly && answer.Has >= answer.Wants && answer.Wants > 0
			return err
		})
		if err != nil {
			return false, err
		}
		if holds {
			g.bridge = g.bridge[:n+1]
			return true, nil
		}
	}
	return false, nil
}

// handOver records the discharge, and the person goes home.
func (o *office) handOver(g going, act delivery.Admission) error {
	var out store.Outcome
	var err error
	if g.again != nil {
		out, err = o.do(fate.Desk, act)
	} else {
		out, err = o.desk.HandOver(o.ctx, o.hand(fate.Desk), act)
	}
	if refused(err) { // the slot is gone, the thing is not there: once more
		o.tally.Refused++
		o.at(opening(o.clock.Add(30*time.Minute)), func() error { return o.discharge(g.Person, g.again) })
		return nil
	}
	if err != nil {
		return errors.Join(errors.New("hand over"), err)
	}
	if g.again == nil {
		if err := o.heed(out); err != nil {
			return err
		}
	}
	o.tally.Discharges++
	h := o.home(g, out)
	for _, i := range append(g.bridge, g.along...) {
		h.Give(o.items[i.ID])
	}
	h.Breathe(o.clock, truth.Cylinder, truth.Bridge)
	o.watchGas(h)
	ride := o.settings.RideAt(o.settings.Hospital.Point, g.Point, o.clock)
	h.At = o.clock.Add(o.settings.WardDelay + g.Dawdles + ride.Takes)
	if g.again != nil {
		o.at(h.At.Add(10*time.Minute), func() error { return o.homeAgain(h) })
	}
	o.fated(h, g.again != nil)
	return nil
}

// homeAgain is a person whose machine waited at home: they switch it on, and
// say so when they are asked.
func (o *office) homeAgain(h *truth.Home) error {
	if h.Source != truth.Cylinder || h.Why != truth.Bridge {
		return nil
	}
	if h.Concentrator() == nil || o.dark(h) {
		return o.rings(h, "all there is: the machine does not run")
	}
	o.backOnMachine(h)
	_, err := o.call(h)
	return err
}

// home returns the home of a person who was discharged.
func (o *office) home(g going, out store.Outcome) *truth.Home {
	if g.again != nil {
		g.again.Since = o.clock
		return g.again
	}
	h := &truth.Home{Person: g.Person, Since: o.clock, Lacks: make(map[truth.Why]float64)}
	for _, f := range out.Facts {
		if settled, is := f.Statement.(*delivery.Settled); is {
			h.ID, h.Address = f.Person, settled.Address
		}
	}
	o.homes[h.ID] = h
	o.order = append(o.order, h)
	return h
}
