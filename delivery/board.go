package delivery

import (
	"slices"
	"time"

	"lungwort/delivery/route"
	"lungwort/inventory"
)

// Board is the day as it stands: each round a vehicle is on or could still
// make, stop by stop, and what waits for one. It is a value; changing it gives
// another board.
type Board struct {
	planner  Planner
	stops    []boardStop
	rounds   []Round
	gone     []Round // of vehicles out of service: their stops wait
	waiting  []int   // stops on no round
	troubles []Trouble
	problem  route.Problem // a vehicle for each round; places are the depots, then the stops
	table    *route.Timetable
}

// Round is one trip of a vehicle.
type Round struct {
	Run     inventory.RunID // empty while it is not in the book
	Name    string          // the vehicle's, and which trip it is where it makes two
	Vehicle string
	Driver  string
	Day     string
	Out     bool  // it has left: what it brings is on board
	Begun   int   // so many of its first stops are under way; they stay
	Stops   []int // on the board, in order

	begins time.Time // of the stop under way
	leaves time.Time // by the book
}

// boardStop is one address that a vehicle is to visit.
type boardStop struct {
	call
	booked  PlannedStop // as the book has it; without an address where it is on no run
	run     inventory.RunID
	waits   []inventory.PersonID // not seen yet, of those booked
	vehicle string               // booked
	number  int                  // on the booked run, from 1
	stop    route.Stop
	aboard  bool   // what it brings left with a vehicle
	wish    *Wish  // asked for on the phone, not in the book
	lock    string // the one vehicle that may go there, by a person's choice
}

// Standing is what the book says of the day.
type Standing struct {
	Runs      []Run    // not ended
	Errands   []Errand // the homes with open tasks
	Addresses map[inventory.AddressID]Address
}

// NewBoard puts the day on the board.
func NewBoard(pl Planner, s Standing) (Board, error) {
	runs := slices.DeleteFunc(slices.Clone(s.Runs), func(r Run) bool { return !r.Ended.IsZero() || len(r.Open()) == 0 })
	slices.SortStableFunc(runs, func(a, b Run) int { return a.Departs.Compare(b.Departs) })
	today := pl.midnight().Format(time.DateOnly)
	goes := slices.ContainsFunc(runs, func(r Run) bool { return (r.left(pl.Now) || r.Day == today) && !pl.out(r.Vehicle) })
	if !goes && len(pl.onDuty(pl.depots())) == 0 {
		pl.Day = pl.Day.AddDate(0, 0, 1)
	}
	b := Board{planner: pl}
	served := make(map[inventory.PersonID]bool)
	for _, r := range runs {
		for _, s := range r.Open() {
			for _, who := range s.Persons {
				served[who] = served[who] || s.Waits(who)
			}
		}
		if r.left(pl.Now) || r.Day == today || r.Day == pl.midnight().Format(time.DateOnly) {
			b.hang(r, s)
		}
	}
	loose := slices.DeleteFunc(slices.Clone(s.Errands), func(e Errand) bool { return served[e.Person.ID] })
	var calls []call
	calls, b.troubles = pl.calls(loose)
	for _, c := range calls {
		b.wait(boardStop{call: c})
	}
	b.spareRounds()
	place := func(r Round) int {
		return slices.IndexFunc(pl.Programme.Vehicles, func(v Vehicle) bool { return v.Name == r.Vehicle })
	}
	slices.SortStableFunc(b.rounds, func(x, y Round) int { return place(x) - place(y) })
	return b, b.lay()
}

// left reports whether the vehicle is on its way: a stop was made, or it is
// past the time it leaves.
func (r Run) left(now time.Time) bool {
	return !now.Before(r.Departs) || slices.ContainsFunc(r.Stops, func(s Stop) bool { return len(s.Seen) > 0 })
}

// out reports whether a vehicle is out of service now.
func (pl Planner) out(vehicle string) bool { return pl.Out[vehicle].After(pl.Now) }

// hang puts a run on the board. What a vehicle out of service was to do waits.
func (b *Board) hang(r Run, standing Standing) {
	pl := b.planner
	round := Round{Run: r.ID, Name: r.Vehicle, Vehicle: r.Vehicle, Driver: r.Driver, Day: r.Day, Out: r.left(pl.Now), leaves: r.Departs}
	gone := pl.out(r.Vehicle)
	for i, s := range r.Stops {
		if !s.Closed.IsZero() {
			continue
		}
		stop := boardStop{
			call: pl.booked(s, standing, round.Out), booked: s.PlannedStop,
			run: r.ID, vehicle: r.Vehicle, number: i + 1, aboard: round.Out,
		}
		if s.Locked && !gone {
			stop.lock = r.Vehicle
		}
		stop.waits = slices.DeleteFunc(slices.Clone(s.Persons), func(who inventory.PersonID) bool { return !s.Waits(who) })
		if gone {
			b.wait(stop)
			continue
		}
		b.stops = append(b.stops, stop)
		round.Stops = append(round.Stops, len(b.stops)-1)
	}
	if gone {
		b.gone = append(b.gone, round)
		return
	}
	if round.Out && len(round.Stops) > 0 {
		round.Begun, round.begins = 1, pl.comes(r)
	}
	b.rounds = append(b.rounds, b.named(round))
}

// named gives a round a name of its own.
func (b *Board) named(r Round) Round {
	if slices.ContainsFunc(b.rounds, func(o Round) bool { return o.Vehicle == r.Vehicle }) {
		r.Name += ", next trip"
	}
	return r
}

func (b *Board) wait(s boardStop) {
	b.stops = append(b.stops, s)
	b.waiting = append(b.waiting, len(b.stops)-1)
}

// booked returns the call behind a stop of a run. A vehicle that has left
// brings what was planned; one that has not brings what is asked for since.
func (pl Planner) booked(s Stop, standing Standing, out bool) call {
	c := call{address: standing.Addresses[s.Address]}
	for _, e := range standing.Errands {
		if e.Address.ID != s.Address || !slices.Contains(s.Persons, e.Person.ID) {
			continue
		}
		today := pl.ofTheDay(e)
		e.Care.Tasks = slices.DeleteFunc(slices.Clone(e.Care.Tasks), func(t OpenTask) bool {
			planned := slices.Contains(s.Tasks, t.ID)
			asked := slices.ContainsFunc(today, func(o OpenTask) bool { return o.ID == t.ID })
			return !planned && (out || !asked)
		})
		if len(e.Care.Tasks) > 0 && s.Waits(e.Person.ID) {
			c.errands = append(c.errands, e)
		}
	}
	return c
}

// comes returns when the vehicle is at the stop under way, by when it closed
// the one before.
func (pl Planner) comes(r Run) time.Time {
	next := r.Open()[0]
	var last, due time.Time
	for _, s := range r.Stops {
		if s.Closed.After(last) {
			last, due = s.Closed, s.Leave
		}
	}
	if last.IsZero() || due.IsZero() {
		return next.Arrive
	}
	return next.Arrive.Add(max(0, last.Sub(due)))
}

// spareRounds adds an empty round for each vehicle on duty that has none
// ahead: it could make one, after the one it is on.
func (b *Board) spareRounds() {
	pl := b.planner
	for _, v := range pl.onDuty(pl.depots()) {
		ahead := func(r Round) bool { return r.Vehicle == v.Name && !r.Out }
		if slices.ContainsFunc(b.rounds, ahead) {
			continue
		}
		vehicle, _ := pl.Programme.Vehicle(v.Name)
		b.rounds = append(b.rounds, b.named(Round{
			Name: v.Name, Vehicle: v.Name, Driver: vehicle.Driver, Day: pl.midnight().Format(time.DateOnly),
		}))
	}
}

// lay works out the rides between everything on the board.
func (b *Board) lay() (err error) {
	pl := b.planner
	points := make([]Point, 0, len(pl.Programme.Depots)+len(b.stops))
	for _, d := range pl.Programme.Depots {
		points = append(points, d.Point)
	}
	b.problem = route.Problem{}
	for i := range b.stops {
		b.stops[i].stop = pl.boardStop(b.stops[i], len(points))
		points = append(points, b.stops[i].address.Point)
		b.problem.Stops = append(b.problem.Stops, b.stops[i].stop)
	}
	pl.Programme.roads(pl.midnight()).lay(&b.problem, points)
	depots := pl.depots()
	for _, r := range b.rounds {
		v, _ := pl.Programme.Vehicle(r.Vehicle)
		vehicle := pl.roundVehicle(v, depots)
		vehicle.Name = r.Name
		if r.Begun > 0 {
			vehicle.Start = b.stops[r.Stops[0]].stop.Place
		}
		b.problem.Vehicles = append(b.problem.Vehicles, vehicle)
	}
	b.table, err = route.NewTimetable(b.problem)
	return err
}

// roundVehicle returns the vehicle of a round with the shift it is in service. A
// vehicle the programme has no more makes no further stops.
func (pl Planner) roundVehicle(v Vehicle, depots map[string]int) route.Vehicle {
	depot := depots[v.Depot]
	vehicle := route.Vehicle{
		Start: depot, End: depot, Capacity: v.capacity(), Skills: v.skills(), Breaks: pl.breaks(v, pl.seconds(pl.Now)),
	}
	if from, until, ok := v.shift(pl.midnight()); ok {
		from = later(from, pl.Out[v.Name]) // it may be back in service during its shift
		vehicle.From, vehicle.Until = pl.seconds(from), max(pl.seconds(from), pl.seconds(until))
	}
	return vehicle
}

// boardStop returns a stop as the timetable takes it. A stop whose tasks are
// done otherwise is still called in at, as planned.
func (pl Planner) boardStop(s boardStop, place int) route.Stop {
	if s.wish != nil {
		return pl.wished(*s.wish, place)
	}
	if len(s.errands) > 0 {
		return pl.stop(s.call, place)
	}
	return route.Stop{
		Name: string(s.address.ID), Place: place, Window: [2]int64{0, 2 * 24 * 3600},
		Service: max(0, int64(s.booked.Leave.Sub(s.booked.Arrive)/time.Second)),
	}
}
