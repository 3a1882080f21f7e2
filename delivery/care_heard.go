package delivery

import (
	"slices"
	"time"

	"lungwort/inventory"
)

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
