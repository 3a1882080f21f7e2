package season

import (
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
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
	if w.Care.Phase == delivery.OnBridge && !w.Visit.IsZero() && !w.Visit.After(by) && w.Verdict.Rank() > depletion.Unknown.Rank() {
		return false, nil // the machine is on its way, and in time
	}
	return o.gasTask(o.homes[w.Person.ID], w.Care, "act-by "+by.Format("Mon 15:04"), l.brings(o, w))
}

// brings is how many full cylinders the program says the visit has to bring, and
// never fewer than make the backup whole.
func (lungwort) brings(o *office, w delivery.Watch) int {
	return max(w.More.Count, o.gasFor(w.Care))
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
	switch w.Forecast.ActByCause {
	case depletion.CauseTrip: // no car is sent after somebody who can put off a trip
		_, err = o.van(h, w, by)
	case depletion.CauseBackup:
		if w.Visit.IsZero() && by.Before(tomorrow(o.clock, morning-halfHour)) && !o.isLook(deskOpens) {
			_, err = o.try(fate.Desk, delivery.TakeSlot{Person: h.ID, By: tomorrow(o.clock, 0)})
		}
	default:
		err = l.send(o, h, w, by)
	}
	return err
}

// send sends a van, else the duty car, which waits as long as it was agreed that
// nobody is there.
func (l lungwort) send(o *office, h *truth.Home, w delivery.Watch, by time.Time) error {
	sent, err := o.van(h, w, by)
	if err != nil || sent {
		return err
	}
	for _, t := range w.Care.Tasks {
		if leaves := t.From.Add(-halfHour); leaves.After(o.clock) && t.From.Before(by) {
			o.at(leaves, func() error { return l.missed(o, h) })
			return nil
		}
	}
	return o.emergency(h)
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
	if len(w.Cuts) > 0 && w.ActBy().After(o.clock.Add(ahead)) {
		return nil // looked at again each quarter of an hour until power is back
	}
	return l.provide(o, w)
}

// longestWait is how long somebody on the cylinder waits for the next try at
// most.
const longestWait = 3 * time.Hour

// again lets a van come back to somebody on the cylinder half way to act-by:
// they are given time to come home, and the van time to come a third time.
func (lungwort) again(o *office, w delivery.Watch) time.Time {
	left := w.ActBy().Sub(o.clock)
	if w.Care.Breathes != delivery.FromCylinder || left <= 0 {
		return tomorrow(o.clock, deskOpens)
	}
	return o.clock.Add(min(left/2, longestWait).Round(time.Minute))
}

// missed sees to it that a van comes before act-by after all.
func (l lungwort) missed(o *office, h *truth.Home) error {
	w, err := o.desk.WatchOne(o.ctx, h.ID, o.clock)
	if err != nil || !w.Care.Watched() {
		return err
	}
	return l.provide(o, w)
}

// bridged is for how long after the soonest van a kit may come: the bridge is
// made to last until then.
const bridged = 120 * time.Minute

// promises chooses the slot with the least driving: who goes home with gas for
// hours need not have a van of their own.
func (lungwort) promises(slots []delivery.Slot) delivery.Slot {
	least, _ := delivery.LeastDriving(slots, slots[0].Arrive.Add(bridged))
	return least
}

// waitsAtDoor follows the card for a locked door: the driver calls, knocks, and
// goes on where it will be long.
func (lungwort) waitsAtDoor(o *office, h *truth.Home, later time.Duration) time.Duration {
	if later <= knocking {
		return knocking
	}
	o.tally.Calls++
	if later > halfHour && o.season.Happens(fate.AnswersCut, "from the door", h.N, o.clock.YearDay()) {
		return knocking
	}
	return patience
}
