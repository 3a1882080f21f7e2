package delivery

import (
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// kit applies the statements about items on loan to the person.
func (c *Care) kit(f inventory.Fact) {
	switch s := f.Statement.(type) {
	case *inventory.Lent:
		c.drop(f)
		if f.Person == c.Person {
			c.Kit = append(c.Kit, c.come(f, s.Spec, s.Role))
		}
	case *inventory.Handed:
		c.drop(f)
		if f.Person == c.Person {
			c.Kit = append(c.Kit, c.come(f, s.Spec, s.Role))
		}
	case *inventory.Serving:
		if h := c.holding(f.Item); h != nil && f.Person == c.Person {
			h.Role = s.As
		}
	case *inventory.Described:
		if h := c.holding(f.Item); h != nil {
			h.Spec = s.Spec
		}
	case *inventory.Observed:
		c.observe(s, f)
	case *inventory.Filled:
		delete(c.read, f.Item)
	case *inventory.Collected, *inventory.Returned, *inventory.LeftAt, *inventory.Cleared, *inventory.Moved:
		c.drop(f)
	}
}

// come is a thing as it comes into the home, with what was read on it before.
func (c *Care) come(f inventory.Fact, spec inventory.Spec, role inventory.Role) Holding {
	last := c.read[f.Item]
	return Holding{Item: f.Item, Spec: spec, Role: role, Since: f.Happened, Gauge: last.gauge, Weight: last.weight}
}

// bookBreathing adds the time since the last switch to the cylinder in use.
func (c *Care) bookBreathing(until time.Time) {
	if c.Breathes != FromCylinder {
		return
	}
	i := inUse(*c) // one cylinder is breathed from at a time
	if i < 0 {
		return
	}
	h := &c.Kit[i]
	since := later(c.Switched, h.Opened)
	if h.Gauge != nil {
		since = later(since, h.Gauge.At)
	}
	if until.After(since) {
		h.Breathed += until.Sub(since)
	}
}

func (c *Care) observe(s *inventory.Observed, f inventory.Fact) {
	h := c.holding(f.Item)
	if s.Gauge != nil {
		seen := &inventory.Seen[gas.Pressure]{Value: *s.Gauge, At: f.Happened, Told: s.Told, Fact: f.ID, Temperature: s.Temperature}
		c.lastly(f.Item, func(last *lastRead) { last.gauge = seen })
		if h != nil {
			c.learn(*h, seen)
			was := *h
			h.Gauge, h.Breathed = seen, 0
			c.emptied(was, h)
		}
	}
	if s.Weight != nil {
		seen := &inventory.Seen[gas.Kilograms]{Value: *s.Weight, At: f.Happened, Told: s.Told, Fact: f.ID}
		c.lastly(f.Item, func(last *lastRead) { last.weight = seen })
		if h != nil {
			h.Weight = seen
		}
	}
	if h == nil {
		return
	}
	if s.Oxygen != nil {
		h.Oxygen = &inventory.Seen[float64]{Value: *s.Oxygen, At: f.Happened, Told: s.Told, Fact: f.ID}
	}
	if s.Hours != nil {
		h.Hours = &inventory.Seen[float64]{Value: *s.Hours, At: f.Happened, Told: s.Told, Fact: f.ID}
		if h.From == nil {
			h.From = h.Hours
		}
	}
}

// lastly keeps what was read, for when the thing comes into the home.
func (c *Care) lastly(id inventory.ItemID, take func(*lastRead)) {
	if c.read != nil {
		last := c.read[id]
		take(&last)
		c.read[id] = last
	}
}

// emptied keeps how a cylinder stood before it was read empty.
func (c *Care) emptied(was Holding, h *Holding) {
	switch {
	case !h.empty():
		h.Emptied = nil
	case c.Breathes == FromCylinder && was.Gauge != nil && !was.empty():
		h.Emptied = &Stood{Gauge: *was.Gauge, Breathed: was.Breathed}
	}
}

// unseen reports whether nobody knows since when a cylinder is breathed from:
// one before it was read empty after it was read itself.
func (c *Care) unseen(h Holding) bool {
	return slices.ContainsFunc(c.Kit[:slices.IndexFunc(c.Kit, func(k Holding) bool { return k.Item == h.Item })], func(k Holding) bool {
		return k.empty() && k.Gauge.At.After(h.Gauge.At)
	})
}

// Readings further apart than a spell of breathing teach how the person uses
// gas; shorter ones only how well a gauge is read.
const (
	leastSpell = 10 * time.Minute
	mostUses   = 8 // kept, the newest
)

// learn keeps what the gauge of a cylinder fell while it was breathed from.
func (c *Care) learn(h Holding, now *inventory.Seen[gas.Pressure]) {
	if h.Gauge == nil || !now.At.After(h.Gauge.At) || c.unseen(h) {
		return
	}
	took := h.Breathed
	if i := inUse(*c); c.Breathes == FromCylinder && i >= 0 && c.Kit[i].Item == h.Item {
		took += max(0, now.At.Sub(later(h.Gauge.At, later(c.Switched, h.Opened))))
	}
	if took < leastSpell {
		return
	}
	c.Uses = append(c.Uses, Breathed{Size: h.Spec.Size, Marked: h.Spec.Marked, Before: *h.Gauge, After: *now, Took: took})
	if extra := len(c.Uses) - mostUses; extra > 0 {
		c.Uses = slices.Delete(c.Uses, 0, extra)
	}
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
