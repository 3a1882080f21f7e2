package store

import (
	"context"

	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Catalogue returns what each product number (GTIN) stood for when a thing was
// last received under it.
func (d *Desk) Catalogue(ctx context.Context) (all map[string]inventory.Spec, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		all, err = catalogue(tx, d.words)
		return err
	})
	return all, err
}

func catalogue(tx *book.Tx, words inventory.Vocabulary) (map[string]inventory.Spec, error) {
	facts, err := items.Facts(tx, words, items.About{Says: new(inventory.Catalogued).Says()})
	if err != nil {
		return nil, err
	}
	all := make(map[string]inventory.Spec)
	for _, f := range inventory.Standing(facts) {
		if said, is := f.Statement.(*inventory.Catalogued); is {
			all[said.GTIN] = said.Spec
		}
	}
	return all, nil
}
