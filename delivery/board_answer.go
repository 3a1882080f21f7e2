package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// SlotAnswer says when a vehicle can be at a stop that waits, as the runs
// stand and with nobody else's act-by broken.
func (b Board) SlotAnswer(stop int) Answer {
	now := b.planner.Now
	slots := b.Slots(stop)
	a := Answer{Assumed: []string{
		"runs as they stand; those on their way keep their order",
		fmt.Sprintf("loading %s; %s", Spell(loading), b.planner.Programme.RidesSay()),
	}}
	if slices.ContainsFunc(b.planner.Programme.Ferries, Ferry.timed) {
		a.Assumed = append(a.Assumed, "ferries by their timetables: who misses one waits for the next")
	}
	if len(slots) == 0 {
		a.Verdict, a.Title = depletion.Short, "no vehicle can go there today without harm to somebody else"
		a.Help = "none"
		a.Do = []string{"Plan the day anew: what would have to give way is named then", "Or find another vehicle, or keep the person on the ward"}
		return a
	}
	a.Assumed = append(a.Assumed, b.hands(stop)...)
	if home := b.stops[stop].address; home.Rough {
		a.Assumed = append(a.Assumed, home.roughNote())
	}
	first, last := slots[0], slots[len(slots)-1]
	a.Verdict, a.Title = depletion.Holds, first.Says(now)
	if !first.ActBy.IsZero() && first.Arrive.After(first.ActBy) {
		a.Verdict = depletion.Short
		a.Title = fmt.Sprintf("%s, %s after act-by", first.Says(now), Spell(first.Arrive.Sub(first.ActBy)))
	}
	a.Low, a.Mid, a.High = until(now, first), until(now, other(slots)), until(now, last)
	a.Help = fmt.Sprintf("%s there %s", first.Name, Clock(first.Arrive, now))
	a.Do = []string{"Promise " + Clock(first.Promise(), now), fmt.Sprintf("Take the slot: %s, %.0f km and %s of driving more", first.place(), float64(first.Metres)/1000, Spell(max(0, first.Takes)))}
	if least, ok := LeastDriving(slots, first.ActBy); ok && first.Out-least.Out >= worthSaying {
		a.Do = append(a.Do, fmt.Sprintf("Or %s less on the road, still by act-by: %s, %s", Spell(first.Out-least.Out), Clock(least.Arrive, now), least.place()))
	}
	if a.Verdict == depletion.Short {
		a.Do = append([]string{"More gas, or plan the day anew: the soonest is too late"}, a.Do...)
	}
	for _, s := range first.Shifts {
		a.Facts = append(a.Facts, s.Says(now))
	}
	if len(first.Shifts) == 0 {
		a.Facts = append(a.Facts, "nobody else is visited at another time")
	}
	return a
}

// worthSaying is the time on the road another slot has to save to be named beside
// the soonest.
const worthSaying = 5 * time.Minute

// hands says who has to come along, and what no vehicle has.
func (b Board) hands(stop int) []string {
	s := b.stops[stop]
	var needs []string
	if s.wish != nil {
		needs = b.planner.Programme.asked(s.address, s.wish.Bring, s.wish.Language)
	}
	for _, e := range s.errands {
		for _, t := range e.Care.Tasks {
			for _, need := range b.planner.Programme.asked(s.address, t.Bring, e.Person.Language) {
				needs = with(needs, need)
			}
		}
	}
	can, lacks := b.planner.able(needs)
	var words []string
	for _, need := range can {
		words = append(words, "only vehicles with: "+need)
	}
	for _, need := range lacks {
		if need == twoPersons {
			words = append(words, fmt.Sprintf("%d floors without a lift and no vehicle with two persons: ask for a second pair of hands, or bring smaller cylinders%s", s.address.Stairs, b.smaller(s)))
		} else {
			words = append(words, "no driver speaks "+need+": book an interpreter by phone for the visit and for tomorrow's call")
		}
	}
	return words
}

// smaller says what the smallest size that one person carries does to the cover;
// empty where no heavy cylinder is to be brought.
func (b Board) smaller(s boardStop) string {
	const light gas.SizeCode = "US-E"
	flow := gas.Flow(2) // where no order is known
	for _, e := range s.errands {
		if _, highest := e.Care.Flow(); highest > 0 {
			flow = highest
		}
	}
	lasts := func(code gas.SizeCode) string {
		size, _ := b.planner.Programme.Sizes.LookUp(code)
		plan, err := gas.PlanMinutes(size, size.Service, b.planner.Programme.Reserve, flow, gas.Room)
		if err != nil {
			return "a time nobody knows"
		}
		return Spell(time.Duration(plan.Minutes) * time.Minute)
	}
	for _, w := range s.wants() {
		if w.Kind == inventory.Cylinder && b.planner.Programme.heavy(w) {
			return fmt.Sprintf(": a full %s lasts %s at %s where a full %s lasts %s", letter(light), lasts(light), flow, letter(w.Size), lasts(w.Size))
		}
	}
	return ""
}

func until(now time.Time, s Slot) string { return Spell(s.Arrive.Sub(now)) }

// other returns the soonest slot with another vehicle than the first, else the
// first.
func other(slots []Slot) Slot {
	for _, s := range slots {
		if s.Round != slots[0].Round {
			return s
		}
	}
	return slots[0]
}

// place says where on its round a slot is.
func (s Slot) place() string {
	r := s.on.rounds[s.Round]
	switch {
	case len(r.Stops) == 0:
		return "a round of its own with " + r.Name
	case s.Before == len(r.Stops):
		return "the last stop of " + r.Name
	}
	return fmt.Sprintf("%s before %s", r.Name, s.on.stops[r.Stops[s.Before]].address.Where())
}

// Forward says how a delivery can be brought forward to be there by a time, and
// whom that delays; empty where nobody else may pay for it.
func (b Board) Forward(stop int, by time.Time) string {
	for _, s := range b.Slots(stop) {
		if s.Arrive.After(by) {
			return ""
		}
		now := b.planner.Now
		words := fmt.Sprintf("Or move the delivery: %s, there %s", s.place(), Clock(s.Arrive, now))
		for _, shift := range s.Shifts {
			words += "; " + shift.Says(now)
		}
		if len(s.Shifts) == 0 {
			words += "; nobody else waits longer"
		}
		return words
	}
	return ""
}

// Bringing returns the visit that brings a kit to somebody who leaves the
// ward: set up and warm before the gas ends.
func (p Programme) Bringing(home Address, language string, leaves, gasEnds time.Time, bring []Wanted) Wish {
	ride, _ := p.rideOrGuess(p.Hospital.Point, home.Point, leaves)
	w := Wish{Address: home, Language: language, From: leaves.Add(ride + p.HomeLate), Bring: bring, Takes: p.SetUp + p.WarmUp}
	if !gasEnds.IsZero() {
		w.ActBy = gasEnds.Add(-p.SetUp - p.WarmUp)
	}
	return w
}
