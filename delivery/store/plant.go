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

// WeighExchange holds an exchange against the book and writes nothing.
func (d *Desk) WeighExchange(ctx context.Context, act delivery.Exchange, at time.Time) (slip delivery.ExchangeSlip, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		slip, err = act.Weigh(newView(tx, d, at))
		return err
	})
	return slip, err
}

// Exchanges returns the signed exchanges that stand, newest first.
func (d *Desk) Exchanges(ctx context.Context) ([]inventory.Fact, error) {
	return d.newest(ctx, new(inventory.Exchanged))
}

// newest returns the facts of one sort of statement that stand, newest first.
func (d *Desk) newest(ctx context.Context, sort inventory.Statement) ([]inventory.Fact, error) {
	facts, err := d.Facts(ctx, items.About{Says: sort.Says()})
	if err != nil {
		return nil, err
	}
	facts = slices.DeleteFunc(inventory.Standing(facts), func(f inventory.Fact) bool { return f.Statement.Says() != sort.Says() })
	slices.Reverse(facts)
	return facts, nil
}

// FillSources returns how the fills since a time read, by plant and lot, the
// worst first.
func (d *Desk) FillSources(ctx context.Context, since time.Time) ([]delivery.FillSource, error) {
	var fills []inventory.FillSeen
	err := d.read(ctx, func(tx *book.Tx) error {
		filled, err := items.Filled(tx, since)
		if err != nil {
			return err
		}
		for _, id := range filled {
			facts, err := items.Facts(tx, d.words, items.About{Item: id})
			if err != nil {
				return err
			}
			for _, f := range inventory.FillsOf(id, facts) {
				if !f.Fill.At.Before(since) {
					fills = append(fills, f)
				}
			}
		}
		return nil
	})
	return delivery.FillSources(fills), err
}
