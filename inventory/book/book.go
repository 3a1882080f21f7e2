// Package book is the database the programme keeps, holding every table. It
// opens, migrates, gives transactions their clock, copies and checks. It knows
// nothing of the tables inside; the stores bring their migrations.
//
// A book is a file of this machine, or lies on a PostgreSQL server where
// several desks share it: the address postgres://… stands for the path then.
//
// The file is a SQLite file of our own application id, in write-ahead mode with
// foreign keys and full synchronous writes. One program at a time may write to
// it; others may look. A file that can't be used is refused with a sentence
// and left as it was.
package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"lungwort/inventory/refusal"
)

// Set is the migrations of one package: files named NNN_name.sql, applied in
// the order of their names and never edited once released. What databases
// spell differently is written as a word in double braces:
//
//	CREATE TABLE reading (
//	    id      {{ID}},
//	    item_id {{INT}} NOT NULL REFERENCES item (id),
//	    gauge   {{REAL}} NOT NULL,
//	    note    {{TEXT}},
//	    picture {{BLOB}}
//	){{STRICT}};
//	{{APPEND_ONLY reading}}
//
// The last makes the database itself refuse to change or remove a row. The
// first column of each table is its key.
type Set struct {
	Name  string
	Files fs.FS
	// Settle brings what is worked out from the tables up to date after new
	// steps, in their transaction; it may be nil.
	Settle func(*Tx) error
}

// Options are what a book needs besides its file.
type Options struct {
	Now  func() time.Time // the clock of its transactions; nil means the machine's
	Sets []Set            // applied in this order; a later set may refer to tables of an earlier one
}

// Book is an open book. Its methods may be called from several goroutines.
type Book struct {
	engine  engine
	options Options
	now     func() time.Time
	writer  *sql.DB // one connection; nil when the book is open to look only
	reader  *sql.DB
	written compiled    // statements of the writer
	looked  compiled    // statements of the reader
	hold    *hold       // of a file
	file    os.FileInfo // the file opened to write
	made    bool        // by Create
}

// Create makes a new book at path and opens it. It refuses when something of
// that name exists. A book that can't be finished is not left behind.
func Create(ctx context.Context, path string, o Options) (*Book, error) {
	if OnServer(path) {
		return createOnServer(ctx, path, o)
	}
	path, err := newPath(path)
	if err != nil {
		return nil, err
	}
	b, err := openHeld(ctx, path, o, func(all []migration) error {
		if exists(path) { // made by another program since newPath looked
			return taken(path)
		}
		return build(ctx, path, o.clock()(), all, o.settle)
	})
	if err == nil {
		b.made = true
	}
	return b, err
}

// Open opens the book at path to read and write, bringing it up to date
// first. It never makes a book. A file it holds until Close: a second program
// is refused.
func Open(ctx context.Context, path string, o Options) (*Book, error) {
	if OnServer(path) {
		return openOnServer(ctx, path, o)
	}
	path, err := realPath(path)
	if err != nil {
		return nil, err
	}
	if err := inspect(path); err != nil {
		return nil, err
	}
	if err := writable(path); err != nil {
		return nil, err
	}
	return openHeld(ctx, path, o, func(all []migration) error {
		return bringUpToDate(ctx, path, o.clock()(), all, o.settle)
	})
}

// OpenOrCreate opens the book at path, or makes it when there is none.
func OpenOrCreate(ctx context.Context, path string, o Options) (*Book, error) {
	b, err := Open(ctx, path, o)
	if refusal.KindOf(err) == refusal.NotFound {
		return Create(ctx, path, o)
	}
	return b, err
}

// OpenReadOnly opens the book at path to look only. It takes no hold, so it
// works while another program has the book open, and it writes nothing: a
// book that would have to be brought up to date first is refused.
func OpenReadOnly(ctx context.Context, path string, o Options) (*Book, error) {
	if OnServer(path) {
		return lookOnServer(ctx, path, o)
	}
	path, err := realPath(path)
	if err != nil {
		return nil, err
	}
	if err := inspect(path); err != nil {
		return nil, err
	}
	all, err := readSets(o.Sets)
	if err != nil {
		return nil, err
	}
	pending, err := peek(ctx, path, all)
	if err != nil {
		return nil, explain(path, err)
	}
	if len(pending) > 0 {
		return nil, older(path)
	}
	reader, err := connect(toRead(path), readers)
	if err != nil {
		return nil, err
	}
	return &Book{engine: inFile(path), options: o, now: o.clock(), reader: reader}, nil
}

// openHeld takes the hold on path, lets prepare put the file in order, and
// opens it.
func openHeld(ctx context.Context, path string, o Options, prepare func([]migration) error) (_ *Book, err error) {
	all, err := readSets(o.Sets)
	if err != nil {
		return nil, err
	}
	h, err := take(path, o.clock()())
	if err != nil {
		return nil, err
	}
	b := &Book{engine: inFile(path), options: o, now: o.clock(), hold: h}
	defer func() {
		if err != nil {
			_ = b.Close() // the refusal says more than what closing might
		}
	}()
	if err := prepare(all); err != nil {
		return nil, explainFile(path, err)
	}
	if b.writer, err = connect(toWrite(path), 1); err != nil {
		return nil, err
	}
	if b.reader, err = connect(toRead(path), readers); err != nil {
		return nil, err
	}
	// A file that resists write-ahead mode is refused now, not at the first
	// act; and a writer that has read tidies up behind every reader.
	if _, err := applied(ctx, b.writer); err != nil {
		return nil, explain(path, err)
	}
	if err := b.remember(); err != nil {
		return nil, unreadable(path, err)
	}
	return b, nil
}

func (o Options) clock() func() time.Time {
	if o.Now == nil {
		return time.Now
	}
	return o.Now
}

// settle lets each set bring up to date what it works out.
func (o Options) settle(tx *Tx) error {
	for _, s := range o.Sets {
		if s.Settle == nil {
			continue
		}
		if err := s.Settle(tx); err != nil {
			return fmt.Errorf("book: settle %s: %w", s.Name, err)
		}
	}
	return nil
}

// Path returns where the book's file is; of a book on a server its name and
// the server's, which holds no secret.
func (b *Book) Path() string { return b.engine.place() }

// ReadOnly reports whether the book was opened to look only.
func (b *Book) ReadOnly() bool { return b.writer == nil }

// Close closes the book and lets others have it.
func (b *Book) Close() error {
	var errs []error
	for _, db := range []*sql.DB{b.reader, b.writer} {
		if db != nil {
			errs = append(errs, db.Close())
		}
	}
	if b.hold != nil {
		errs = append(errs, b.hold.release())
		b.hold = nil
	}
	return errors.Join(errs...)
}
