package book

import (
	"context"
	"errors"
	"fmt"
	"time"
)

// CopyUntil writes to path a copy of the book in which append-only tables end
// at an instant: rows whose column holds a later one are left out. The copy is
// for looking at the past; the book itself stays as it is.
func (b *Book) CopyUntil(ctx context.Context, path, column string, until time.Time, tables ...string) error {
	if err := b.Backup(ctx, path); err != nil {
		return err
	}
	return explain(path, forget(ctx, path, column, until, tables))
}

// forget takes the rows out of the copy, from which nobody else reads yet.
func forget(ctx context.Context, path, column string, until time.Time, tables []string) (err error) {
	db, err := connect(toMigrate(path), 1)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	for _, table := range tables {
		if _, err := db.ExecContext(ctx, fmt.Sprintf("DROP TRIGGER %s_never_goes", table)); err != nil {
			return err
		}
		if _, err := db.ExecContext(ctx, fmt.Sprintf("DELETE FROM %s WHERE %s > $1", table, column), Instant(until)); err != nil {
			return err
		}
	}
	return nil
}
