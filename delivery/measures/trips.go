package measures

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// Trips returns the visits to a person, oldest first, from the facts about the
// person. What was done at one moment is one visit.
func Trips(id inventory.PersonID, facts []inventory.Fact, p delivery.Programme) []Trip {
	tasks := make(map[inventory.FactID]delivery.Tasked)
	causes, at := make(map[int64][]string), make(map[int64]time.Time)
	for _, f := range inventory.Standing(facts) {
		if f.Person != id {
			continue
		}
		moment := f.Happened.UnixMilli()
		switch s := f.Statement.(type) {
		case *delivery.Tasked:
			tasks[f.ID] = *s
		case *delivery.Visited:
			if s.Failed == "" {
				at[moment] = f.Happened
			}
		case *inventory.Collected:
			at[moment] = f.Happened
		case *delivery.Done:
			if t, known := tasks[s.Task]; known && s.Failed == "" {
				causes[moment] = append(causes[moment], cause(t))
			}
		}
	}
	trips := make([]Trip, 0, len(at))
	for moment, when := range at {
		slices.Sort(causes[moment])
		trips = append(trips, Trip{
			Person: id, At: when, Outside: !p.OnShift(when),
			Cause: cmp.Or(strings.Join(slices.Compact(causes[moment]), ", "), "no task"),
		})
	}
	slices.SortFunc(trips, func(a, b Trip) int { return a.At.Compare(b.At) })
	return trips
}

func cause(t delivery.Tasked) string {
	if t.Backup {
		return "low backup"
	}
	return string(t.Task)
}
