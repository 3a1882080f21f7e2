package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// fillsLooked is how far back the fills of a plant are held against each other.
const fillsLooked = 90 * 24 * time.Hour

// LowFillAnswer says what is done with a cylinder called full that reads low.
func (d *Desk) LowFillAnswer(ctx context.Context, id inventory.ItemID, now time.Time) (delivery.Answer, error) {
	sources, err := d.FillSources(ctx, now.Add(-fillsLooked))
	if err != nil {
		return delivery.Answer{}, err
	}
	low := delivery.LowFill{Sources: sources}
	err = d.read(ctx, func(tx *book.Tx) (err error) {
		if low.Item, err = items.Item(tx, id); err != nil {
			return err
		}
		if low.Siblings, err = d.siblings(tx, low.Item); err != nil {
			return err
		}
		if low.Item.State != inventory.Held {
			return nil
		}
		who, err := person(tx, low.Item.Person)
		if err != nil {
			return err
		}
		low.Waits = &who
		want := delivery.Wanted{Kind: inventory.Cylinder, Size: low.Item.Spec.Size}
		other, ok, err := newView(tx, d, now).Alternative(want)
		if ok {
			low.Instead = &other
		}
		return err
	})
	return low.Answer(now), err
}

// siblings returns the cylinders last filled in the lot of one.
func (d *Desk) siblings(tx *book.Tx, item inventory.Item) ([]inventory.Item, error) {
	if item.Fill == nil || item.Fill.Lot == "" {
		return nil, nil
	}
	filled, err := items.Filled(tx, item.Fill.At.Add(-fillsLooked))
	if err != nil {
		return nil, err
	}
	var same []inventory.Item
	for _, id := range filled {
		other, err := items.Item(tx, id)
		if err != nil {
			return nil, err
		}
		if other.Fill != nil && inventory.SerialKey(other.Fill.Lot) == inventory.SerialKey(item.Fill.Lot) {
			same = append(same, other)
		}
	}
	delivery.BySerial(same)
	return same, nil
}
