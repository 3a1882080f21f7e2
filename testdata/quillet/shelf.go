package quillet

import (
	"math"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// sort is what a thing on the shelf is looked for by.
type sort struct {
	kind inventory.Kind
	size gas.SizeCode
}

// piece is one thing as the story follows it.
type piece struct {
	id    inventory.ItemID
	spec  inventory.Spec
	gauge gas.Pressure
	hours float64
	ready time.Time // from when it can be lent
}

// read returns what is read on a cylinder's gauge: to 50 psi, as people read.
func (p *piece) read() *gas.Pressure {
	if p.spec.Kind != inventory.Cylinder {
		return nil
	}
	return new(gas.PSI(math.Round(p.gauge.PSI()/50) * 50))
}

// meter returns what the hours meter of a concentrator shows.
func (p *piece) meter() *float64 {
	if p.spec.Kind != inventory.Concentrator {
		return nil
	}
	return new(p.hours)
}

// use lets so much gas out at a flow.
func (p *piece) use(flow gas.Flow, during time.Duration) {
	size, ok := gas.LookUp(p.spec.Size)
	if !ok {
		return
	}
	used := gas.Litres(float64(flow) * during.Minutes())
	p.gauge = size.GaugeFor(max(0, size.ContentsAt(p.gauge, gas.Room)-used), gas.Room)
}

// lasts returns the planning minutes of a cylinder.
func (p *piece) lasts(flow gas.Flow, places delivery.Programme) time.Duration {
	size, ok := gas.LookUp(p.spec.Size)
	if !ok {
		return 0
	}
	plan, err := gas.PlanMinutes(size, *p.read(), places.Reserve, flow, gas.Room)
	if err != nil {
		return 0
	}
	return time.Duration(plan.Minutes) * time.Minute
}

// sizesFor returns the sizes that are brought when so much cover is lacking,
// the best first: the smallest portable one that does, M60 for high flows.
func sizesFor(lacks time.Duration, flow gas.Flow, reserve gas.Pressure) []gas.SizeCode {
	if flow >= 4 {
		return []gas.SizeCode{"US-M60", "US-E", "US-D"}
	}
	small, _ := gas.LookUp("US-D")
	plan, err := gas.PlanMinutes(small, small.Service*95/100, reserve, flow, gas.Room)
	if err == nil && time.Duration(plan.Minutes)*time.Minute >= lacks {
		return []gas.SizeCode{"US-D", "US-E"}
	}
	return []gas.SizeCode{"US-E", "US-D"}
}

// shelf is what can be lent, first released first.
type shelf map[sort][]*piece

func newShelf(things []inventory.Item, from time.Time, kept map[string]bool) shelf {
	s := make(shelf)
	for _, item := range things {
		if item.State != inventory.Ready || kept[item.Spec.Serial] {
			continue
		}
		p := &piece{id: item.ID, spec: item.Spec, ready: from}
		if item.Gauge != nil {
			p.gauge = item.Gauge.Value
		}
		if item.Hours != nil {
			p.hours = item.Hours.Value
		}
		s.put(p)
	}
	return s
}

func (s shelf) put(p *piece) {
	key := sort{p.spec.Kind, p.spec.Size}
	s[key] = append(s[key], p)
}

// take returns the piece that has been ready longest, able to give a flow, or
// nil.
func (s shelf) take(at time.Time, key sort, flow gas.Flow) *piece {
	fits := func(p *piece) bool { return !p.ready.After(at) && p.spec.Rated >= flow }
	best := -1
	for i, p := range s[key] {
		if fits(p) && (best < 0 || less(p, s[key][best])) {
			best = i
		}
	}
	if best < 0 {
		return nil
	}
	p := s[key][best]
	s[key] = slices.Delete(s[key], best, best+1)
	return p
}

// less orders pieces for lending: the smallest rating that does, then the one
// ready longest.
func less(a, b *piece) bool {
	if a.spec.Rated != b.spec.Rated {
		return a.spec.Rated < b.spec.Rated
	}
	return a.ready.Before(b.ready)
}
