package book

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"time"
)

// temporary is the pattern of the names of files in the making.
const temporary = ".lungwort-*.part"

// ground is what stands in a book before the first step.
const ground = `
CREATE TABLE book_migration (
	set_name   {{TEXT}} NOT NULL,
	file       {{TEXT}} NOT NULL,
	checksum   {{TEXT}} NOT NULL,
	applied_at {{INT}}  NOT NULL,
	PRIMARY KEY (set_name, file)
){{STRICT}};`

// build makes a book under another name and gives it its own once it is
// whole, so that no half-made book can be met.
func build(ctx context.Context, path string, now time.Time, all []migration, settle func(*Tx) error) error {
	return whole(path, func(part string) (err error) {
		db, err := connect(toBuild(part), 1)
		if err != nil {
			return err
		}
		defer func() { err = errors.Join(err, db.Close()) }()
		bare, err := sqliteDialect.expand(fmt.Sprintf("PRAGMA application_id = %d;", applicationID) + ground)
		if err != nil {
			return err
		}
		if _, err := db.ExecContext(ctx, bare); err != nil {
			return err
		}
		return upgrade(ctx, db, inFile(path), now, all, settle)
	})
}

// whole lets fill write a file for this user alone, in the folder of path, and
// moves it to path. When fill fails nothing stays behind.
func whole(path string, fill func(part string) error) (err error) {
	dir := filepath.Dir(path)
	f, err := os.CreateTemp(dir, temporary) // made with mode 0600
	if err != nil {
		return explainFile(path, err)
	}
	part := f.Name()
	defer func() {
		if err != nil {
			for _, tail := range []string{"", "-journal", "-wal", "-shm"} {
				_ = os.Remove(part + tail)
			}
		}
	}()
	if err := f.Close(); err != nil {
		return err
	}
	if err := fill(part); err != nil {
		return err
	}
	if err := flush(part); err != nil {
		return err
	}
	if err := os.Rename(part, path); err != nil {
		return err
	}
	if runtime.GOOS == "windows" { // which has no flushing of folders
		return nil
	}
	return flush(dir)
}

// flush puts a file or folder onto the disk.
func flush(path string) error {
	flags := os.O_RDWR
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		flags = os.O_RDONLY
	}
	f, err := os.OpenFile(path, flags, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
