package book

import (
	"fmt"
	"path/filepath"
)

// Caution says what speaks against keeping a book where it lies, or nothing.
// On a network drive SQLite can't keep its promise: locks don't reach other
// machines and the write-ahead log needs shared memory ("Write-Ahead Logging",
// section 1, and "SQLite Over a Network", at sqlite.org).
func (b *Book) Caution() string {
	if OnServer(b.Path()) || b.hold == nil {
		return ""
	}
	return distant(b.Path(), networkDrive(filepath.Dir(b.Path())))
}

// distant says that the book at path lies on a drive of some kind on another
// machine.
func distant(path, drive string) string {
	if drive == "" {
		return ""
	}
	return fmt.Sprintf("The book %s lies on a network drive (%s): a break in the network or a second machine can damage it. "+
		"Move it to a disk of this machine; for several desks, keep it on a PostgreSQL server.", path, drive)
}
