package store

import (
	"context"
	"fmt"
	"time"

	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
)

// KeepCopy makes the copy of the day in a folder, audited, and encrypted to age
// recipients: those given, else those of the programme. It returns the file,
// empty when the day has one.
func (d *Desk) KeepCopy(ctx context.Context, dir string, to []string, now time.Time) (string, error) {
	if len(to) == 0 {
		err := d.book.Read(ctx, func(tx *book.Tx) error { // whoever is signed in, or nobody
			p, err := d.programme(tx)
			to = p.CopiesTo
			return err
		})
		if err != nil {
			return "", err
		}
	}
	return book.Copies{Dir: dir, Sealed: to, Prove: audited}.Keep(ctx, d.book, now)
}

// audited refuses a copy whose states are not what its facts say.
func audited(ctx context.Context, copied *book.Book) error {
	a, err := NewDesk(copied).Audit(ctx)
	if err != nil {
		return err
	}
	if n := len(a.Mismatches); n > 0 {
		return refusal.New(refusal.Damaged, fmt.Sprintf("The copy of the day has %d mismatches and is not kept.", n), "Run lungwort audit on the book, and restore an older copy beside it.")
	}
	return nil
}
