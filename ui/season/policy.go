package season

import (
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// policy decides who is visited and who is called, and when. Everything else is
// the same work for every policy.
type policy interface {
	name() string
	// look is the desk looking up from its work, each half hour it is open.
	look(o *office) error
	// promises chooses the slot of the van that brings the kit of somebody who
	// leaves the ward.
	promises(slots []delivery.Slot) delivery.Slot
	// waitsAtDoor is how long the driver waits at most for somebody who will be home
	// from the ward so much later.
	waitsAtDoor(o *office, h *truth.Home, later time.Duration) time.Duration
	// rang is somebody on the cylinder who called; dry: nothing is left.
	rang(o *office, h *truth.Home, dry bool) error
	// again is when a visit that fails now is tried once more; missed is one that
	// has failed.
	again(o *office, w delivery.Watch) time.Time
	missed(o *office, h *truth.Home) error
	// darkened is a power cut that became known, relit one that is over.
	darkened(o *office, cut inventory.FactID) error
	relit(o *office, cut inventory.FactID, c fate.Cut) error
}

// The names of the policies.
const (
	Textbook = "textbook"
	Interval = "interval"
	Lungwort = "lungwort"
)

// Policies lists them in the order in which they are compared.
func Policies() []string { return []string{Textbook, Interval, Lungwort} }

func policyOf(name string) policy {
	switch name {
	case Textbook:
		return textbook{new(callList)}
	case Interval:
		return interval{new(callList)}
	}
	return lungwort{}
}

// settingsOf returns the settings of the programme under a policy. Only who goes
// by the program lets its planner weigh which collections can wait for a van that
// comes near.
func settingsOf(name string) delivery.Programme {
	p := fate.Programme()
	if name == Lungwort {
		p.CollectWait = 2 * 24 * time.Hour
	}
	return p
}

// halfHour is between two looks of the desk.
const halfHour = 30 * time.Minute

// isLook reports whether it is the look of an hour of the day.
func (o *office) isLook(at time.Duration) bool {
	since := o.clock.Sub(midnight(o.clock))
	return since >= at && since < at+halfHour
}

// callable reports whether the desk has time for another call in this look.
func (o *office) callable() bool {
	if o.busy.Before(o.clock) {
		o.busy = o.clock
	}
	if o.busy.Sub(o.clock) > halfHour-aCall {
		return false
	}
	o.busy = o.busy.Add(aCall)
	return true
}

// gasFor is how many full cylinders a visit brings to somebody, by what they
// have it for.
func (o *office) gasFor(c delivery.Care) int {
	_, highest := c.Flow()
	_, machine := c.Concentrator()
	switch {
	case c.Breathes == delivery.FromCylinder && !machine:
		return o.fullFor("US-H", highest, lasting)
	case c.Breathes == delivery.FromCylinder:
		return min(mostBridge, o.fullFor("US-E", highest, 2*o.settings.BackupHours))
	}
	return o.backups(highest)
}

// lasting is for how long gas is brought to a home that lives on the cylinder.
const lasting = 48 * time.Hour

// morning is by when the first van of the next day is surely there.
const morning = 11 * time.Hour

// send puts the visit on a van that comes by a time, else sends the duty car.
func (o *office) send(h *truth.Home, w delivery.Watch, by time.Time) error {
	sent, err := o.van(h, w, by)
	if err != nil || sent {
		return err
	}
	return o.emergency(h)
}

// van puts the visit on a van that comes by a time, and reports whether there is
// one.
func (o *office) van(h *truth.Home, w delivery.Watch, by time.Time) (bool, error) {
	if !w.Visit.IsZero() || !open(o.clock) || !by.After(o.clock) {
		return false, nil
	}
	board, err := o.desk.Board(o.ctx, o.clock)
	if err != nil {
		return false, err
	}
	stop, on := board.StopOf(h.ID)
	if !on || !board.Waits(stop) {
		return false, nil
	}
	slots := board.Slots(stop)
	if len(slots) == 0 || slots[0].Arrive.After(by) {
		return false, nil
	}
	// A van may be late: the one with the least driving has time to spare.
	if by = by.Add(-spare); slots[0].Arrive.After(by) {
		by = slots[0].Arrive
	}
	return o.try(fate.Desk, delivery.TakeSlot{Person: h.ID, By: by})
}

// spare is how long before the gas ends a van is wanted that could come sooner.
const spare = time.Hour

// everything wants each errand driven.
func everything(delivery.Errand) bool { return true }
