package delivery

import (
	"fmt"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// leave lends one thing at the door, with its reading.
func (a Visit) leave(v View, c *Change, care Care, piece Piece) error {
	item, err := v.Item(piece.Item)
	if err != nil {
		return err
	}
	if err := Lendable(v, item, a.Person, care.Order); err != nil {
		return err
	}
	seen := inventory.Observed{Gauge: piece.Gauge, Hours: piece.Hours, Weight: piece.Weight}
	if err := observable(v, item, seen); err != nil {
		return err
	}
	if item.Spec.Kind == inventory.Cylinder && piece.Gauge == nil && item.Gauge == nil {
		return refusal.New(refusal.Invalid, fmt.Sprintf("Cylinder %s was never read.", item.Label()), "Read its gauge before it is left.")
	}
	if item.Spec.Kind == inventory.Vessel && piece.Weight == nil && item.Weight == nil {
		return refusal.New(refusal.Invalid, fmt.Sprintf("Liquid vessel %s was never weighed.", item.Label()), "Weigh it before it is left.")
	}
	p, err := v.Programme()
	if err != nil {
		return err
	}
	role := inventory.InUse
	if item.Spec.Kind == inventory.Cylinder {
		role = inventory.Backup
	}
	c.about(item.ID, a.Person, &inventory.Lent{
		Spec: item.Spec, Role: role, At: inventory.At(inventory.AtAddress, string(care.Address)), With: p.partsAmong(item.Spec.Kind, piece.With),
	})
	c.observed(item.ID, a.Person, seen) // without a reading now, the one it came with counts, as old as it is
	return nil
}

// coldBurns is said wherever a liquid vessel is left.
const coldBurns = " Liquid oxygen burns by its cold: gloves, nothing frosted is touched, it is filled in the open air and never laid down."

// leftKinds counts what was left by kind, and says what does not fit, or what is
// to be minded.
func (a Visit) leftKinds(v View) (map[inventory.Kind]int, string, error) {
	left := make(map[inventory.Kind]int)
	var things []inventory.Item
	for _, piece := range a.Left {
		item, err := v.Item(piece.Item)
		if err != nil {
			return nil, "", err
		}
		left[item.Spec.Kind]++
		things = append(things, item)
	}
	says := misfits(things)
	if left[inventory.Vessel] > 0 {
		says += coldBurns
	}
	return left, says, nil
}

// give records the supplies that were given at the door, and says where the book
// has fewer than that.
func (a Visit) give(v View, c *Change) error {
	if len(a.Supplies) == 0 {
		return nil
	}
	from, err := a.suppliesFrom(v)
	if err != nil {
		return err
	}
	said, err := mayBeGiven(v, a.Supplies, from)
	if err != nil {
		return err
	}
	c.person(a.Person, &inventory.Given{Of: a.Supplies, From: from})
	c.Says += " Given: " + handfuls(a.Supplies) + "." + said
	return nil
}

// suppliesFrom returns where the supplies of a van come from.
func (a Visit) suppliesFrom(v View) (inventory.Place, error) {
	switch {
	case a.From != "":
		return a.From, nil
	case a.Run == "":
		return storeFor(v, a.Supplies, "")
	}
	run, err := v.Run(a.Run)
	if err != nil {
		return "", err
	}
	p, err := v.Programme()
	if err != nil {
		return "", err
	}
	if van, known := p.Vehicle(run.Vehicle); known {
		return inventory.At(inventory.AtDepot, van.Depot), nil
	}
	return storeFor(v, a.Supplies, "")
}
