package book

import (
	"errors"
	"io/fs"
	"net/url"
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

// DefaultPath returns where the book is when nobody says otherwise: at the
// remembered address of a server, else in the user's own folder.
func DefaultPath() (string, error) {
	dir, err := ownFolder()
	if err != nil {
		return "", err
	}
	text, err := os.ReadFile(filepath.Join(dir, remembered))
	if address := strings.TrimSpace(string(text)); err == nil && OnServer(address) {
		return address, nil
	}
	return filepath.Join(dir, "book.lungwort"), nil
}

// remembered is the file of the address that DefaultPath returns.
const remembered = "book.address"

// Remember makes the address of a server the place of the user's book. It must
// hold no password.
func Remember(address string) error {
	dir, err := ownFolder()
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, remembered), []byte(address+"\n"), 0o600); err != nil {
		return folderReadOnly(dir).Because(err)
	}
	return nil
}

// Forget makes the file in the user's own folder the place of the book again,
// and returns it.
func Forget() (string, error) {
	dir, err := ownFolder()
	if err != nil {
		return "", err
	}
	if err := os.Remove(filepath.Join(dir, remembered)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", folderReadOnly(dir).Because(err)
	}
	return DefaultPath()
}

// Address returns the address of a database on a server, or on several with a
// comma between. The file of the authority that vouches for them may be empty.
func Address(servers, database, user, authority string) string {
	u := url.URL{Scheme: "postgres", User: url.User(user), Host: strings.ReplaceAll(servers, " ", ""), Path: "/" + database}
	if authority != "" {
		u.RawQuery = url.Values{"sslrootcert": {authority}}.Encode()
	}
	return u.String()
}

// WithPassword returns an address with a password; an empty one changes
// nothing.
func WithPassword(address, password string) string {
	if password == "" {
		return address
	}
	mark := "?"
	if strings.Contains(address, "?") {
		mark = "&"
	}
	return address + mark + "password=" + url.QueryEscape(password)
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
