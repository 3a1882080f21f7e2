package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// Stocktakes returns the counts of places, newest first.
func (d *Desk) Stocktakes(ctx context.Context) ([]inventory.Fact, error) {
	return d.newest(ctx, new(inventory.Stocktaken))
}

// Differences returns those of a count as they stand at a time.
func (d *Desk) Differences(ctx context.Context, s inventory.Stocktaken, at time.Time) (list []delivery.CountDifference, err error) {
	err = d.Ask(ctx, at, func(v delivery.View) error {
		list, err = delivery.CountDifferences(v, s)
		return err
	})
	return list, err
}
