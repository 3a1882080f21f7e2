package delivery

import (
	"time"

	"lungwort/inventory"
)

// benchSteps are the steps of the bench unless the programme sets others. For
// concentrators: oxygen, flow and the alarms are those of the WHO-UNICEF
// technical specifications for oxygen therapy devices, 2019; the rest is common
// practice, no source. Seals: single-use gaskets are never used again
// (FDA/NIOSH public health notification on regulator fires, 2006).
var benchSteps = map[inventory.Kind][]string{
	inventory.Concentrator: {"flow", "alarms with power failure", "filters", "cord", "hours"},
	inventory.Regulator:    {"leak", "gauge at zero", "right new seal"},
	inventory.Oximeter:     {"held its days", "probe", "battery"},
	inventory.Cylinder:     {"reading", "valve", "seal", "requalification", "label"},
	inventory.Vessel:       {"weight", "vent", "connector", "no frost outside the connector", "label"},
	inventory.Cart:         {"wheels", "strap", "handle"},
}

// BenchSteps returns what the bench looks at on a kind of thing.
func (p Programme) BenchSteps(kind inventory.Kind) []string {
	if steps, set := p.Bench[kind]; set {
		return steps
	}
	return benchSteps[kind]
}

// HeldUntil returns until when the programme holds a thing that came back; zero
// where it does not.
func (p Programme) HeldUntil(item inventory.Item) time.Time {
	days := p.Held[item.Spec.Kind]
	if days == 0 || item.Back.IsZero() {
		return time.Time{}
	}
	return item.Back.AddDate(0, 0, days)
}
