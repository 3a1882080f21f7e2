package paperwork

import (
	"cmp"
	"fmt"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// ReadyTag names the tag that is printed when the bench releases a thing.
const ReadyTag = "ready-tag"

// ReadyTag goes with a thing the bench released: who tested and released it,
// when, and what is due next.
func (d Desk) ReadyTag(page store.ItemPage) (paper.ItemTag, error) {
	i := page.Item
	t := paper.ItemTag{
		Head: d.head(d.code(tag.PaperBench, string(i.ID))), Word: "READY", Says: "clean, tested, to be lent", Thing: thing(i),
	}
	if i.State != inventory.Ready && i.State != inventory.Held {
		return t, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s, not ready to lend.", i.Label(), i.State), "Release it on the bench first.")
	}
	var tested, steps, released string
	for _, f := range inventory.Standing(page.Facts) {
		switch s := f.Statement.(type) {
		case *inventory.Tested:
			if s.Passed {
				tested, steps = d.clock(f.Happened)+" by "+f.By, strings.Join(s.Steps, ", ")
			}
		case *inventory.Cleared:
			released = d.clock(f.Happened) + " by " + f.By
		}
	}
	t.Facts = []paper.TagFact{
		{Word: "released", Value: released}, {Word: "tested", Value: cmp.Or(tested, "no test is asked of its kind")},
		{Word: "looked at", Value: steps}, {Word: "last read", Value: d.lastRead(i)}, {Word: "fill", Value: d.fillOf(i)},
		{Word: "next due", Value: cmp.Or(strings.Join(d.Programme.NextUpkeep(i), "; "), "nothing in the settings")},
	}
	return t, nil
}

// fillOf names the fill in a cylinder or vessel.
func (d Desk) fillOf(i inventory.Item) string {
	if i.Fill == nil || !i.Spec.Kind.HoldsGas() {
		return ""
	}
	return strings.Trim("lot "+cmp.Or(i.Fill.Lot, "not noted")+", "+delivery.Clock(i.Fill.At, d.Now), " ,")
}
