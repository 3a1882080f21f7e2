//go:build unix

package book_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// nobody is the user id that owns no files.
const nobody = 65534

// TestRightsAreMissed plays a user who lacks some right. The system lets its
// administrator do anything, so a test run as administrator plays another.
func TestRightsAreMissed(t *testing.T) {
	lower := withoutRights(t)
	for name, c := range map[string]struct {
		role         string
		file, folder os.FileMode
		want         string
	}{
		"open, file unreadable":        {"open", 0o000, 0o777, "unready: The file ${PATH} can't be read by this user. Ask"},
		"look, file unreadable":        {"look", 0o000, 0o777, "unready: The file ${PATH} can't be read by this user. Ask"},
		"open, folder closed":          {"open", 0o644, 0o000, "unready: The file ${PATH} can't be read by this user. Ask"},
		"open, file read-only":         {"open", 0o444, 0o777, "read-only: The book ${PATH} can be read but not written. Give"},
		"open, folder read-only":       {"open", 0o666, 0o555, "read-only: Nothing can be written in the folder ${FOLDER}, and"},
		"create, folder read-only":     {"create", 0o666, 0o555, "read-only: Nothing can be written in the folder ${FOLDER}, and"},
		"look, file read-only":         {"look", 0o444, 0o777, "fine <nil>"},
		"look, folder read-only":       {"look", 0o666, 0o555, "fine <nil>"},
		"look, both read-only":         {"look", 0o444, 0o555, "fine <nil>"},
		"open, with every right":       {"open", 0o666, 0o777, "fine <nil>"},
		"create, beside another's one": {"create", 0o000, 0o777, "fine <nil>"},
	} {
		t.Run(name, func(t *testing.T) {
			path := aBook(t, withThings)
			before := sums(t, filepath.Dir(path))
			require.NoError(t, os.Chmod(path, c.file))
			folder := filepath.Dir(path)
			target := path
			if c.role == "create" {
				target = path + ".new"
			}
			require.NoError(t, os.Chmod(filepath.Dir(folder), 0o755))
			cmd := other(t, c.role, target)
			lower(cmd)
			require.NoError(t, os.Chmod(folder, c.folder))
			said, err := cmd.Output()
			require.NoError(t, os.Chmod(folder, 0o755))
			require.NoError(t, os.Chmod(path, 0o600))
			require.NoError(t, err)
			want := expand(c.want, map[string]string{"PATH": target, "FOLDER": folder})
			assert.Contains(t, string(said), want)
			after := sums(t, folder)
			assert.Equal(t, before[filepath.Base(path)], after[filepath.Base(path)])
			if c.want != "fine <nil>" {
				assert.Equal(t, before, after)
			}
		})
	}
}

// withoutRights returns how to start the test program without an
// administrator's rights, from a copy that anybody may run.
func withoutRights(t *testing.T) func(*exec.Cmd) {
	t.Helper()
	if os.Getuid() != 0 {
		return func(*exec.Cmd) {}
	}
	self, err := os.Executable()
	require.NoError(t, err)
	content, err := os.ReadFile(self)
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, os.Chmod(filepath.Dir(dir), 0o755))
	program := filepath.Join(dir, "program")
	require.NoError(t, os.WriteFile(program, content, 0o755))
	return func(cmd *exec.Cmd) {
		cmd.Path, cmd.Dir = program, "/"
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
}

func expand(text string, words map[string]string) string {
	return os.Expand(text, func(s string) string { return words[s] })
}
