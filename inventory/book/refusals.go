package book

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"syscall"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"

	"lungwort/inventory/refusal"
)

func refuse(kind refusal.Kind, next, says string, args ...any) *refusal.Error {
	return refusal.New(kind, fmt.Sprintf(says, args...), next)
}

func missing(path string) *refusal.Error {
	return refuse(refusal.NotFound, "Check the name, or make a new book there.",
		"There is no book at %s.", path)
}

func noFolder(dir string) *refusal.Error {
	return refuse(refusal.NotFound, "Make the folder first, or choose another.",
		"The folder %s can't be found.", dir)
}

func taken(path string) *refusal.Error {
	return refuse(refusal.Conflict, "Choose another name; nothing was overwritten.",
		"There is already a file at %s.", path)
}

func folder(path string) *refusal.Error {
	return refuse(refusal.Foreign, "Choose the book's file, usually named book.lungwort.",
		"%s is a folder, not a book.", path)
}

func foreign(path string) *refusal.Error {
	return refuse(refusal.Foreign, "Choose another file; a spreadsheet is taken in with \"intake\".",
		"%s is not a book of this program.", path)
}

func empty(path string) *refusal.Error {
	return refuse(refusal.Damaged, "If it was a book, restore the latest backup; else choose another file.",
		"The file %s is empty.", path)
}

func damaged(path string) *refusal.Error {
	return refuse(refusal.Damaged, "Keep the file as it is and restore the latest backup under another name.",
		"The book %s is damaged or was cut short.", path)
}

func newer(path string) *refusal.Error {
	return refuse(refusal.Newer, "Install the current version of the program on this machine.",
		"The book %s was written by a newer version of the program.", path)
}

func older(path string) *refusal.Error {
	return refuse(refusal.Unready, "Open it once to write, which brings it up to date.",
		"The book %s was written by an older version of the program.", path)
}

func edited(path string, m migration) *refusal.Error {
	return refuse(refusal.Foreign, "Open it with the version of the program that made it.",
		"The book %s was made by a different build of the program: its step %s/%s is not the one known here.", path, m.set, m.file)
}

func fileReadOnly(path string) *refusal.Error {
	return refuse(refusal.ReadOnly, "Give this user the right to write to it, or open it to look only.",
		"The book %s can be read but not written.", path)
}

func folderReadOnly(dir string) *refusal.Error {
	return refuse(refusal.ReadOnly, "Give this user the right to write there, or keep the book in another folder.",
		"Nothing can be written in the folder %s, and a book needs room beside it.", dir)
}

func lookingOnly(path string) *refusal.Error {
	return refuse(refusal.ReadOnly, "Close it and open it to write.",
		"The book %s is open to look only.", path)
}

func busy(path, holder string) *refusal.Error {
	return refuse(refusal.Busy, "Close it there first, or open it here to look only.",
		"The book %s is in use by %s.", path, holder)
}

func full(path string) *refusal.Error {
	return refuse(refusal.Unready, "Free some room and try again; nothing was written.",
		"The disk that holds %s is full.", path)
}

func failing(path string) *refusal.Error {
	return refuse(refusal.Unready, "Check the disk, then restart the program; nothing was written.",
		"The disk failed while %s was in use.", path)
}

// unreadable is for a file the system won't let us read.
func unreadable(path string, err error) *refusal.Error {
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR) {
		return missing(path).Because(err)
	}
	return refuse(refusal.Unready, "Ask whoever owns the file for the right to read and write it.",
		"The file %s can't be read by this user.", path).Because(err)
}

// explain turns what the database says about the file at path into a refusal.
// Other errors, and refusals, come back unchanged.
func explain(path string, err error) error {
	if refused(err) {
		return err
	}
	if r := databaseFault(path, err); r != nil {
		return r.Because(err)
	}
	return err
}

// explainFile is explain for work on files, about which the system has its
// say too.
func explainFile(path string, err error) error {
	switch {
	case refused(err):
		return err
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return folderReadOnly(filepath.Dir(path)).Because(err)
	case errors.Is(err, syscall.ENOSPC):
		return full(path).Because(err)
	}
	return explain(path, err)
}

func refused(err error) bool {
	var r *refusal.Error
	return errors.As(err, &r)
}

// databaseFault returns the refusal for an error that is the file's fault, or
// nil for one that is the statement's.
func databaseFault(path string, err error) *refusal.Error {
	var e *sqlite.Error
	if !errors.As(err, &e) {
		return nil
	}
	switch e.Code() & 0xff { // the primary code
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED, lib.SQLITE_PROTOCOL:
		return busy(path, "another program")
	case lib.SQLITE_READONLY:
		return fileReadOnly(path)
	case lib.SQLITE_CANTOPEN, lib.SQLITE_PERM:
		return folderReadOnly(filepath.Dir(path))
	case lib.SQLITE_CORRUPT, lib.SQLITE_NOTADB:
		return damaged(path)
	case lib.SQLITE_FULL:
		return full(path)
	case lib.SQLITE_IOERR:
		return failing(path)
	}
	return nil
}

// IsUnique reports whether err is the database refusing a second row with the
// same key.
func IsUnique(err error) bool {
	if code(err) == uniqueViolation {
		return true
	}
	var e *sqlite.Error
	return errors.As(err, &e) &&
		(e.Code() == lib.SQLITE_CONSTRAINT_UNIQUE || e.Code() == lib.SQLITE_CONSTRAINT_PRIMARYKEY)
}

// isMissingTable reports whether err is about a statement the schema can't
// satisfy, which SQLite gives no code of its own.
func isMissingTable(err error) bool {
	var e *sqlite.Error
	return errors.As(err, &e) && e.Code() == lib.SQLITE_ERROR
}
