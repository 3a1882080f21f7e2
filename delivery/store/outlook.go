package store

import (
	"context"
	"time"

	"lungwort/delivery/stocking"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Outlook returns what the outlook for the next two weeks rests on: every
// thing, every loan of it, and what is not needed in homes.
func (d *Desk) Outlook(ctx context.Context, now time.Time) (o stocking.Outlook, err error) {
	o.Now = now
	err = d.read(ctx, func(tx *book.Tx) error {
		if o.Programme, err = programme(tx, d.words); err != nil {
			return err
		}
		if o.Hidden, err = d.hidden(tx, now); err != nil {
			return err
		}
		things, _, err := items.Items(tx, items.Filter{})
		if err != nil {
			return err
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		cycles, err := d.cycles(tx)
		o.Shelves = stocking.Shelves(things, cycles)
		return err
	})
	return o, err
}

// cycles returns the loans of every thing.
func (d *Desk) cycles(tx *book.Tx) (map[inventory.ItemID][]stocking.Cycle, error) {
	facts, err := items.Facts(tx, d.words, items.About{Things: true})
	if err != nil {
		return nil, err
	}
	about := make(map[inventory.ItemID][]inventory.Fact)
	for _, f := range facts {
		about[f.Item] = append(about[f.Item], f)
	}
	cycles := make(map[inventory.ItemID][]stocking.Cycle, len(about))
	for id, facts := range about {
		cycles[id] = stocking.Cycles(id, inventory.Course(id, facts))
	}
	return cycles, nil
}
