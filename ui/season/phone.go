package season

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// aCall is how long the desk is busy with one call.
const aCall = 4 * time.Minute

func keyOf(parts ...any) string { return fmt.Sprint(parts...) }

// nth returns how often something was asked on a day, from 0, so that the luck
// of a call does not depend on the calls to others.
func (o *office) nth(what string, h *truth.Home) int {
	key := keyOf(what, h.N, o.clock.YearDay(), o.clock.Year())
	o.asked[key]++
	return o.asked[key] - 1
}

// call calls a person: how are they, at which flow, what does the gauge show?
// It reports whether somebody answered.
func (o *office) call(h *truth.Home) (bool, error) {
	o.tally.Calls++
	n := o.nth("call", h)
	d := o.season.Dice("call", h.N, o.clock.YearDay(), n)
	act := delivery.Call{Person: h.ID, Answered: d.Float64() < fate.Answers && (h.Exit != fate.Leaves || h.Source != truth.Nothing)}
	if act.Answered {
		if err := o.tells(h, &act, d.Float64() < fate.ReadsGauge, n); err != nil {
			return false, err
		}
	}
	if done, err := o.try(fate.Desk, act); err != nil || !done {
		return false, err
	}
	if !act.Answered {
		return false, nil
	}
	if err := o.next(h, act.Gauge); err != nil {
		return false, err
	}
	return true, o.heard(h)
}

// tells fills in what a person says on the phone.
func (o *office) tells(h *truth.Home, act *delivery.Call, gauge bool, n int) error {
	h.Reckon(o.clock)
	if h.Source == truth.Nothing {
		return nil
	}
	if o.season.Happens(fate.TellsFlow, "tells", h.N) {
		act.Flow = new(h.Tells)
	}
	if !gauge {
		return nil
	}
	i, err := o.firstInBook(h)
	if err != nil || i == nil {
		return err
	}
	act.Gauge = o.read(o.lookedAt(h, i, n), fate.Misreads, "told", h.N, o.clock.YearDay(), n)
	if h.Source == truth.Machine {
		i.Open = false // whoever reads the gauge sees that the valve is open
	}
	return nil
}

// lookedAt is the cylinder whose gauge a person reads when asked for one: now and
// then that of another beside it.
func (o *office) lookedAt(h *truth.Home, asked *truth.Item, n int) *truth.Item {
	if !o.season.Happens(fate.ReadsOther, "looked at", h.N, o.clock.YearDay(), n) {
		return asked
	}
	for _, i := range h.Kit {
		if i.Kind == inventory.Cylinder && i != asked {
			return i
		}
	}
	return asked
}

// next asks for the gauge of the next cylinder, where the one told was empty.
func (o *office) next(h *truth.Home, told *gas.Pressure) error {
	if told == nil || *told > 0 || h.Source != truth.Cylinder {
		return nil
	}
	i, err := o.firstInBook(h)
	if err != nil || i == nil || i.Litres <= 0 {
		return err
	}
	_, err = o.try(fate.Desk, delivery.Read{Item: i.ID, Gauge: o.read(i, fate.Misreads, "next", h.N, o.clock.Unix())})
	return err
}

// firstInBook is the cylinder the book takes to be used first, nil for none: it
// is asked for by its label.
func (o *office) firstInBook(h *truth.Home) (*truth.Item, error) {
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil {
		return nil, err
	}
	held, has := w.Care.InUse()
	if i := o.items[held.Item]; has && slices.Contains(h.Kit, i) {
		return i, nil
	}
	return nil, nil
}

// heard is what comes up on a call beside the gauge: trips ahead, what they
// breathe from, that oxygen was stopped.
func (o *office) heard(h *truth.Home) error {
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil || !w.Care.Watched() {
		return err
	}
	switch {
	case h.Source == truth.Nothing:
		o.at(opening(o.clock.Add(3*time.Hour)), func() error { return o.stop(h, "recovered") }) // the clinician is asked
		return nil
	case h.Source == truth.Machine && w.Care.Breathes == delivery.FromCylinder && h.Concentrator() != nil:
		if _, err := o.try(fate.Desk, delivery.Switch{Person: h.ID, To: delivery.FromConcentrator, Why: "told on the phone"}); err != nil {
			return err
		}
	case h.Source == truth.Cylinder && h.Why == truth.Fault && !brings(w.Care, inventory.Concentrator):
		if _, err := o.fault(h); err != nil { // why are they not on the machine?
			return err
		}
	case h.Source == truth.Cylinder && h.Why != truth.Trip && w.Care.Breathes == delivery.FromConcentrator:
		if _, err := o.try(fate.Desk, delivery.Switch{Person: h.ID, To: delivery.FromCylinder, Why: "told on the phone"}); err != nil {
			return err
		}
	}
	return o.foretold(h, w.Care)
}

// foretold books the trips somebody has in mind.
func (o *office) foretold(h *truth.Home, care delivery.Care) error {
	if care.Discharge == nil {
		return nil
	}
	for n, trip := range h.Trips {
		from := care.Discharge.Opened.Add(trip.After)
		if !trip.Foretold || from.Before(o.clock) || from.Sub(o.clock) > 3*24*time.Hour || !o.once("trip", h.N, n) {
			continue
		}
		if _, err := o.try(fate.Desk, delivery.BookTrip{Person: h.ID, From: from, Until: from.Add(trip.Lasts)}); err != nil {
			return err
		}
	}
	return nil
}

// rings is a person on the cylinder who calls: the gauge is low, or the gas is
// gone.
func (o *office) rings(h *truth.Home, what string) error {
	h.Reckon(o.clock)
	if h.Source != truth.Cylinder {
		return nil
	}
	o.tally.Rang++
	act := delivery.Call{Person: h.ID, Answered: true, Problem: "gas is " + what}
	if err := o.tells(h, &act, true, 100+h.Spells); err != nil {
		return err
	}
	if done, err := o.try(fate.Desk, act); err != nil || !done {
		return err
	}
	if err := o.next(h, act.Gauge); err != nil {
		return err
	}
	if err := o.heard(h); err != nil {
		return err
	}
	return o.policy.rang(o, h, h.Gas() <= 0)
}

// faulty is a machine that stops. The person changes over to the cylinder, and
// most call.
func (o *office) faulty(h *truth.Home) error {
	machine := h.Concentrator()
	if h.Source == truth.Nothing || machine == nil {
		return nil
	}
	machine.Broken = true
	if h.Source != truth.Machine {
		return nil
	}
	h.Breathe(o.clock, truth.Cylinder, truth.Fault)
	o.watchGas(h)
	d := o.season.Dice("fault", h.N)
	if d.Float64() >= fate.CallsFault {
		return nil
	}
	o.at(o.clock.Add(time.Duration(2+15*d.Float64())*time.Minute), func() error { return o.alarm(h) })
	return nil
}

// alarm is the call about a machine that stopped.
func (o *office) alarm(h *truth.Home) error {
	h.Reckon(o.clock)
	if h.Source != truth.Cylinder || h.Why != truth.Fault {
		return nil
	}
	o.tally.Rang++
	if done, err := o.fault(h); err != nil || !done {
		return err
	}
	return o.policy.rang(o, h, h.Gas() <= 0)
}

// fault goes through the questions about a machine that stopped; another one is
// to be brought.
func (o *office) fault(h *truth.Home) (bool, error) {
	act := delivery.Alarm{Person: h.ID, Power: delivery.PowerOn, Light: delivery.LightFault, Air: delivery.AirClear, Changed: true, Swap: true}
	i, err := o.firstInBook(h)
	if err != nil {
		return false, err
	}
	if i != nil {
		act.Gauge = o.read(i, fate.Misreads, "alarm", h.N)
	}
	return o.try(fate.Desk, act)
}

// gasTask makes sure that a visit with gas is open for a person, and returns
// whether there is one.
func (o *office) gasTask(h *truth.Home, care delivery.Care, why string, count int) (bool, error) {
	if slices.ContainsFunc(care.Tasks, func(t delivery.OpenTask) bool {
		return slices.ContainsFunc(t.Bring, func(w delivery.Wanted) bool { return w.Kind == inventory.Cylinder })
	}) {
		return true, nil
	}
	size := gas.SizeCode("US-E")
	if h.CylinderOnly {
		size = "US-H"
	}
	return o.try(fate.Desk, delivery.Ask{Person: h.ID, Task: delivery.Swap, Why: why, Bring: []delivery.Wanted{{Kind: inventory.Cylinder, Size: size, Count: count}}})
}
