package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/stocking"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

// Outlook returns what the outlook for the next two weeks rests on: every
// thing, every loan of it, and what is not needed in homes.
func (d *Desk) Outlook(ctx context.Context, now time.Time) (o stocking.Outlook, err error) {
	o.Now = now
	err = d.read(ctx, func(tx *book.Tx) error {
		if o.Programme, err = d.programme(tx); err != nil {
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
		if err != nil {
			return err
		}
		o.Shelves = stocking.Shelves(things, cycles)
		o.Homes, err = d.timesAtHome(tx)
		return err
	})
	return o, err
}

// timesAtHome returns the times at home of each person: the discharges, with the order
// in force then.
func (d *Desk) timesAtHome(tx *book.Tx) (stocking.Homes, error) {
	facts, err := items.Facts(tx, d.words, items.About{Courses: true})
	if err != nil {
		return nil, err
	}
	homes, flow := make(stocking.Homes), make(map[inventory.PersonID]gas.Flow)
	for _, f := range inventory.Standing(facts) {
		switch s := f.Statement.(type) {
		case *delivery.Ordered:
			flow[f.Person] = s.Highest()
		case *delivery.Discharged:
			homes[f.Person] = append(homes[f.Person], stocking.Home{From: f.Happened, Ward: s.Ward, Flow: flow[f.Person]})
		}
	}
	return homes, nil
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
