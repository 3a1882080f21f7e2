package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// Backup writes a copy of the book as it stands to path, reads the copy
// through, and only then gives it its name. It refuses to overwrite.
func (b *Book) Backup(ctx context.Context, path string) error {
	path, err := newPath(path)
	if err != nil {
		return err
	}
	err = whole(path, func(part string) error {
		if err := copyTo(ctx, b.path, part); err != nil {
			return err
		}
		return verify(ctx, part)
	})
	return explain(path, err)
}

// copyTo goes through a connection of its own, since one that may only query
// writes no copies either.
func copyTo(ctx context.Context, from, to string) (err error) {
	db, err := connect(toCopy(from), 1)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	_, err = db.ExecContext(ctx, "VACUUM INTO $1", to)
	return err
}

func verify(ctx context.Context, path string) (err error) {
	if err := inspect(path); err != nil {
		return err
	}
	db, err := connect(toPeek(path), 1)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	return sound(ctx, path, db)
}

// Check reads the whole book and refuses it as damaged when the database
// finds a fault in its structure, or a row that refers to a missing one.
func (b *Book) Check(ctx context.Context) error {
	return explain(b.path, sound(ctx, b.path, b.reader))
}

func sound(ctx context.Context, path string, db *sql.DB) error {
	var finding string
	if err := db.QueryRowContext(ctx, "PRAGMA integrity_check(1)").Scan(&finding); err != nil {
		return err
	}
	if finding != "ok" {
		return damaged(path).Because(fmt.Errorf("integrity check: %s", finding))
	}
	if err := foreignKeysHold(ctx, db); err != nil {
		return damaged(path).Because(err)
	}
	return nil
}
