package store

import (
	"context"
	"slices"
	"strings"

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
}

// FindRecalled searches every item there is and ever was.
func (d *Desk) FindRecalled(ctx context.Context, n delivery.RecallNotice) (RecallList, error) {
	out := RecallList{Homes: []Recalled{}, Places: []Recalled{}, Before: []Recalled{}, Unsure: []Recalled{}, NotInBook: []string{}}
	err := d.book.Read(ctx, func(tx *book.Tx) error {
		all, _, err := items.Items(tx, items.Filter{})
		if err != nil {
			return err
		}
		delivery.BySerial(all)
		out.NotInBook = append(out.NotInBook, notIn(all, n.Serials)...)
		for _, item := range all {
			match, why := n.Match(item.Spec)
			if n.Lot != "" {
				if match, why, err = d.lot(tx, n.Lot, item); err != nil {
					return err
				}
			}
			if match == delivery.No {
				continue
			}
			had, err := d.had(tx, item.ID)
			if err != nil {
				return err
			}
			out.add(item, match, why, had)
		}
		return nil
	})
	return out, err
}

// notIn returns the serials that neither name one of the items nor are near
// one.
func notIn(all []inventory.Item, serials []string) []string {
	near := make(map[string]bool, len(all))
	for _, item := range all {
		near[inventory.NearKey(item.Spec.Serial)] = true
	}
	return slices.DeleteFunc(slices.Clone(serials), func(s string) bool { return near[inventory.NearKey(s)] })
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

// lot reports whether any fill of a cylinder carried a lot.
func (d *Desk) lot(tx *book.Tx, lot string, item inventory.Item) (delivery.Match, string, error) {
	if item.Spec.Kind != inventory.Cylinder {
		return delivery.No, "", nil
	}
	facts, err := items.Facts(tx, d.words, items.About{Item: item.ID})
	if err != nil {
		return delivery.No, "", err
	}
	for _, f := range inventory.Standing(facts) {
		fill, is := f.Statement.(*inventory.Filled)
		switch {
		case !is:
		case strings.EqualFold(strings.TrimSpace(fill.Lot), strings.TrimSpace(lot)):
			return delivery.Yes, "filled " + f.Happened.Format("Mon 2 Jan 2006"), nil
		case inventory.NearKey(fill.Lot) == inventory.NearKey(lot):
			return delivery.Perhaps, "lot " + fill.Lot + " is near: read the label", nil
		}
	}
	return delivery.No, "", nil
}

// had returns every person an item was lent to, in order.
func (d *Desk) had(tx *book.Tx, id inventory.ItemID) ([]inventory.PersonID, error) {
	facts, err := items.Facts(tx, d.words, items.About{Item: id})
	if err != nil {
		return nil, err
	}
	var lent []inventory.Fact
	for _, f := range inventory.Standing(facts) {
		if _, is := f.Statement.(*inventory.Lent); is {
			lent = append(lent, f)
		}
	}
	return different(lent, func(f inventory.Fact) inventory.PersonID { return f.Person }), nil
}
