package takein

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Match is one file or folder that a path being typed may mean.
type Match struct {
	Path   string
	Name   string
	Folder bool
}

// endings are those of files that may hold a list. Their content decides, so
// that any other file can still be named in full.
var endings = []string{".xlsx", ".xlsm", ".csv", ".tsv", ".txt", ".xls", ".ods", ".html"}

// mostMatches is how many are offered; one more letter finds the others.
const mostMatches = 100

// complete returns what a path being typed may mean: lists first, then
// folders.
func complete(typed string) []Match {
	typed = expand(typed)
	if typed == "" {
		return nil
	}
	dir, begin := filepath.Split(typed)
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil // no such folder yet: the person is still typing
	}
	var lists, folders []Match
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") && begin == "" || !strings.HasPrefix(strings.ToLower(name), strings.ToLower(begin)) {
			continue
		}
		m := Match{Path: filepath.Join(dir, name), Name: name, Folder: isFolder(dir, e)}
		switch {
		case m.Folder:
			m.Path += string(filepath.Separator)
			folders = append(folders, m)
		case slices.Contains(endings, strings.ToLower(filepath.Ext(name))):
			lists = append(lists, m)
		}
	}
	all := append(lists, folders...)
	return all[:min(len(all), mostMatches)]
}

func isFolder(dir string, e os.DirEntry) bool {
	if e.Type()&os.ModeSymlink == 0 {
		return e.IsDir()
	}
	info, err := os.Stat(filepath.Join(dir, e.Name()))
	return err == nil && info.IsDir()
}

// expand takes the quotes off a pasted path and puts the home folder in the
// place of a tilde.
func expand(typed string) string {
	typed = strings.Trim(strings.TrimSpace(typed), `"'`)
	rest, ok := strings.CutPrefix(typed, "~")
	if !ok {
		return typed
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return typed
	}
	return home + rest
}
