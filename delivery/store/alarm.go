package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Alarm answers a call about a machine that beeps, or about somebody short of
// breath on a machine that seems fine.
func (d *Desk) Alarm(ctx context.Context, alarm delivery.Alarm, at time.Time) (a delivery.Answer, err error) {
	if err := alarm.Check(); err != nil {
		return a, err
	}
	err = d.read(ctx, func(tx *book.Tx) error {
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		homes, err := d.homes(tx, at, `person_id = $1`, string(alarm.Person))
		if err != nil {
			return err
		}
		if len(homes) == 0 {
			_, err := care(tx, alarm.Person)
			return err
		}
		call := delivery.AlarmCall{Alarm: alarm, At: at}
		call.Home = delivery.WatchHome(p, homes[0].person, alarm.Told(homes[0].Home, at), at)
		ready, _, err := items.Items(tx, items.Filter{States: []inventory.State{inventory.Ready}, Kind: inventory.Concentrator})
		if err != nil {
			return err
		}
		_, highest := call.Home.Care.Flow()
		call.Spare = p.Machine(ready, highest, call.Home.Address.Point, at)
		board, err := d.board(tx, at)
		if err != nil {
			return err
		}
		if with, stop, known := board.With(p.Swapping(call.Home, at)); known {
			if slots := with.Slots(stop); len(slots) > 0 {
				call.Van = &slots[0]
			}
		}
		a = call.Answer(p)
		return nil
	})
	return a, err
}
