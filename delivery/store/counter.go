package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Waiting returns the persons who have an order but no oxygen of ours yet, in
// the order in which their orders came.
func (d *Desk) Waiting(ctx context.Context) (found []Found, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		known, err := book.List(tx, seenFound(tx), `
			SELECT who.body, COALESCE(home.body, ''), person_now.body
			FROM person_now
			JOIN identity who ON who.id = person_now.person_id
			LEFT JOIN identity home ON home.id = person_now.address_id
			WHERE person_now.phase = $1
			ORDER BY person_now.person_id`, string(delivery.Known))
		for _, f := range known {
			if f.Care.Order != nil {
				found = append(found, f)
			}
		}
		return err
	})
	return found, err
}

// Near returns the items whose serial is easily mistaken for a text: whom to
// ask about before a thing is taken for a stranger.
func (d *Desk) Near(ctx context.Context, serial string) (near []inventory.Item, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		near, err = items.NearSerial(tx, serial)
		return err
	})
	return near, err
}

// LastRecorded returns when the newest fact was recorded; zero in an empty book.
func (d *Desk) LastRecorded(ctx context.Context) (last time.Time, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		_, last, err = items.Newest(tx)
		return err
	})
	return last, err
}
