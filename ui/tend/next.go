package tend

import (
	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// Step is the next thing to do with a returned item.
type Step string

// The steps from the dirty bay to ready.
const (
	PutOnBench Step = "put on bench"
	TestIt     Step = "test"
	RefillIt   Step = "refill"
	ReleaseIt  Step = "release"
	KeepIt     Step = "keep for the maker"  // recalled
	SendIt     Step = "tell its owner"      // not ours
	GiveBack   Step = "give it back"        // not ours, and its owner knows
	FindOut    Step = "find out what it is" // a stray
	NoStep     Step = ""
)

// Next returns the next step for an item on its way back to ready. What holds
// gas is filled again, everything else is tested.
func Next(i inventory.Item) Step {
	switch {
	case i.State != inventory.Dirty && i.State != inventory.OnBench && i.State != inventory.InQuarantine && i.State != inventory.NotOurs:
		return NoStep
	case i.Recall != "":
		return KeepIt
	case i.Spec.Foreign && !i.Told.IsZero():
		return GiveBack
	case i.Spec.Foreign:
		return SendIt
	case i.Spec.Kind == "":
		return FindOut
	case i.State != inventory.OnBench:
		return PutOnBench
	case i.Spec.Kind.HoldsGas():
		if i.Fill == nil || i.Fill.At.Before(i.Since) {
			return RefillIt
		}
		return ReleaseIt
	case i.Passed.IsZero():
		return TestIt
	}
	return ReleaseIt
}

// Take does the next step: at once where nothing must be asked, else by the
// form it returns. A step that is for people alone does neither.
func (t Tender) Take() (form ask.Form, asks bool) {
	switch Next(t.Item) {
	case PutOnBench:
		t.Do(delivery.Bench{Item: t.Item.ID})
	case TestIt:
		return t.Test(), true
	case RefillIt:
		return t.Refill(), true
	case ReleaseIt:
		if form, due := t.Maintain(); due {
			return form, true
		}
		if !t.atDepot() || len(t.Item.Lacks) > 0 {
			return t.Release(), true
		}
		t.Work.Do("tend", t.Work.Hand(t.source()), delivery.Release{Item: t.Item.ID, Depot: t.Item.Place.Name()}, t.released)
	}
	return ask.Form{}, false
}
