//go:build linux && mounts

package book_test

import (
	"crypto/rand"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

// inItsOwnMounts says that this program may mount and unmount as it likes.
const inItsOwnMounts = "BOOK_TEST_MOUNTS"

// TestRealDisks keeps a book on a disk that becomes full, here or on a server, and
// on one that is mounted read-only. "make proof" runs it, for it needs the right to
// mount in a namespace of its own.
func TestRealDisks(t *testing.T) {
	if os.Getenv(inItsOwnMounts) == "" {
		again := exec.Command(os.Args[0], "-test.run=^TestRealDisks$", "-test.v")
		again.Env = append(os.Environ(), inItsOwnMounts+"=yes")
		again.SysProcAttr = &syscall.SysProcAttr{Unshareflags: syscall.CLONE_NEWNS}
		if os.Getuid() != 0 {
			again.SysProcAttr.Cloneflags = syscall.CLONE_NEWUSER
			again.SysProcAttr.UidMappings = []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}}
			again.SysProcAttr.GidMappings = []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}}
		}
		said, err := again.CombinedOutput()
		require.NoError(t, err, "%s", said)
		return
	}
	t.Run("full", onAFullDisk)
	t.Run("read-only", onADiskMountedReadOnly)
	if users, err := os.ReadFile("/proc/self/uid_map"); err == nil && strings.HasPrefix(strings.Join(strings.Fields(string(users)), " "), "0 0 ") {
		t.Run("full, of a server", onAServersFullDisk) // which runs for no administrator: there must be other users here
	}
}

// aDisk is a disk of a megabyte with a book on it.
func aDisk(t *testing.T) (dir string, b *book.Book) {
	t.Helper()
	dir = t.TempDir()
	require.NoError(t, syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=1m"))
	t.Cleanup(func() { assert.NoError(t, syscall.Unmount(dir, 0)) })
	b, err := book.Create(ctx, filepath.Join(dir, "book.lungwort"), withThings)
	require.NoError(t, err)
	writeThing(t, b, "first")
	return dir, b
}

// wantOnDisk closes the book, opens it anew and finds so many whole acts.
func wantOnDisk(t *testing.T, b *book.Book, acts int) {
	t.Helper()
	path := b.Path()
	require.NoError(t, b.Close())
	b, err := book.Open(ctx, path, withThings)
	require.NoError(t, err)
	defer b.Close()
	assert.Equal(t, acts, countThings(t, b))
	assert.NoError(t, b.Check(ctx))
}

func onAFullDisk(t *testing.T) {
	dir, b := aDisk(t)
	ballast := filepath.Join(dir, "ballast")
	require.NoError(t, os.WriteFile(ballast, make([]byte, 400_000), 0o600))
	acts, err := 1, error(nil)
	for err == nil {
		if err = b.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(`INSERT INTO thing (serial, photo) VALUES ($1, zeroblob(20000))`, fmt.Sprint("R-", acts))
			return err
		}); err == nil {
			acts++
		}
		require.Less(t, acts, 100, "the disk never fills")
	}
	assert.Equal(t, refusal.Unready, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, "is full. Free some room and try again; nothing was written.")
	assert.Equal(t, acts, countThings(t, b), "a full disk keeps nobody from reading")

	require.NoError(t, os.Remove(ballast))
	writeThing(t, b, "once there is room")
	wantOnDisk(t, b, acts+1)
}

// A system that finds an error on a disk mounts it read-only; while files are
// open to write only the system itself can do so, so the book is closed here.
func onADiskMountedReadOnly(t *testing.T) {
	dir, b := aDisk(t)
	path := b.Path()
	require.NoError(t, b.Close())
	require.NoError(t, syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, "size=1m"))
	_, err := book.Open(ctx, path, withThings)
	assert.Equal(t, refusal.ReadOnly, refusal.KindOf(err), "%v", err)
	looked, err := book.OpenReadOnly(ctx, path, withThings)
	require.NoError(t, err)
	assert.Equal(t, 1, countThings(t, looked))
	require.NoError(t, looked.Close())

	require.NoError(t, syscall.Mount("", dir, "", syscall.MS_REMOUNT, "size=1m"))
	b, err = book.Open(ctx, path, withThings)
	require.NoError(t, err)
	writeThing(t, b, "once it takes writing")
	wantOnDisk(t, b, 2)
}

// The server keeps the tables of the book on a disk of its own, which fills.
func onAServersFullDisk(t *testing.T) {
	server, err := booktest.NewServer()
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, server.Remove()) })
	tiny := filepath.Join(server.Dir(), "tiny")
	var owner syscall.Stat_t
	require.NoError(t, syscall.Stat(server.Dir(), &owner))
	require.NoError(t, os.Mkdir(tiny, 0o700))
	require.NoError(t, syscall.Mount("tmpfs", tiny, "tmpfs", 0, fmt.Sprintf("size=16m,mode=700,uid=%d,gid=%d", owner.Uid, owner.Gid)))
	t.Cleanup(func() { assert.NoError(t, syscall.Unmount(tiny, syscall.MNT_DETACH)) })
	server.Run(t, "postgres", "CREATE TABLESPACE tiny LOCATION '"+tiny+"'", "CREATE DATABASE tiny TEMPLATE template0 TABLESPACE tiny")
	b, err := book.Create(ctx, server.URL("tiny"), withThings)
	require.NoError(t, err)
	server.Run(t, "tiny", "CREATE TABLE ballast AS SELECT i FROM generate_series(1, 50000) i")

	acts := 0
	photo := make([]byte, 100_000)
	for err == nil {
		_, _ = rand.Read(photo) // never fails, and can't be packed
		if err = b.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(`INSERT INTO thing (serial, photo) VALUES ($1, $2)`, fmt.Sprint("R-", acts), photo)
			return err
		}); err == nil {
			acts++
		}
		require.Less(t, acts, 200, "the disk never fills")
	}
	assert.Equal(t, refusal.Unready, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, "The disk of the server that holds")
	assert.Equal(t, acts, countThings(t, b), "a full disk keeps nobody from reading")

	server.Run(t, "tiny", "DROP TABLE ballast")
	writeThing(t, b, "once there is room")
	assert.Equal(t, acts+1, countThings(t, b))
	assert.NoError(t, b.Check(ctx))
	require.NoError(t, b.Close())
}
