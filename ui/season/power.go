package season

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// cut lets a power cut happen: what the company foretold, what it does to the
// homes on the line, and when power is back.
func (o *office) cut(c fate.Cut) {
	known := inventory.FactID(0)
	enter := func(until time.Time) func() error {
		return func() error {
			if known != 0 || !o.clock.Before(c.Until) {
				return nil
			}
			act := delivery.Outage{By: delivery.ByLine, Area: c.Line, From: c.From, Until: until, Cause: "power company"}
			out, err := o.desk.Do(o.ctx, o.hand(fate.Desk), act)
			if err != nil {
				return nil // nobody of ours lives on that line yet
			}
			known = out.Facts[0].ID
			o.cuts[known] = true
			return o.policy.darkened(o, known)
		}
	}
	if c.Foretold.IsZero() {
		o.at(c.Heard, enter(time.Time{}))
	} else {
		o.at(c.From.Add(-16*time.Hour), enter(c.Foretold))
	}
	o.at(c.From, func() error { return o.goDark(c, enter(time.Time{})) })
	o.at(c.Until, func() error { return o.lightAgain(c) })
	o.at(c.Until.Add(10*time.Minute), func() error {
		if known == 0 {
			return nil
		}
		delete(o.cuts, known)
		if _, err := o.do(fate.Desk, delivery.PowerReturned{Cut: known}); err != nil {
			return err
		}
		return o.policy.relit(o, known, c)
	})
}

// goDark puts everybody on the line who is on the machine on the cylinder. The
// first who calls tells the desk of the cut.
func (o *office) goDark(c fate.Cut, enter func() error) error {
	for _, h := range o.order {
		if h.Line != c.Line || h.Source != truth.Machine {
			continue
		}
		h.Breathe(o.clock, truth.Cylinder, truth.Outage)
		o.watchGas(h)
		chance := fate.CallsCut
		if !open(o.clock) {
			chance = fate.CallsNight
		}
		d := o.season.Dice("dark", h.N, c.N)
		if d.Float64() >= chance {
			continue
		}
		o.at(o.clock.Add(time.Duration(5+55*d.Float64())*time.Minute), func() error {
			if h.Source != truth.Cylinder || h.Why != truth.Outage {
				return nil
			}
			if err := enter(); err != nil {
				return err
			}
			return o.rings(h, "all there is: the power is out")
		})
	}
	return nil
}

// lightAgain puts everybody back on the machine.
func (o *office) lightAgain(c fate.Cut) error {
	for _, h := range o.order {
		if h.Line != c.Line || h.Source != truth.Cylinder || h.Why != truth.Outage {
			continue
		}
		h.Reckon(o.clock)
		if h.Concentrator() != nil {
			o.backOnMachine(h)
			continue
		}
		h.Breathe(o.clock, truth.Cylinder, truth.Fault)
		o.watchGas(h)
	}
	return nil
}
