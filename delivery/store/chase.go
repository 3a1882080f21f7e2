package store

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Hidden returns what stands in homes and is not needed there, nearest first.
func (d *Desk) Hidden(ctx context.Context, now time.Time) (list []delivery.Hidden, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		list, err = d.hidden(tx, now)
		return err
	})
	return list, err
}

func (d *Desk) hidden(tx *book.Tx, now time.Time) ([]delivery.Hidden, error) {
	p, err := d.programme(tx)
	if err != nil {
		return nil, err
	}
	homes, err := d.homes(tx, now, `1 = 1`)
	if err != nil {
		return nil, err
	}
	list := make([]delivery.Hidden, 0)
	for _, h := range homes {
		if in, any := delivery.HiddenIn(p, h.person, h.Home, now); any {
			list = append(list, in)
		}
	}
	delivery.ByDistance(list)
	return list, nil
}

// StockAnswer says the fastest way to have so many of a thing ready.
func (d *Desk) StockAnswer(ctx context.Context, want delivery.Wanted, now time.Time) (a delivery.Answer, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		p, err := d.programme(tx)
		if err != nil {
			return err
		}
		var s delivery.Stock
		if s.Hidden, err = d.hidden(tx, now); err != nil {
			return err
		}
		if s.Things, _, err = items.Items(tx, items.Filter{Kind: want.Kind, Size: want.Size}); err != nil {
			return err
		}
		for _, item := range s.Things {
			facts, err := items.Facts(tx, d.words, items.About{Item: item.ID})
			if err != nil {
				return err
			}
			s.Loans = append(s.Loans, delivery.LoansOf(item.ID, facts)...)
		}
		a = s.Answer(p, want, now)
		return nil
	})
	return a, err
}
