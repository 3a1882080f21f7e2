package sheet

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"lungwort/inventory/refusal"
)

// replace puts data in place of the file at path, whole or not at all: it is
// written beside it and renamed. Only the owner may read it.
func replace(path string, data []byte) (err error) {
	if err := writable(path); err != nil {
		return err
	}
	temporary, err := os.CreateTemp(filepath.Dir(path), ".lungwort-*.part")
	if err != nil {
		return unwritten(path, err)
	}
	defer func() {
		if err != nil {
			temporary.Close()
			os.Remove(temporary.Name())
		}
	}()
	if _, err := temporary.Write(data); err != nil {
		return unwritten(path, err)
	}
	if err := temporary.Sync(); err != nil {
		return unwritten(path, err)
	}
	if err := temporary.Close(); err != nil {
		return unwritten(path, err)
	}
	if err := os.Rename(temporary.Name(), path); err != nil {
		return unwritten(path, err)
	}
	return nil
}

// writable refuses a target that must not be replaced: renaming alone would
// replace a read-only file, or one that lies open in a spreadsheet program.
func writable(path string) error {
	folder, name := filepath.Split(path)
	for _, mark := range []string{"~$" + name, ".~lock." + name + "#"} {
		if _, err := os.Stat(filepath.Join(folder, mark)); err == nil {
			return opened(path)
		}
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return unwritten(path, err)
	case info.IsDir():
		return refusal.New(refusal.Invalid, fmt.Sprintf("%q is a folder.", name), "Choose a name for the file inside it.")
	case info.Mode().Perm()&0o222 == 0:
		return refusal.New(refusal.ReadOnly, fmt.Sprintf("%q is write-protected.", name), otherName(path))
	}
	return nil
}

func opened(path string) error {
	return refusal.New(refusal.Busy, fmt.Sprintf("%q is open in a spreadsheet program.", filepath.Base(path)),
		"Close it there, or: "+otherName(path))
}

func unwritten(path string, err error) error {
	name, folder := filepath.Base(path), filepath.Dir(path)
	switch {
	case heldOpen(err):
		return refusal.New(refusal.Busy, fmt.Sprintf("%q is open in another program.", name), "Close it there, or: "+otherName(path)).Because(err)
	case errors.Is(err, fs.ErrNotExist):
		return refusal.New(refusal.NotFound, fmt.Sprintf("There is no folder %q.", folder), "Choose a folder that exists.").Because(err)
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return refusal.New(refusal.ReadOnly, fmt.Sprintf("You may not write into the folder of %q.", name), "Choose another folder.").Because(err)
	case errors.Is(err, syscall.ENOSPC):
		return refusal.New(refusal.Unready, fmt.Sprintf("The disk has no room for %q.", name), "Free some space, or choose another disk.").Because(err)
	}
	return refusal.New(refusal.Unready, fmt.Sprintf("%q could not be written.", name), "Choose another folder.").Because(err)
}

// otherName proposes the first free name like the path's.
func otherName(path string) string {
	extension := filepath.Ext(path)
	for i := 2; ; i++ {
		free := fmt.Sprintf("%s (%d)%s", path[:len(path)-len(extension)], i, extension)
		if _, err := os.Stat(free); err != nil {
			return fmt.Sprintf("Save under another name, such as %q.", filepath.Base(free))
		}
	}
}
