package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Recalled is one item a notice names, with where it is.
type Recalled struct {
	Item    inventory.ItemID     `json:"item"`
	Serial  string               `json:"serial"`
	Where   string               `json:"where"`
	Person  inventory.PersonID   `json:"person,omitempty"`
	Persons []inventory.PersonID `json:"persons,omitempty"` // who had it, ever
	Why     string               `json:"why"`
}

// RecallList is what a notice names, in the four lists a reply needs.
type RecallList struct {
	Homes  []Recalled `json:"homes"`
	Places []Recalled `json:"places"`
	Before []Recalled `json:"before"` // lent before, with us no more
	Unsure []Recalled `json:"unsure"`
	// NotInBook are the listed serials that name nothing here.
	NotInBook []string `json:"not_in_book"`
	// Stock and Given are the supplies of the lot: with us, and with persons.
	Stock []inventory.SupplyStock `json:"stock,omitempty"`
	Given []inventory.LotGiven    `json:"given,omitempty"`
}

// FindRecalled searches every item there is and ever was.
func (d *Desk) FindRecalled(ctx context.Context, n delivery.RecallNotice) (RecallList, error) {
	out := RecallList{Homes: []Recalled{}, Places: []Recalled{}, Before: []Recalled{}, Unsure: []Recalled{}, NotInBook: []string{}}
	err := d.read(ctx, func(tx *book.Tx) error {
		search := n.Search()
		candidates, none, err := d.candidates(tx, n, search)
		if err != nil {
			return err
		}
		out.NotInBook = none
		if n.Lot != "" {
			if out.Stock, out.Given, err = suppliesOfLot(tx, d.words, n.Lot); err != nil {
				return err
			}
		}
		delivery.BySerial(candidates)
		for _, item := range candidates {
			match, why := search.Match(item.Spec)
			if n.Lot != "" {
				if match, why, err = d.lot(tx, n.Lot, item); err != nil {
					return err
				}
			}
			if match == delivery.No {
				continue
			}
			had, err := d.had(tx, item.ID, n.Lot)
			if err != nil {
				return err
			}
			out.add(item, match, why, had)
		}
		return nil
	})
	return out, err
}

// candidates returns the items a notice may name, and the serials of its list
// that name nothing here. Where it names serials, they are held against the
// book's by their keys alone, and only those that may fit are read whole.
func (d *Desk) candidates(tx *book.Tx, n delivery.RecallNotice, search delivery.RecallSearch) ([]inventory.Item, []string, error) {
	none := []string{}
	switch {
	case n.Lot != "":
		filled, err := d.filled(tx)
		return filled, none, err
	case len(n.Serials) > 0:
		return listed(tx, n.Serials)
	case n.From == "" && n.To == "":
		all, _, err := items.Items(tx, items.Filter{})
		return all, none, err
	}
	keys, err := items.SerialKeys(tx, search.Longest())
	if err != nil {
		return nil, none, err
	}
	var found []inventory.Item
	for _, key := range keys {
		if !search.MayHold(key) {
			continue
		}
		of, err := items.BySerial(tx, key)
		if err != nil {
			return nil, none, err
		}
		found = append(found, of...)
	}
	return found, none, nil
}

// filled returns every cylinder that ever had a fill.
func (d *Desk) filled(tx *book.Tx) ([]inventory.Item, error) {
	ids, err := items.Filled(tx, time.Time{})
	if err != nil {
		return nil, err
	}
	found := make([]inventory.Item, len(ids))
	for i, id := range ids {
		if found[i], err = items.Item(tx, id); err != nil {
			return nil, err
		}
	}
	return found, nil
}

// listed returns the items that listed serials name or are near to, and the
// serials that name nothing here.
func listed(tx *book.Tx, serials []string) (found []inventory.Item, none []string, err error) {
	none = []string{}
	seen := make(map[inventory.ItemID]bool)
	for _, s := range serials {
		same, err := items.BySerial(tx, s)
		if err != nil {
			return nil, none, err
		}
		near, err := items.NearSerial(tx, s)
		if err != nil {
			return nil, none, err
		}
		if len(same)+len(near) == 0 {
			none = append(none, s)
		}
		for _, item := range append(same, near...) {
			if !seen[item.ID] {
				seen[item.ID] = true
				found = append(found, item)
			}
		}
	}
	return found, none, nil
}

func (l *RecallList) add(item inventory.Item, match delivery.Match, why string, had []inventory.PersonID) {
	r := Recalled{
		Item: item.ID, Serial: item.Label(), Where: whereabouts(item),
		Person: item.Person, Persons: had, Why: why,
	}
	gone := item.State == inventory.Gone || item.State == inventory.Missing
	switch {
	case match == delivery.Perhaps:
		l.Unsure = append(l.Unsure, r)
	case item.Lent():
		l.Homes = append(l.Homes, r)
	case gone && len(had) > 0:
		l.Before = append(l.Before, r)
	default:
		l.Places = append(l.Places, r)
	}
}

// whereabouts says where an item is without naming a home: "in use, a home".
func whereabouts(item inventory.Item) string {
	if place := item.Place.InWords(); place != string(item.State) {
		return string(item.State) + ", " + place
	}
	return string(item.State)
}

const fillDay = "Mon 2 Jan 2006"

// lot reports whether any fill of a cylinder carried a lot, and whether
// that gas is gone since.
func (d *Desk) lot(tx *book.Tx, lot string, item inventory.Item) (delivery.Match, string, error) {
	if item.Spec.Kind != inventory.Cylinder {
		return delivery.No, "", nil
	}
	facts, err := items.Facts(tx, d.words, items.About{Item: item.ID})
	if err != nil {
		return delivery.No, "", err
	}
	match, why := delivery.No, ""
	for _, f := range inventory.Standing(facts) {
		fill, is := f.Statement.(*inventory.Filled)
		switch {
		case !is:
		case inventory.SerialKey(lot) != "" && inventory.SerialKey(fill.Lot) == inventory.SerialKey(lot):
			match, why = delivery.Yes, "filled "+f.Happened.Format(fillDay)
		case match == delivery.Yes:
			return match, why + ", filled anew " + f.Happened.Format(fillDay) + " with lot " + fill.Lot, nil
		case inventory.NearKey(fill.Lot) == inventory.NearKey(lot):
			match, why = delivery.Perhaps, "lot "+fill.Lot+" is near: read the label"
		}
	}
	return match, why, nil
}

// had returns every person an item was lent to, in order; with a lot, those whom
// a fill of that lot served.
func (d *Desk) had(tx *book.Tx, id inventory.ItemID, lot string) ([]inventory.PersonID, error) {
	facts, err := items.Facts(tx, d.words, items.About{Item: id})
	if err != nil {
		return nil, err
	}
	var lent []inventory.Fact
	served := lot == ""
	for _, f := range inventory.Standing(facts) {
		switch s := f.Statement.(type) {
		case *inventory.Filled:
			served = lot == "" || inventory.NearKey(s.Lot) == inventory.NearKey(lot)
		case *inventory.Lent:
			if served {
				lent = append(lent, f)
			}
		}
	}
	return different(lent, func(f inventory.Fact) inventory.PersonID { return f.Person }), nil
}
