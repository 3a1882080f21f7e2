package store_test

import (
	"context"
	"fmt"
	"time"

	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// personActs are the moves that come from homes and the phone, from lists and
// from the planner.
func (c *custody) personActs() map[string]func(*rapid.T) {
	moves := map[string]func(*rapid.T){
		"erase": func(t *rapid.T) {
			if rapid.IntRange(0, 5).Draw(t, "really") == 0 {
				c.do(t, delivery.Erase{Person: c.person(t), Why: "asked for", Sooner: rapid.Bool().Draw(t, "sooner")})
			}
		},
		"take in": func(t *rapid.T) {
			n := len(c.items)
			act := delivery.TakeIn{From: "a list", Things: []delivery.Arrival{{
				Spec: inventory.Spec{Kind: inventory.Regulator, Serial: fmt.Sprintf("L%03d", n)}, Since: c.now.Add(-100 * time.Hour),
				Events: []delivery.Event{{At: c.now.Add(-99 * time.Hour), Says: &inventory.Moved{To: "depot:harbour"}}},
			}}}
			c.do(t, act)
		},
		"take back": func(t *rapid.T) {
			f := rapid.SampledFrom(c.facts).Draw(t, "fact")
			c.do(t, delivery.TakeBack{TookIn: f.ID, Why: "the wrong file"})
		},
		"admission": func(t *rapid.T) {
			act := delivery.Admission{
				Register: delivery.Register{
					Person:  delivery.Person{Family: fmt.Sprintf("Person %d", len(c.persons))},
					Address: delivery.Address{Street: "Quay 4", Mains: delivery.MainsYes},
				},
				Order:     &delivery.Order{Rest: 2, Hours: 24},
				Discharge: delivery.Discharge{Arrives: c.now.Add(2 * time.Hour), HandOver: []delivery.Piece{{Item: c.item(t), Gauge: gaugeOf(t)}}},
			}
			c.do(t, act)
		},
		"plan anew": func(t *rapid.T) { c.do(t, delivery.PlanAnew{Steps: 20}) },
		"take slot": func(t *rapid.T) { c.do(t, delivery.TakeSlot{Person: c.person(t)}) },
		"withdraw":  func(t *rapid.T) { c.do(t, delivery.Withdraw{Vehicle: "van 1", Why: "driver ill"}) },
		"end run": func(t *rapid.T) {
			runs, err := c.desk.Runs(context.Background(), "")
			if err != nil {
				t.Fatal(err)
			}
			if len(runs) > 0 {
				c.do(t, delivery.EndRun{Run: rapid.SampledFrom(runs).Draw(t, "run").ID})
			}
		},
	}
	for name, move := range c.phoneActs() {
		moves[name] = move
	}
	return moves
}

// phoneActs are what is told on the phone, in a power cut or from a night log.
func (c *custody) phoneActs() map[string]func(*rapid.T) {
	flow := func(t *rapid.T) *gas.Flow { return new(gas.Flow(rapid.IntRange(1, 6).Draw(t, "flow"))) }
	pick := func(t *rapid.T, of []inventory.FactID) inventory.FactID {
		if len(of) == 0 {
			return 1
		}
		return rapid.SampledFrom(of).Draw(t, "fact")
	}
	return map[string]func(*rapid.T){
		"outage":     func(t *rapid.T) { c.do(t, delivery.Outage{By: delivery.Everywhere, From: c.now, Cause: "storm"}) },
		"power back": func(t *rapid.T) { c.do(t, delivery.PowerReturned{Cut: pick(t, c.cuts)}) },
		"outage call": func(t *rapid.T) {
			c.do(t, delivery.OutageCall{Person: c.person(t), Cut: pick(t, c.cuts), Found: delivery.FoundRunning, Gauge: gaugeOf(t), Flow: flow(t)})
		},
		"shelter": func(t *rapid.T) {
			c.do(t, delivery.Shelter{Person: c.person(t), Where: "hospital", Until: c.now.Add(24 * time.Hour)})
		},
		"alarm": func(t *rapid.T) {
			c.do(t, delivery.Alarm{Person: c.person(t), Gauge: gaugeOf(t), Changed: rapid.Bool().Draw(t, "changed"), Swap: rapid.Bool().Draw(t, "swap")})
		},
		"arrive": func(t *rapid.T) {
			c.do(t, delivery.Arrive{Person: c.person(t), Along: []inventory.ItemID{c.item(t)}})
		},
		"book trip": func(t *rapid.T) {
			c.do(t, delivery.BookTrip{Person: c.person(t), From: c.now.Add(24 * time.Hour), Until: c.now.Add(26 * time.Hour)})
		},
		"call off trip": func(t *rapid.T) { c.do(t, delivery.CallOffTrip{Person: c.person(t), Trip: pick(t, c.trips)}) },
		"tubing":        func(t *rapid.T) { c.do(t, delivery.LayTubing{Person: c.person(t), Metres: 20}) },
		"bands":         func(t *rapid.T) { c.do(t, delivery.GiveBands{Person: c.person(t), By: "Dr Holm", Waived: true}) },
		"escalate":      func(t *rapid.T) { c.do(t, delivery.Escalate{Person: c.person(t), Told: "Dr Holm"}) },
		"night line": func(t *rapid.T) {
			c.do(t, delivery.NightLine{Person: c.person(t), Gauge: gaugeOf(t), Flow: flow(t), Machine: delivery.FromCylinder, Said: "changed over"})
		},
	}
}
