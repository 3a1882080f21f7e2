package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
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
		Flow   *gas.Flow        `act:"flow,optional" help:"flow it was measured at; none: the most the machine gives"`
		Ran    *float64         `act:"ran,optional" help:"minutes the machine had run; none: warmed up"`
		Steps  []string         `act:"steps,optional" help:"what was looked at and is good, comma between; none: every step of the programme"`
		Detail string           `act:"detail,optional" help:"what was found"`
	}
	// Release makes an item ready to lend again.
	Release struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Depot string           `act:"depot" help:"where it is ready"`
		Whole bool             `act:"whole,optional" help:"the small parts that did not come back were put back"`
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
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if early, why := a.early(item, p); early {
		return a.record(v, item, why)
	}
	if err := a.whole(item, p); err != nil {
		return Change{}, err
	}
	if err := a.measured(item); err != nil {
		return Change{}, err
	}
	passed, detail := a.Passed, a.Detail
	if a.Oxygen != nil && *a.Oxygen < PurityFloor {
		passed, detail = false, fmt.Sprintf("oxygen %.1f %%, under %d %%", *a.Oxygen, PurityFloor)
	}
	if err := observable(v, item, inventory.Observed{Oxygen: a.Oxygen}); err != nil {
		return Change{}, err
	}
	var c Change
	c.observed(item.ID, "", a.seen())
	tested := &inventory.Tested{Passed: passed, Detail: detail}
	if passed {
		tested.Steps = p.BenchSteps(item.Spec.Kind)
	}
	c.item(item.ID, tested)
	c.Says = fmt.Sprintf("%s passed.", item.Label())
	if !passed {
		c.Says = fmt.Sprintf("%s failed and is in quarantine: %s.", item.Label(), detail)
	}
	return c, nil
}

// early reports whether oxygen was measured too soon or at too low a flow to
// say anything: it is recorded, and neither a pass nor a failure.
func (a Test) early(item inventory.Item, p Programme) (bool, string) {
	switch {
	case item.Spec.Kind != inventory.Concentrator || a.Oxygen == nil:
		return false, ""
	case a.Ran != nil && time.Duration(*a.Ran*float64(time.Minute)) < p.WarmUp:
		return true, fmt.Sprintf("after %g min, warm-up is %s", *a.Ran, Spell(p.WarmUp))
	case a.Flow != nil && *a.Flow < item.Spec.Rated:
		return true, fmt.Sprintf("at %s, rated for %s", *a.Flow, item.Spec.Rated)
	}
	return false, ""
}

func (a Test) record(v View, item inventory.Item, why string) (Change, error) {
	if err := observable(v, item, a.seen()); err != nil {
		return Change{}, err
	}
	var c Change
	c.observed(item.ID, "", a.seen())
	c.Says = fmt.Sprintf("%.1f %% oxygen on %s is recorded, not a pass: measured %s. Measure again.", *a.Oxygen, item.Label(), why)
	return c, nil
}

func (a Test) seen() inventory.Observed {
	seen := inventory.Observed{Oxygen: a.Oxygen, Flow: a.Flow}
	if a.Ran != nil {
		seen.Warm = time.Duration(*a.Ran * float64(time.Minute))
	}
	if a.Oxygen == nil {
		seen.Flow = nil
	}
	return seen
}

// whole refuses a pass that leaves out a step of the programme.
func (a Test) whole(item inventory.Item, p Programme) error {
	if !a.Passed || len(a.Steps) == 0 {
		return nil
	}
	var left []string
	for _, step := range p.BenchSteps(item.Spec.Kind) {
		if !slices.ContainsFunc(a.Steps, func(s string) bool { return strings.EqualFold(strings.TrimSpace(s), step) }) {
			left = append(left, step)
		}
	}
	if len(left) == 0 {
		return nil
	}
	return refusal.New(refusal.Invalid, fmt.Sprintf("%s was not looked at whole: %s.", item.Label(), strings.Join(left, ", ")), "Do these steps too; nothing passes in parts.")
}

// measured refuses a machine whose oxygen nobody measured, and a failure of which
// nothing is said: what is lent again was tested, and what is mended has a fault.
func (a Test) measured(item inventory.Item) error {
	switch {
	case a.Passed && item.Spec.Kind == inventory.Concentrator && a.Oxygen == nil:
		return refusal.New(refusal.Invalid, fmt.Sprintf("The oxygen of %s was not measured.", item.Label()), "Let it warm up and measure at its full flow: no machine passes without.")
	case !a.Passed && strings.TrimSpace(a.Detail) == "" && (a.Oxygen == nil || *a.Oxygen >= PurityFloor):
		return refusal.New(refusal.Invalid, fmt.Sprintf("The test of %s does not say what failed.", item.Label()), "Write what was found.")
	}
	return nil
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
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if until := p.HeldUntil(item); v.At().Before(until) {
		return Change{}, refusal.New(refusal.Unready, fmt.Sprintf("%s is held until %s.", item.Label(), Clock(until, v.At())),
			fmt.Sprintf("The programme holds each %s %s before it is lent again.", item.Spec.Kind, count(p.Held[item.Spec.Kind], "day")))
	}
	if due := p.DueUpkeep(item, v.At()); len(due) > 0 {
		return Change{}, refusal.New(refusal.Unready, fmt.Sprintf("Maintenance of %s is due: %s.", item.Label(), upkeepInWords(due)), "Do it and record it, then release.")
	}
	if len(item.Lacks) > 0 && !a.Whole {
		return Change{}, refusal.New(refusal.Ask, fmt.Sprintf("%s came back without %s.", item.Label(), strings.Join(item.Lacks, ", ")), "Put another with it, then release it as whole.")
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
	case item.Repairs != nil && item.Passed.Before(item.Repairs.Last):
		return no(refusal.Unready, "was not tested since it was repaired", "Test it first.")
	case item.Spec.Kind == inventory.Cylinder && item.Gauge == nil:
		return no(refusal.Unready, "has no gauge reading", "Read the gauge: no cylinder is called full or empty without one.")
	case item.Spec.Kind == inventory.Vessel && item.Weight == nil:
		return no(refusal.Unready, "was not weighed", "Weigh it: no vessel is called full or empty without.")
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
