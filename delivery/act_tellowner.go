package delivery

import (
	"cmp"
	"fmt"

	"lungwort/inventory"
)

// TellOwner records that the owner of a thing was told what is wrong.
type TellOwner struct {
	Item inventory.ItemID `act:"item" help:"tag or serial"`
	How  string           `act:"how,optional" help:"phone, mail or in person"`
	What string           `act:"what,optional" help:"what they were told"`
}

// Decide records who was told.
func (a TellOwner) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	what := a.What
	if what == "" && item.Soiled {
		what = "soiled, kept bagged"
	}
	if what == "" {
		what = item.Why
	}
	var c Change
	c.item(item.ID, &inventory.OwnerTold{Owner: item.Spec.Owner, How: a.How, What: what})
	c.Says = fmt.Sprintf("It is recorded that %s was told about %s.", cmp.Or(item.Spec.Owner, "the plant"), item.Label())
	return c, nil
}
