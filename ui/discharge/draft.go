package discharge

import (
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// draft is the book as the screen last read it, so that the bridge and every
// refusal can be worked out at each keystroke without reading anew. The act
// itself is decided on the book.
type draft struct {
	now       time.Time
	programme delivery.Programme
	ready     []inventory.Item
	page      store.PersonPage // of the person chosen; empty for somebody new
	board     delivery.Board
	places    gazetteer.Gazetteer
	stock     []inventory.SupplyStock
	kit       []inventory.Item // chosen or looked at: not an alternative to itself
}

var _ delivery.View = (*draft)(nil)

func (d *draft) At() time.Time { return d.now }

func (d *draft) Programme() (delivery.Programme, error) { return d.programme, nil }

func (d *draft) Item(id inventory.ItemID) (inventory.Item, error) {
	for _, list := range [][]inventory.Item{d.kit, d.page.Reserved, d.ready} {
		if i := slices.IndexFunc(list, func(i inventory.Item) bool { return i.ID == id }); i >= 0 {
			return list[i], nil
		}
	}
	return inventory.Item{}, missing("item", string(id))
}

func (d *draft) Serial(serial string) ([]inventory.Item, error) {
	return nil, missing("serial", serial)
}

func (d *draft) Fact(id inventory.FactID) (inventory.Fact, bool, error) {
	return inventory.Fact{}, false, missing("fact", fmt.Sprint(id))
}

func (d *draft) Wrote(_, _ inventory.FactID) (wrote, later []inventory.Fact, err error) {
	return nil, nil, nil
}

func (d *draft) Care(id inventory.PersonID) (delivery.Care, error) {
	if id == d.page.Care.Person {
		return d.page.Care, nil
	}
	return delivery.Care{}, missing("person", string(id))
}

func (d *draft) Person(id inventory.PersonID) (delivery.Person, error) {
	if id == d.page.Person.ID {
		return d.page.Person, nil
	}
	return delivery.Person{}, missing("person", string(id))
}

func (d *draft) Address(id inventory.AddressID) (delivery.Address, error) {
	if id != "" && id == d.page.Address.ID {
		return d.page.Address, nil
	}
	return delivery.Address{}, missing("address", string(id))
}

func (d *draft) Addresses() ([]delivery.Address, error) { return nil, missing("addresses", "all") }

func (d *draft) Gazetteer() (gazetteer.Gazetteer, error) { return d.places, nil }

func (d *draft) Unplaced() ([]delivery.Unplaced, error) {
	return nil, missing("homes", "without a place")
}

func (d *draft) Run(id inventory.RunID) (delivery.Run, error) {
	return delivery.Run{}, missing("run", string(id))
}

func (d *draft) Reserved(inventory.PersonID) ([]inventory.Item, error) { return d.page.Reserved, nil }

func (d *draft) Visits(inventory.PersonID) ([]delivery.Run, error) { return d.page.Runs, nil }

func (d *draft) Twins(inventory.PersonID) ([]delivery.Person, error) { return nil, nil }

func (d *draft) AtPlace(place inventory.Place) ([]inventory.Item, error) {
	return nil, missing("place", string(place))
}

// Alternative returns the best ready item that is not in the kit yet: one
// that stands on the hospital's side of the water, if there is any.
func (d *draft) Alternative(want delivery.Wanted) (inventory.Item, bool, error) {
	free := slices.DeleteFunc(slices.Clone(d.ready), func(i inventory.Item) bool {
		return slices.ContainsFunc(d.kit, func(k inventory.Item) bool { return k.ID == i.ID })
	})
	here := slices.DeleteFunc(slices.Clone(free), func(i inventory.Item) bool {
		site, _ := d.programme.Site(i.Place.Name())
		return site.Point.Area != d.programme.Hospital.Point.Area
	})
	best, ok := delivery.Best(here, want)
	if !ok {
		best, ok = delivery.Best(free, want)
	}
	return best, ok, nil
}

func (d *draft) History(id inventory.ItemID) ([]inventory.Fact, error) {
	return nil, missing("history of", string(id))
}

func (d *draft) Product(string) (inventory.Spec, bool, error) { return inventory.Spec{}, false, nil }

func (d *draft) Board() (delivery.Board, error) { return d.board, nil }

func (d *draft) ReadyGas() (map[gas.SizeCode]int, error) { return delivery.BySize(d.ready), nil }

func (d *draft) NewItem() (inventory.ItemID, uint32, error) { return "", 0, missing("item", "new") }

func (d *draft) NewPerson() (inventory.PersonID, error) { return "", missing("person", "new") }

func (d *draft) NewAddress() (inventory.AddressID, error) { return "", missing("address", "new") }

func (d *draft) NewRun() (inventory.RunID, error) { return "", missing("run", "new") }

func (d *draft) Access() (delivery.Access, error) { return delivery.Access{}, nil }

func (d *draft) Supplies() ([]inventory.SupplyStock, error) { return d.stock, nil }
func (d *draft) NewAnswer() (delivery.AnswerID, error)      { return "", missing("answer", "new") }

func missing(what, name string) error {
	return refusal.New(refusal.NotFound, fmt.Sprintf("The %s %s has not been read from the book.", what, name), "Open the screen again.")
}
