package book

import (
	"database/sql"
	"fmt"
	"net/url"
	"path/filepath"
	"strings"
	"time"

	"modernc.org/sqlite"
)

// applicationID marks a SQLite file as a book; it spells "Lung".
const applicationID = 0x4c756e67

// readers is how many looks may go on at once; there is always one writer.
const readers = 4

// patience is how long a connection waits for another program's lock on the
// file before the book counts as busy.
var patience = 5 * time.Second

func init() {
	// Without this the system drops SQLite's locks whenever any code in this
	// process closes another descriptor of the file. Where it is unavailable
	// SQLite keeps its usual locks.
	_, _ = sqlite.OFDLocking(true)
}

// connect gives a pool of at most n connections to source. It opens none yet.
func connect(source string, n int) (*sql.DB, error) {
	db, err := sql.Open("sqlite", source)
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(n)
	db.SetMaxIdleConns(n)
	return db, nil
}

// source is the text that opens a connection to path. The path is escaped, for
// SQLite reads it as a URI.
func source(path, settings string) string {
	parts := strings.Split(filepath.ToSlash(path), "/")
	for i, p := range parts {
		parts[i] = url.PathEscape(p)
	}
	escaped := strings.Join(parts, "/")
	if !strings.HasPrefix(escaped, "/") { // a Windows drive
		escaped = "/" + escaped
	}
	return fmt.Sprintf("file://%s?_pragma=busy_timeout(%d)&_dqs=0&%s", escaped, patience.Milliseconds(), settings)
}

// toWrite opens the writer. Recursive triggers make REPLACE fire the delete
// triggers that guard append-only tables.
func toWrite(path string) string {
	return source(path, "_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)&_pragma=foreign_keys(1)"+
		"&_pragma=recursive_triggers(1)&_txlock=immediate&mode=rw")
}

// toRead opens one of several readers.
func toRead(path string) string {
	return source(path, "_pragma=query_only(1)&"+access(path))
}

// toCopy opens a reader that may write files elsewhere.
func toCopy(path string) string { return source(path, access(path)) }

// toMigrate has foreign keys off, because tables can only be rebuilt so and
// the setting can't be changed inside a transaction; the migration checks them
// before it commits.
func toMigrate(path string) string {
	return source(path, "_pragma=synchronous(FULL)&_pragma=foreign_keys(0)&_txlock=immediate&mode=rw")
}

// toBuild is toMigrate for a file nobody knows yet, which is put onto the disk
// once, when it is whole.
func toBuild(path string) string {
	return source(path, "_pragma=synchronous(OFF)&_pragma=journal_mode(MEMORY)&_pragma=foreign_keys(0)&_txlock=immediate&mode=rw")
}

// toPeek opens a book without leaving a trace beside it, unless a crash or
// another program left something there that must be taken into account.
func toPeek(path string) string {
	if busyBeside(path) {
		return source(path, "mode=ro")
	}
	return source(path, "mode=ro&immutable=1")
}

// access is the most that may be had of the file at path: one that may be
// written is tidied up after reading. Where SQLite can't put its shared files
// beside the book nobody can be writing, and the file is read as it stands.
func access(path string) string {
	switch {
	case writable(path) == nil && folderWritable(filepath.Dir(path)):
		return "mode=rw"
	case busyBeside(path):
		return "mode=ro"
	}
	return "mode=ro&immutable=1"
}

// busyBeside reports whether SQLite's own files lie beside the book.
func busyBeside(path string) bool {
	return exists(path+"-wal") || exists(path+"-journal")
}
