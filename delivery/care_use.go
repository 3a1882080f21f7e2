package delivery

import (
	"fmt"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// nearEmpty is a gauge that is not told from zero, and shows no gas to breathe
// from: common practice, no source.
var nearEmpty = gas.PSI(50)

// empty reports whether the cylinder was read empty.
func (h Holding) empty() bool {
	return h.Spec.Kind == inventory.Cylinder && h.Gauge != nil && h.Gauge.Value <= nearEmpty
}

// InUse returns the cylinder the person breathes from first.
func (c Care) InUse() (Holding, bool) {
	i := inUse(c)
	if i < 0 {
		return Holding{}, false
	}
	return c.Kit[i], true
}

// inUse returns the index of the cylinder breathed from first, or -1. Who
// breathes from the cylinder has left behind one that was read empty.
func inUse(care Care) int {
	first := -1
	for i, h := range care.Kit {
		switch {
		case h.Spec.Kind != inventory.Cylinder:
		case care.Breathes != FromCylinder || !h.empty():
			return i
		case first < 0:
			first = i
		}
	}
	return first
}

// next says which gauge to ask for when the one just told shows no gas.
func (c Care) next(told *gas.Pressure) string {
	if told == nil || *told > nearEmpty || c.Breathes != FromCylinder {
		return ""
	}
	first := inUse(c)
	for i, h := range c.Kit {
		if i > first && h.Spec.Kind == inventory.Cylinder && !h.empty() {
			return fmt.Sprintf("That one is empty: ask for the gauge of %s, the next.", h.Spec.Serial)
		}
	}
	return "That one is empty, and no other is recorded in the home."
}

// breathable returns the cylinders that can be breathed from, in order of use.
// For who has left an empty one behind nobody knows since when the next is
// open. As long as that was not read since, the empty one stands as it was read
// before, so that what was used in between is counted once.
func (c Care) breathable() []Holding {
	var list []Holding
	first := inUse(c)
	for i, h := range c.Kit {
		left := c.Breathes == FromCylinder && i < first && h.empty()
		switch {
		case h.Spec.Kind != inventory.Cylinder || h.Role == inventory.NotNeeded:
		case left && h.Emptied != nil && c.Kit[first].Gauge != nil && h.Gauge.At.After(c.Kit[first].Gauge.At):
			h.Gauge, h.Breathed = &h.Emptied.Gauge, h.Emptied.Breathed
			list = []Holding{h}
		case left:
		default:
			list = append(list, h)
		}
	}
	return list
}
