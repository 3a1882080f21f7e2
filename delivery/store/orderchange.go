package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// OrderChange says what a new order means for what stands in a person's house,
// before it is put in force.
func (d *Desk) OrderChange(ctx context.Context, who inventory.PersonID, o delivery.Ordered, at time.Time) (a delivery.Answer, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		c, err := care(tx, who)
		if err != nil {
			return err
		}
		ready, _, err := items.Items(tx, items.Filter{States: []inventory.State{inventory.Ready}, Kind: inventory.Concentrator})
		a = delivery.OrderChange{Care: c, New: o, Ready: ready, At: at}.Answer(p)
		return err
	})
	return a, err
}
