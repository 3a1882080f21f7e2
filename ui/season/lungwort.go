package season

import (
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// lungwort does what the program says: its watch list, its act-by times, its
// calls, its list in a power cut.
type lungwort struct{}

func (lungwort) name() string { return Lungwort }

func (l lungwort) look(o *office) error {
	rows, err := o.desk.Watch(o.ctx, o.clock)
	if err != nil {
		return err
	}
	if o.isLook(deskOpens) { // what is needed today goes on the day's plan
		for _, w := range rows {
			if _, err := l.needs(o, w); err != nil {
				return err
			}
		}
		if err := o.plan(everything); err != nil {
			return err
		}
		if rows, err = o.desk.Watch(o.ctx, o.clock); err != nil {
			return err
		}
	}
	for _, w := range rows {
		if err := l.provide(o, w); err != nil {
			return err
		}
	}
	for _, c := range delivery.DueCalls(o.settings, rows, o.clock) {
		if !o.callable() {
			break
		}
		if _, err := o.call(o.homes[c.Person.ID]); err != nil {
			return err
		}
	}
	return nil
}

// needs reports whether a visit with gas has to be there before the next
// morning's van by the program's act-by, and sees to it that one is open.
func (l lungwort) needs(o *office, w delivery.Watch) (bool, error) {
	by := w.ActBy()
	if !w.Forecast.Known || by.IsZero() || by.After(tomorrow(o.clock, morning)) {
		return false, nil
	}
	if w.Care.Phase == delivery.OnBridge && w.Care.Has(delivery.Deliver) && w.Verdict.Rank() > depletion.Unknown.Rank() {
		return false, nil // the machine is on its way, and in time
	}
	return o.gasTask(o.homes[w.Person.ID], w.Care, "act-by "+by.Format("Mon 15:04"), o.gasFor(w.Care))
}

// provide sees to it that a van is there by act-by, else the duty car. A backup
// that is low waits for a van: nobody breathes from it.
func (l lungwort) provide(o *office, w delivery.Watch) error {
	by := w.ActBy()
	needs, err := l.needs(o, w)
	if err != nil || !needs {
		return err
	}
	h := o.homes[w.Person.ID]
	if !w.Visit.IsZero() && !w.Visit.After(by) && w.Visit.After(o.clock.Add(-time.Hour)) {
		return nil
	}
	if w.Forecast.ActByCause != depletion.CauseBackup {
		return o.send(h, w, by)
	}
	if w.Visit.IsZero() && by.Before(tomorrow(o.clock, morning-halfHour)) && !o.isLook(deskOpens) {
		_, err = o.try(fate.Desk, delivery.TakeSlot{Person: h.ID})
	}
	return err
}

func (l lungwort) rang(o *office, h *truth.Home, dry bool) error {
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil || !w.Care.Watched() {
		return err
	}
	if dry || w.Verdict == depletion.Unknown || w.Verdict == depletion.Dry {
		if _, err := o.gasTask(h, w.Care, "gas is gone", o.gasFor(w.Care)); err != nil {
			return err
		}
		return o.emergency(h)
	}
	return l.provide(o, w)
}

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
		if i := h.InUse(); i != nil && i == o.firstInBook(h) && act.Found == delivery.FoundBackup {
			act.Gauge = o.read(i, fate.Misreads, "dark", h.N, o.clock.YearDay(), n)
		}
		if h.Saving() {
			act.Found, act.Flow = delivery.FoundSaving, new(h.Tells*gas.Flow(truth.Kept))
		}
	}
	_, err := o.try(fate.Desk, act)
	return err
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
