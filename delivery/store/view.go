package store

import (
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

// view is the book as an act sees it, inside the act's own transaction.
type view struct {
	tx    *book.Tx
	desk  *Desk
	words inventory.Vocabulary
	at    time.Time
	held  *delivery.Programme
	seals *sealer
	looked
	silent
}

func newView(tx *book.Tx, desk *Desk, at time.Time) *view {
	return &view{tx: tx, desk: desk, words: desk.words, at: at, seals: newSealer()}
}

var _ delivery.View = (*view)(nil)

func (v *view) At() time.Time { return v.at }

func (v *view) Programme() (delivery.Programme, error) {
	if v.held == nil {
		p, err := v.desk.programme(v.tx)
		if err != nil {
			return p, err
		}
		v.held = &p
	}
	return *v.held, nil
}

func (v *view) Item(id inventory.ItemID) (inventory.Item, error) {
	v.looked.at(items.About{Item: id})
	return items.Item(v.tx, id)
}

func (v *view) Serial(serial string) ([]inventory.Item, error) { return items.BySerial(v.tx, serial) }

func (v *view) History(id inventory.ItemID) ([]inventory.Fact, error) {
	return items.Facts(v.tx, v.words, items.About{Item: id})
}

func (v *view) Product(gtin string) (inventory.Spec, bool, error) {
	all, err := catalogue(v.tx, v.words)
	spec, known := all[gtin]
	return spec, known, err
}

// Fact returns a fact and whether it stands, by the facts about the same thing.
func (v *view) Fact(id inventory.FactID) (inventory.Fact, bool, error) {
	f, err := items.Fact(v.tx, v.words, id)
	if err != nil {
		return f, false, err
	}
	about := items.About{Item: f.Item}
	switch {
	case f.Item != "":
	case f.Person != "":
		about.Person = f.Person
	case f.Run != "":
		about.Run = f.Run
	default:
		about.Says = f.Statement.Says()
	}
	related, err := items.Facts(v.tx, v.words, about)
	_, corrected := inventory.Corrections(related)[id]
	return f, !corrected, err
}

func (v *view) Wrote(first, last inventory.FactID) (wrote, later []inventory.Fact, err error) {
	if wrote, err = items.Facts(v.tx, v.words, items.About{First: first, Last: last}); err != nil {
		return nil, nil, err
	}
	after, err := items.Facts(v.tx, v.words, items.About{First: last + 1})
	if err != nil {
		return nil, nil, err
	}
	about := map[any]bool{}
	for _, f := range wrote {
		about[f.Item], about[f.Person] = true, true
	}
	about[inventory.ItemID("")], about[inventory.PersonID("")] = false, false
	for _, f := range after {
		if _, plans := f.Statement.(*delivery.Planned); plans || about[f.Item] || about[f.Person] {
			later = append(later, f)
		}
	}
	return wrote, later, nil
}

func (v *view) Care(id inventory.PersonID) (delivery.Care, error) {
	v.looked.at(items.About{Person: id})
	return care(v.tx, id)
}

func (v *view) Person(id inventory.PersonID) (delivery.Person, error) {
	p, err := person(v.tx, id)
	v.met(p)
	return p, err
}

func (v *view) Address(id inventory.AddressID) (delivery.Address, error) {
	a, err := address(v.tx, id)
	v.seen(a)
	return a, err
}

func (v *view) Addresses() ([]delivery.Address, error) {
	return book.List(v.tx, seenAddress(v.tx), `SELECT body FROM identity WHERE sort = 'address' ORDER BY id`)
}

func (v *view) Gazetteer() (gazetteer.Gazetteer, error) {
	p, err := v.Programme()
	if err != nil {
		return gazetteer.Gazetteer{}, err
	}
	return places(v.tx, v.words, p)
}

func (v *view) Unplaced() ([]delivery.Unplaced, error) { return unplaced(v.tx) }

func (v *view) Run(id inventory.RunID) (delivery.Run, error) {
	v.looked.at(items.About{Run: id})
	return run(v.tx, id)
}

func (v *view) Reserved(id inventory.PersonID) ([]inventory.Item, error) {
	found, _, err := items.Items(v.tx, items.Filter{Person: id, States: []inventory.State{inventory.Held}})
	return found, err
}

func (v *view) Visits(id inventory.PersonID) ([]delivery.Run, error) {
	runs, err := runsTo(v.tx, id)
	for _, r := range runs {
		v.looked.at(items.About{Run: r.ID})
	}
	return runs, err
}

func (v *view) Twins(id inventory.PersonID) ([]delivery.Person, error) {
	twins, err := openTwins(v.tx, id)
	for _, p := range twins {
		v.met(p)
	}
	return twins, err
}

func (v *view) Supplies() ([]inventory.SupplyStock, error) { return supplies(v.tx, v.words) }

func (v *view) AtPlace(place inventory.Place) ([]inventory.Item, error) {
	found, _, err := items.Items(v.tx, items.Filter{Place: place})
	return found, err
}

// plenty is among how many ready things the one to lend instead is chosen: a
// refusal must not read a whole shelf while others wait for the book.
const plenty = 200

func (v *view) Alternative(want delivery.Wanted) (inventory.Item, bool, error) {
	ready, _, err := items.Items(v.tx, items.Filter{
		States: []inventory.State{inventory.Ready}, Kind: want.Kind, Size: want.Size, Limit: plenty,
	})
	if err != nil {
		return inventory.Item{}, false, err
	}
	best, ok := delivery.Best(ready, want)
	return best, ok, nil
}

func (v *view) Board() (delivery.Board, error) { return v.desk.board(v.tx, v.at) }

// ReadyGas counts the cylinders that are ready, by size.
func (v *view) ReadyGas() (map[gas.SizeCode]int, error) {
	return items.CountBySize(v.tx, inventory.Ready)
}

func (v *view) NewItem() (inventory.ItemID, uint32, error) { return items.NewItem(v.tx) }

func (v *view) NewPerson() (inventory.PersonID, error) {
	n, err := items.Next(v.tx, "person")
	return inventory.PersonID(fmt.Sprintf("p%05d", n)), err
}

func (v *view) NewAddress() (inventory.AddressID, error) {
	n, err := items.Next(v.tx, "address")
	return inventory.AddressID(fmt.Sprintf("a%05d", n)), err
}

func (v *view) NewAnswer() (delivery.AnswerID, error) {
	n, err := items.Next(v.tx, "answer")
	return delivery.AnswerID(fmt.Sprintf("q%05d", n)), err
}

func (v *view) NewRun() (inventory.RunID, error) {
	n, err := items.Next(v.tx, "run")
	return inventory.RunID(fmt.Sprintf("r%05d", n)), err
}
