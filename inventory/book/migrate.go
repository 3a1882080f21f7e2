package book

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"time"
)

// migration is one step of the schema.
type migration struct {
	set, file string
	text      string // as written, before the dialect
}

var migrationName = regexp.MustCompile(`^\d{3}_[a-z0-9_]+\.sql$`)

// readSets returns the migrations of all sets in the order they are applied.
func readSets(sets []Set) ([]migration, error) {
	var all []migration
	for _, s := range sets {
		files, err := fs.ReadDir(s.Files, ".")
		if err != nil {
			return nil, fmt.Errorf("book: migrations of %s: %w", s.Name, err)
		}
		for _, f := range files { // sorted by name
			if !migrationName.MatchString(f.Name()) {
				return nil, fmt.Errorf("book: %s/%s is not named like 001_name.sql", s.Name, f.Name())
			}
			text, err := fs.ReadFile(s.Files, f.Name())
			if err != nil {
				return nil, fmt.Errorf("book: migration %s/%s: %w", s.Name, f.Name(), err)
			}
			// Line ends may depend on the checkout; the step does not.
			plain := strings.ReplaceAll(string(text), "\r\n", "\n")
			all = append(all, migration{set: s.Name, file: f.Name(), text: plain})
		}
	}
	return all, nil
}

func (m migration) checksum() string {
	sum := sha256.Sum256([]byte(m.text))
	return hex.EncodeToString(sum[:])
}

// applied returns the checksums of the steps a book has behind it, keyed by
// set and file.
func applied(ctx context.Context, db querier) (map[[2]string]string, error) {
	rows, err := db.QueryContext(ctx, `
		SELECT
			set_name,
			file,
			checksum
		FROM book_migration
		ORDER BY set_name, file`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	done := map[[2]string]string{}
	for rows.Next() {
		var set, file, sum string
		if err := rows.Scan(&set, &file, &sum); err != nil {
			return nil, err
		}
		done[[2]string{set, file}] = sum
	}
	return done, rows.Err()
}

// peek reads which steps the book at path still lacks. It changes nothing.
func peek(ctx context.Context, path string, all []migration) (pending []migration, err error) {
	db, err := connect(toPeek(path), 1)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	done, err := applied(ctx, db)
	if err != nil {
		if isMissingTable(err) {
			return nil, damaged(path).Because(err)
		}
		return nil, err
	}
	return lacking(path, done, all)
}

// lacking returns the steps that are not among those done. It refuses a step
// done that nobody here knows, or that was changed since.
func lacking(place string, done map[[2]string]string, all []migration) (pending []migration, err error) {
	for _, m := range all {
		key := [2]string{m.set, m.file}
		sum, ok := done[key]
		if !ok {
			pending = append(pending, m)
			continue
		}
		if sum != m.checksum() {
			return nil, edited(place, m)
		}
		delete(done, key)
	}
	if len(done) > 0 {
		return nil, newer(place)
	}
	return pending, nil
}

// bringUpToDate applies the steps the book at path still lacks.
func bringUpToDate(ctx context.Context, path string, now time.Time, all []migration, settle func(*Tx) error) (err error) {
	pending, err := peek(ctx, path, all)
	if err != nil || len(pending) == 0 {
		return err
	}
	db, err := connect(toMigrate(path), 1)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	return upgrade(ctx, db, inFile(path), now, pending, settle)
}

// upgrade applies the pending steps in one transaction.
func upgrade(ctx context.Context, db *sql.DB, e engine, now time.Time, pending []migration, settle func(*Tx) error) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := climb(ctx, tx, e, now, pending, settle); err != nil {
		return err
	}
	return tx.Commit()
}

// climb applies the pending steps, records each, and lets the sets settle what
// they work out: at the end of the transaction the book has reached the version
// of this program, or stays as it was.
func climb(ctx context.Context, tx *sql.Tx, e engine, now time.Time, pending []migration, settle func(*Tx) error) error {
	for _, m := range pending {
		if err := apply(ctx, tx, e, m, now); err != nil {
			return fmt.Errorf("book: migration %s/%s: %w", m.set, m.file, err)
		}
	}
	return settle(newTx(ctx, tx, nil, now, e))
}

func apply(ctx context.Context, tx *sql.Tx, e engine, m migration, now time.Time) error {
	text, err := e.words().expand(m.text)
	if err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, text); err != nil {
		return err
	}
	lost, err := e.orphan(ctx, tx)
	if err != nil {
		return err
	}
	if lost != "" {
		return errors.New(lost)
	}
	_, err = tx.ExecContext(ctx, `
		INSERT INTO book_migration (
			set_name,
			file,
			checksum,
			applied_at
		) VALUES ($1, $2, $3, $4)`, m.set, m.file, m.checksum(), Instant(now))
	return err
}

type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// orphan describes a row that refers to one that is not there, or returns
// nothing when there is none.
func orphan(ctx context.Context, q querier) (string, error) {
	var table, parent string
	var row sql.NullInt64
	err := q.QueryRowContext(ctx, `SELECT "table", rowid, parent FROM pragma_foreign_key_check LIMIT 1`).
		Scan(&table, &row, &parent)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("row %d of %s refers to a missing row of %s", row.Int64, table, parent), nil
}
