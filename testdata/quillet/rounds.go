package quillet

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
)

// vehicleFor returns the vehicle that serves an island.
func vehicleFor(area string) string {
	switch area {
	case "Little Quillet", "Outer Tern":
		return "van 3"
	case "Sallow", "Skerry":
		return "van 4"
	}
	return "van 1"
}

func driverOf(p delivery.Programme, vehicle string) string {
	v, _ := p.Vehicle(vehicle)
	return v.Driver
}

func depotOf(p delivery.Programme, vehicle string) string {
	v, _ := p.Vehicle(vehicle)
	return v.Depot
}

// round is one vehicle on one day.
type round struct{ day, vehicle string }

// outing is the visits of a round. The run gets its id when it is planned.
type outing struct {
	run   inventory.RunID
	stops []call
}

// call is one stop of an outing.
type call struct {
	at    time.Time
	who   store.Found
	visit delivery.Visit
}

// visit puts a visit on the round of its day.
func (h *historian) visit(at time.Time, vehicle string, who store.Found, v delivery.Visit) {
	if !at.Before(h.scene.now.Add(-scripted)) {
		return
	}
	key := round{at.Format(time.DateOnly), vehicle}
	if h.rounds[key] == nil {
		h.rounds[key] = &outing{}
	}
	h.rounds[key].stops = append(h.rounds[key].stops, call{at.Truncate(time.Minute), who, v})
}

// drive plans, drives and ends each round.
func (h *historian) drive() {
	keys := slices.SortedFunc(maps.Keys(h.rounds), func(a, b round) int {
		return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.vehicle, b.vehicle))
	})
	for _, key := range keys {
		out := h.rounds[key]
		slices.SortStableFunc(out.stops, func(a, b call) int { return a.at.Compare(b.at) })
		driver := driverOf(h.places, key.vehicle)
		first, last := out.stops[0].at, out.stops[len(out.stops)-1].at
		plan := delivery.Planned{
			Vehicle: key.vehicle, Driver: driver, Day: key.day,
			Departs: first.Add(-45 * time.Minute), Back: last.Add(50 * time.Minute),
		}
		depot, _ := h.places.Site(depotOf(h.places, key.vehicle))
		at := depot.Point
		for _, c := range out.stops {
			plan.Metres += h.places.Ride(at, c.who.Address.Point).Metres
			at = c.who.Address.Point
			plan.Stops = append(plan.Stops, delivery.PlannedStop{
				Address: c.who.Address.ID, Persons: []inventory.PersonID{c.who.Person.ID},
				Arrive: c.at.Add(-30 * time.Minute), Leave: c.at,
			})
		}
		plan.Metres += h.places.Ride(at, depot.Point).Metres
		h.act(plan.Departs.Add(-15*time.Minute), Coordinator, inventory.Keyed, planRun{plan, out})
		for _, c := range out.stops {
			h.act(c.at, driver, inventory.Scanned, closeStop{c.visit, out})
		}
		h.act(last.Add(time.Minute), driver, inventory.Keyed, endRun{out})
	}
}

// planRun plans a round and keeps the id its run was given.
type planRun struct {
	delivery.Planned
	out *outing
}

// Decide plans the run.
func (a planRun) Decide(v delivery.View) (delivery.Change, error) {
	change, err := delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: a.Planned}}}.Decide(v)
	if err == nil {
		a.out.run = change.Facts[0].Run
	}
	return change, err
}

// closeStop closes a stop of the round's run.
type closeStop struct {
	delivery.Visit
	out *outing
}

// Decide closes the stop.
func (a closeStop) Decide(v delivery.View) (delivery.Change, error) {
	a.Visit.Run = a.out.run
	return a.Visit.Decide(v)
}

// endRun ends the round's run.
type endRun struct{ out *outing }

// Decide ends the run.
func (a endRun) Decide(v delivery.View) (delivery.Change, error) {
	return delivery.EndRun{Run: a.out.run}.Decide(v)
}
