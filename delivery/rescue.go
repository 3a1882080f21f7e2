package delivery

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Rescue is a place of the programme that gas could come from, now.
type Rescue struct {
	From  string // "Slipway depot"
	Holds string // "14 E, 6 D"
	full  map[gas.SizeCode]int
	Phone string
	Takes time.Duration // until it is at the door
}

// Spare is a cylinder that stands in another home and could be asked for.
type Spare struct {
	Person Person
	Street string
	What   string // "E 2,000 psi read 10:05"
	Idle   bool   // not needed there any more; else it is their backup
	Metres int64
}

// spareReach is how far a cylinder of another home is worth asking for: common
// practice, no source.
const spareReach = 20 * time.Minute

// Rescues returns where full cylinders are ready, the soonest at a point
// first for who goes now: depots, wards, and vehicles at the depot they start from.
func (p Programme) Rescues(ready []inventory.Item, to Point, now time.Time) []Rescue {
	held := make(map[inventory.Place]map[gas.SizeCode]int)
	for _, i := range ready {
		if i.Spec.Kind == inventory.Cylinder && i.State == inventory.Ready && i.Recall == "" && !i.Spec.Foreign {
			if held[i.Place] == nil {
				held[i.Place] = make(map[gas.SizeCode]int)
			}
			held[i.Place][i.Spec.Size]++
		}
	}
	var list []Rescue
	for place, sizes := range held {
		if r, known := p.rescue(place, to, now); known {
			r.Holds, r.full = sizesInWords(sizes), sizes
			list = append(list, r)
		}
	}
	slices.SortFunc(list, func(a, b Rescue) int { return cmp.Or(cmp.Compare(a.Takes, b.Takes), cmp.Compare(a.From, b.From)) })
	return list
}

// sentAlong is how many full cylinders go to a night call: one to breathe from,
// one for what nobody foresaw. Common practice, no source.
const sentAlong = 2

// load says what to take along for a house that uses a size: that size, else
// the largest ready there that is carried by hand.
func (r Rescue) load(size gas.SizeCode, known gas.Table) string {
	if r.full[size] == 0 {
		size = ""
		for _, code := range slices.Sorted(maps.Keys(r.full)) {
			s, _ := known.LookUp(code)
			if best, _ := known.LookUp(size); s.Contents <= portable && s.Contents > best.Contents {
				size = code
			}
		}
	}
	if size == "" {
		return "what is there"
	}
	return fmt.Sprintf("%d full %s", min(sentAlong, r.full[size]), letter(size))
}

// fullerWithin is how much later help may come that brings enough: common
// practice, no source.
const fullerWithin = 10 * time.Minute

// worthWaiting puts first, of the places that are about as near as the
// soonest, the one that can send enough of a size.
func worthWaiting(list []Rescue, size gas.SizeCode) []Rescue {
	i := slices.IndexFunc(list, func(r Rescue) bool { return r.full[size] >= sentAlong })
	if i <= 0 || list[i].Takes > list[0].Takes+fullerWithin {
		return list
	}
	return slices.Concat(list[i:i+1], list[:i], list[i+1:])
}

// rescue returns how soon something could come from a place, loaded from now on
// and with whoever is on call first called out of bed; false where nobody knows.
func (p Programme) rescue(place inventory.Place, to Point, now time.Time) (Rescue, bool) {
	r := Rescue{From: place.Name()}
	site, ok := p.Site(place.Name())
	if v, is := p.Vehicle(place.Name()); is {
		site, ok = p.Site(v.Depot)
		r.From = v.Name + " from " + site.Title
	} else if ok {
		r.From, r.Phone = site.Title, site.Phone
	}
	ready := loading + p.turnOut(now)
	leg := p.RideAt(site.Point, to, now.Add(ready))
	r.Takes = ready + leg.Takes
	return r, ok && leg.Known
}

// turnOut returns how long it takes until somebody stands at the vehicle: none
// while a shift is on, else what the programme reckons for who is on call.
func (p Programme) turnOut(t time.Time) time.Duration {
	for _, v := range p.Vehicles {
		if from, until, ok := v.shift(t); ok && !t.Before(from) && t.Before(until) {
			return 0
		}
	}
	return p.TurnOut
}

// Machine returns where a machine for a flow is ready, the soonest at a point;
// without From there is none.
func (p Programme) Machine(ready []inventory.Item, flow gas.Flow, to Point, now time.Time) (best Rescue) {
	held := make(map[inventory.Place]int)
	for _, i := range ready {
		if _, fits := Best([]inventory.Item{i}, Wanted{Kind: inventory.Concentrator, Rated: flow}); fits {
			held[i.Place]++
		}
	}
	for place, n := range held {
		r, known := p.rescue(place, to, now)
		r.Holds = count(n, "machine") + " ready for that flow"
		if known && (best.From == "" || cmp.Or(cmp.Compare(r.Takes, best.Takes), cmp.Compare(r.From, best.From)) < 0) {
			best = r
		}
	}
	return best
}

func sizesInWords(sizes map[gas.SizeCode]int) string {
	var parts []string
	for _, code := range slices.Sorted(maps.Keys(sizes)) {
		parts = append(parts, fmt.Sprintf("%d %s", sizes[code], letter(code)))
	}
	return strings.Join(parts, ", ")
}

// Spares returns the cylinders in other homes that could be asked for, the
// nearest first: at least half full when last read, and not breathed from.
func (p Programme) Spares(homes []Watch, caller inventory.PersonID, to Point, now time.Time) []Spare {
	var list []Spare
	for _, w := range homes {
		leg := p.RideAt(w.Address.Point, to, now)
		if w.Person.ID == caller || w.Care.Breathes == FromCylinder || !leg.Known || leg.Takes > spareReach {
			continue
		}
		for _, h := range w.Care.Kit {
			size, ok := p.SizeOf(h.Spec)
			if h.Spec.Kind != inventory.Cylinder || !ok || h.Gauge == nil || h.Gauge.Value < size.Service/2 {
				continue
			}
			list = append(list, Spare{
				Person: w.Person, Street: w.Address.Where(), Metres: leg.Metres,
				What: fmt.Sprintf("%s %s %s %s", size.Letter, h.Gauge.Value, h.Gauge.How(), Clock(h.Gauge.At, now)),
				Idle: w.Care.Phase == Over || h.Role == inventory.NotNeeded,
			})
			break // one of a home is enough to know whom to ask
		}
	}
	slices.SortFunc(list, func(a, b Spare) int {
		return cmp.Or(cmp.Compare(a.Metres, b.Metres), cmp.Compare(a.Person.ID, b.Person.ID))
	})
	return list
}

// asked says whom to ask for the cylinder, and what asking costs.
func (s Spare) asked() string {
	words := fmt.Sprintf("Ask %s, %s", s.Person.Short(), s.Street)
	if len(s.Person.Phones) > 0 {
		words += ", " + s.Person.Phones[0].Number
	}
	words += fmt.Sprintf(", %s away: %s, ", distance(s.Metres), s.What)
	if s.Idle {
		return words + "not needed there any more"
	}
	return words + "their backup: bring them another"
}

func distance(metres int64) string {
	if metres < 1000 {
		return fmt.Sprintf("%d m", (metres+50)/100*100)
	}
	return fmt.Sprintf("%.1f km", float64(metres)/1000)
}

// others says what else in the caller's house could be breathed from at a flow,
// after the cylinder asked about: cylinders with gas above the reserve.
func (c Care) others(p Programme, flow gas.Flow, now time.Time) []string {
	first := inUse(c)
	var list []string
	if until, seen, known := c.liquid(); known && until.After(now) {
		list = append(list, fmt.Sprintf("Let them change to the liquid vessel there, weighed %s: %s at the least", Clock(seen.At, now), Spell(until.Sub(now))))
	}
	for i, h := range c.Kit {
		size, ok := p.SizeOf(h.Spec)
		if i == first || h.Spec.Kind != inventory.Cylinder || !ok || h.Gauge == nil || h.Gauge.Value <= p.Reserve {
			continue
		}
		if plan, err := gas.PlanMinutes(size, h.Gauge.Value, p.Reserve, flow, depletion.Warmth(h.Gauge.Temperature, gas.Room)); err == nil {
			list = append(list, fmt.Sprintf("Let them change to the other %s there, %s %s %s: %s",
				size.Letter, h.Gauge.Value, h.Gauge.How(), Clock(h.Gauge.At, now), Spell(time.Duration(plan.Minutes)*time.Minute)))
		}
	}
	return list
}
