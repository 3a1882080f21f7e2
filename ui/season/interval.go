package season

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// interval brings full cylinders to each home on fixed days, whatever the gauges
// say: every week a backup, every second day what somebody without mains power
// breathes. Who calls gets the next van; who has run dry, the duty car.
type interval struct{ calls *callList }

func (interval) name() string { return Interval }

// The fixed days. Common practice, no source.
const (
	backupEvery = 7 * 24 * time.Hour
	livesOnGas  = 2 * 24 * time.Hour
)

func (v interval) look(o *office) error {
	if o.isLook(deskOpens) {
		if err := v.daily(o); err != nil {
			return err
		}
	}
	return v.calls.work(o)
}

// daily opens the visits of the day.
func (v interval) daily(o *office) error {
	rows, err := o.desk.Watch(o.ctx, o.clock)
	if err != nil {
		return err
	}
	due := make(map[inventory.PersonID]bool)
	for _, w := range rows {
		if due[w.Person.ID] = v.due(o, w); !due[w.Person.ID] || !w.Visit.IsZero() {
			continue
		}
		if _, err := o.gasTask(o.homes[w.Person.ID], w.Care, "fixed day", o.gasFor(w.Care)); err != nil {
			return err
		}
	}
	return o.plan(func(e delivery.Errand) bool { return due[e.Person.ID] || !onlyBackup(e.Care) })
}

// due reports whether the fixed day of a home has come: so long after the last
// cylinder was brought.
func (v interval) due(o *office, w delivery.Watch) bool {
	every, last := backupEvery, time.Time{}
	if o.homes[w.Person.ID].CylinderOnly {
		every = livesOnGas
	}
	for _, h := range w.Care.Kit {
		if h.Spec.Kind == inventory.Cylinder && h.Since.After(last) {
			last = h.Since
		}
	}
	return w.Care.Phase != delivery.OnBridge && !last.After(tomorrow(o.clock, deskOpens).Add(-every))
}

func (v interval) rang(o *office, h *truth.Home, dry bool) error {
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil || !w.Care.Watched() {
		return err
	}
	if _, err := o.gasTask(h, w.Care, "called", o.gasFor(w.Care)); err != nil {
		return err
	}
	if dry {
		return o.emergency(h)
	}
	if w.Visit.IsZero() && open(o.clock) {
		_, err := o.try(fate.Desk, delivery.TakeSlot{Person: h.ID})
		return err
	}
	return nil
}

func (interval) again(o *office, _ delivery.Watch) time.Time     { return tomorrow(o.clock, deskOpens) }
func (interval) missed(*office, *truth.Home) error               { return nil }
func (interval) darkened(*office, inventory.FactID) error        { return nil }
func (interval) relit(*office, inventory.FactID, fate.Cut) error { return nil }

func (interval) promises(slots []delivery.Slot) delivery.Slot { return slots[0] }

func (interval) waitsAtDoor(*office, *truth.Home, time.Duration) time.Duration { return patience }
