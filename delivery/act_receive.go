package delivery

import (
	"fmt"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts at the door, where new things come in by the pallet.
type (
	// Receive brings one new thing into the book as it is scanned. It waits in
	// quarantine until it is cleared. What its product number stands for is
	// remembered, so that the next scan of that product says what it is.
	Receive struct {
		Spec  inventory.Spec
		Depot string
	}
	// Unreceive takes out of the book what came in by a slip of the scanner,
	// as long as nothing else is known of it.
	Unreceive struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
	}
)

// Decide enrols the thing and remembers its product.
func (a Receive) Decide(v View) (Change, error) {
	if inventory.SerialKey(a.Spec.Serial) == "" {
		return Change{}, refusal.New(refusal.Invalid, "A thing is received by its serial.", "Scan the maker's serial on it.")
	}
	c, err := Enrol{Spec: a.Spec, Depot: a.Depot}.Decide(v)
	if err != nil || a.Spec.GTIN == "" {
		return c, err
	}
	product := a.Spec.Product()
	known, is, err := v.Product(a.Spec.GTIN)
	if err != nil {
		return c, err
	}
	if !is || known != product {
		c.Facts = append(c.Facts, inventory.Fact{Statement: &inventory.Catalogued{GTIN: a.Spec.GTIN, Spec: product}})
	}
	return c, nil
}

// bySlip is why the facts of a thing that was received by mistake are taken back.
const bySlip = "received by a slip"

// Decide takes back every fact about the thing; it refuses once anything was
// done with it, for then it is more than a slip.
func (a Unreceive) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	facts, err := v.History(a.Item)
	if err != nil {
		return Change{}, err
	}
	var c Change
	for _, f := range inventory.Standing(facts) {
		switch f.Statement.(type) {
		case *inventory.Enrolled, *inventory.Moved, *inventory.Observed, *inventory.Filled, *inventory.Cleared:
		default:
			return Change{}, refusal.New(refusal.Conflict,
				fmt.Sprintf("%s is more than a slip: it was %s.", item.Label(), f.Statement.Says()),
				"Open its page and retire it, with the reason.")
		}
		c.Facts = append(c.Facts, inventory.Fact{
			Happened: f.Happened, Corrects: f.ID, Item: a.Item, Person: f.Person,
			Statement: &inventory.Retracted{Why: bySlip},
		})
	}
	c.Says = fmt.Sprintf("%s %s is out of the book again.", item.Spec.Kind, item.Label())
	return c, nil
}
