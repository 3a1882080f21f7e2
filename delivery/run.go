package delivery

import (
	"slices"
	"time"

	"lungwort/inventory"
)

// Stop is one stop of a run with what became of it.
type Stop struct {
	PlannedStop
	Seen   []inventory.PersonID `json:"seen,omitempty"`  // whose part is done or failed
	Closed time.Time            `json:"closed,omitzero"` // when the last of its persons was seen
	Failed string               `json:"failed,omitempty"`
	Left   []inventory.ItemID   `json:"left,omitempty"`
	Took   []inventory.ItemID   `json:"took,omitempty"`
}

// Waits reports whether the stop is still open for a person.
func (s Stop) Waits(person inventory.PersonID) bool {
	return s.Closed.IsZero() && slices.Contains(s.Persons, person) && !slices.Contains(s.Seen, person)
}

// Run is what the facts say of one trip of one vehicle.
type Run struct {
	ID      inventory.RunID `json:"id"`
	Vehicle string          `json:"vehicle"`
	Driver  string          `json:"driver,omitempty"`
	Day     string          `json:"day"`
	Departs time.Time       `json:"departs"`
	Back    time.Time       `json:"back"`
	Metres  int64           `json:"metres"`
	Stops   []Stop          `json:"stops"`
	Rests   []Rest          `json:"rests,omitempty"`
	Ended   time.Time       `json:"ended,omitzero"`
	Counted *VanCount       `json:"counted,omitempty"` // when it was back
}

// Open returns the stops not yet closed.
func (r Run) Open() []Stop {
	return slices.DeleteFunc(slices.Clone(r.Stops), func(s Stop) bool { return !s.Closed.IsZero() })
}

// Visit returns when the run plans to be with a person, for a stop still
// open.
func (r Run) Visit(person inventory.PersonID) (time.Time, bool) {
	for _, s := range r.Open() {
		if s.Waits(person) {
			return s.Arrive, true
		}
	}
	return time.Time{}, false
}

// FoldRun returns what the facts about one run say.
func FoldRun(id inventory.RunID, facts []inventory.Fact) Run {
	r := Run{ID: id}
	for _, f := range inventory.Standing(facts) {
		if f.Run != id {
			continue
		}
		switch s := f.Statement.(type) {
		case *Planned:
			r.plan(s)
		case *Visited:
			r.visit(s.Address, s.Failed, f)
			r.moved(s)
		case *CalledOff:
			r.callOff(s, f)
		case *Ended:
			r.Ended, r.Counted = f.Happened, s.Counted
		}
	}
	return r
}

// plan takes a plan over. Stops already closed stay as they were, whom the
// driver was with stays seen, and what was done is not to be done again.
func (r *Run) plan(s *Planned) {
	before := r.Stops
	closed := slices.DeleteFunc(slices.Clone(r.Stops), func(s Stop) bool { return s.Closed.IsZero() })
	r.Vehicle, r.Driver, r.Day = s.Vehicle, s.Driver, s.Day
	r.Departs, r.Back, r.Metres, r.Rests = s.Departs, s.Back, s.Metres, s.Rests
	r.Stops = closed
	for _, planned := range s.Stops {
		if slices.ContainsFunc(closed, func(c Stop) bool { return c.did(planned) }) {
			continue
		}
		stop := Stop{PlannedStop: planned}
		for _, b := range before {
			if b.Address == planned.Address && b.Closed.IsZero() {
				stop.Seen, stop.Left, stop.Took = b.Seen, b.Left, b.Took
			}
		}
		r.Stops = append(r.Stops, stop)
	}
}

// did reports whether the stop did all that another is planned for.
func (s Stop) did(planned PlannedStop) bool {
	return s.Failed == "" && s.Address == planned.Address && len(planned.Tasks) > 0 &&
		!slices.ContainsFunc(planned.Tasks, func(t inventory.FactID) bool { return !slices.Contains(s.Tasks, t) })
}

// callOff closes the person's part of every stop that is still open.
func (r *Run) callOff(s *CalledOff, f inventory.Fact) {
	for _, stop := range r.Stops {
		r.visit(stop.Address, "called off: "+s.Why, f)
	}
}

func (r *Run) visit(address inventory.AddressID, failed string, f inventory.Fact) {
	for i := range r.Stops {
		stop := &r.Stops[i]
		if stop.Address != address || !stop.Waits(f.Person) {
			continue
		}
		stop.Seen = append(stop.Seen, f.Person)
		if failed != "" {
			stop.Failed = failed
		}
		if len(stop.Seen) == len(stop.Persons) {
			stop.Closed = f.Happened
		}
		return
	}
}

// moved notes at the stop made last what was left there and taken along.
func (r *Run) moved(s *Visited) {
	for i := len(r.Stops) - 1; i >= 0; i-- {
		if stop := &r.Stops[i]; stop.Address == s.Address && len(stop.Seen) > 0 {
			stop.Left, stop.Took = append(stop.Left, s.Left...), append(stop.Took, s.Took...)
			return
		}
	}
}
