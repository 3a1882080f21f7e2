package bench

import (
	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/scene"
)

var start = scene.Sign{Verdict: scene.Unknown, Word: "SCAN", Below: "an item that waits: its next step is done"}

// tonight returns which of the items that wait are needed by discharges for
// which nothing is ready, the longest waiting for each.
func (l loaded) tonight() map[inventory.ItemID]bool {
	var orders []delivery.Ordered
	for _, f := range l.waiting {
		orders = append(orders, *f.Care.Order)
	}
	needed := make(map[inventory.ItemID]bool)
	for _, lack := range l.programme.Tonight(orders, l.ready) {
		for _, i := range l.items {
			if !needed[i.ID] && forPeople(i) == 0 && lack.Serves(i.Spec) {
				needed[i.ID] = true
				break
			}
		}
	}
	return needed
}

// later orders what is needed tonight before what is not.
func later(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// judge tells large how the work on an item came out, so that it is read from
// two metres away.
func (m *Model) judge(i inventory.Item) {
	switch {
	case i.ID == "":
	case i.State == inventory.Ready:
		m.Sign = scene.Sign{Verdict: scene.Holds, Word: "READY", Below: i.Label() + " can be lent"}
	case i.Failed():
		m.Sign = scene.Sign{Verdict: scene.Dry, Word: "FAIL", Below: i.Label() + ": " + i.Why}
	case i.State == inventory.OnBench && !i.Passed.IsZero():
		m.Sign = scene.Sign{Verdict: scene.Holds, Word: "PASS", Below: i.Label() + ": release it"}
	default:
		m.Sign = scene.Sign{Verdict: scene.Unknown, Word: string(i.State), Below: i.Label()}
	}
}
