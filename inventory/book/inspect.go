package book

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// The SQLite file header, from "Database File Format", section 1.3, at
// sqlite.org: offsets in bytes, numbers big-endian.
const (
	headerSize         = 100
	atPageSize         = 16 // two bytes; 1 stands for 65536
	atChangeCounter    = 24
	atPageCount        = 28
	atApplicationID    = 68
	atPageCountValidAt = 92 // the page count holds when this equals the change counter
)

var magic = []byte("SQLite format 3\x00")

// inspect reads the head of the file at path and refuses what is not a book
// or no longer a whole one. It changes nothing.
func inspect(path string) error {
	info, err := os.Stat(path)
	if err != nil {
		return unreadable(path, err)
	}
	if info.IsDir() {
		return folder(path)
	}
	if !info.Mode().IsRegular() {
		return foreign(path)
	}
	f, err := os.Open(path)
	if err != nil {
		return unreadable(path, err)
	}
	defer f.Close()
	header := make([]byte, headerSize)
	n, err := io.ReadFull(f, header)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, io.EOF) {
		return unreadable(path, err)
	}
	return judge(path, header[:n], info.Size(), exists(path+"-wal"))
}

// judge decides about a file of the given size from its first bytes. While a
// write-ahead log stands beside it, the log may hold pages the file lacks.
func judge(path string, header []byte, size int64, withLog bool) error {
	if len(header) == 0 {
		return empty(path)
	}
	known := min(len(header), len(magic))
	if !bytes.Equal(header[:known], magic[:known]) {
		return foreign(path)
	}
	if len(header) < headerSize {
		return damaged(path)
	}
	if binary.BigEndian.Uint32(header[atApplicationID:]) != applicationID {
		return foreign(path)
	}
	page := int64(binary.BigEndian.Uint16(header[atPageSize:]))
	if page == 1 {
		page = 65536
	}
	if page < 512 {
		return damaged(path)
	}
	counted := binary.BigEndian.Uint32(header[atChangeCounter:]) == binary.BigEndian.Uint32(header[atPageCountValidAt:])
	pages := int64(binary.BigEndian.Uint32(header[atPageCount:]))
	if !withLog && (size%page != 0 || counted && size < pages*page) {
		return damaged(path)
	}
	return nil
}

// writable refuses a book whose file can be read but not written.
func writable(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return fileReadOnly(path).Because(err)
	}
	return f.Close()
}

// realPath returns path absolute and with links followed, so that one book
// has one name whichever way it was reached.
func realPath(path string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", unreadable(path, err)
	}
	resolved, err := filepath.EvalSymlinks(abs)
	if err != nil {
		return "", unreadable(abs, err)
	}
	return resolved, nil
}

// newPath returns where a new book at path would be, or why there can be
// none.
func newPath(path string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", unreadable(path, err)
	}
	dir, err := filepath.EvalSymlinks(filepath.Dir(abs))
	if err != nil {
		return "", noFolder(filepath.Dir(abs)).Because(err)
	}
	place := filepath.Join(dir, filepath.Base(abs))
	if exists(place) {
		return "", taken(place)
	}
	return place, nil
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist)
}

func folderWritable(dir string) bool {
	f, err := os.CreateTemp(dir, temporary)
	if err != nil {
		return false
	}
	return errors.Join(f.Close(), os.Remove(f.Name())) == nil
}
