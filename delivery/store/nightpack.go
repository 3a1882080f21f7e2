package store

import (
	"context"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// LastPack returns the night pack as it was last printed by now, and whether it
// ever was.
func (d *Desk) LastPack(ctx context.Context, now time.Time) (pack delivery.Pack, printed bool, err error) {
	err = d.read(ctx, func(tx *book.Tx) error {
		facts, err := items.Facts(tx, d.words, items.About{Says: new(delivery.Printed).Says()})
		pack, printed = delivery.LastPack(inventory.Standing(facts), now)
		return err
	})
	return pack, printed, err
}

// PackNews returns the last night pack with the homes that stand otherwise since
// it was printed, in the order of their numbers.
func (d *Desk) PackNews(ctx context.Context, now time.Time) (pack delivery.Pack, news []delivery.News, printed bool, err error) {
	pack, printed, err = d.LastPack(ctx, now)
	if err != nil || !printed {
		return pack, nil, printed, err
	}
	news, err = d.Since(ctx, pack.Recorded, now)
	return pack, pack.ByNumber(news), printed, err
}

// inPack returns the person of a number in the last night pack.
func (d *Desk) inPack(ctx context.Context, number int) (inventory.PersonID, error) {
	pack, printed, err := d.LastPack(ctx, time.Time{})
	switch {
	case err != nil:
		return "", err
	case !printed:
		return "", refusal.New(refusal.NotFound, "No night pack was printed.", "Give the record number or the name.")
	case number > len(pack.Persons):
		return "", refusal.New(refusal.NotFound, fmt.Sprintf("The last night pack has no number %d: it ends at %d.", number, len(pack.Persons)), "Read the number again, or give the name.")
	}
	return pack.Persons[number-1], nil
}
