package delivery

import (
	"fmt"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts of the bench: from the dirty bay to ready to lend.
type (
	// Bench starts the work on a returned item.
	Bench struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
	}
	// Test records the outcome of the bench.
	Test struct {
		Item   inventory.ItemID `act:"item" help:"tag or serial"`
		Passed bool             `act:"passed,optional" help:"the item passed"`
		Oxygen *float64         `act:"oxygen,optional" help:"oxygen after warm-up, percent"`
		Detail string           `act:"detail,optional" help:"what was found"`
	}
	// Release makes an item ready to lend again.
	Release struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Depot string           `act:"depot" help:"where it is ready"`
	}
	// Quarantine keeps an item from being lent.
	Quarantine struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
		Why  string           `act:"why" help:"the reason"`
	}
)

// PurityFloor is the oxygen under which a concentrator fails: the alarm level
// of the WHO-UNICEF technical specifications for oxygen therapy devices, 2019.
const PurityFloor = 82

// Decide puts a returned item on the bench.
func (a Bench) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if item.State != inventory.Dirty && item.State != inventory.InQuarantine {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s, not waiting for the bench.", item.Label(), item.State), "Return it first.")
	}
	var c Change
	c.item(item.ID, &inventory.Benched{})
	c.Says = fmt.Sprintf("%s is on the bench.", item.Label())
	return c, nil
}

// Decide records the test. Oxygen under the alarm level fails, whatever was
// ticked.
func (a Test) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if item.State != inventory.OnBench && item.State != inventory.Dirty && item.State != inventory.InQuarantine {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s, not on the bench.", item.Label(), item.State), "Put it on the bench first.")
	}
	passed, detail := a.Passed, a.Detail
	if a.Oxygen != nil && *a.Oxygen < PurityFloor {
		passed, detail = false, fmt.Sprintf("oxygen %.1f %%, under %d %%", *a.Oxygen, PurityFloor)
	}
	if err := observable(v, item, inventory.Observed{Oxygen: a.Oxygen}); err != nil {
		return Change{}, err
	}
	var c Change
	c.observed(item.ID, "", inventory.Observed{Oxygen: a.Oxygen})
	c.item(item.ID, &inventory.Tested{Passed: passed, Detail: detail})
	c.Says = fmt.Sprintf("%s passed.", item.Label())
	if !passed {
		c.Says = fmt.Sprintf("%s failed and is in quarantine: %s.", item.Label(), detail)
	}
	return c, nil
}

// Decide releases the item.
func (a Release) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if err := releasable(item); err != nil {
		return Change{}, err
	}
	if err := knownPlace(v, inventory.At(inventory.AtDepot, a.Depot)); err != nil {
		return Change{}, err
	}
	var c Change
	c.item(item.ID, &inventory.Cleared{Depot: a.Depot})
	c.Says = fmt.Sprintf("%s is ready to lend.", item.Label())
	return c, nil
}

// releasable refuses what the bench can't make ready. A cylinder needs a
// reading, a concentrator that was lent a test; what failed or is named by a
// recall is never released.
func releasable(item inventory.Item) error {
	no := func(kind refusal.Kind, says, next string) error {
		return refusal.New(kind, item.Label()+" "+says+".", next)
	}
	back := item.State == inventory.Dirty || item.State == inventory.OnBench
	switch {
	case item.Lent():
		return no(refusal.Conflict, "is on loan", "Record its return first.")
	case item.Spec.Foreign:
		return no(refusal.Foreign, "belongs to "+item.Spec.Owner, "Tell the owner to fetch it.")
	case item.Spec.Kind == "":
		return no(refusal.Unready, "is not known to the book", "Find out what it is and whose, then enrol it.")
	case item.Recall != "":
		return no(refusal.Unready, "is named by recall "+item.Recall, "Keep it in quarantine for the maker.")
	case !back && item.State != inventory.InQuarantine:
		return no(refusal.Conflict, "is "+string(item.State)+", not on the bench", "Bring it to the bench first.")
	case item.Failed():
		return no(refusal.Unready, item.Why, "Mend it and test it again first.")
	case item.Spec.Kind == inventory.Concentrator && back && item.Last != "" && item.Passed.IsZero():
		return no(refusal.Unready, "was not tested since it came back", "Test its oxygen first.")
	case item.Spec.Kind == inventory.Cylinder && item.Gauge == nil:
		return no(refusal.Unready, "has no gauge reading", "Read the gauge: no cylinder is called full or empty without one.")
	}
	return nil
}

// Decide quarantines the item. In a home it is marked, and a swap opened to
// fetch it.
func (a Quarantine) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.about(item.ID, borrower(item), &inventory.Quarantined{Why: a.Why})
	c.Says = fmt.Sprintf("%s is kept from being lent: %s.", item.Label(), a.Why)
	if who := borrower(item); who != "" && item.State != inventory.Idle {
		c.person(who, exchange(item, a.Why))
		c.Says += " A swap is open for the person who has it."
	}
	if item.State == inventory.Held {
		c.Says += " It was set aside for a person: choose another."
	}
	return c, nil
}
