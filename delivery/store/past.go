package store

import (
	"context"
	"errors"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// Past opens what the book knew at an instant, as a book of its own at path,
// to be read and thrown away. Who persons are and where homes lie is told as
// it is known today.
func (d *Desk) Past(ctx context.Context, path string, known time.Time, o book.Options) (*book.Book, error) {
	if err := d.book.CopyUntil(ctx, path, "fact", "recorded", known); err != nil {
		return nil, err
	}
	b, err := book.Open(ctx, path, o)
	if err != nil {
		return nil, err
	}
	if err := NewDesk(b).derive(ctx); err != nil {
		return nil, errors.Join(err, b.Close())
	}
	return b, nil
}

// derive writes every derived state anew from the facts.
func (d *Desk) derive(ctx context.Context) error {
	return d.book.Write(ctx, func(tx *book.Tx) error {
		for _, table := range []string{"item_now", "person_now", "run_now"} {
			if _, err := tx.Exec(`DELETE FROM ` + table); err != nil {
				return err
			}
		}
		facts, err := items.Facts(tx, d.words, items.About{})
		if err != nil {
			return err
		}
		for _, id := range different(facts, func(f inventory.Fact) inventory.ItemID { return f.Item }) {
			if err := items.Refold(tx, d.words, id); err != nil {
				return err
			}
		}
		for _, id := range different(facts, func(f inventory.Fact) inventory.PersonID { return f.Person }) {
			if err := refoldPerson(tx, d.words, id); err != nil {
				return err
			}
		}
		for _, id := range different(facts, func(f inventory.Fact) inventory.RunID { return f.Run }) {
			if err := refoldRun(tx, d.words, id); err != nil {
				return err
			}
		}
		return nil
	})
}
