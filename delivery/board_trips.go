package delivery

import (
	"slices"
	"time"
)

// shortTrip is how long before its planned round a vehicle has to be free for a
// trip before it to be worth a look. Common practice, no source.
const shortTrip = time.Hour

// withTrips returns the board with the trips that vehicles could make beside
// those planned: before the next one, and after the last. Without them who asks
// for a visit joins the round of the afternoon, which then leaves in the morning
// and stands before closed doors.
func (b Board) withTrips() Board {
	pl, rounds := b.planner, slices.Clone(b.rounds)
	for _, v := range pl.onDuty(pl.depots()) {
		ahead := func(r Round) bool { return r.Vehicle == v.Name && !r.Out }
		next := slices.IndexFunc(rounds, ahead)
		if next < 0 || len(rounds[next].Stops) == 0 {
			continue // it has an empty one
		}
		vehicle, _ := pl.Programme.Vehicle(v.Name)
		trip := Round{Vehicle: v.Name, Driver: vehicle.Driver, Day: pl.midnight().Format(time.DateOnly)}
		last := next
		for i := range rounds {
			if ahead(rounds[i]) {
				last = i
			}
		}
		trip.Name = v.Name + ", after its planned round"
		rounds = slices.Insert(rounds, last+1, trip)
		if rounds[next].leaves.Sub(pl.Now) >= shortTrip {
			trip.Name = v.Name + ", before its planned round"
			rounds = slices.Insert(rounds, next, trip)
		}
	}
	if len(rounds) == len(b.rounds) {
		return b
	}
	more := b
	more.rounds = rounds
	if more.lay() != nil {
		return b
	}
	return more
}
