package store

import (
	"context"

	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Supplies returns the counted supplies at each place.
func (d *Desk) Supplies(ctx context.Context) (stock []inventory.SupplyStock, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		stock, err = supplies(tx, d.words)
		return err
	})
	return stock, err
}

// supplies folds them from their facts: none of it is kept beside.
func supplies(tx *book.Tx, words inventory.Vocabulary) ([]inventory.SupplyStock, error) {
	facts, err := items.Facts(tx, words, items.About{Supplies: true})
	return inventory.FoldSupplies(facts), err
}

// suppliesOfLot returns what lies with us of a lot, and who was given it or may
// have been.
func suppliesOfLot(tx *book.Tx, words inventory.Vocabulary, lot string) (stock []inventory.SupplyStock, given []inventory.LotGiven, err error) {
	facts, err := items.Facts(tx, words, items.About{Supplies: true})
	if err != nil {
		return nil, nil, err
	}
	for _, s := range inventory.FoldSupplies(facts) {
		if s.Lot != "" && s.At != "" && inventory.SerialKey(s.Lot) == inventory.SerialKey(lot) {
			stock = append(stock, s)
		}
	}
	return stock, inventory.GivenOfLot(facts, lot), nil
}
