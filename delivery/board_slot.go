package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory"
)

// Wish is a visit somebody asks for on the phone, before there is a task.
type Wish struct {
	Address Address
	From    time.Time // the door opens; zero: at any hour
	ActBy   time.Time // zero: nobody waits for gas
	Bring   []Wanted
	Takes   time.Duration // at the door
	// Language is spoken by whoever is taught there; empty: the desk's own.
	Language string
}

// Slot is a place among the rounds as they stand that nobody else pays for:
// no other act-by is broken, no other door found shut, no vehicle overloaded,
// no shift overrun.
type Slot struct {
	Round  int // of the board, with the trips that could be made beside those on it
	Before int // put before the stop with this index on the round
	Name   string
	Arrive time.Time
	ActBy  time.Time
	Metres int64 // driven more
	Takes  time.Duration
	Out    time.Duration // the vehicle is longer on the road: rides, doors, and standing before them
	Shifts []Shift       // of the others
	cost   int64
	on     Board // with the trip that would be made for it
}

// Vehicle returns the one that would come.
func (s Slot) Vehicle() string { return s.on.rounds[s.Round].Vehicle }

// Taken returns the board with a stop in its slot.
func (s Slot) Taken(stop int) Board { return s.on.Put(stop, s.Round, s.Before) }

// Promise is the time to say on the phone: the arrival, on the next quarter
// of an hour. Common practice, no source.
func (s Slot) Promise() time.Time {
	const quarter = 15 * time.Minute
	return s.Arrive.Add(quarter - 1).Truncate(quarter)
}

// With returns the board with a wished visit waiting on it, and which stop
// that is. False: nobody knows where the address is.
func (b Board) With(w Wish) (Board, int, bool) {
	if !w.Address.Point.Known() {
		return b, 0, false
	}
	b.stops, b.waiting = slices.Clone(b.stops), slices.Clone(b.waiting)
	b.wait(boardStop{call: call{address: w.Address}, wish: &w})
	if b.lay() != nil {
		return b, 0, false
	}
	return b, len(b.stops) - 1, true
}

// wished returns a wish as the timetable takes it.
func (pl Planner) wished(w Wish, place int) route.Stop {
	needs, _ := pl.able(pl.Programme.asked(w.Address, w.Bring, w.Language))
	s := route.Stop{
		Name: string(w.Address.ID), Place: place, Service: int64(w.Takes / time.Second), Drop: pl.Programme.load(w.Bring), Needs: needs,
		Window: [2]int64{0, int64(2 * 24 * time.Hour / time.Second)},
	}
	if !w.From.IsZero() {
		s.Window[0] = min(max(0, pl.seconds(w.From)), s.Window[1])
	}
	if !w.ActBy.IsZero() {
		s.ActBy = max(1, pl.seconds(w.ActBy))
	}
	return s
}

// Waits reports whether a stop is on no round.
func (b Board) Waits(stop int) bool { return slices.Contains(b.waiting, stop) }

// StopOf returns the stop on the board at which a person waits.
func (b Board) StopOf(who inventory.PersonID) (int, bool) {
	i := slices.IndexFunc(b.stops, func(s boardStop) bool {
		return slices.Contains(s.waits, who) || slices.ContainsFunc(s.errands, func(e Errand) bool { return e.Person.ID == who })
	})
	return i, i >= 0
}

// Put returns the board with a stop on a round, before the stop with the index
// there; it leaves the place it had. A round of -1 takes it off every round.
func (b Board) Put(stop, round, before int) Board {
	b.rounds, b.waiting = slices.Clone(b.rounds), without(b.waiting, stop)
	for i := range b.rounds {
		b.rounds[i].Stops = without(b.rounds[i].Stops, stop)
	}
	if round < 0 {
		b.waiting = append(b.waiting, stop)
		return b
	}
	r := &b.rounds[round]
	r.Stops = slices.Insert(r.Stops, min(max(before, r.Begun), len(r.Stops)), stop)
	return b
}

func without(list []int, x int) []int {
	return slices.DeleteFunc(slices.Clone(list), func(y int) bool { return y == x })
}

// Slots returns every slot for a stop that waits, the soonest first. A vehicle
// may make a trip more for it.
func (b Board) Slots(stop int) []Slot { return b.withTrips().slots(stop) }

// slots returns the slots on the rounds there are.
func (b Board) slots(stop int) []Slot {
	times := b.Times()
	var slots []Slot
	for i, r := range b.rounds {
		if !b.mayTake(r, stop) {
			continue
		}
		for at := r.Begun; at <= len(r.Stops); at++ {
			if slot, ok := b.slot(times, stop, i, at); ok {
				slots = append(slots, slot)
			}
		}
	}
	slices.SortStableFunc(slots, func(a, b Slot) int {
		return cmp.Or(a.Arrive.Compare(b.Arrive), cmp.Compare(a.cost, b.cost))
	})
	for i := range slots[:min(len(slots), shownSlots)] {
		s := &slots[i]
		s.Shifts = slices.DeleteFunc(s.Taken(stop).Since(b), func(x Shift) bool { return x.From == "" })
	}
	return slots
}

// LeastDriving returns the slot that costs the vehicles least of those that are
// there by a time, of equals the soonest. False: none is.
func LeastDriving(slots []Slot, by time.Time) (Slot, bool) {
	inTime := slices.DeleteFunc(slices.Clone(slots), func(s Slot) bool { return s.Arrive.After(by) })
	if len(inTime) == 0 {
		return Slot{}, false
	}
	return slices.MinFunc(inTime, func(a, b Slot) int { return cmp.Compare(a.cost, b.cost) }), true
}

// shownSlots is how many slots tell whom else they touch.
const shownSlots = 3

// mayTake reports whether a vehicle could have on board what a stop is to get.
// One that has left brings only what it left with and what it carries spare.
func (b Board) mayTake(r Round, stop int) bool {
	s := b.stops[stop]
	drops := s.stop.Drop != route.Load{}
	if !r.Out || !drops || s.aboard && s.vehicle == r.Vehicle {
		return true
	}
	spare := slices.Clone(b.planner.Aboard[r.Vehicle])
	for _, w := range s.wants() {
		for range w.Count {
			best, ok := Best(spare, w)
			if !ok {
				return false
			}
			spare = slices.DeleteFunc(spare, func(i inventory.Item) bool { return i.ID == best.ID })
		}
	}
	return true
}

// wants returns what a stop is to get.
func (s boardStop) wants() []Wanted {
	if s.wish != nil {
		return s.wish.Bring
	}
	var all []Wanted
	for _, e := range s.errands {
		for _, t := range e.Care.Tasks {
			all = append(all, t.Bring...)
		}
	}
	return all
}

// slot tries a stop in one place. False: somebody else pays for it.
func (b Board) slot(times []RoundTimes, stop, round, at int) (Slot, bool) {
	tried := b.Put(stop, round, at)
	slot := Slot{Round: round, Before: at, Name: b.rounds[round].Name, on: b}
	var back time.Time // of the vehicle's round before
	for i, r := range tried.rounds {
		if r.Vehicle != b.rounds[round].Vehicle {
			continue
		}
		now := tried.time(i, back)
		if len(now.Stops) > 0 {
			back = now.Back
		}
		if !spares(times[i], now, stop) {
			return slot, false
		}
		for _, s := range now.Stops {
			if s.On == stop {
				slot.Arrive, slot.ActBy = s.Arrive, s.ActBy
			}
		}
		slot.Metres += now.Metres - times[i].Metres
		slot.Takes += now.Driving - times[i].Driving
		slot.Out += now.out() - times[i].out()
		slot.cost += now.cost - times[i].cost + int64(now.idle()-times[i].idle())/int64(time.Second)*route.DefaultWeights.Travel
	}
	return slot, true
}

// spares reports whether a round keeps all it kept before a stop was put on
// it, and the stop itself.
func spares(before, now RoundTimes, stop int) bool {
	if now.Overtime > before.Overtime || now.NoRest && !before.NoRest {
		return false
	}
	for d := range now.Over {
		if now.Over[d] > before.Over[d] {
			return false
		}
	}
	was := make(map[int]StopTimes, len(before.Stops))
	for _, s := range before.Stops {
		was[s.On] = s
	}
	for _, s := range now.Stops {
		w := was[s.On] // zero for the stop itself
		if s.Shut > w.Shut || s.Unfit && !w.Unfit || s.Late > w.Late && s.On != stop || s.past > w.past && s.On != stop {
			return false
		}
	}
	return true
}

// Says tells the slot in words.
func (s Slot) Says(now time.Time) string {
	return fmt.Sprintf("%s can be there %s: promise %s", s.Name, Clock(s.Arrive, now), Clock(s.Promise(), now))
}
