package book

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// CopyTo makes a book at path, a file or the address of a server, with every
// row of this one as it stands now, and returns how many there are. Before the
// copy is kept, each of its rows is held against the original's. Tell is told
// how many rows have gone over; it may be nil.
func (b *Book) CopyTo(ctx context.Context, path string, tell func(rows int)) (rows int, err error) {
	err = b.Read(ctx, func(from *Tx) error {
		o := b.options
		o.Sets = slices.Clone(o.Sets)
		for i := range o.Sets { // what is worked out is copied, not worked out anew
			o.Sets[i].Settle = nil
		}
		last := len(o.Sets) - 1
		if last < 0 {
			return errors.New("book: a book without tables is not copied")
		}
		o.Sets[last].Settle = func(to *Tx) (err error) {
			rows, err = pour(from, to, tell)
			return err
		}
		made, err := Create(ctx, path, o)
		if err != nil {
			return err
		}
		if err := made.Check(ctx); err != nil {
			return errors.Join(err, made.Abandon())
		}
		return made.Close()
	})
	return rows, err
}

// pour copies every table and compares what arrived.
func pour(from, to *Tx, tell func(int)) (total int, err error) {
	names, err := from.engine.tables(from.ctx, from.sql)
	if err != nil {
		return 0, err
	}
	for _, name := range names {
		t := table{name: name}
		n, err := t.pour(from, to, func(n int) {
			if tell != nil {
				tell(total + n)
			}
		})
		if err != nil {
			return 0, fmt.Errorf("book: copy %s: %w", name, err)
		}
		if err := t.compare(from, to); err != nil {
			return 0, fmt.Errorf("book: copy %s: %w", name, err)
		}
		total += n
	}
	return total, to.engine.poured(to.ctx, to.sql)
}

// table is a table on its way from one book into another. Its first column is
// its key.
type table struct {
	name    string
	columns []string
}

// brought is how many rows are read before they are written.
const brought = 512

// rows reads the table in the order of its key.
func (t *table) rows(tx *Tx) (*sql.Rows, error) {
	rows, err := tx.Query(`SELECT * FROM ` + t.name + ` ORDER BY 1`)
	if err != nil {
		return nil, err
	}
	if t.columns, err = rows.Columns(); err != nil {
		return nil, errors.Join(err, rows.Close())
	}
	return rows, nil
}

// read returns the next row, or nil after the last.
func (t *table) read(rows *sql.Rows) ([]any, error) {
	if !rows.Next() {
		return nil, rows.Err()
	}
	cells := make([]any, len(t.columns))
	into := make([]any, len(cells))
	for i := range cells {
		into[i] = &cells[i]
	}
	return cells, rows.Scan(into...)
}

func (t *table) pour(from, to *Tx, tell func(int)) (total int, err error) {
	rows, err := t.rows(from)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	var batch [][]any
	write := func() error {
		err := to.InsertAll(fmt.Sprintf("%s (%s)", t.name, strings.Join(t.columns, ", ")), batch)
		batch = batch[:0]
		tell(total)
		return err
	}
	for {
		cells, err := t.read(rows)
		if err != nil || cells == nil {
			return total, errors.Join(err, write())
		}
		batch = append(batch, cells)
		if total++; total%brought == 0 {
			if err := write(); err != nil {
				return total, err
			}
		}
	}
}

// compare reads the table on both sides again, row by row.
func (t *table) compare(from, to *Tx) (err error) {
	theirs, err := t.rows(from)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, theirs.Close()) }()
	ours, err := t.rows(to)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, ours.Close()) }()
	for {
		want, err := t.read(theirs)
		if err != nil {
			return err
		}
		got, err := t.read(ours)
		if err != nil {
			return err
		}
		switch {
		case want == nil && got == nil:
			return nil
		case want == nil || got == nil || !slices.EqualFunc(want, got, sameCell):
			return fmt.Errorf("row %v did not arrive as it was", append(want, got...)[0])
		}
	}
}

func sameCell(a, b any) bool {
	left, binary := a.([]byte)
	if right, both := b.([]byte); binary && both {
		return bytes.Equal(left, right)
	}
	return !binary && a == b
}

// tableNames runs a query that gives the names of tables.
func tableNames(ctx context.Context, q querier, query string) (names []string, err error) {
	rows, err := q.QueryContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		var name string
		if err := rows.Scan(&name); err != nil {
			return nil, err
		}
		names = append(names, name)
	}
	return names, rows.Err()
}
