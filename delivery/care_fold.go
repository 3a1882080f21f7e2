package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// FoldCare returns what the facts about one person, and about every item the
// person ever had, say of the person, whatever order they come in.
func FoldCare(id inventory.PersonID, facts []inventory.Fact) Care {
	c := Care{Person: id, Phase: Known, read: make(map[inventory.ItemID]*inventory.Seen[gas.Pressure])}
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

// kit applies the statements about items on loan to the person.
func (c *Care) kit(f inventory.Fact) {
	switch s := f.Statement.(type) {
	case *inventory.Lent:
		c.drop(f)
		if f.Person == c.Person {
			c.Kit = append(c.Kit, Holding{Item: f.Item, Spec: s.Spec, Role: s.Role, Since: f.Happened, Gauge: c.read[f.Item]})
		}
	case *inventory.Handed:
		c.drop(f)
		if f.Person == c.Person {
			c.Kit = append(c.Kit, Holding{Item: f.Item, Spec: s.Spec, Role: s.Role, Since: f.Happened, Gauge: c.read[f.Item]})
		}
	case *inventory.Serving:
		if h := c.holding(f.Item); h != nil && f.Person == c.Person {
			h.Role = s.As
		}
	case *inventory.Observed:
		c.observe(s, f)
	case *inventory.Filled:
		delete(c.read, f.Item)
	case *inventory.Collected, *inventory.Returned, *inventory.LeftAt, *inventory.Cleared, *inventory.Moved:
		c.drop(f)
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

// bookBreathing adds the time since the last switch to the cylinder in use.
func (c *Care) bookBreathing(until time.Time) {
	if c.Breathes != FromCylinder {
		return
	}
	for i := range c.Kit {
		h := &c.Kit[i]
		if h.Spec.Kind != inventory.Cylinder {
			continue
		}
		since := later(c.Switched, h.Opened)
		if h.Gauge != nil {
			since = later(since, h.Gauge.At)
		}
		if until.After(since) {
			h.Breathed += until.Sub(since)
		}
		return // one cylinder is breathed from at a time
	}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func (c *Care) hear(s *Called, f inventory.Fact) {
	if s.Cut != 0 {
		c.hearInCut(s, f)
	}
	if !s.Answered {
		if c.Tried == 0 {
			c.FirstTry = f.Happened
		}
		c.Tried, c.LastTry = c.Tried+1, f.Happened
		return
	}
	c.Tried, c.FirstTry, c.LastTry = 0, time.Time{}, time.Time{}
	c.bringAlong(s.Parts)
	check := Check{At: f.Happened, Called: *s}
	c.LastCall = &check
	if s.Cut == 0 { // a call about a power cut is no check-in
		c.Heard++
	}
	c.remember(check)
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

// remembered is how many calls are kept at hand.
const remembered = 8

// remember keeps a call at hand. Of the older ones those stay that somebody
// still has to be told of.
func (c *Care) remember(k Check) {
	c.Checks = append(c.Checks, k)
	for i := 0; len(c.Checks) > remembered && i < len(c.Checks)-remembered; {
		if c.open(c.Checks[i]) {
			i++
			continue
		}
		c.Checks = slices.Delete(c.Checks, i, i+1)
	}
}

// open reports whether a call told of something nobody has heard of yet.
func (c *Care) open(k Check) bool {
	untold := func(m Matter) bool { return k.At.After(c.Told[m]) }
	return k.Band == Emergency && untold(InEmergency) || k.Band == Borderline && untold(InBorderline) ||
		k.Saving && untold(SavingGas) || k.Flow != nil && (untold(AboveOrder) || untold(BelowOrder)) && c.unlike(k)
}

// unlike reports whether the flow of a call is not the one in the order.
func (c *Care) unlike(k Check) bool {
	return c.Order == nil || k.highest() > c.Order.Highest() || *k.Flow < c.Order.Rest
}

func (c *Care) escalate(s *Escalated, f inventory.Fact) {
	if c.Told == nil {
		c.Told = make(map[Matter]time.Time)
	}
	for _, m := range s.About {
		c.Told[m] = f.Happened
	}
}

func (c *Care) observe(s *inventory.Observed, f inventory.Fact) {
	h := c.holding(f.Item)
	if s.Gauge != nil {
		seen := &inventory.Seen[gas.Pressure]{Value: *s.Gauge, At: f.Happened, Told: s.Told, Fact: f.ID, Temperature: s.Temperature}
		if c.read != nil {
			c.read[f.Item] = seen
		}
		if h != nil {
			c.learn(*h, seen)
			h.Gauge, h.Breathed = seen, 0
		}
	}
	if h == nil {
		return
	}
	if s.Hours != nil {
		h.Hours = &inventory.Seen[float64]{Value: *s.Hours, At: f.Happened, Told: s.Told, Fact: f.ID}
		if h.From == nil {
			h.From = h.Hours
		}
	}
}

// Readings further apart than a spell of breathing teach how the person uses
// gas; shorter ones only how well a gauge is read.
const (
	leastSpell = 10 * time.Minute
	mostUses   = 8 // kept, the newest
)

// learn keeps what the gauge of a cylinder fell while it was breathed from.
func (c *Care) learn(h Holding, now *inventory.Seen[gas.Pressure]) {
	if h.Gauge == nil || !now.At.After(h.Gauge.At) {
		return
	}
	took := h.Breathed
	if i := inUse(*c); c.Breathes == FromCylinder && i >= 0 && c.Kit[i].Item == h.Item {
		took += max(0, now.At.Sub(later(h.Gauge.At, later(c.Switched, h.Opened))))
	}
	if took < leastSpell {
		return
	}
	c.Uses = append(c.Uses, Breathed{Size: h.Spec.Size, Before: *h.Gauge, After: *now, Took: took})
	if extra := len(c.Uses) - mostUses; extra > 0 {
		c.Uses = slices.Delete(c.Uses, 0, extra)
	}
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

func (c *Care) holding(id inventory.ItemID) *Holding {
	for i := range c.Kit {
		if c.Kit[i].Item == id {
			return &c.Kit[i]
		}
	}
	return nil
}

// drop takes a thing out of the kit. The next cylinder is breathed from when
// the one in use goes; where the machine in use goes, it is not known any more
// what the person breathes from.
func (c *Care) drop(f inventory.Fact) {
	i := slices.IndexFunc(c.Kit, func(h Holding) bool { return h.Item == f.Item })
	if i < 0 {
		return
	}
	used, gone := inUse(*c), c.Kit[i]
	c.Kit = slices.Delete(c.Kit, i, i+1)
	switch {
	case c.Breathes == FromCylinder && i == used:
		if next := inUse(*c); next >= 0 {
			c.Kit[next].Opened = f.Happened
		}
	case c.Breathes == FromConcentrator && gone.Spec.Kind == inventory.Concentrator:
		if _, other := c.Concentrator(); !other {
			c.doubt(f, "the concentrator went and none was left")
			c.Breathes, c.Switched = FromNothing, f.Happened
		}
	}
}
