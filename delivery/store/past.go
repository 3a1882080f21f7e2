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
	if err := d.read(ctx, func(*book.Tx) error { return nil }); err != nil {
		return nil, err // what was is shown to whom the present is
	}
	if err := d.book.CopyUntil(ctx, path, "recorded", known, "fact", "fact_seal"); err != nil {
		return nil, err
	}
	b, err := book.Open(ctx, path, o)
	if err != nil {
		return nil, err
	}
	if err := b.Write(ctx, func(tx *book.Tx) error { return derive(tx, d.words) }); err != nil {
		return nil, errors.Join(err, b.Close())
	}
	return b, nil
}

// derive writes every derived state anew from the facts.
func derive(tx *book.Tx, words inventory.Vocabulary) error {
	for _, table := range []string{"item_now", "person_now", "run_now"} {
		if _, err := tx.Exec(`DELETE FROM ` + table); err != nil {
			return err
		}
	}
	facts, err := items.Facts(tx, words, items.About{})
	if err != nil {
		return err
	}
	for _, id := range different(facts, func(f inventory.Fact) inventory.ItemID { return f.Item }) {
		if err := items.Refold(tx, words, id); err != nil {
			return err
		}
	}
	for _, id := range different(facts, func(f inventory.Fact) inventory.PersonID { return f.Person }) {
		if err := refoldPerson(tx, words, id); err != nil {
			return err
		}
	}
	for _, id := range different(facts, func(f inventory.Fact) inventory.RunID { return f.Run }) {
		if err := refoldRun(tx, words, id); err != nil {
			return err
		}
	}
	return nil
}
