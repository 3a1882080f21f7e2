package book

import (
	"context"
	"database/sql"
)

// engine is what a database that keeps a book does in its own way. There are
// two: a file of this machine, and a server for several desks.
type engine interface {
	place() string  // names the book in sentences; holds no secret
	words() dialect // how it spells the words of a Set
	keeps() bool    // it compiles a statement once by itself
	// snapshot begins a transaction that sees one moment and writes nothing.
	snapshot() *sql.TxOptions
	// turn waits until this transaction alone may write.
	turn(ctx context.Context, tx *sql.Tx) error
	// again reports whether an act that met err wrote nothing and may simply
	// be done once more.
	again(err error) bool
	// explain turns what the database says into a refusal. Other errors, and
	// refusals, come back unchanged.
	explain(err error) error
	// unsure is explain for the end of a transaction.
	unsure(err error) error
	// orphan describes a row that refers to one that is not there, or returns
	// nothing where there is none.
	orphan(ctx context.Context, q querier) (string, error)
	// tables returns the names of the tables the sets made, each after those
	// it refers to.
	tables(ctx context.Context, q querier) ([]string, error)
	// poured ends the filling of tables with numbered rows.
	poured(ctx context.Context, tx *sql.Tx) error
	// backup writes a copy to a new file, and check reads the whole book.
	backup(ctx context.Context, b *Book, path string) error
	check(ctx context.Context, db *sql.DB) error
	// listen tells what is heard of the book.
	listen(ctx context.Context, tell func(News, error)) error
	// abandon closes a new book and takes it away.
	abandon(b *Book) error
}

// inFile keeps a book in the file at a path.
type inFile string

var _ engine = inFile("")

func (f inFile) place() string                                       { return string(f) }
func (inFile) words() dialect                                        { return sqliteDialect }
func (inFile) keeps() bool                                           { return false }
func (inFile) snapshot() *sql.TxOptions                              { return &sql.TxOptions{ReadOnly: true} }
func (inFile) turn(context.Context, *sql.Tx) error                   { return nil } // the transaction began with it
func (inFile) again(error) bool                                      { return false }
func (f inFile) explain(err error) error                             { return explain(string(f), err) }
func (f inFile) unsure(err error) error                              { return explain(string(f), err) }
func (inFile) orphan(ctx context.Context, q querier) (string, error) { return orphan(ctx, q) }

func (inFile) tables(ctx context.Context, q querier) ([]string, error) {
	return tableNames(ctx, q, `
		SELECT name FROM sqlite_schema
		WHERE type = 'table' AND name NOT LIKE 'sqlite!_%' ESCAPE '!' AND name <> 'book_migration'
		ORDER BY rowid`)
}

func (inFile) poured(context.Context, *sql.Tx) error { return nil }
