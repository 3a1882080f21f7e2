package delivery

import "time"

// Reach is when a vehicle could be at a home.
type Reach struct {
	At      time.Time
	Vehicle string
	Known   bool // false when the way to the home is not known: At is then the careful guess
}

// Soonest returns the earliest that a vehicle could be at a home: loaded, back
// from the run it is on, within its shift. Back holds when each vehicle on a
// run is back. With no vehicle left today At is zero.
func (p Programme) Soonest(now time.Time, back map[string]time.Time, to Point) Reach {
	var best Reach
	for _, v := range p.Vehicles {
		leaves := now
		if at := back[v.Name]; at.After(leaves) {
			leaves = at
		}
		from, until, ok := v.shift(now)
		if leaves = leaves.Add(loading); leaves.Before(from) {
			leaves = from
		}
		if !ok || !leaves.Before(until) {
			continue
		}
		depot, _ := p.Site(v.Depot)
		ride, known := p.rideOrGuess(depot.Point, to, leaves)
		if at := leaves.Add(ride); at.Before(until) && (best.At.IsZero() || at.Before(best.At)) {
			best = Reach{At: at, Vehicle: v.Name, Known: known}
		}
	}
	return best
}

// rideOrGuess returns how long a ride takes that begins at a time; where nobody
// knows the way, the programme's careful guess.
func (p Programme) rideOrGuess(from, to Point, leaves time.Time) (ride time.Duration, known bool) {
	leg := p.RideAt(from, to, leaves)
	if !leg.Known {
		return p.HelpWithin, false
	}
	return leg.Takes, true
}

// shift returns the vehicle's shift on the day of a time.
func (v Vehicle) shift(day time.Time) (from, until time.Time, ok bool) {
	from, ok1 := clockOn(day, v.From)
	until, ok2 := clockOn(day, v.Until)
	return from, until, ok1 && ok2
}

// OnShift reports whether any vehicle is on its shift at t, on the clock of t.
func (p Programme) OnShift(t time.Time) bool {
	for _, v := range p.Vehicles {
		if from, until, ok := v.shift(t); ok && !t.Before(from) && !t.After(until) {
			return true
		}
	}
	return false
}

// clockOn returns a time of day, 15:04, on the day of another time.
func clockOn(day time.Time, clock string) (time.Time, bool) {
	t, err := time.Parse("15:04", clock)
	if err != nil {
		return time.Time{}, false
	}
	return time.Date(day.Year(), day.Month(), day.Day(), t.Hour(), t.Minute(), 0, 0, day.Location()), true
}
