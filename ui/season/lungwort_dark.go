package season

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// darkened calls everybody on the line in the program's order until power is
// back, and sends gas to whom it says it will not last.
func (l lungwort) darkened(o *office, cut inventory.FactID) error {
	if !o.cuts[cut] {
		return nil
	}
	cuts, err := o.desk.PowerCuts(o.ctx, o.clock)
	if err != nil {
		return err
	}
	for _, c := range cuts {
		if c.ID != cut {
			continue
		}
		if o.clock.Before(c.From) { // foretold: what is lacking goes with the vans
			o.at(c.From.Add(5*time.Minute), func() error { return l.darkened(o, cut) })
			return l.prepare(o, c)
		}
		if err := l.callRound(o, c); err != nil {
			return err
		}
		o.at(o.clock.Add(halfHour/2), func() error { return l.darkened(o, cut) })
	}
	return nil
}

// unknownEnd is for how long power is counted out where nobody knows.
const unknownEnd = 6 * time.Hour

// prepare opens a visit for each home that the program says is short.
func (l lungwort) prepare(o *office, c delivery.PowerCut) error {
	plan, err := o.desk.Outage(o.ctx, c, unknownEnd, o.clock)
	if err != nil {
		return err
	}
	for _, home := range plan.Homes {
		if home.Need == 0 {
			continue
		}
		if _, err := o.gasTask(o.homes[home.Person.ID], home.Care, "power cut foretold", home.Need); err != nil {
			return err
		}
	}
	return nil
}

// callRound makes the calls that are due in a power cut.
func (l lungwort) callRound(o *office, c delivery.PowerCut) error {
	plan, err := o.desk.Outage(o.ctx, c, unknownEnd, o.clock)
	if err != nil {
		return err
	}
	for _, home := range plan.Homes {
		h := o.homes[home.Person.ID]
		if !home.NextCall.After(o.clock) && o.callable() {
			if err := l.outageCall(o, h, c); err != nil {
				return err
			}
		}
		w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
		if err != nil {
			return err
		}
		if err := l.provideDark(o, h, w, home); err != nil {
			return err
		}
	}
	return nil
}

// ahead is how long before the gas ends the car is sent in a power cut: the
// rides, the loading and the calls before it.
const ahead = 2 * time.Hour

// provideDark sends gas in a power cut.
func (l lungwort) provideDark(o *office, h *truth.Home, w delivery.Watch, home delivery.OutageHome) error {
	by := w.ActBy()
	if by.IsZero() || by.After(o.clock.Add(ahead)) || w.Care.Breathes != delivery.FromCylinder && home.Contact.Found == delivery.FoundRunning {
		return nil
	}
	ok, err := o.gasTask(h, w.Care, "power cut", max(1, min(4, home.Need)))
	if err != nil || !ok {
		return err
	}
	if !w.Visit.IsZero() && w.Visit.Before(by) && w.Visit.After(o.clock) {
		return nil
	}
	return o.emergency(h)
}

// outageCall asks one home how it stands in a power cut.
func (l lungwort) outageCall(o *office, h *truth.Home, c delivery.PowerCut) error {
	o.tally.Calls++
	h.Reckon(o.clock)
	n := o.nth("dark call", h)
	d := o.season.Dice("dark call", h.N, o.clock.YearDay(), n)
	act := delivery.OutageCall{Person: h.ID, Cut: c.ID, Found: delivery.FoundNobody}
	if d.Float64() < fate.AnswersCut {
		act.Found = delivery.FoundBackup
		if h.Source == truth.Machine || h.Source == truth.Nothing {
			act.Found = delivery.FoundRunning
		}
		i, err := o.firstInBook(h)
		if err != nil {
			return err
		}
		if i != nil && act.Found == delivery.FoundBackup {
			act.Gauge = o.read(i, fate.Misreads, "dark", h.N, o.clock.YearDay(), n)
		}
		if h.Saving() {
			act.Found, act.Flow = delivery.FoundSaving, new(h.Tells*gas.Flow(truth.Kept))
		}
	}
	if done, err := o.try(fate.Desk, act); err != nil || !done {
		return err
	}
	return o.next(h, act.Gauge)
}

// relit asks each home that was on its backup to switch the machine on, and what
// the gauge shows.
func (l lungwort) relit(o *office, cut inventory.FactID, c fate.Cut) error {
	rows, err := o.desk.Watch(o.ctx, o.clock)
	if err != nil {
		return err
	}
	for _, w := range rows {
		if w.Address.Line == c.Line && w.Care.Breathes != delivery.FromNothing && !o.homes[w.Person.ID].CylinderOnly {
			if _, err := o.call(o.homes[w.Person.ID]); err != nil {
				return err
			}
		}
	}
	return nil
}
