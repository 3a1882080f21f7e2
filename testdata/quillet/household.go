package quillet

import (
	"math"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// household is a person with the kit the story gave them.
type household struct {
	who      store.Found
	kit      []*piece
	runs     time.Time // when the concentrator was confirmed running
	vehicle  string
	machine  *piece
	silent   bool // never tells a gauge on the phone
	flow     gas.Flow
	saturate float64 // a usual SpO2
}

// discharge hands over on the ward and sets up at home; it reports whether
// there was a kit.
func (h *historian) discharge(who store.Found, opened time.Time) (*household, bool) {
	home := &household{who: who, silent: h.chance(30), saturate: 93 + 3*h.dice.Float64()}
	rest, highest := who.Care.Flow()
	home.flow = rest
	leaves := opened.Add(h.between(20*time.Minute, 40*time.Minute))
	ride := h.places.Ride(h.places.Hospital.Point, who.Address.Point).Takes
	arrives := leaves.Add(ride + h.between(5*time.Minute, 25*time.Minute))
	home.runs = arrives.Add(h.places.SetUp + h.places.WarmUp)
	home.vehicle = vehicleFor(who.Address.Point.Area)

	along := []*piece{h.shelf.take(opened, sort{inventory.Cylinder, "US-E"}, 0), h.shelf.take(opened, sort{inventory.Regulator, ""}, 0)}
	home.machine = h.shelf.take(opened, sort{inventory.Concentrator, ""}, highest)
	if home.machine == nil || slices.Contains(along, nil) {
		return nil, false
	}
	if h.chance(45) { // there are not enough for everybody
		if oximeter := h.shelf.take(opened, sort{inventory.Oximeter, ""}, 0); oximeter != nil {
			along = append(along, oximeter)
		}
	}
	bridge := along[0]
	deed := delivery.Discharge{
		Person: who.Person.ID, Ward: h.ward(), Opened: opened, Leaves: leaves, Arrives: arrives,
		Consents: map[string]bool{"share with the fire service": !h.chance(7), "share with the power company": !h.chance(10)},
		Supplies: h.places.Kits[0].Supplies,
	}
	for _, p := range along {
		deed.HandOver = append(deed.HandOver, delivery.Piece{Item: p.id, Gauge: p.read()})
	}
	bridge.use(rest, home.runs.Sub(opened))
	extra := h.extra(opened, rest, bridge)
	deed.Bring = append(deed.Bring, home.machine.id)
	for _, p := range extra {
		deed.Bring = append(deed.Bring, p.id)
	}
	if highest >= h.places.Bands.Emergency { // so much needs bands of the clinician's own
		h.act(opened.Add(-time.Hour), Coordinator, inventory.Phoned, delivery.GiveBands{
			Person: who.Person.ID, Target: 90, Borderline: highest + 1, Emergency: highest + 2, By: who.Care.Order.Prescriber,
		})
	}
	h.act(opened, Coordinator, inventory.Scanned, deed)
	home.kit = append(append(along, home.machine), extra...)
	h.setUp(home, bridge, extra)
	return home, true
}

// setUp starts the concentrator and leaves the backup.
func (h *historian) setUp(home *household, bridge *piece, extra []*piece) {
	h.act(home.runs.Add(-time.Minute), driverOf(h.places, home.vehicle), inventory.Scanned, delivery.Read{Item: bridge.id, Gauge: bridge.read()})
	visit := delivery.Visit{
		Person: home.who.Person.ID, Running: true, Oxygen: new(round1(93 + 3*h.dice.Float64())),
		Left: []delivery.Piece{{Item: home.machine.id, Hours: new(home.machine.hours)}},
	}
	for _, p := range extra {
		visit.Left = append(visit.Left, delivery.Piece{Item: p.id, Gauge: p.read()})
	}
	h.visit(home.runs, home.vehicle, home.who, visit)
}

// extra returns what is brought to a home so that its cover is kept well over
// the programme's backup hours.
func (h *historian) extra(at time.Time, flow gas.Flow, bridge *piece) []*piece {
	var brought []*piece
	lacks := h.places.BackupHours + 40*time.Minute - bridge.lasts(flow, h.places)
	for lacks > 0 && len(brought) < 3 {
		var p *piece
		for _, size := range sizesFor(lacks, flow, h.places.Reserve) {
			if p = h.shelf.take(at, sort{inventory.Cylinder, size}, 0); p != nil {
				break
			}
		}
		if p == nil {
			return brought
		}
		brought = append(brought, p)
		lacks -= p.lasts(flow, h.places)
	}
	return brought
}

// calls makes the calls: the first on the morning after, then daily for three
// days, then every third day; once more after no answer. Gauges are told about
// once a week.
func (h *historian) calls(home *household, until time.Time) {
	asked := home.runs
	for n := 1; ; n++ {
		days := n
		if n > 4 {
			days = 4 + 3*(n-4)
		}
		at := clock(home.runs, days, h.between(9*time.Hour, 12*time.Hour+30*time.Minute))
		if !at.Before(until) || at.After(h.scene.now) {
			return
		}
		call := delivery.Call{Person: home.who.Person.ID, Answered: !h.chance(6)}
		if call.Answered {
			saturation := math.Round(home.saturate + 2*h.dice.Float64() - 1)
			call.Flow = new(home.flow)
			if home.flow < h.places.Bands.Borderline { // above, the clinician asks for it, not the desk
				call.SpO2 = &saturation
			}
		}
		h.act(at, caller, inventory.Phoned, call)
		if again := at.Add(90 * time.Minute); !call.Answered && again.Before(until) && !again.After(h.scene.now) {
			h.act(again, caller, inventory.Phoned, delivery.Call{Person: call.Person, Answered: true, Flow: new(home.flow)})
		}
		if !call.Answered || home.silent || at.Sub(asked) < 5*24*time.Hour {
			continue
		}
		asked = at
		for _, p := range home.kit {
			if p.spec.Kind == inventory.Cylinder {
				h.act(at.Add(2*time.Minute), caller, inventory.Phoned, delivery.Read{Item: p.id, Gauge: p.read(), Told: true})
			}
		}
	}
}

// stop ends the need and brings the kit home.
func (h *historian) stop(home *household, at time.Time) {
	h.act(at, Coordinator, inventory.Phoned, delivery.StopOxygen{
		Person: home.who.Person.ID, Reason: "recovered", OrderedBy: h.doctor(),
	})
	collected := clock(at, 1+h.dice.IntN(3), h.between(9*time.Hour, 15*time.Hour))
	visit := delivery.Visit{Person: home.who.Person.ID}
	var back []*piece
	for _, p := range home.kit {
		if h.chance(3) && p.spec.Kind != inventory.Concentrator { // not found, and written off in time
			h.act(clock(collected, 12, 15*time.Hour), Coordinator, inventory.Keyed, delivery.Move{Item: p.id, To: inventory.At(inventory.AtMissing, "")})
			continue
		}
		if p == home.machine {
			p.hours += math.Round(collected.Sub(home.runs).Hours() * 0.9)
		}
		visit.Took = append(visit.Took, delivery.Taken{Item: p.id, Gauge: p.read(), Hours: p.meter()})
		back = append(back, p)
	}
	h.visit(collected, home.vehicle, home.who, visit)
	in := clock(collected, 0, h.between(17*time.Hour, 18*time.Hour+30*time.Minute))
	for _, p := range back {
		h.restore(p, depotOf(h.places, home.vehicle), in)
	}
}
