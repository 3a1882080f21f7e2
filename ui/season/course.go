package season

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// fated lets what lies ahead of a person happen, counted from the discharge.
func (o *office) fated(h *truth.Home, again bool) {
	began := o.clock
	needs := h.Needs
	if again { // the second time at home is as long as the first was to be
		h.Exit = fate.Recovers
	}
	o.at(began.Add(needs), func() error { return o.over(h) })
	if again || h.CylinderOnly {
		return
	}
	if h.Fault > 0 {
		o.at(began.Add(h.Fault), func() error { return o.faulty(h) })
	}
	for n, trip := range h.Trips {
		o.at(began.Add(trip.After), func() error { return o.goOut(h, n, trip) })
	}
}

// over ends the need for oxygen, in one way or another.
func (o *office) over(h *truth.Home) error {
	if h.Source == truth.Nothing {
		return nil
	}
	h.Breathe(o.clock, truth.Nothing, "")
	told := opening(o.clock.Add(2 * time.Hour))
	switch h.Exit {
	case fate.Recovers:
		o.at(opening(told.Add(h.Untold)), func() error { return o.stop(h, "recovered") })
	case fate.Leaves:
		o.at(told, func() error { return o.stop(h, "moved away") })
	case fate.Readmits:
		o.at(o.clock.Add(2*time.Hour), func() error { return o.readmit(h) })
	case fate.Dies:
		o.at(told, func() error { return o.die(h) })
	}
	return nil
}

// stop records the clinician's stop; a collection is open then.
func (o *office) stop(h *truth.Home, why string) error {
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil || !w.Care.Watched() {
		return err
	}
	_, err = o.do(fate.Desk, delivery.StopOxygen{Person: h.ID, Reason: why, OrderedBy: fate.Doctor})
	return err
}

// readmit records that a person is in hospital. Some go home on oxygen again,
// of the others the kit is fetched.
func (o *office) readmit(h *truth.Home) error {
	until := o.clock.Add(5 * 24 * time.Hour)
	if h.Away > 0 {
		until = o.clock.Add(h.Away + 24*time.Hour)
	}
	act := delivery.Readmit{Person: h.ID, Ward: fate.Ward, Until: until}
	var along *truth.Item // the portable comes along in the ambulance
	for _, i := range h.Kit {
		if along == nil && i.Kind == inventory.Cylinder && i.Size.Code == "US-E" {
			along, act.Portable = i, []inventory.ItemID{i.ID}
		}
	}
	if done, err := o.try(fate.Desk, act); err != nil || !done {
		return err
	}
	if along != nil {
		h.Take(along, inventory.At(inventory.AtWard, fate.Ward))
		o.at(tomorrow(o.clock, deskOpens+time.Hour), func() error { return o.fetch(along) })
	}
	if h.Away > 0 {
		o.at(opening(o.clock.Add(h.Away)), func() error { return o.discharge(h.Person, h) })
	}
	return nil
}

// fetch brings a cylinder from the ward to the depot.
func (o *office) fetch(i *truth.Item) error {
	if _, err := o.do("porter", delivery.Move{Item: i.ID, To: inventory.At(inventory.AtDepot, fate.Depot)}); err != nil {
		return err
	}
	i.Place = inventory.At(inventory.AtDepot, fate.Depot)
	_, err := o.do("warehouse", delivery.Read{Item: i.ID, Gauge: o.read(i, fate.MisreadsUs, "fetched")})
	return err
}

// die records a death.
func (o *office) die(h *truth.Home) error {
	_, err := o.try(fate.Desk, delivery.Die{
		Person: h.ID, ToldBy: "ward", Contact: "daughter", Phone: "555-0177", NotBefore: o.clock.Add(5 * 24 * time.Hour),
	})
	return err
}

// goOut is a trip: the person leaves with the cylinders, unless the gauge says
// that there is little in them.
func (o *office) goOut(h *truth.Home, n int, trip fate.Trip) error {
	if h.Source != truth.Machine || o.clock.Before(h.At) {
		return nil
	}
	h.Reckon(o.clock)
	if h.Gas() < low(h) {
		return nil // they look at the gauge and stay at home
	}
	h.Breathe(o.clock, truth.Cylinder, truth.Trip)
	o.tally.Trips++
	back := o.clock.Add(trip.Lasts)
	if dry := h.Until(0); dry.Before(back) { // they turn round, and are half an hour from home
		back = earlier(back, dry.Add(30*time.Minute))
	}
	o.at(back, func() error {
		if h.Source != truth.Cylinder || h.Why != truth.Trip {
			return nil
		}
		h.Reckon(o.clock)
		if h.Concentrator() == nil || o.dark(h) {
			h.Breathe(o.clock, truth.Cylinder, truth.Outage)
			o.watchGas(h)
			return nil
		}
		o.backOnMachine(h)
		return nil
	})
	return nil
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// backOnMachine puts a person on the concentrator. Now and then the valve of
// the cylinder stays open.
func (o *office) backOnMachine(h *truth.Home) {
	used := h.InUse()
	h.Breathe(o.clock, truth.Machine, "")
	if used != nil && o.season.Happens(fate.Forgets, "valve", h.N, h.Spells) {
		used.Open = true
	}
}

// low is the gas at which somebody looks worried at a gauge: a quarter of one
// cylinder (a public scheme's power plan says to order at about a quarter,
// Queensland Health, 2014).
func low(h *truth.Home) float64 {
	for _, i := range h.Kit {
		if i.Kind == inventory.Cylinder {
			return float64(i.Size.Contents) / 4
		}
	}
	return 0
}

// watchGas tells when the gas of a person on the cylinder is low, and when it is
// gone: people ring then, or do not.
func (o *office) watchGas(h *truth.Home) {
	if h.Source != truth.Cylinder || h.Why == truth.Trip {
		return
	}
	spell, why := h.Spells, h.Why
	check := func(litres float64, chance float64, what string) {
		at := h.Until(litres)
		o.at(at.Add(time.Minute), func() error {
			if h.Source != truth.Cylinder || h.Spells != spell || h.Why != why {
				return nil
			}
			h.Reckon(o.clock)
			if h.Gas() > litres+1e-3 || !o.once(what, h.N, spell, len(h.Kit), at.Unix()/600) {
				return nil // more was brought
			}
			d := o.season.Dice(what, h.N, spell)
			if d.Float64() >= chance {
				return nil
			}
			o.at(o.clock.Add(time.Duration(3+10*d.Float64())*time.Minute), func() error { return o.rings(h, what) })
			return nil
		})
	}
	if l := low(h); h.Gas() > l {
		check(l, fate.CallsLow, "low")
	}
	check(0, fate.CallsDry, "dry")
}

// once reports whether something is told for the first time.
func (o *office) once(parts ...any) bool {
	key := keyOf(parts...)
	o.asked[key]++
	return o.asked[key] == 1
}
