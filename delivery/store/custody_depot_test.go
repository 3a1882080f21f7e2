package store_test

import (
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
			c.do(t, delivery.Lose{Item: c.item(t), Worth: 900, Why: "moved away"})
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
		"recall": func(t *rapid.T) {
			c.do(t, delivery.Recall{Notice: "Q-1", Items: []inventory.ItemID{c.item(t)}})
		},
	}
}
