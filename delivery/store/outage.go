package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Outage answers what a power cut does to the homes it touches. Hours count
// where the end of the cut is not known.
func (d *Desk) Outage(ctx context.Context, cut delivery.PowerCut, hours time.Duration, at time.Time) (plan delivery.OutagePlan, err error) {
	rows, err := d.Watch(ctx, at)
	if err != nil {
		return plan, err
	}
	err = d.read(ctx, func(tx *book.Tx) error {
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		ready, _, err := items.Items(tx, items.Filter{States: []inventory.State{inventory.Ready}, Kind: inventory.Cylinder})
		plan = delivery.PlanOutage(p, cut, hours, rows, delivery.ReadyGas(ready), at)
		return err
	})
	return plan, err
}
