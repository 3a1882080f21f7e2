package store

import (
	"context"
	"slices"

	"lungwort/delivery"
	"lungwort/delivery/outline"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Outline returns what maps are drawn from; empty when none was taken in.
func (d *Desk) Outline(ctx context.Context) (o outline.Outline, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		facts, err := items.Facts(tx, d.words, items.About{Says: new(delivery.Charted).Says()})
		for _, f := range slices.Backward(inventory.Standing(facts)) {
			if charted, is := f.Statement.(*delivery.Charted); is {
				o = charted.Outline
				break
			}
		}
		return err
	})
	return o, err
}

// Addresses returns every address in the book.
func (d *Desk) Addresses(ctx context.Context) (homes map[inventory.AddressID]delivery.Address, err error) {
	err = d.book.Read(ctx, func(tx *book.Tx) error {
		homes, err = addressesByID(tx)
		return err
	})
	return homes, err
}

func addressesByID(tx *book.Tx) (map[inventory.AddressID]delivery.Address, error) {
	homes := make(map[inventory.AddressID]delivery.Address)
	all, err := book.List(tx, derived[delivery.Address], `SELECT body FROM identity WHERE sort = 'address' ORDER BY id`)
	for _, a := range all {
		homes[a.ID] = a
	}
	return homes, err
}
