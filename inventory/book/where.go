package book

import (
	"os"
	"path/filepath"
	"strings"

	"lungwort/inventory/refusal"
)

// OnServer reports whether a path is the address of a book on a server.
func OnServer(path string) bool {
	return strings.HasPrefix(path, "postgres://") || strings.HasPrefix(path, "postgresql://")
}

// Absolute returns path so that it names the same book from any folder. The
// address of a server does so already.
func Absolute(path string) (string, error) {
	if OnServer(path) {
		return path, nil
	}
	return filepath.Abs(path)
}

// Named names the book at path for a person: its file, or the database and its
// server. A secret in an address is left out.
func Named(path string) string {
	if !OnServer(path) {
		return path
	}
	s, err := parseAddress(path, toLook)
	if err != nil {
		return "an address that can't be understood"
	}
	return s.named
}

// Folder returns where what belongs to the book at path is put: beside its
// file, and for a book on a server in the user's own folder.
func Folder(path string) (string, error) {
	if OnServer(path) {
		return ownFolder()
	}
	return filepath.Dir(path), nil
}

// DefaultPath returns where the book is when nobody says otherwise: in the
// user's own folder.
func DefaultPath() (string, error) {
	dir, err := ownFolder()
	return filepath.Join(dir, "book.lungwort"), err
}

// ownFolder returns the folder of the program in the user's configuration,
// which is made, for that user alone, when it is missing.
func ownFolder() (string, error) {
	config, err := os.UserConfigDir()
	if err != nil {
		return "", refusal.New(refusal.NotFound,
			"This user has no configuration folder to keep the book in.",
			"Say where the book is with --book.").Because(err)
	}
	dir := filepath.Join(config, "lungwort")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", folderReadOnly(dir).Because(err)
	}
	return dir, nil
}
