package delivery

import (
	"fmt"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// liquid returns until when a liquid vessel in the home lasts at the least, as
// though it had been breathed from day and night since it was weighed, at the
// highest credible flow, evaporation on top; and the reading. False where there
// is no vessel of which weight, plate and evaporation are known. Of several the longest counts: nobody
// breathes from two, and which is empty is not known.
func (c Care) liquid() (until time.Time, seen *inventory.Seen[gas.Kilograms], known bool) {
	_, flow := c.Flow()
	for _, h := range c.Kit {
		if h.Spec.Kind != inventory.Vessel || h.Weight == nil || h.Spec.Loses == 0 { // each loses, by its maker's figure
			continue
		}
		vessel := h.Spec.Liquid()
		in, err := vessel.ByWeight(h.Weight.Value)
		if err != nil {
			continue
		}
		minutes, err := vessel.Minutes(in, flow, 24)
		if err != nil {
			continue
		}
		if ends := h.Weight.At.Add(time.Duration(minutes) * time.Minute); ends.After(until) {
			until, seen, known = ends, h.Weight, true
		}
	}
	return until, seen, known
}

// LiquidLine says what a liquid vessel in the home holds, and that the clock of
// the cylinders leaves it out; empty where there is none.
func (c Care) LiquidLine(now time.Time) string {
	until, seen, known := c.liquid()
	switch {
	case c.holds(inventory.Vessel) && !known:
		return "a liquid vessel, not counted: its weight, plate or evaporation is not known"
	case !known:
		return ""
	case !until.After(now):
		return fmt.Sprintf("a liquid vessel that may be empty, weighed %s", Clock(seen.At, now))
	}
	return fmt.Sprintf("a liquid vessel until %s at the least, weighed %s, beside the clock of the cylinders", Clock(until, now), Clock(seen.At, now))
}

// outlasts reports whether a liquid vessel in the home lasts beyond now.
func (c Care) outlasts(now time.Time) bool {
	until, _, known := c.liquid()
	return known && until.After(now)
}

// holds reports whether the person has a thing of a kind.
func (c Care) holds(kind inventory.Kind) bool {
	for _, h := range c.Kit {
		if h.Spec.Kind == kind {
			return true
		}
	}
	return false
}
