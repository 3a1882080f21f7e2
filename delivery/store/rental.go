package store

import (
	"context"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Rentals returns every cylinder that belongs to an owner we rent from, by tag.
// An empty owner or size stands for all.
func (d *Desk) Rentals(ctx context.Context, owner string, size string) (all []delivery.Rental, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		rented, err := book.List(tx, derived[inventory.Item], `
			SELECT body FROM item_now
			WHERE kind = $1 AND owner <> '' AND ($2 = '' OR owner = $2) AND ($3 = '' OR size = $3)
			ORDER BY tag, item_id`, string(inventory.Cylinder), owner, size)
		if err != nil {
			return err
		}
		for _, item := range rented {
			if item.Spec.Foreign {
				continue // seen, and left alone
			}
			facts, err := items.Facts(tx, d.words, items.About{Item: item.ID})
			if err != nil {
				return err
			}
			standing := inventory.Standing(facts)
			all = append(all, delivery.Rental{Item: item, Times: delivery.Possessions(facts), Last: standing[len(standing)-1]})
		}
		return nil
	})
	return all, err
}
