package store_test

import (
	"fmt"
	"slices"
	"time"

	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/inventory"
)

// depotActs are the moves of the depot: workshop, loss, incidents, supplies.
func (c *custody) depotActs() map[string]func(*rapid.T) {
	handful := func(t *rapid.T) string {
		return rapid.SampledFrom([]string{"1 cannula", "2 cannula lot C77", "cannula"}).Draw(t, "supplies")
	}
	return map[string]func(*rapid.T){
		"to repair": func(t *rapid.T) {
			c.do(t, delivery.SendToRepair{Item: c.item(t), Fault: "no flow", To: "isle works"})
		},
		"from repair": func(t *rapid.T) {
			act := delivery.BackFromRepair{Item: c.item(t), Depot: "harbour", Did: "board", Cost: 140, Board: rapid.Bool().Draw(t, "new meter")}
			c.do(t, act)
		},
		"lose": func(t *rapid.T) {
			c.do(t, delivery.Lose{Item: c.item(t), Worth: new(900.0), Why: "moved away"})
		},
		"find": func(t *rapid.T) {
			c.do(t, delivery.Find{Item: c.item(t), Where: "behind the lift", Depot: "harbour", Gauge: gaugeOf(t)})
		},
		"chase": func(t *rapid.T) {
			c.do(t, delivery.Chase{Person: c.person(t), Step: "call"})
		},
		"incident": func(t *rapid.T) {
			act := delivery.Incident{Person: c.person(t), What: "smoking seen", ToldBy: "neighbour"}
			for range rapid.IntRange(0, 1).Draw(t, "involved") {
				act.Items = append(act.Items, c.item(t))
			}
			c.do(t, act)
		},
		"supplies in": func(t *rapid.T) {
			c.do(t, delivery.ReceiveSupply{Supply: "cannula", Count: rapid.IntRange(0, 40).Draw(t, "count"), Lot: "C77", To: "depot:harbour"})
		},
		"supplies given": func(t *rapid.T) {
			c.do(t, delivery.GiveSupply{Person: c.person(t), Supplies: handful(t), From: "depot:harbour"})
		},
		"switch": func(t *rapid.T) {
			to := rapid.SampledFrom([]delivery.Breathes{delivery.FromCylinder, delivery.FromConcentrator}).Draw(t, "to")
			c.do(t, delivery.Switch{Person: c.person(t), To: to, Why: "power"})
		},
		"ask": func(t *rapid.T) {
			c.do(t, delivery.Ask{Person: c.person(t), Task: delivery.Collect, Why: "they asked", From: c.now.Add(time.Hour)})
		},
		"release whole": func(t *rapid.T) {
			c.do(t, delivery.Release{Item: c.item(t), Depot: "harbour", Whole: true})
		},
		"return with parts": func(t *rapid.T) {
			c.do(t, delivery.Return{Item: c.item(t), Depot: "harbour", Gauge: gaugeOf(t), Empty: true, Lacks: []string{"key"}})
		},
		"left with parts": func(t *rapid.T) {
			c.do(t, delivery.Visit{Person: c.person(t), Left: []delivery.Piece{{Item: c.item(t), Gauge: gaugeOf(t), With: []string{"key"}}}})
		},
		"tell owner": func(t *rapid.T) {
			c.do(t, delivery.TellOwner{Item: c.item(t), How: "phone"})
		},
		"hand in": func(t *rapid.T) {
			c.do(t, delivery.HandIn{Item: c.item(t), Depot: "harbour", Gauge: gaugeOf(t)})
		},
		"return by slip": func(t *rapid.T) {
			kind := rapid.SampledFrom(inventory.Kinds()).Draw(t, "kind")
			c.do(t, delivery.ReturnBySlip{Person: c.person(t), Kind: kind, Depot: "harbour"})
		},
		"leave alone": func(t *rapid.T) {
			serial := rapid.SampledFrom([]string{"ZZ-900", "ZZ-901", "S001"}).Draw(t, "serial")
			c.do(t, delivery.LeaveAlone{Person: c.person(t), Owner: "Other supplier", Serial: serial})
		},
		"stray": func(t *rapid.T) {
			c.do(t, delivery.Stray{Serial: fmt.Sprintf("Q%03d", len(c.items)), Owner: rapid.SampledFrom([]string{"", "Other supplier"}).Draw(t, "owner"), Depot: "harbour"})
		},
		"describe": func(t *rapid.T) {
			c.do(t, delivery.Describe{Item: c.item(t), Model: fmt.Sprint("Still ", rapid.IntRange(1, 9).Draw(t, "model"))})
		},
		"label": func(t *rapid.T) { c.do(t, delivery.Label{Items: []inventory.ItemID{c.item(t)}}) },
		"maintain": func(t *rapid.T) {
			c.do(t, delivery.Maintain{Item: c.item(t), What: "inner filter"})
		},
		"receive": func(t *rapid.T) {
			c.do(t, delivery.Receive{Spec: inventory.Spec{Kind: inventory.Oximeter, Serial: fmt.Sprintf("N%03d", len(c.items))}, Depot: "harbour"})
		},
		"unreceive": func(t *rapid.T) { c.unreceive(t) },
		"prove": func(t *rapid.T) {
			c.do(t, delivery.Prove{Person: c.person(t), Signed: true, Name: "Ada Zwart", Relationship: "daughter"})
		},
		"recall letter": func(t *rapid.T) { c.do(t, delivery.RecallLetter{Item: c.item(t), How: "phone"}) },
		"recall reply":  func(t *rapid.T) { c.do(t, delivery.RecallReply{Item: c.item(t), Rests: true}) },
		"recall supply": func(t *rapid.T) {
			c.do(t, delivery.RecallSupply{Notice: "Q-2", Supply: "cannula", Lot: "C77"})
		},
		"move supply": func(t *rapid.T) {
			c.do(t, delivery.MoveSupply{Supply: "cannula", Count: 1, Lot: "C77", From: "depot:harbour", To: "ward:6B"})
		},
		"count supply": func(t *rapid.T) {
			c.do(t, delivery.CountSupply{Supply: "cannula", At: "depot:harbour", Lots: "3 lot C77"})
		},
		"given at the door": func(t *rapid.T) {
			c.do(t, delivery.Visit{Person: c.person(t), Supplies: []inventory.Handful{{Supply: "cannula", Count: 1}}})
		},
		"recall": func(t *rapid.T) {
			c.do(t, delivery.Recall{Notice: "Q-1", Items: []inventory.ItemID{c.item(t)}})
		},
	}
}

// unreceive takes a thing out of the book again where it may go: then it is not
// counted any more.
func (c *custody) unreceive(t *rapid.T) {
	id, before := c.item(t), len(c.facts)
	c.do(t, delivery.Unreceive{Item: id})
	if len(c.facts) > before {
		c.items = slices.DeleteFunc(c.items, func(i inventory.ItemID) bool { return i == id })
	}
}
