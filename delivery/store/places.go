package store

import (
	"context"
	"slices"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
	"lungwort/inventory"
	"lungwort/inventory/book"
)

// Gazetteer returns what addresses are looked up in.
func (d *Desk) Gazetteer(ctx context.Context) (g gazetteer.Gazetteer, err error) {
	err = d.book.Read(ctx, func(tx *book.Tx) error {
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		g, err = places(tx, d.words, p)
		return err
	})
	return g, err
}

// PlacesFor returns where the home of a person may lie by its name.
func (d *Desk) PlacesFor(ctx context.Context, who inventory.PersonID) (c delivery.PlaceChoice, err error) {
	c.Person = who
	err = d.book.Read(ctx, func(tx *book.Tx) error {
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		g, err := places(tx, d.words, p)
		if err != nil {
			return err
		}
		now, err := care(tx, who)
		if err != nil {
			return err
		}
		if c.Address, err = address(tx, now.Address); err != nil {
			return err
		}
		c.Matches = c.Address.Matches(g)
		return nil
	})
	return c, err
}

// places returns the places of the file taken in last, and whether postcodes
// are those of the US.
func places(tx *book.Tx, words inventory.Vocabulary, p delivery.Programme) (gazetteer.Gazetteer, error) {
	g := gazetteer.Gazetteer{US: p.Region == "US"}
	listed, err := newest[*delivery.PlacesListed](tx, words)
	if listed != nil {
		g.Places = listed.Places
	}
	return g, err
}

// unplaced returns the homes nobody knows the place of, each with one of those
// who live there.
func unplaced(tx *book.Tx) ([]delivery.Unplaced, error) {
	homes, err := book.List(tx, func(row book.Row) (h delivery.Unplaced, err error) {
		var body string
		if err = row.Scan(&h.Person, &body); err != nil {
			return h, err
		}
		return h, unmarshal(body, &h.Address)
	}, `SELECT min(p.person_id), i.body FROM person_now p JOIN identity i ON i.id = p.address_id
		WHERE i.sort = 'address' GROUP BY i.id, i.body ORDER BY i.id`)
	return slices.DeleteFunc(homes, func(h delivery.Unplaced) bool {
		return h.Address.Point.Known() || h.Address.Street == ""
	}), err
}
