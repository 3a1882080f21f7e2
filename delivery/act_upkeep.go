package delivery

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts of the workshop: repair out and in, and maintenance.
type (
	// SendToRepair takes a thing to a workshop.
	SendToRepair struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Fault string           `act:"fault" help:"what is wrong with it"`
		To    string           `act:"workshop,optional" help:"which workshop"`
	}
	// BackFromRepair takes it in again; it is tested before it is lent.
	BackFromRepair struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Depot string           `act:"depot" help:"where it is now"`
		Did   string           `act:"did" help:"what was done, and the parts"`
		Cost  float64          `act:"cost,optional" help:"in the money of the programme"`
		Board bool             `act:"new-meter,optional" help:"the part with the hours meter was replaced: hours count anew"`
		Hours *float64         `act:"hours,optional" help:"hours meter now"`
	}
	// Maintain records a piece of maintenance of the programme's rules.
	Maintain struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		What  string           `act:"what" help:"by the name of the rule in the settings"`
		Hours *float64         `act:"hours,optional" help:"hours meter now"`
		Cost  float64          `act:"cost,optional" help:"in the money of the programme"`
	}
)

// Decide moves it to the workshop.
func (a SendToRepair) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	switch item.State {
	case inventory.Dirty, inventory.OnBench, inventory.InQuarantine, inventory.Ready:
	default:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s.", item.Label(), item.State), "Only what is in the depot goes to repair: return it, or free it, first.")
	}
	switch {
	case item.Spec.Foreign || item.Spec.Kind == "":
		return Change{}, refusal.New(refusal.Foreign, item.Label()+" is not ours to repair.", "Tell its owner.")
	case item.Recall != "":
		return Change{}, refusal.New(refusal.Unready, fmt.Sprintf("%s is named by recall %s.", item.Label(), item.Recall), "Keep it in quarantine for the maker.")
	case strings.TrimSpace(a.Fault) == "":
		return Change{}, refusal.New(refusal.Invalid, "A repair has a fault.", "Write what is wrong.")
	}
	var c Change
	c.item(item.ID, &inventory.Moved{To: inventory.At(inventory.AtWorkshop, a.To), Why: a.Fault})
	c.Says = fmt.Sprintf("%s is in repair: %s.", item.Label(), a.Fault)
	return c, nil
}

// Decide takes it in, with what was done.
func (a BackFromRepair) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	depot := inventory.At(inventory.AtDepot, a.Depot)
	if err := knownPlace(v, depot); err != nil {
		return Change{}, err
	}
	switch {
	case item.State != inventory.InRepair:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s, not in repair.", item.Label(), item.State), "Send it to repair first.")
	case strings.TrimSpace(a.Did) == "":
		return Change{}, refusal.New(refusal.Invalid, "Nobody wrote what was done.", "Read the workshop's slip.")
	case !(a.Cost >= 0 && a.Cost < 1e9):
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("A cost of %g can't be.", a.Cost), "Read the workshop's bill again.")
	}
	seen := inventory.Observed{Hours: a.Hours}
	if err := observable(v, item, seen); err != nil {
		return Change{}, err
	}
	var c Change
	c.item(item.ID, &inventory.Mended{Did: a.Did, By: item.Place.Name(), Cost: a.Cost, Board: a.Board})
	c.item(item.ID, &inventory.Moved{To: depot})
	c.observed(item.ID, "", seen)
	c.Says = fmt.Sprintf("%s is back from repair: %s. Test it before it is lent.", item.Label(), a.Did)
	return c, nil
}

// Decide records the maintenance.
func (a Maintain) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	var names []string
	for _, r := range p.Upkeep {
		if r.covers(item.Spec) {
			names = append(names, r.What)
		}
	}
	if !slices.Contains(names, a.What) {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("The settings have no maintenance %q for %s.", a.What, item.Label()), "They have: "+strings.Join(append(names, "nothing else"), ", ")+".")
	}
	seen := inventory.Observed{Hours: a.Hours}
	if err := observable(v, item, seen); err != nil {
		return Change{}, err
	}
	var c Change
	c.observed(item.ID, borrower(item), seen)
	c.about(item.ID, borrower(item), &inventory.Maintained{What: a.What, Cost: a.Cost})
	c.Says = fmt.Sprintf("%s: %s is done.", item.Label(), a.What)
	return c, nil
}
