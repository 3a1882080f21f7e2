// Package stocking says whether there will be enough of each kind and size of
// thing in the next two weeks, when it runs short, and what helps most. It
// puts the book's loans and shelves before the computation of
// inventory/outlook. It is pure.
package stocking

import (
	"time"

	"lungwort/inventory"
	"lungwort/inventory/outlook"
)

// Cycle is one loan of one thing from the shelf back to the shelf. A zero
// time has not come yet.
type Cycle struct {
	Item   inventory.ItemID
	Person inventory.PersonID
	Set    time.Time // aside for the person; zero: it was handed over from the shelf
	Lent   time.Time
	Idle   time.Time // not needed any more in the home
	Back   time.Time // taken from the person
	Ready  time.Time // to be lent again
	Lost   time.Time // missing or retired: it will not be ready from this cycle
}

// Stage is a part of a cycle.
type Stage string

// The stages of a cycle, in their order.
const (
	Waiting    Stage = "waiting"    // set aside, not yet handed over
	Oxygen     Stage = "oxygen"     // with a person who needs it
	Idle       Stage = "idle"       // in a home where it is not needed
	Turnaround Stage = "turnaround" // collected, cleaned, tested, refilled
)

// Stages lists the stages in their order.
var Stages = []Stage{Waiting, Oxygen, Idle, Turnaround}

// Cycles returns the loans in the course of one item, oldest first.
func Cycles(item inventory.ItemID, course []inventory.Span) []Cycle {
	var done []Cycle
	var now *Cycle
	var set time.Time
	for _, s := range course {
		lent := inventory.Item{State: s.State}.Lent()
		if now != nil && lent && (now.Person != s.Person || !now.Back.IsZero()) {
			done = append(done, now.passedOn(s.From))
			now = nil
		}
		switch {
		case lent && now == nil:
			now = &Cycle{Item: item, Person: s.Person, Set: set, Lent: s.From}
			now.need(s)
		case lent:
			now.need(s)
		case now != nil:
			now.leave(s)
			if !now.Ready.IsZero() || !now.Lost.IsZero() {
				done, now = append(done, *now), nil
			}
		}
		set = time.Time{}
		if s.State == inventory.Held {
			set = s.From
		}
	}
	if now != nil {
		done = append(done, *now)
	}
	return done
}

// need notes whether a lent thing is needed. What is needed again was not
// idle.
func (c *Cycle) need(s inventory.Span) {
	if s.State != inventory.Idle {
		c.Idle = time.Time{}
	} else if c.Idle.IsZero() {
		c.Idle = s.From
	}
}

// leave notes what happened to a thing that is with no person.
func (c *Cycle) leave(s inventory.Span) {
	switch s.State {
	case inventory.Missing, inventory.Gone:
		c.Lost = s.From
		return
	case inventory.Ready, inventory.Held:
		c.Ready = s.From
	}
	if c.Back.IsZero() {
		c.Back = s.From
	}
}

// passedOn ends a cycle of a thing that went on to the next person without
// seeing a shelf.
func (c *Cycle) passedOn(at time.Time) Cycle {
	if c.Back.IsZero() {
		c.Back = at
	}
	c.Ready = at
	return *c
}

// Begin returns when a stage began; zero when it did not.
func (c Cycle) Begin(s Stage) time.Time {
	return map[Stage]time.Time{Waiting: c.Set, Oxygen: c.Lent, Idle: c.Idle, Turnaround: c.Back}[s]
}

// End returns when a stage was over; zero when it is not.
func (c Cycle) End(s Stage) time.Time {
	switch s {
	case Waiting:
		return c.Lent
	case Oxygen:
		if !c.Idle.IsZero() {
			return c.Idle
		}
		return c.Back
	case Idle:
		return c.Back
	}
	return c.Ready
}

// Stage returns the stage a cycle is in, and when it began; false when it is
// over.
func (c Cycle) Stage() (Stage, time.Time, bool) {
	for i := len(Stages) - 1; i >= 0; i-- {
		if from := c.Begin(Stages[i]); !from.IsZero() {
			return Stages[i], from, c.Ready.IsZero() && c.Lost.IsZero()
		}
	}
	return Oxygen, c.Lent, false
}

// Stay returns how long the cycle was in a stage, and false when it never was.
// What is lost or still there is known to have lasted longer.
func (c Cycle) Stay(s Stage, now time.Time) (outlook.Stay, bool) {
	return c.between(c.Begin(s), c.End(s), now)
}

// UntilReady returns how long it took from the begin of a stage until the
// thing was ready again.
func (c Cycle) UntilReady(s Stage, now time.Time) (outlook.Stay, bool) {
	return c.between(c.Begin(s), c.Ready, now)
}

func (c Cycle) between(from, to, now time.Time) (outlook.Stay, bool) {
	if from.IsZero() || from.After(now) {
		return outlook.Stay{}, false
	}
	ended := !to.IsZero()
	if !ended {
		to = now
		if !c.Lost.IsZero() {
			to = c.Lost
		}
	}
	return outlook.Stay{Length: max(0, outlook.Days(to.Sub(from).Hours()/24)), Ended: ended}, true
}
