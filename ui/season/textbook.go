package season

import (
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// textbook goes through all homes once a morning with the rule of the
// respiratory-therapy textbooks, (gauge − 200 psi) × factor ÷ flow, at the flow
// ordered, and drives where it says that the gas ends before the next morning's
// van. Who calls is helped by the same rule.
type textbook struct{ calls *callList }

func (textbook) name() string { return Textbook }

// usual is the residual left in a cylinder by the rule.
const usual = 200 // psi

// minutesOf is what the rule says of the cylinders somebody has, as they were
// read last.
func minutesOf(c delivery.Care) (minutes float64, read time.Time) {
	if c.Order == nil {
		return 0, time.Time{}
	}
	for _, h := range c.Kit {
		size, known := gas.LookUp(h.Spec.Size)
		if h.Gauge == nil || !known {
			continue
		}
		factor := size.Factor
		if factor == 0 {
			factor = float64(size.Contents) / size.Service.PSI()
		}
		minutes += max(0, h.Gauge.Value.PSI()-usual) * factor / float64(c.Order.Rest)
		if read.IsZero() {
			read = h.Gauge.At
		}
	}
	return minutes, read
}

// ends is when the gas of somebody on the cylinder ends by the rule.
func ends(c delivery.Care, now time.Time) time.Time {
	m, read := minutesOf(c)
	if read.IsZero() {
		return now
	}
	if c.Switched.After(read) {
		read = c.Switched
	}
	return read.Add(time.Duration(m * float64(time.Minute)))
}

// wants reports whether the rule asks for gas before the next morning's van.
func (t textbook) wants(o *office, w delivery.Watch) bool {
	c := w.Care
	if c.Breathes == delivery.FromCylinder {
		return ends(c, o.clock).Before(tomorrow(o.clock, morning))
	}
	m, read := minutesOf(c)
	need := o.settings.BackupHours
	for _, cut := range w.Cuts {
		if cut.From.Before(tomorrow(o.clock, morning)) && !cut.Until.IsZero() {
			need = max(need, cut.Until.Sub(cut.From))
		}
	}
	for _, trip := range c.Trips {
		if trip.From.After(o.clock) && trip.From.Before(tomorrow(o.clock, morning)) {
			need = max(need, trip.Until.Sub(trip.From))
		}
	}
	return !read.IsZero() && m < need.Minutes()
}

func (t textbook) look(o *office) error {
	if o.isLook(deskOpens) {
		if err := t.daily(o); err != nil {
			return err
		}
	}
	return t.calls.work(o)
}

// daily is the look through all homes.
func (t textbook) daily(o *office) error {
	rows, err := o.desk.Watch(o.ctx, o.clock)
	if err != nil {
		return err
	}
	wanted := make(map[inventory.PersonID]bool)
	for _, w := range rows {
		if wanted[w.Person.ID] = t.wants(o, w); !wanted[w.Person.ID] || !w.Visit.IsZero() {
			continue
		}
		if _, err := o.gasTask(o.homes[w.Person.ID], w.Care, "textbook minutes", o.gasFor(w.Care)); err != nil {
			return err
		}
	}
	return o.plan(func(e delivery.Errand) bool { return wanted[e.Person.ID] || !onlyBackup(e.Care) })
}

// onlyBackup reports whether nothing is open but what the program opened because
// of a low backup: only who goes by the program drives for that.
func onlyBackup(c delivery.Care) bool {
	return !slices.ContainsFunc(c.Tasks, func(t delivery.OpenTask) bool { return !t.Backup })
}

func (t textbook) rang(o *office, h *truth.Home, dry bool) error {
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil || !w.Care.Watched() {
		return err
	}
	by := ends(w.Care, o.clock)
	if !dry && by.After(tomorrow(o.clock, morning)) {
		return nil
	}
	if _, err := o.gasTask(h, w.Care, "textbook minutes", o.gasFor(w.Care)); err != nil {
		return err
	}
	if !dry && !w.Visit.IsZero() && w.Visit.Before(by) && w.Visit.After(o.clock) {
		return nil
	}
	return o.send(h, w, by)
}

// A visit that failed is seen at the next daily look.
func (textbook) again(o *office, _ delivery.Watch) time.Time {
	return tomorrow(o.clock, deskOpens)
}

func (textbook) missed(*office, *truth.Home) error               { return nil }
func (textbook) darkened(*office, inventory.FactID) error        { return nil }
func (textbook) relit(*office, inventory.FactID, fate.Cut) error { return nil }

func (textbook) promises(slots []delivery.Slot) delivery.Slot { return slots[0] }

func (textbook) waitsAtDoor(*office, *truth.Home, time.Duration) time.Duration { return patience }
