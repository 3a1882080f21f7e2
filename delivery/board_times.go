package delivery

import (
	"slices"
	"time"

	"lungwort/delivery/route"
)

// RoundTimes is a round as it would go.
type RoundTimes struct {
	Round
	Departs, Back time.Time
	Metres        int64
	Driving       time.Duration
	Stops         []StopTimes
	Loaded        route.Load // on board on leaving
	Room          route.Load // what the vehicle may carry
	Over          route.Load // the most on board above that
	Ends          time.Time  // of the shift
	Overtime      time.Duration
	Rests         []Rest
	NoRest        bool // a break ahead can't be taken
	cost          int64
}

// StopTimes is a stop as it would go.
type StopTimes struct {
	PlannedStop
	On     int // which stop of the board
	Number int // on its round, from 1
	Where  string
	Opens  time.Time // the door
	Shuts  time.Time
	Shut   time.Duration // how long after the door shut the vehicle comes
	After  route.Load    // on board on leaving
	Unfit  bool          // the vehicle lacks what the stop needs
	Aboard string        // the other vehicle that left with what it is to get
	Fixed  bool          // it is under way
	past   time.Duration // the act-by or the promise, whichever is sooner
}

// Margin returns how long before act-by the vehicle comes; below zero after
// it. It is false where nobody waits for gas.
func (s StopTimes) Margin() (time.Duration, bool) {
	if s.ActBy.IsZero() {
		return 0, false
	}
	return s.ActBy.Sub(s.Arrive), true
}

// Times returns every round of the board as it would go.
func (b Board) Times() []RoundTimes {
	times := make([]RoundTimes, len(b.rounds))
	back := make(map[string]time.Time)
	for i, r := range b.rounds {
		times[i] = b.time(i, back[r.Vehicle])
		if len(times[i].Stops) > 0 {
			back[r.Vehicle] = times[i].Back
		}
	}
	return times
}

// time times one round. Before is when the vehicle is back from the round
// before it; zero for none.
func (b Board) time(i int, before time.Time) RoundTimes {
	r, pl := b.rounds[i], b.planner
	t := RoundTimes{Round: r, Room: b.problem.Vehicles[i].Capacity, Ends: pl.clock(b.problem.Vehicles[i].Until)}
	free := r.Stops[r.Begun:]
	from := b.loaded(r)
	switch {
	case r.Begun > 0:
		under := b.underWay(r)
		t.Stops, t.Departs, from = append(t.Stops, under), under.Arrive, under.Leave
	case r.Out:
		from = pl.Now
	case !before.IsZero():
		from = later(from, before.Add(loading))
	}
	trip := b.table.Drive(i, pl.seconds(from), free)
	if r.Begun == 0 {
		t.Departs = pl.clock(trip.Departure)
	}
	t.Back, t.Metres, t.Loaded, t.Over = pl.clock(trip.Return), trip.Distance, trip.Out, trip.Over
	t.cost, t.Rests = trip.Cost, pl.rests(trip.Rests)
	t.NoRest = trip.NoRest && len(pl.breaks(b.vehicle(r), trip.Departure)) > 0
	if len(free) == 0 && r.Begun > 0 { // home from the stop under way
		home := b.problem.Vehicles[i]
		t.Back = pl.clock(b.table.Home(i, pl.seconds(from)))
		t.Metres = b.problem.Distance[home.Start][home.End]
	}
	t.Overtime = max(0, t.Back.Sub(t.Ends))
	if len(r.Stops) == 0 {
		t.Overtime = 0
	}
	t.Driving = t.Back.Sub(t.Departs)
	for k, v := range trip.Visits {
		s := b.stopTimes(v.Stop, r, pl.clock(v.Start), pl.clock(v.Leave))
		s.Number, s.After = r.Begun+k+1, v.After
		s.Shut = time.Duration(trip.Shut[k]) * time.Second
		s.Unfit = slices.Contains(trip.Unsuited, k)
		t.Stops = append(t.Stops, s)
		t.Driving -= s.Leave.Sub(s.Arrive) + time.Duration(v.Wait)*time.Second
	}
	return t
}

// idle is for how long the vehicle stands before doors that are not open yet: a
// driver is as long away from everything else as on the road.
func (t RoundTimes) idle() time.Duration {
	idle := t.out()
	for _, s := range t.Stops {
		idle -= s.Leave.Sub(s.Arrive)
	}
	return max(0, idle-t.Driving)
}

// out is for how long the vehicle is away.
func (t RoundTimes) out() time.Duration {
	if len(t.Stops) == 0 {
		return 0
	}
	return t.Back.Sub(t.Departs)
}

func (b Board) vehicle(r Round) Vehicle {
	v, _ := b.planner.Programme.Vehicle(r.Vehicle)
	return v
}

// loaded returns when a vehicle is loaded: one that is about to leave by the
// book is being loaded already.
func (b Board) loaded(r Round) time.Time {
	at := b.planner.Now.Add(loading)
	if !r.leaves.IsZero() && r.leaves.Before(at) {
		return later(r.leaves, b.planner.Now)
	}
	return at
}

// underWay returns the stop a vehicle is at or drives to.
func (b Board) underWay(r Round) StopTimes {
	on := r.Stops[0]
	service := time.Duration(b.stops[on].stop.Service) * time.Second
	s := b.stopTimes(on, r, r.begins, later(r.begins.Add(service), b.planner.Now))
	s.Number, s.Fixed = 1, true
	return s
}

func (b Board) stopTimes(on int, r Round, arrive, leave time.Time) StopTimes {
	stop, pl := b.stops[on], b.planner
	t := StopTimes{
		On: on, Where: stop.address.Where(),
		Opens: pl.clock(stop.stop.Window[0]), Shuts: pl.clock(stop.stop.Window[1]),
	}
	t.PlannedStop = stop.booked
	t.Address, t.Arrive, t.Leave, t.Late, t.ActBy = stop.address.ID, arrive, leave, 0, pl.due(stop.call)
	t.Locked = stop.lock == r.Vehicle
	if stop.aboard && stop.vehicle != r.Vehicle && (stop.stop.Drop != route.Load{}) {
		t.Aboard = stop.vehicle
	}
	if stop.wish != nil {
		t.ActBy = stop.wish.ActBy
	}
	if !t.ActBy.IsZero() {
		t.Late = max(0, arrive.Sub(t.ActBy))
	}
	if stop.stop.ActBy != 0 {
		t.past = max(0, arrive.Sub(pl.clock(stop.stop.ActBy)))
	}
	t.Persons, t.Tasks = slices.Clone(stop.waits), slices.Clone(stop.booked.Tasks)
	if stop.run != "" && stop.run == r.Run {
		t.Persons = slices.Clone(stop.booked.Persons)
	}
	for _, e := range stop.errands {
		t.Persons = with(t.Persons, e.Person.ID)
		for _, task := range e.Care.Tasks {
			t.Tasks = with(t.Tasks, task.ID)
		}
	}
	return t
}

// with returns a list that holds x.
func with[T comparable](list []T, x T) []T {
	if slices.Contains(list, x) {
		return list
	}
	return append(list, x)
}

// Plans returns the runs of the board that are not as the book has them, as
// they are put in force. Those whose stops all went elsewhere are over.
func (b Board) Plans() []RunPlan {
	var plans []RunPlan
	for _, t := range b.Times() {
		if b.asBooked(t) {
			continue
		}
		plan := RunPlan{ID: t.Run, Planned: Planned{
			Vehicle: t.Vehicle, Driver: t.Driver, Day: t.Day, Departs: t.Departs, Back: t.Back, Metres: t.Metres,
			Rests: t.Rests,
		}}
		for _, s := range t.Stops {
			plan.Stops = append(plan.Stops, s.PlannedStop)
		}
		plans = append(plans, plan)
	}
	for _, r := range b.gone {
		plans = append(plans, RunPlan{ID: r.Run, Planned: Planned{Vehicle: r.Vehicle, Driver: r.Driver, Day: r.Day}})
	}
	return plans
}

// asBooked reports whether a round is as the book has it.
func (b Board) asBooked(t RoundTimes) bool {
	booked := 0
	for _, s := range b.stops {
		if s.run != "" && s.run == t.Run {
			booked++
		}
	}
	return booked == len(t.Stops) && !slices.ContainsFunc(t.Stops, func(s StopTimes) bool {
		was := b.stops[s.On]
		return was.run != t.Run || was.booked.Locked != s.Locked || s.Arrive.Sub(was.booked.Arrive).Abs() >= time.Minute
	})
}

// Lock returns the board with a stop locked to the vehicle it is on, or let
// free again.
func (b Board) Lock(stop int) Board {
	b.stops = slices.Clone(b.stops)
	s := &b.stops[stop]
	for _, r := range b.rounds {
		switch {
		case !slices.Contains(r.Stops, stop):
		case s.lock == r.Vehicle:
			s.lock = ""
		default:
			s.lock = r.Vehicle
		}
	}
	return b
}
