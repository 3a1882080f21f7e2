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
	return b.engine.backup(ctx, b, path)
}

func (f inFile) backup(ctx context.Context, _ *Book, path string) error {
	return duplicate(ctx, string(f), path)
}

// Restore makes a book at path from the backup, which it leaves as it is. It
// refuses a backup that is not whole, and to overwrite. A backup of an older
// version is brought up to date when the book is opened.
func Restore(ctx context.Context, backup, path string) error {
	if OnServer(path) {
		return copyThere()
	}
	backup, err := realPath(backup)
	if err != nil {
		return err
	}
	if err := inspect(backup); err != nil {
		return err
	}
	return duplicate(ctx, backup, path)
}

func duplicate(ctx context.Context, from, to string) error {
	to, err := newPath(to)
	if err != nil {
		return err
	}
	err = whole(to, func(part string) error {
		if err := copyTo(ctx, from, part); err != nil {
			return explain(from, err)
		}
		return verify(ctx, part)
	})
	return explainFile(to, err)
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

// verify reads a fresh copy through. Its indexes were just rebuilt, so they
// are not compared with their tables again.
func verify(ctx context.Context, path string) (err error) {
	if err := inspect(path); err != nil {
		return err
	}
	db, err := connect(toPeek(path), 1)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	return sound(ctx, path, db, "PRAGMA quick_check(1)")
}

// Check reads the whole book and refuses it as damaged when the database
// finds a fault in its structure, or a row that refers to a missing one.
func (b *Book) Check(ctx context.Context) error {
	return b.engine.explain(b.engine.check(ctx, b.reader))
}

func (f inFile) check(ctx context.Context, db *sql.DB) error {
	return sound(ctx, string(f), db, "PRAGMA integrity_check(1)")
}

func sound(ctx context.Context, path string, db *sql.DB, check string) error {
	var finding string
	if err := db.QueryRowContext(ctx, check).Scan(&finding); err != nil {
		return err
	}
	if finding != "ok" {
		return damaged(path).Because(fmt.Errorf("%s: %s", check, finding))
	}
	lost, err := orphan(ctx, db)
	if err != nil {
		return err
	}
	if lost != "" {
		return damaged(path).Because(errors.New(lost))
	}
	return nil
}
