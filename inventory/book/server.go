package book

import (
	"context"
	"database/sql"
	"time"

	"github.com/jackc/pgx/v5"
)

// server keeps a book in a database of a PostgreSQL server.
type server struct {
	config *pgx.ConnConfig
	named  string // the database and its hosts, in words; no secret
	desk   string // tells this desk's news from others'
	steps  int    // how many the book had behind it when it was opened
}

var _ engine = (*server)(nil)

// bookLock is the advisory lock that gives one transaction at a time the turn
// to write. One database holds one book.
const bookLock = applicationID

// newsChannel is where desks tell each other that something was written.
const newsChannel = "lungwort_book"

// reach is how long a server that does not answer is waited for.
const reach = 5 * time.Second

// oldest is the first version of the server that will do, as it counts itself.
const oldest = 150000

func (s *server) place() string { return s.named }

func (*server) words() dialect { return serverDialect }

func (*server) keeps() bool { return true }

func (*server) snapshot() *sql.TxOptions {
	return &sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true}
}

// turn waits for the other desks, tells them of the act once it is written,
// and refuses to write by rules the book has grown out of. Each statement sees
// what was written before it began, so what the act reads after waiting is the
// book as it stands.
func (s *server) turn(ctx context.Context, tx *sql.Tx) error {
	_, err := tx.ExecContext(ctx, `SELECT pg_advisory_xact_lock($1), pg_notify($2, $3)`, bookLock, newsChannel, s.desk)
	if err != nil {
		return err
	}
	return s.current(tx.QueryRowContext(ctx, countSteps))
}

const countSteps = `SELECT count(*) FROM book_migration`

// current refuses a book that a newer program brought up to date meanwhile.
func (s *server) current(row Row) error {
	var steps int
	if err := row.Scan(&steps); code(err) == undefinedTable {
		return noBook(s.named).Because(err)
	} else if err != nil {
		return err
	}
	if steps != s.steps {
		return newer(s.named)
	}
	return nil
}

// orphan finds nothing: the server never lets a reference dangle.
func (*server) orphan(context.Context, querier) (string, error) { return "", nil }

func (*server) tables(ctx context.Context, q querier) ([]string, error) {
	return tableNames(ctx, q, `
		SELECT relname FROM pg_class
		WHERE relkind IN ('r', 'p') AND relnamespace = current_schema()::regnamespace AND relname <> 'book_migration'
		ORDER BY oid`)
}

// poured lets the server go on counting after the rows that came numbered.
func (*server) poured(ctx context.Context, tx *sql.Tx) error {
	_, err := tx.ExecContext(ctx, `
		DO $$
		DECLARE made record; last bigint;
		BEGIN
		    FOR made IN SELECT attrelid::regclass AS name, attname AS key FROM pg_attribute JOIN pg_class ON pg_class.oid = attrelid
		        WHERE attidentity <> '' AND relnamespace = current_schema()::regnamespace
		    LOOP
		        EXECUTE format('SELECT max(%I) FROM %s', made.key, made.name) INTO last;
		        PERFORM setval(pg_get_serial_sequence(made.name::text, made.key), last) WHERE last IS NOT NULL;
		    END LOOP;
		END $$`)
	return err
}

func (*server) backup(ctx context.Context, b *Book, path string) error {
	_, err := b.CopyTo(ctx, path, nil)
	return err
}

// check reads every row of every table; the server finds out by its sums what
// the disk spoiled.
func (s *server) check(ctx context.Context, db *sql.DB) error {
	names, err := s.tables(ctx, db)
	if err != nil {
		return err
	}
	for _, name := range names {
		var read sql.NullInt64
		if err := db.QueryRowContext(ctx, `SELECT sum(octet_length(one::text)) FROM `+name+` AS one`).Scan(&read); err != nil {
			return err
		}
	}
	return nil
}
