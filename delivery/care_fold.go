package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/inventory"
)

// FoldCare returns what the facts about one person, and about every item the
// person ever had, say of the person, whatever order they come in.
func FoldCare(id inventory.PersonID, facts []inventory.Fact) Care {
	c := Care{Person: id, Phase: Known, read: make(map[inventory.ItemID]lastRead)}
	standing := inventory.Standing(facts)
	for _, f := range standing {
		if f.Person == id {
			c.apply(f)
		} else if f.Item != "" {
			c.kit(f)
		}
	}
	c.read, c.turn = nil, inventory.Fact{}
	c.answer(standing)
	return c
}

// answer puts what was answered to the questions about the person.
func (c *Care) answer(facts []inventory.Fact) {
	own := slices.DeleteFunc(facts, func(f inventory.Fact) bool { return f.Person != c.Person || f.Item != "" })
	answers := inventory.Answers(own)
	for n := range c.Questions {
		key := c.Questions[n].Key
		c.Questions[n].Answer = answers[key]
		delete(answers, key)
	}
	if len(answers) > 0 {
		c.Answers = answers
	}
}

func (c *Care) apply(f inventory.Fact) {
	switch s := f.Statement.(type) {
	case *Settled:
		c.settle(s, f)
	case *Consented:
		if c.Consents == nil {
			c.Consents = make(map[string]bool)
		}
		c.Consents[s.To] = s.Given
	case *Ordered:
		c.Order, c.OrderedAt = s, f.Happened
		c.Uses = nil // they were under another order
	case *Discharged:
		c.discharge(s)
		c.turn = f
	case *Switched:
		c.change(s, f)
	case *Called:
		c.hear(s, f)
	case *Escalated:
		c.escalate(s, f)
	case *Banded:
		c.Bands = s
	case *Tasked:
		if c.Phase != Over || s.Task == Collect { // after a stop nothing more is brought
			c.Tasks = append(c.Tasks, OpenTask{ID: f.ID, Opened: f.Happened, Tasked: *s})
		}
	case *Done:
		c.done(s)
	case *Promised:
		if i := slices.IndexFunc(c.Tasks, func(t OpenTask) bool { return t.ID == s.Task }); i >= 0 {
			c.Tasks[i].Until = s.By
		}
	case *Died:
		c.die(s, f)
	case *Readmitted:
		c.readmit(s, f)
	case *TripBooked:
		c.book(s, f)
	case *TripOff:
		c.offTrip(s, f)
	case *TubingLaid:
		c.Tubing = s.Metres
	case *Refused:
		c.Refusals = append(c.Refusals, Refusal{What: s.What, Why: s.Why, At: f.Happened, Again: s.Again})
	case *Chased:
		c.Chases = append(c.Chases, Attempt{At: f.Happened, Chased: *s})
	case *Proven:
		for _, id := range s.Items {
			if h := c.holding(id); h != nil {
				h.Proven = f.Happened
			}
		}
	case *Merged:
		c.become(Joined, f.Happened)
		c.breathe(FromNothing, f.Happened)
		c.turn = f
	case *Stopped:
		c.become(Over, f.Happened)
		c.StoppedBy = s.OrderedBy
		c.breathe(FromNothing, f.Happened)
		c.turn = f
	default:
		c.kit(f)
	}
}

func (c *Care) become(p Phase, at time.Time) {
	if c.Phase != p {
		c.Phase, c.Since = p, at
	}
}

func (c *Care) discharge(s *Discharged) {
	c.Discharge, c.StoppedBy, c.Heard, c.Hold = s, "", 0, nil
	c.become(OnBridge, s.Opened)
	c.breathe(FromCylinder, s.Opened)
}

// change records a switch. Only a discharge brings a person back once oxygen
// was stopped.
func (c *Care) change(s *Switched, f inventory.Fact) {
	if c.Phase == Over || c.Phase == InHospital {
		c.doubt(f, "was "+switched(s.To)+" after oxygen ended at home")
		return
	}
	c.turn = f
	c.breathe(s.To, f.Happened)
	if s.To == FromCylinder && c.Phase == OnBridge { // no concentrator is awaited
		c.become(CylinderNow, f.Happened)
	}
}

func (c *Care) doubt(f inventory.Fact, what string) {
	clash := inventory.Contradiction
	if c.turn.ID > f.ID {
		clash = inventory.LateFact
	}
	c.Questions = append(c.Questions, inventory.Ask(clash, what, f, c.turn))
	c.Doubts = append(c.Doubts, fmt.Sprintf("%s (%s)", what, f.Happened.Format("Mon 2 Jan 15:04")))
}

// breathe switches what the person breathes from, and books the time
// breathed from the cylinder in use until now.
func (c *Care) breathe(from Breathes, at time.Time) {
	c.bookBreathing(at)
	switch {
	case from == FromConcentrator:
		c.become(Running, at)
	case from == FromCylinder && c.Phase == Running:
		c.become(CylinderNow, at)
	}
	c.Breathes, c.Switched = from, at
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// bringAlong puts what a call asked for on the visit that is open already.
func (c *Care) bringAlong(parts string) {
	i := slices.IndexFunc(c.Tasks, func(t OpenTask) bool { return t.Tasked.Task != Collect })
	if parts == "" || i < 0 {
		return
	}
	if had := c.Tasks[i].Parts; had != "" {
		parts = had + "; " + parts
	}
	c.Tasks[i].Parts = parts
}

func (c *Care) done(s *Done) {
	i := slices.IndexFunc(c.Tasks, func(t OpenTask) bool { return t.ID == s.Task })
	if i < 0 {
		return
	}
	if s.Failed != "" {
		c.Tasks[i].Tries = append(c.Tasks[i].Tries, s.Failed)
		if !s.Next.IsZero() {
			c.Tasks[i].From = s.Next
		}
		return
	}
	c.Tasks = slices.Delete(c.Tasks, i, i+1)
}
