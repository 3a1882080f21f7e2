package delivery

import (
	"fmt"
	"slices"
	"time"
)

// again is the soonest a vehicle is sent back to a door that nobody opened:
// nobody comes home sooner. Common practice, no source.
const again = 30 * time.Minute

// NextVisit says when a vehicle can be back at a home where nobody opened, and
// whether that is by the latest time somebody must be in. What is to be left
// stays on the vehicle that was there. Empty where none can.
func (b Board) NextVisit(w Watch, latest time.Time) string {
	if len(b.rounds) == 0 {
		return ""
	}
	wish := Wish{Address: w.Address, From: b.planner.Now.Add(again), Takes: b.planner.Programme.SetUp + b.planner.Programme.WarmUp}
	vehicle := ""
	if stop, on := b.StopOf(w.Care.Person); on {
		vehicle = b.stops[stop].vehicle
	}
	if vehicle == "" {
		for _, t := range w.Care.Tasks {
			wish.Bring = append(wish.Bring, t.Bring...)
		}
	}
	with, stop, known := b.With(wish)
	if !known {
		return ""
	}
	slots := slices.DeleteFunc(with.Slots(stop), func(s Slot) bool {
		return vehicle != "" && s.Vehicle() != vehicle
	})
	if len(slots) == 0 {
		return "No vehicle can be back today without harm to somebody else: plan the day anew"
	}
	words := fmt.Sprintf("Next slot: %s, %s", slots[0].place(), Clock(slots[0].Arrive, b.planner.Now))
	switch {
	case latest.IsZero():
		return words
	case slots[0].Arrive.After(latest):
		return words + ", " + Spell(slots[0].Arrive.Sub(latest)) + " too late: only with gas left with them first"
	}
	return words + ", " + Spell(latest.Sub(slots[0].Arrive)) + " before the latest"
}
