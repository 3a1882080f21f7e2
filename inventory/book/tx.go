package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"time"
)

// Tx is one transaction on the book with one clock. SQL is written with $1
// placeholders. A Tx must not be kept after the function it was given to.
type Tx struct {
	// Now is the one instant of everything written here: UTC, in whole
	// milliseconds, so that what is read back equals what was written.
	Now time.Time

	ctx    context.Context
	sql    *sql.Tx
	engine engine
	kept   *compiled            // for all transactions; nil where the driver keeps them
	here   map[string]*sql.Stmt // compiled statements already used here, by their text
}

// tries is how often an act is done anew that got into the way of another.
const tries = 5

// Write lets act change the book in one transaction, alone. When act returns
// an error or panics nothing is changed. Where several desks share the book
// and got into each other's way, act is run again from its beginning. Acts
// must not call Write again: they pass the Tx on.
func (b *Book) Write(ctx context.Context, act func(*Tx) error) error {
	if b.ReadOnly() {
		return lookingOnly(b.engine.place())
	}
	if err := b.there(); err != nil {
		return err
	}
	err := b.transact(ctx, b.writer, &b.written, nil, func(tx *Tx) error {
		if err := b.engine.turn(ctx, tx.sql); err != nil {
			return err
		}
		return act(tx)
	})
	if err != nil {
		return err
	}
	return b.there()
}

// Read lets look see the book as it stands at one moment, whatever is written
// meanwhile.
func (b *Book) Read(ctx context.Context, look func(*Tx) error) error {
	if err := b.there(); err != nil {
		return err
	}
	return b.transact(ctx, b.reader, &b.looked, b.engine.snapshot(), look)
}

func (b *Book) transact(ctx context.Context, db *sql.DB, kept *compiled, kind *sql.TxOptions, do func(*Tx) error) error {
	for try := 1; ; try++ {
		err := b.once(ctx, db, kept, kind, do)
		switch stopped := ctx.Err(); {
		case err == nil:
			return nil
		case stopped != nil && !refused(err):
			return stopped // whatever the database called it
		case try == tries || !b.engine.again(err):
			return b.engine.explain(err)
		}
	}
}

// once does one transaction.
func (b *Book) once(ctx context.Context, db *sql.DB, kept *compiled, kind *sql.TxOptions, do func(*Tx) error) error {
	kept.prepare(ctx, db)
	tx, err := db.BeginTx(ctx, kind)
	if err != nil {
		return err
	}
	defer tx.Rollback() // after Commit it does nothing; on an error or a panic it undoes
	if err := do(newTx(ctx, tx, kept, b.now(), b.engine)); err != nil {
		return err
	}
	return b.engine.unsure(tx.Commit())
}

func newTx(ctx context.Context, tx *sql.Tx, kept *compiled, now time.Time, e engine) *Tx {
	t := &Tx{Now: stored(now), ctx: ctx, sql: tx, engine: e}
	if !e.keeps() {
		t.kept, t.here = kept, make(map[string]*sql.Stmt)
	}
	return t
}

// Context returns the context of the transaction.
func (t *Tx) Context() context.Context { return t.ctx }

// Exec runs a statement that gives no rows.
func (t *Tx) Exec(query string, args ...any) (sql.Result, error) {
	s, err := t.statement(query, args)
	if err != nil {
		return nil, err
	}
	return s.ExecContext(t.ctx, args...)
}

// Insert runs an INSERT … RETURNING id and returns that id.
func (t *Tx) Insert(query string, args ...any) (int64, error) {
	var id int64
	err := t.QueryRow(query, args...).Scan(&id)
	return id, err
}

// together is how many rows one statement of InsertAll writes at most.
const together = 16

// InsertAll writes rows of as many values each as into names columns, in
// order: "pump (id, litres)".
func (t *Tx) InsertAll(into string, rows [][]any) error {
	for len(rows) > 0 {
		n := min(len(rows), together)
		if _, err := t.Exec(insertion(into, n, len(rows[0])), slices.Concat(rows[:n]...)...); err != nil {
			return err
		}
		rows = rows[n:]
	}
	return nil
}

// insertion returns the SQL that writes a number of rows.
func insertion(into string, rows, values int) string {
	text := make([]byte, 0, 32+len(into)+6*rows*values)
	text = append(text, "INSERT INTO "+into+" VALUES "...)
	for i := range rows * values {
		switch {
		case i == 0:
			text = append(text, '(')
		case i%values == 0:
			text = append(text, "), ("...)
		default:
			text = append(text, ", "...)
		}
		text = strconv.AppendInt(append(text, '$'), int64(i+1), 10)
	}
	return string(append(text, ')'))
}

// Query runs a statement that gives rows. They must be closed before the next
// statement; List does so.
func (t *Tx) Query(query string, args ...any) (*sql.Rows, error) {
	s, err := t.statement(query, args)
	if err != nil {
		return nil, err
	}
	return s.QueryContext(t.ctx, args...)
}

// QueryRow runs a statement that gives one row. Its Scan returns
// sql.ErrNoRows when there is none.
func (t *Tx) QueryRow(query string, args ...any) Row {
	s, err := t.statement(query, args)
	if err != nil {
		return failed{err}
	}
	return s.QueryRowContext(t.ctx, args...)
}

// Row is one row, to be scanned once.
type Row interface {
	Scan(into ...any) error
}

type failed struct{ err error }

func (f failed) Scan(...any) error { return f.err }

// List runs a query and returns what scan makes of each of its rows, in order.
func List[T any](t *Tx, scan func(Row) (T, error), query string, args ...any) (_ []T, err error) {
	rows, err := t.Query(query, args...)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	var list []T
	for rows.Next() {
		one, err := scan(rows)
		if err != nil {
			return nil, err
		}
		list = append(list, one)
	}
	return list, rows.Err()
}

// bindable refuses times, which drivers store each in their own text: they
// are bound as a Stamp's two numbers.
func bindable(args []any) error {
	for i, a := range args {
		switch a.(type) {
		case time.Time, *time.Time, sql.NullTime, Stamp, MaybeStamp:
			return fmt.Errorf("book: argument %d is a %T; bind its milliseconds and offset instead", i+1, a)
		}
	}
	return nil
}
