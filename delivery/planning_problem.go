package delivery

import (
	"slices"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory"
)

// problem puts the day as the solver takes it: a matrix of rides, stops with
// windows, act-by and loads, vehicles with shifts and room.
func (pl Planner) problem(calls []call) route.Problem {
	p := pl.Programme
	points := make([]Point, 0, len(p.Depots)+len(calls))
	for _, d := range p.Depots {
		points = append(points, d.Point)
	}
	problem := route.Problem{Vehicles: pl.onDuty(pl.depots())}
	for _, c := range calls {
		problem.Stops = append(problem.Stops, pl.stop(c, len(points)))
		points = append(points, c.address.Point)
	}
	p.roads(pl.midnight()).lay(&problem, points)
	return problem
}

// depots returns the place of each depot in the matrix.
func (pl Planner) depots() map[string]int {
	places := make(map[string]int, len(pl.Programme.Depots))
	for i, d := range pl.Programme.Depots {
		places[d.Name] = i
	}
	return places
}

// onDuty returns the vehicles whose shift of the day is not over.
func (pl Planner) onDuty(depots map[string]int) []route.Vehicle {
	var vehicles []route.Vehicle
	for _, v := range pl.Programme.Vehicles {
		if vehicle, ok := pl.vehicle(v, depots); ok {
			vehicles = append(vehicles, vehicle)
		}
	}
	return vehicles
}

// unreachable stands for a ride nobody can make: longer than any day.
const unreachable = 7 * 24 * 3600

func (pl Planner) vehicle(v Vehicle, depots map[string]int) (route.Vehicle, bool) {
	from, until, ok := v.shift(pl.midnight())
	depot, known := depots[v.Depot]
	if !ok || !known {
		return route.Vehicle{}, false
	}
	earliest := later(from, pl.Now.Add(loading))
	if back, busy := pl.Back[v.Name]; busy {
		earliest = later(earliest, back)
	}
	if until, out := pl.Out[v.Name]; out {
		earliest = later(earliest, until)
	}
	if !earliest.Before(until) {
		return route.Vehicle{}, false // its shift is over
	}
	return route.Vehicle{
		Name: v.Name, Start: depot, End: depot, From: pl.seconds(earliest), Until: pl.seconds(until),
		Capacity: v.capacity(), Skills: v.skills(), Breaks: pl.breaks(v, pl.seconds(earliest)),
	}, true
}

// capacity returns the room of a vehicle in each dimension.
func (v Vehicle) capacity() route.Load {
	bulk := int64(v.Litres)
	if bulk == 0 {
		bulk = route.Unlimited
	}
	return route.Load{route.Pieces: int64(v.Pieces), route.Kg: int64(v.Kg), route.Bulk: bulk, route.Dirty: int64(v.Pieces)}
}

// twoPersons is the skill of a vehicle with a pair on board.
const twoPersons = "two persons"

// pairFloors is from how many floors without a lift on a heavy thing is
// carried by two. Common practice, no source: local rules on lifting decide.
const pairFloors = 3

func (v Vehicle) skills() []string {
	skills := append([]string(nil), v.Languages...)
	if v.Pair {
		skills = append(skills, twoPersons)
	}
	return skills
}

// needs returns what a vehicle should have for a call. Where somebody waits for
// gas no language keeps the soonest vehicle away.
func (pl Planner) needs(c call) []string {
	var needs []string
	for _, e := range c.errands {
		for _, t := range e.Care.Tasks {
			language := ""
			if t.Tasked.Task == Deliver && pl.due(c).IsZero() {
				language = e.Person.Language
			}
			for _, need := range pl.Programme.asked(c.address, t.Bring, language) {
				needs = with(needs, need)
			}
		}
	}
	can, _ := pl.able(needs)
	return can
}

// asked returns what a visit asks of the vehicle: a pair where something heavy
// is carried up, the language where somebody is taught.
func (p Programme) asked(home Address, bring []Wanted, language string) []string {
	var needs []string
	if home.Stairs >= pairFloors && slices.ContainsFunc(bring, p.heavy) {
		needs = append(needs, twoPersons)
	}
	if language != "" {
		needs = append(needs, language)
	}
	return needs
}

// able parts needs into those one vehicle meets together and those none does.
// What none has is not asked for: somebody without oxygen is visited all the
// same. Hands come before words: an interpreter can be had by phone.
func (pl Planner) able(needs []string) (can, lacks []string) {
	for _, need := range needs {
		wider := append(slices.Clone(can), need)
		meets := func(v Vehicle) bool {
			return !pl.out(v.Name) && !slices.ContainsFunc(wider, func(n string) bool { return !slices.Contains(v.skills(), n) })
		}
		if slices.ContainsFunc(pl.Programme.Vehicles, meets) {
			can = wider
		} else {
			lacks = append(lacks, need)
		}
	}
	return can, lacks
}

// heavy reports whether one person should not carry the thing up: a
// concentrator, or a cylinder of more than 15 kg. Common practice, no source.
func (p Programme) heavy(w Wanted) bool {
	const one = 15
	return w.Kind == inventory.Concentrator || p.GrossKg(w.Kind, w.Size) > one
}

// stop turns a call into a stop of the problem.
func (pl Planner) stop(c call, place int) route.Stop {
	s := route.Stop{Name: string(c.address.ID), Place: place, Window: pl.door(c), Needs: pl.needs(c)}
	for _, e := range c.errands {
		for _, t := range e.Care.Tasks {
			pl.add(&s, e, t)
		}
		if by := pl.needed(e); !by.IsZero() {
			soon := later(by, pl.Now).Add(time.Hour) // an act-by long past says little of the hours to come
			s.Risk = max(s.Risk, e.Forecast.WithoutBy(soon))
		}
	}
	by, promise := pl.due(c), pl.promised(c)
	switch {
	case by.IsZero() && !promise.IsZero():
		s.Window[1] = min(s.Window[1], pl.seconds(promise))
	case !by.IsZero():
		s.ActBy = max(pl.seconds(earlier(by, promise)), 1)
	}
	if s.Window[1] < s.Window[0] {
		s.Window[1] = s.Window[0]
	}
	return s
}

// door returns when a home opens its door, in seconds of the day: at any hour
// where somebody breathes from a cylinder.
func (pl Planner) door(c call) [2]int64 {
	opens, closes := doorOpens, doorCloses
	for _, e := range c.errands {
		if e.Care.Breathes == FromCylinder {
			opens, closes = 0, 24
		}
	}
	return [2]int64{pl.seconds(pl.hour(opens)), pl.seconds(pl.hour(closes))}
}

// due returns by when somebody at a stop needs the visit; zero when nobody
// waits for gas.
func (pl Planner) due(c call) time.Time {
	var by time.Time
	for _, e := range c.errands {
		by = earlier(by, pl.needed(e))
	}
	return by
}

// promised returns the earliest time promised to a stop that can still be
// kept. Where somebody waits for gas a promise is kept if it can be, and never
// keeps the vehicle away.
func (pl Planner) promised(c call) time.Time {
	var at time.Time
	for _, e := range c.errands {
		for _, t := range e.Care.Tasks {
			if t.Until.After(pl.Now) {
				at = earlier(at, t.Until)
			}
		}
	}
	return at
}

// earlier returns the earlier of two times, of which either may be none.
func earlier(a, b time.Time) time.Time {
	if a.IsZero() || !b.IsZero() && b.Before(a) {
		return b
	}
	return a
}

// needed returns by when the visit has to be there: the act-by, less set-up
// and warm-up where a machine has to run first.
func (pl Planner) needed(e Errand) time.Time {
	by := e.ActBy()
	if by.IsZero() || !e.Care.Watched() {
		return time.Time{}
	}
	brings := false
	for _, i := range e.Reserved {
		brings = brings || i.Spec.Kind == inventory.Cylinder
	}
	if e.Care.Has(Deliver) && !brings {
		by = by.Add(-pl.Programme.SetUp - pl.Programme.WarmUp)
	}
	return by
}

func (pl Planner) add(s *route.Stop, e Errand, t OpenTask) {
	if !t.From.IsZero() {
		s.Window[0] = max(s.Window[0], pl.seconds(t.From))
	}
	var drop, take Aboard
	t.moves(pl.Programme, e.Care, &drop, &take)
	for d := range s.Drop {
		s.Drop[d] += drop.Load[d]
		s.Collect[d] += take.Load[d]
	}
	switch t.Tasked.Task {
	case Deliver:
		s.Service += int64((pl.Programme.SetUp + pl.Programme.WarmUp) / time.Second)
		if d := e.Care.Discharge; d != nil {
			ride := pl.Programme.RideAt(pl.Programme.Hospital.Point, e.Address.Point, d.Leaves)
			s.Window[0] = max(s.Window[0], pl.seconds(d.Leaves.Add(ride.Takes+pl.Programme.HomeLate)))
		}
	case Swap, Collect:
		s.Service += int64(pl.Programme.SwapTime / time.Second)
	}
}
