package quillet

import (
	"math"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// faults are what a test finds, by what is tested.
var faults = map[inventory.Kind]string{
	inventory.Regulator: "gauge does not return to zero",
	inventory.Oximeter:  "reads nothing with a new battery",
}

// restore books a thing into the dirty bay and sends it over the bench, until
// it is ready again or stays where it fails.
func (h *historian) restore(p *piece, depot string, in time.Time) {
	h.act(in, bench, inventory.Scanned, delivery.Return{Item: p.id, Depot: depot, Gauge: p.read(), Hours: p.meter(), Soiled: h.chance(4)})
	day := clock(in, 1+h.dice.IntN(2), h.between(8*time.Hour, 11*time.Hour))
	switch p.spec.Kind {
	case inventory.Cylinder:
		h.refill(p, depot, day)
		return
	case inventory.Concentrator:
		if !h.purity(p, day) {
			return
		}
	default:
		if h.chance(3) {
			h.act(day, bench, inventory.Keyed, delivery.Test{Item: p.id, Detail: faults[p.spec.Kind]})
			return
		}
		h.act(day, bench, inventory.Keyed, delivery.Test{Item: p.id, Passed: true})
	}
	h.release(p, depot, day.Add(h.between(time.Hour, 4*time.Hour)))
}

func (h *historian) release(p *piece, depot string, at time.Time) {
	h.act(at, bench, inventory.Keyed, delivery.Release{Item: p.id, Depot: depot})
	p.ready = at
	h.shelf.put(p)
}

// purity tests a concentrator, and reports whether it passed. What fails goes
// to the workshop.
func (h *historian) purity(p *piece, at time.Time) bool {
	h.act(at.Add(-20*time.Minute), bench, inventory.Keyed, delivery.Bench{Item: p.id})
	oxygen := round1(91 + 4.5*h.dice.Float64())
	if h.chance(9) {
		oxygen = round1(72 + 9*h.dice.Float64())
	}
	h.act(at, bench, inventory.Keyed, delivery.Test{Item: p.id, Passed: true, Oxygen: &oxygen})
	if oxygen >= 82 {
		return true
	}
	h.act(clock(at, 1, 9*time.Hour), bench, inventory.Keyed, delivery.Move{Item: p.id, To: inventory.At(inventory.AtWorkshop, "")})
	return false
}

// refill sends a used cylinder to the plant and brings it back with a new
// lot; one that is nearly full is released as it is.
func (h *historian) refill(p *piece, depot string, at time.Time) {
	size, _ := gas.LookUp(p.spec.Size)
	if p.gauge > size.Service*9/10 {
		h.release(p, depot, at)
		return
	}
	h.act(at, bench, inventory.Scanned, delivery.Move{Item: p.id, To: inventory.At(inventory.AtPlant, h.places.Plants[0].Name)})
	back := clock(at, 2+h.dice.IntN(3), h.between(13*time.Hour, 15*time.Hour))
	p.gauge = gas.PSI(math.Round(size.Service.PSI()*(0.96+0.04*h.dice.Float64())/50) * 50)
	h.act(back, bench, inventory.Scanned, delivery.Refill{Item: p.id, Lot: back.Format("L060102"), Full: p.gauge, Plant: h.places.Plants[0].Name, Depot: depot})
	h.release(p, depot, back.Add(90*time.Minute))
}
