package route

import "slices"

// Timetable times orders of stops as somebody chose them, whether or not they can be kept. It may be used by several
// goroutines at once.
type Timetable struct{ exact, open *network }

// Trip is one vehicle's round as it would go. Nothing is refused: what can't be kept is told beside it.
type Trip struct {
	Route
	Shut     []int64 // for each visit, how long after its window it starts; 0 where the window is kept
	Overtime int64   // how long after the shift's end the vehicle returns
	Over     Load    // the most on board above the vehicle's capacity, in each dimension
	Most     Load    // the most on board
	Unsuited []int   // positions of visits this vehicle may not make: a skill, the lock, or too large even alone
	NoRest   bool    // a break can't be taken in its time; none is counted
	Cost     int64   // arcs, vehicle and lateness past act-bys, in the unit of Weights
}

// NewTimetable readies a problem for timing. The error says what makes the problem unreadable.
func NewTimetable(p Problem) (*Timetable, error) {
	if err := p.Validate(); err != nil {
		return nil, err
	}
	exact := layNetwork(&p)
	open := *exact
	open.shut, open.vehicles = slices.Clone(exact.shut), slices.Clone(exact.vehicles)
	for i := range open.stops {
		open.shut[i] = longest
	}
	for v := range open.vehicles {
		open.vehicles[v].until = longest
	}
	return &Timetable{exact, &open}, nil
}

// Drive times one vehicle's round over the stops in their order. The vehicle leaves no sooner than the given time and no
// sooner than its shift begins, and then as late as starts no visit later.
func (t *Timetable) Drive(vehicle int, from int64, stops []int) Trip {
	n := *t.open
	v := n.vehicles[vehicle]
	v.from = max(v.from, int32(min(from, longest/2)))
	n.vehicles = slices.Clone(n.vehicles)
	n.vehicles[vehicle] = v
	round := tour{vehicle: int32(vehicle), spots: make([]spot, 0, len(stops)+2)}
	nodes := make([]int32, 0, len(stops)+2)
	nodes = append(nodes, v.start)
	for _, s := range stops {
		nodes = append(nodes, int32(s))
	}
	nodes = append(nodes, v.end)
	for _, node := range nodes {
		round.spots = append(round.spots, spot{node: node})
	}
	round.weigh(&n)

	p, rested := n.walk(int32(vehicle), nodes)
	if !rested {
		n.vehicles[vehicle].breaks = nil
		p, _ = n.walk(int32(vehicle), nodes)
	}
	trip := Trip{Route: n.write(&round, p), NoRest: !rested, Cost: p.lateness}
	if len(stops) == 0 {
		trip.Return, trip.Duration, trip.Distance = trip.Departure, 0, 0
		return trip
	}
	t.judge(&trip, nodes)
	return trip
}

// Home returns when a vehicle is at its end that leaves its start at a time and goes straight there.
func (t *Timetable) Home(vehicle int, from int64) int64 {
	v := t.open.vehicles[vehicle]
	return int64(t.open.reach(int32(from), t.open.leg(v.start, v.end)))
}

// judge tells what a trip does not keep.
func (t *Timetable) judge(trip *Trip, nodes []int32) {
	n, vehicle := t.exact, trip.Vehicle
	trip.Cost += n.weights.Vehicle
	for k := 1; k < len(nodes); k++ {
		trip.Cost += int64(n.leg(nodes[k-1], nodes[k]).cost)
	}
	trip.Overtime = max(0, trip.Return-int64(n.vehicles[vehicle].until))
	trip.Most = trip.Out
	for i, visit := range trip.Visits {
		trip.Shut = append(trip.Shut, max(0, visit.Start-int64(n.shut[visit.Stop])))
		if !n.mayVisit(int32(visit.Stop), int32(vehicle)) {
			trip.Unsuited = append(trip.Unsuited, i)
		}
		for d := range Dimensions {
			trip.Most[d] = max(trip.Most[d], visit.After[d])
		}
	}
	for d := range Dimensions {
		trip.Over[d] = max(0, trip.Most[d]-n.vehicles[vehicle].capacity[d])
	}
}
