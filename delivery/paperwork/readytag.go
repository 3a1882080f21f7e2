package paperwork

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
)

// ReadyTag names the tag that is printed when the bench releases a thing.
const ReadyTag = "ready-tag"

// ReadyTag goes with a thing the bench released: who tested and released it,
// when, and what is due next.
func (d Desk) ReadyTag(page store.ItemPage, t tongue.Tongue) (paper.ItemTag, error) {
	i := page.Item
	made := d.itemTag("ready", d.code(tag.PaperBench, string(i.ID)), i, t)
	if i.State != inventory.Ready && i.State != inventory.Held {
		return made, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s, not ready to lend.", i.Label(), i.State), "Release it on the bench first.")
	}
	by := func(f inventory.Fact) string {
		return t.Say("tag.by", "when", d.clock(f.Happened, t), "who", f.By)
	}
	var tested, steps, released string
	for _, f := range inventory.Standing(page.Facts) {
		switch s := f.Statement.(type) {
		case *inventory.Tested:
			if s.Passed {
				tested, steps = by(f), strings.Join(stepsIn(s.Steps, t), ", ")
			}
		case *inventory.Cleared:
			released = by(f)
		}
	}
	made.Facts = []paper.TagFact{
		{Word: t.Say("tag.released"), Value: released}, {Word: t.Say("tag.tested"), Value: cmp.Or(tested, t.Say("tag.untested"))},
		{Word: t.Say("tag.looked"), Value: steps}, {Word: t.Say("tag.read"), Value: d.lastRead(i, t)}, {Word: t.Say("tag.fill"), Value: d.fillOf(i, t)},
		{Word: t.Say("tag.due"), Value: cmp.Or(strings.Join(d.nextDue(i, t), "; "), t.Say("tag.undue"))},
	}
	return made, nil
}

// fillOf names the fill in a cylinder or vessel.
func (d Desk) fillOf(i inventory.Item, t tongue.Tongue) string {
	if i.Fill == nil || !i.Spec.Kind.HoldsGas() {
		return ""
	}
	return strings.Join(nonEmpty(t.Say("tag.lot", "lot", cmp.Or(i.Fill.Lot, t.Say("tag.unnoted"))), d.clock(i.Fill.At, t)), ", ")
}

// nextDue names the next maintenance of a thing and its requalification.
func (d Desk) nextDue(i inventory.Item, t tongue.Tongue) []string {
	var all []string
	for _, next := range d.Programme.NextUpkeep(i) {
		var when []string
		if !next.On.IsZero() {
			when = append(when, t.Day(next.On))
		}
		if next.Hours > 0 {
			when = append(when, fmt.Sprintf("%.0f h", next.Hours))
		}
		all = append(all, next.What+": "+strings.Join(when, " / "))
	}
	if month, err := time.Parse("2006-01", i.Spec.Requal); err == nil {
		all = append(all, t.Say("tag.requal", "month", t.Month(month)))
	}
	return all
}
