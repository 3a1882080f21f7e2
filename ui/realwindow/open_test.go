//go:build realwindow

package realwindow

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/stretchr/testify/require"
)

// tellsNobody holds what the program left in the open against the people of the
// book: what it said, its windows' titles, the names of its files and what stands
// in those that only its user may read otherwise.
func (s *screen) tellsNobody() {
	s.t.Helper()
	var told []string
	for _, p := range s.rows("people") {
		for _, text := range append(strings.Split(p["Phone"], ", "), p["Family name"], p["Record number"]) {
			if len(text) > 3 {
				told = append(told, regexp.QuoteMeta(text))
			}
		}
	}
	require.Greater(s.t, len(told), 300, "the people have names, numbers and phones")
	anybody := regexp.MustCompile(`\b(` + strings.Join(told, "|") + `)\b`)

	for _, window := range strings.Fields(s.xdotool("search", "--name", "")) {
		require.NotRegexp(s.t, anybody, s.xdotool("getwindowname", window), "the title of a window")
	}
	all := filepath.Dir(filepath.Dir(s.book)) // the folders of this test
	require.NoError(s.t, filepath.WalkDir(all, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		require.NotRegexp(s.t, anybody, e.Name(), "the name of a file")
		info, err := e.Info()
		if strings.HasSuffix(path, ".csv") || info != nil && info.Mode().Perm()&0o077 == 0 {
			return err // asked for by this test, or private
		}
		text, err := os.ReadFile(path)
		require.NotRegexp(s.t, anybody, string(text), path)
		return err
	}))
	require.FileExists(s.t, s.said)
}
