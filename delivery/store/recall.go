package store

import (
	"context"
	"slices"
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
		candidates, err := d.candidates(tx, n)
		if err != nil {
			return err
		}
		if out.NotInBook, err = notInBook(tx, n.Serials); err != nil {
			return err
		}
		if n.Lot != "" {
			if out.Stock, out.Given, err = suppliesOfLot(tx, d.words, n.Lot); err != nil {
				return err
			}
		}
		delivery.BySerial(candidates)
		for _, item := range candidates {
			match, why := n.Match(item.Spec)
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

// candidates returns the items a notice may name. Where it names serials, all
// serials of the book are held against it by their keys alone, and only those
// that may fit are read whole.
func (d *Desk) candidates(tx *book.Tx, n delivery.RecallNotice) ([]inventory.Item, error) {
	var ids []inventory.ItemID
	switch {
	case n.Lot != "":
		filled, err := items.Filled(tx, time.Time{})
		if err != nil {
			return nil, err
		}
		ids = filled
	case n.From == "" && n.To == "" && len(n.Serials) == 0:
		all, _, err := items.Items(tx, items.Filter{})
		return all, err
	default:
		keys, err := items.SerialKeys(tx)
		if err != nil {
			return nil, err
		}
		for id, key := range keys {
			if match, _ := n.Match(inventory.Spec{Serial: key, Model: n.Model}); match != delivery.No {
				ids = append(ids, id)
			}
		}
	}
	found := make([]inventory.Item, len(ids))
	for i, id := range ids {
		item, err := items.Item(tx, id)
		if err != nil {
			return nil, err
		}
		found[i] = item
	}
	return found, nil
}

// notInBook returns the serials that neither name an item nor are near one.
func notInBook(tx *book.Tx, serials []string) ([]string, error) {
	none := []string{}
	for _, s := range serials {
		same, err := items.BySerial(tx, s)
		if err != nil {
			return nil, err
		}
		near, err := items.NearSerial(tx, s)
		if err != nil {
			return nil, err
		}
		if len(same)+len(near) == 0 {
			none = append(none, s)
		}
	}
	return none, nil
}

// RecallFile returns the marked items of a notice in the order of risk.
func (d *Desk) RecallFile(ctx context.Context, notice string, now time.Time) ([]delivery.RecallUnit, error) {
	watch, err := d.Watch(ctx, now)
	if err != nil {
		return nil, err
	}
	homes := make(map[inventory.PersonID]delivery.Watch, len(watch))
	for _, w := range watch {
		homes[w.Person.ID] = w
	}
	var units []delivery.RecallUnit
	err = d.read(ctx, func(tx *book.Tx) error {
		marked, err := items.Recalled(tx)
		if err != nil {
			return err
		}
		for _, item := range marked {
			if item.Recall != notice {
				continue
			}
			facts, err := items.Facts(tx, d.words, items.About{Item: item.ID})
			if err != nil {
				return err
			}
			u := delivery.RecallUnitOf(item, facts)
			if w, watched := homes[u.Person]; watched && !u.Done {
				u.Cover, u.Urgent, u.Visit = w.Forecast.CoverLow, w.Urgent, w.Visit
				u.Due = dueOf(w.Care, notice)
			}
			units = append(units, u)
		}
		return nil
	})
	delivery.ByRisk(units)
	return units, err
}

// dueOf returns by when the recall's swap of a person is due.
func dueOf(care delivery.Care, notice string) time.Time {
	for _, t := range care.Tasks {
		if t.Tasked.Task == delivery.Swap && t.Why == "recall "+notice {
			return t.Due
		}
	}
	return time.Time{}
}

// Recalls returns the notices with marked items, by name.
func (d *Desk) Recalls(ctx context.Context) ([]string, error) {
	var notices []string
	err := d.read(ctx, func(tx *book.Tx) error {
		marked, err := items.Recalled(tx)
		for _, item := range marked {
			if !slices.Contains(notices, item.Recall) {
				notices = append(notices, item.Recall)
			}
		}
		return err
	})
	slices.Sort(notices)
	return notices, err
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
		case inventory.SerialKey(lot) != "" && inventory.SerialKey(fill.Lot) == inventory.SerialKey(lot):
			return delivery.Yes, "filled " + f.Happened.Format("Mon 2 Jan 2006"), nil
		case inventory.NearKey(fill.Lot) == inventory.NearKey(lot):
			return delivery.Perhaps, "lot " + fill.Lot + " is near: read the label", nil
		}
	}
	return delivery.No, "", nil
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
