package delivery

import (
	"fmt"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Refill records a new fill of a cylinder.
type Refill struct {
	Item   inventory.ItemID `act:"item" help:"tag or serial"`
	Lot    string           `act:"lot" help:"lot on the drug label"`
	Full   gas.Pressure     `act:"gauge,optional" help:"gauge of a cylinder after filling"`
	Weight *gas.Kilograms   `act:"weight,optional" help:"of a liquid vessel after filling"`
	Plant  string           `act:"plant,optional" help:"who filled it"`
	Depot  string           `act:"depot" help:"where it is now"`
}

// Decide records the fill and puts the cylinder on the bench of the depot.
func (a Refill) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if err := a.read(item); err != nil {
		return Change{}, err
	}
	if item.Lent() {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is on loan.", item.Label()), "Record its return first.")
	}
	if item.State == inventory.Gone {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is retired and is not filled.", item.Label()), "Keep it apart; take the retirement back if that is wrong.")
	}
	if err := fillable(item, v.At()); err != nil {
		return Change{}, err
	}
	if err := knownPlace(v, inventory.At(inventory.AtDepot, a.Depot)); err != nil {
		return Change{}, err
	}
	seen := inventory.Observed{Weight: a.Weight}
	full := ""
	if item.Spec.Kind == inventory.Cylinder {
		seen.Gauge, full = &a.Full, " to "+a.Full.String()
	}
	if err := observable(v, item, seen); err != nil {
		return Change{}, err
	}
	var c Change
	c.item(item.ID, &inventory.Filled{Lot: a.Lot, Full: a.Full, Plant: a.Plant})
	c.observed(item.ID, "", seen)
	c.item(item.ID, &inventory.Moved{To: inventory.At(inventory.AtDepot, a.Depot)})
	c.Says = fmt.Sprintf("%s is filled%s, lot %s. Release it to lend it.", item.Label(), full, a.Lot)
	return c, nil
}

// read refuses to fill what holds no gas, and a fill nobody measured.
func (a Refill) read(item inventory.Item) error {
	switch {
	case !item.Spec.Kind.HoldsGas():
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s is a %s and is not filled.", item.Label(), item.Spec.Kind), "Scan a cylinder or a liquid vessel.")
	case item.Spec.Kind == inventory.Cylinder && a.Full == 0:
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s has no reading after filling.", item.Label()), "Read the gauge: no cylinder is called full without one.")
	case item.Spec.Kind == inventory.Vessel && a.Weight == nil:
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s was not weighed after filling.", item.Label()), "Weigh it: no vessel is called full without.")
	}
	return nil
}
