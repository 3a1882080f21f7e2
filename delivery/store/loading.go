package store

import (
	"context"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
)

// Loading returns a run with its load, as the programme's rules judge it.
func (d *Desk) Loading(ctx context.Context, id inventory.RunID) (l delivery.Loading, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		v := newView(tx, d, tx.Now)
		p, err := v.Programme()
		if err != nil {
			return err
		}
		run, err := v.Run(id)
		if err != nil {
			return err
		}
		cargo, err := delivery.CargoOf(v, run)
		l = p.LoadingOf(run, cargo)
		return err
	})
	return l, err
}
