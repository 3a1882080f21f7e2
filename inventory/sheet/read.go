package sheet

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"lungwort/inventory/refusal"
)

// Reader reads spreadsheets. The zero Reader reads without telling how far it
// is.
type Reader struct {
	Tell func(share float64) // is told how far the reading is, from 0 to 1
}

// ReadFile reads every table of the file without telling how far it is.
func ReadFile(ctx context.Context, path string) ([]Table, error) { return Reader{}.File(ctx, path) }

// Read reads every table of data without telling how far it is.
func Read(ctx context.Context, name string, data []byte) ([]Table, error) {
	return Reader{}.Data(ctx, name, data)
}

// File reads every table of the file. What the file is gets decided by
// its content, not by its name. A file that can't be read is refused with the
// next step; a stopped context gives the context's error.
func (r Reader) File(ctx context.Context, path string) ([]Table, error) {
	name := filepath.Base(path)
	info, err := os.Stat(path)
	if err != nil {
		return nil, unopened(name, err)
	}
	switch {
	case info.IsDir():
		return nil, refusal.New(refusal.Invalid, fmt.Sprintf("%q is a folder.", name), "Choose the spreadsheet inside it.")
	case !info.Mode().IsRegular():
		return nil, refusal.New(refusal.Invalid, fmt.Sprintf("%q is not an ordinary file.", name), "Choose a spreadsheet saved on a disk.")
	case info.Size() > maxFileBytes:
		return nil, tooLarge(name)
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, unopened(name, err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, maxFileBytes+1))
	if err != nil {
		return nil, unopened(name, err)
	}
	return r.Data(ctx, name, data)
}

// Data reads every table of data, which was found under the name: a file's
// content, or text from the clipboard. Sheets without content are left out.
func (r Reader) Data(ctx context.Context, name string, data []byte) ([]Table, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if len(data) > maxFileBytes {
		return nil, tooLarge(name)
	}
	tables, err := (&reading{ctx: ctx, file: name, tell: r.Tell}).as(data)
	if err != nil {
		return nil, err
	}
	tables = slices.DeleteFunc(tables, func(t Table) bool { return len(t.Rows) == 0 })
	if len(tables) == 0 {
		return nil, empty(name)
	}
	return tables, nil
}

// reading is one file while it is read.
type reading struct {
	ctx  context.Context
	file string
	tell func(share float64) // nil: nobody asks
	told float64
}

// reached tells how far the reading is, a hundred times in all, and returns
// why it was stopped.
func (r *reading) reached(done, all int64) error {
	const step = 0.01
	if share := min(1, float64(done)/float64(max(all, 1))); r.tell != nil && share-r.told >= step {
		r.told = share
		r.tell(share)
	}
	return r.ctx.Err()
}

func (r *reading) as(data []byte) ([]Table, error) {
	if strings.HasPrefix(string(data[:min(len(data), 4)]), "PK\x03\x04") {
		return readPacked(r, data)
	}
	if err := foreign(r.file, data); err != nil {
		return nil, err
	}
	text, note, err := decode(r.file, data)
	if err != nil {
		return nil, err
	}
	var tables []Table
	if looksLikeHTML(text) {
		tables, err = readHTML(r, text)
	} else {
		tables, err = readDelimited(r, text)
	}
	if err != nil {
		return nil, err
	}
	if note != "" {
		for i := range tables {
			tables[i].Notes = append(tables[i].Notes, note)
		}
	}
	return tables, nil
}

// stem is the name a table without one of its own gets.
func stem(name string) string { return strings.TrimSuffix(name, filepath.Ext(name)) }

func unopened(name string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return refusal.New(refusal.NotFound, fmt.Sprintf("There is no file %q.", name),
			"Check the name, or choose the file again.").Because(err)
	case errors.Is(err, fs.ErrPermission):
		return refusal.New(refusal.Unready, fmt.Sprintf("%q may not be opened by you.", name),
			"Ask its owner for a copy you may read.").Because(err)
	case heldOpen(err):
		return refusal.New(refusal.Busy, fmt.Sprintf("%q is held by another program.", name),
			"Close it there, then try again.").Because(err)
	}
	return refusal.New(refusal.Unready, fmt.Sprintf("%q could not be read from its disk.", name),
		"Copy it to this computer, then try again.").Because(err)
}

func tooLarge(name string) error {
	return refusal.New(refusal.Invalid, fmt.Sprintf("%q is too large to be a list of people or items.", name),
		"Save only the sheet you need, without pictures and unused rows, and choose that file.")
}

func empty(name string) error {
	return refusal.New(refusal.Invalid, fmt.Sprintf("%q holds no rows.", name),
		"Open it in the spreadsheet program, check that the list is there, and save it again.")
}
