package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// NightCall answers a call at any hour: from a person in the book, or from
// somebody near an area, town or street. With neither nobody knows who could
// be there.
func (d *Desk) NightCall(ctx context.Context, call delivery.NightCall, who inventory.PersonID, near string) (answer delivery.Answer, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		if call, err = call.Lettered(p); err != nil {
			return err
		}
		homes, err := d.everyHome(tx, p, call.At)
		if err != nil {
			return err
		}
		ready, _, err := items.Items(tx, items.Filter{States: []inventory.State{inventory.Ready}, Kind: inventory.Cylinder})
		if err != nil {
			return err
		}
		var at delivery.Point
		for _, w := range homes {
			if who != "" && w.Person.ID == who {
				call, at = call.From(p, w), w.Address.Point
			}
		}
		if near != "" {
			if at, err = middleOf(homes, near); err != nil {
				return err
			}
			call.Facts = append(call.Facts, "not in the book; rides are counted from the middle of "+near)
		}
		answer, err = call.Around(p, ready, homes, who, at).Answer(p)
		return err
	})
	return answer, err
}

// everyHome returns the row of everybody who has anything of ours, on oxygen
// or not.
func (d *Desk) everyHome(tx *book.Tx, p delivery.Programme, now time.Time) ([]delivery.Watch, error) {
	homes, err := d.homes(tx, now, `1 = 1`)
	rows := make([]delivery.Watch, len(homes))
	for i, h := range homes {
		rows[i] = delivery.WatchHome(p, h.person, h.Home, now)
	}
	return rows, err
}

// middleOf returns the middle of the homes that lie in a zone of a name.
func middleOf(homes []delivery.Watch, near string) (delivery.Point, error) {
	var middle delivery.Point
	n := 0.0
	for _, w := range homes {
		if at := w.Address.Point; at.Known() && (delivery.Zone{Name: near}).Holds(w.Address) {
			middle.Lat, middle.Lon, middle.Area = middle.Lat+at.Lat, middle.Lon+at.Lon, at.Area
			n++
		}
	}
	if n == 0 {
		return middle, refusal.New(refusal.NotFound, "No home in the book is near "+near+".", "Name an area, a town or a street where somebody of ours lives, or leave it out.")
	}
	middle.Lat, middle.Lon = middle.Lat/n, middle.Lon/n
	return middle, nil
}
