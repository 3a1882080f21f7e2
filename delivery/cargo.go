package delivery

import (
	"slices"

	"lungwort/delivery/route"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Aboard is what a vehicle has on board: cylinders that were not given out yet,
// cylinders taken in, and the load in every dimension.
type Aboard struct {
	Full, Used int
	route.Load
}

// Cargo is what a vehicle has on board along a run, by the book.
type Cargo struct {
	Out   Aboard   // on leaving, and so on the shipping paper
	After []Aboard // on leaving each stop
	Now   Aboard   // after the stops made until now
	Given int      // cylinders given out until now
}

// CargoOf returns the load along a run as the book has it. Cylinders that stand
// on the vehicle and were not taken in on this run are spare.
func CargoOf(v View, r Run) (Cargo, error) {
	p, err := v.Programme()
	if err != nil {
		return Cargo{}, err
	}
	stops := make([]Along, len(r.Stops))
	took := make(map[inventory.ItemID]bool)
	for i, s := range r.Stops {
		stops[i].Spec = make(map[inventory.ItemID]inventory.Spec)
		for _, who := range s.Persons {
			care, err := v.Care(who)
			if err != nil {
				return Cargo{}, err
			}
			stops[i].Care = append(stops[i].Care, care)
		}
		for _, id := range slices.Concat(s.Left, s.Took) {
			item, err := v.Item(id)
			if err != nil {
				return Cargo{}, err
			}
			stops[i].Spec[id] = item.Spec
		}
		for _, id := range s.Took {
			took[id] = true
		}
	}
	there, err := v.AtPlace(inventory.At(inventory.AtVehicle, r.Vehicle))
	spare := slices.DeleteFunc(there, func(i inventory.Item) bool { return took[i.ID] || i.State == inventory.WithDriver || i.Person != "" })
	return r.Cargo(p, stops, spare), err
}

// Along is one stop as a run loads for it.
type Along struct {
	Care []Care                              // of its persons
	Spec map[inventory.ItemID]inventory.Spec // of what was left and taken there
}

// Cargo follows the load along a run. Spare is what is on board beside what the
// stops get; it comes home again.
func (r Run) Cargo(p Programme, stops []Along, spare []inventory.Item) Cargo {
	var c Cargo
	for _, i := range spare {
		c.Out.put(p, asWanted(i.Spec))
	}
	drops, takes := make([]Aboard, len(r.Stops)), make([]Aboard, len(r.Stops))
	for i, s := range r.Stops {
		var kept Aboard
		drops[i], takes[i], kept = s.cargo(p, stops[i])
		c.Out.add(drops[i], 1)
		c.Out.add(kept, 1)
	}
	on := c.Out
	c.Now = c.Out
	for i, s := range r.Stops {
		on.add(drops[i], -1)
		on.add(takes[i], 1)
		c.After = append(c.After, on)
		if !s.Closed.IsZero() {
			c.Now = on
			c.Given += drops[i].Full
		}
	}
	return c
}

// Most is the most on board at any time of the run, in each dimension.
func (c Cargo) Most() route.Load {
	most := c.Out.Load
	for _, h := range c.After {
		for d := range most {
			most[d] = max(most[d], h.Load[d])
		}
	}
	return most
}

// cargo returns what a stop gets and gives: what was left and taken there, and
// what the tasks of those not seen yet bring and collect. What was to be left
// and was not stays on board.
func (s Stop) cargo(p Programme, a Along) (drop, take, kept Aboard) {
	left := make(map[inventory.Kind]int)
	for _, id := range s.Left {
		left[a.Spec[id].Kind]++
		drop.put(p, asWanted(a.Spec[id]))
	}
	for _, id := range s.Took {
		take.took(p, a.Spec[id])
	}
	for _, care := range a.Care {
		for _, t := range care.Tasks {
			switch {
			case !slices.Contains(s.Tasks, t.ID):
			case s.Waits(care.Person):
				t.moves(p, care, &drop, &take)
			default:
				for _, w := range t.Bring {
					w.Count = max(0, w.Count-left[w.Kind])
					kept.put(p, w)
				}
			}
		}
	}
	return drop, take, kept
}

// moves adds what a task brings and what it takes home.
func (t OpenTask) moves(p Programme, c Care, drop, take *Aboard) {
	for _, w := range t.Bring {
		drop.put(p, w)
		if t.Tasked.Task == Swap { // as much is taken as is brought
			for range w.Count {
				take.took(p, inventory.Spec{Kind: w.Kind, Size: w.Size})
			}
		}
	}
	if t.Tasked.Task == Collect {
		for _, h := range c.Kit {
			take.took(p, h.Spec)
		}
	}
}

func asWanted(s inventory.Spec) Wanted { return Wanted{Kind: s.Kind, Size: s.Size, Count: 1} }

// put adds things that go out.
func (h *Aboard) put(p Programme, w Wanted) {
	l := p.load([]Wanted{w})
	for d := range l {
		h.Load[d] += l[d]
	}
	if w.Kind == inventory.Cylinder {
		h.Full += w.Count
	}
}

// took adds a thing that comes home, which rides apart from the clean ones.
func (h *Aboard) took(p Programme, s inventory.Spec) {
	l := p.load([]Wanted{asWanted(s)})
	l[route.Dirty] = 1
	for d := range l {
		h.Load[d] += l[d]
	}
	if s.Kind == inventory.Cylinder {
		h.Used++
	}
}

func (h *Aboard) add(o Aboard, sign int) {
	h.Full += sign * o.Full
	h.Used += sign * o.Used
	for d := range h.Load {
		h.Load[d] += int64(sign) * o.Load[d]
	}
}

// load returns what things take of a vehicle's room.
func (p Programme) load(wanted []Wanted) route.Load {
	var l route.Load
	for _, w := range wanted {
		l[route.Pieces] += int64(w.Count)
		l[route.Kg] += int64(w.Count) * p.GrossKg(w.Kind, w.Size)
		l[route.Bulk] += int64(w.Count) * p.litres(w.Kind, w.Size)
	}
	return l
}

// litres is the room a thing takes in the vehicle: a cylinder in its rack three
// times its water volume, a concentrator in its box. Common practice, no source.
func (p Programme) litres(kind inventory.Kind, code gas.SizeCode) int64 {
	switch kind {
	case inventory.Concentrator:
		return 120
	case inventory.Cylinder:
		size, ok := p.Sizes.LookUp(code)
		if !ok {
			return 15
		}
		return int64(3*size.Volume()) + 1
	}
	return 2
}

// unknownKg is what a cylinder of a size nobody knows counts: a large one, as long
// as its size is not set.
const unknownKg = 80

// GrossKg returns the mass that counts against a vehicle's limit, rounded up:
// the limit is on cylinders.
func (p Programme) GrossKg(kind inventory.Kind, code gas.SizeCode) int64 {
	if kind != inventory.Cylinder {
		return 0
	}
	size, ok := p.Sizes.LookUp(code)
	if !ok {
		return unknownKg
	}
	return int64(size.GrossAtMost()) + 1
}
