package book_test

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

func TestABackupIsABookOfItsOwn(t *testing.T) {
	b := booktest.New(t, things)
	add := func(serial string) {
		require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
			_, err := addThing(tx, serial)
			return err
		}))
	}
	add("before")
	copied := filepath.Join(t.TempDir(), "copy.lungwort")
	require.NoError(t, b.Backup(ctx, copied))
	add("after")
	info, err := os.Stat(copied)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm())
	assert.Len(t, sums(t, filepath.Dir(copied)), 1, "nothing beside the copy")

	restored := filepath.Join(t.TempDir(), "book.lungwort")
	require.NoError(t, book.Restore(ctx, copied, restored))
	for _, path := range []string{copied, restored} {
		c, err := book.Open(ctx, path, withThings)
		require.NoError(t, err)
		assert.Equal(t, 1, countThings(t, c))
		assert.NoError(t, c.Check(ctx))
		require.NoError(t, c.Close())
	}
	assert.Equal(t, 2, countThings(t, b))
}

func TestABookOpenToLookCanBeBackedUp(t *testing.T) {
	path := aBook(t, withThings)
	b, err := book.OpenReadOnly(ctx, path, withThings)
	require.NoError(t, err)
	require.NoError(t, b.Backup(ctx, path+".copy"))
	require.NoError(t, b.Close())
	assert.Len(t, sums(t, filepath.Dir(path)), 2)
}

func TestABackupOverwritesNothing(t *testing.T) {
	b := booktest.New(t, things)
	dir := t.TempDir()
	file := filepath.Join(dir, "precious")
	require.NoError(t, os.WriteFile(file, []byte("x"), 0o600))
	before := sums(t, dir)
	for path, kind := range map[string]refusal.Kind{
		file: refusal.Conflict, b.Path(): refusal.Conflict, dir: refusal.Conflict,
		filepath.Join(dir, "none", "copy"): refusal.NotFound,
	} {
		err := b.Backup(ctx, path)
		assert.Equal(t, kind, refusal.KindOf(err), "%s: %v", path, err)
		err = book.Restore(ctx, aBook(t, withThings), path)
		assert.Equal(t, kind, refusal.KindOf(err), "%s: %v", path, err)
	}
	assert.Equal(t, before, sums(t, dir))
}

func TestABackupThatWasStoppedLeavesNothing(t *testing.T) {
	b := booktest.New(t, things)
	stopped, stop := context.WithCancel(ctx)
	stop()
	dir := t.TempDir()
	assert.ErrorIs(t, b.Backup(stopped, filepath.Join(dir, "copy")), context.Canceled)
	assert.Empty(t, sums(t, dir))
}

func TestCheckFindsWhatIsBroken(t *testing.T) {
	lost := aBook(t, withThings)
	db := foreignConnection(t, lost)
	_, err := db.Exec(`INSERT INTO fact (thing_id, at_ms, at_off) VALUES (77, 0, 0)`)
	require.NoError(t, err)
	require.NoError(t, db.Close())
	page := aBook(t, withThings)
	content, err := os.ReadFile(page)
	require.NoError(t, err)
	// The last page is a leaf no opening reads: the root of an empty table.
	require.NoError(t, os.WriteFile(page, overwritten(content, len(content)-4096, len(content)), 0o600))
	for name, path := range map[string]string{"row without parent": lost, "page overwritten": page} {
		b, err := book.Open(ctx, path, withThings)
		require.NoError(t, err, name)
		err = b.Check(ctx)
		assert.Equal(t, refusal.Damaged, refusal.KindOf(err), "%s: %v", name, err)
		assert.ErrorContains(t, err, path)
		dir := t.TempDir()
		err = b.Backup(ctx, filepath.Join(dir, "copy"))
		assert.Equal(t, refusal.Damaged, refusal.KindOf(err), "%s: %v", name, err)
		assert.Empty(t, sums(t, dir), "a copy of a damaged book is no backup")
		require.NoError(t, b.Close())
	}
}

func TestRestoreRefusesWhatIsNoWholeBook(t *testing.T) {
	whole := bytesOfABook(t)
	dir := t.TempDir()
	for name, content := range map[string][]byte{
		"cut": whole[:len(whole)/2], "text": []byte("x"), "empty": nil,
		"overwritten": overwritten(whole, 4096, len(whole)),
	} {
		backup := filepath.Join(t.TempDir(), "backup")
		require.NoError(t, os.WriteFile(backup, content, 0o600))
		err := book.Restore(ctx, backup, filepath.Join(dir, "book"))
		assert.NotEqual(t, refusal.Internal, refusal.KindOf(err), "%s: %v", name, err)
		assert.ErrorContains(t, err, backup, name)
		assert.Empty(t, sums(t, dir), name)
		left, err := os.ReadFile(backup)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(content, left), name)
	}
	assert.Equal(t, refusal.NotFound, refusal.KindOf(book.Restore(ctx, filepath.Join(dir, "none"), filepath.Join(dir, "book"))))
}

func TestAFullDiskRefusesTheActAndNothingElse(t *testing.T) {
	b := booktest.New(t, things)
	err := b.Write(ctx, func(tx *book.Tx) error {
		_, err := tx.Exec(`PRAGMA max_page_count = 1`) // as a disk that can't take another page
		require.NoError(t, err)
		_, err = tx.Exec(`INSERT INTO thing (serial, photo) VALUES ('R-1', zeroblob(1000000))`)
		return err
	})
	assert.Equal(t, refusal.Unready, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, "full")
	assert.Equal(t, 0, countThings(t, b))
}

// A disk that takes no more writing under the open book, as after a remount:
// the act is refused, and once the disk is well the book is whole.
func TestADiskThatBecomesReadOnlyRefusesTheActAndNothingElse(t *testing.T) {
	path := aBook(t, withThings)
	b, err := book.Open(ctx, path, withThings)
	require.NoError(t, err)
	writeThing(t, b, "before")
	err = b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "half an act")
		require.NoError(t, err)
		_, err = tx.Exec(`PRAGMA query_only = 1`) // answers with the database's own "read-only"
		require.NoError(t, err)
		_, err = addThing(tx, "the other half")
		return err
	})
	assert.Equal(t, refusal.ReadOnly, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, "can be read but not written")
	assert.Equal(t, 1, countThings(t, b))
	require.NoError(t, b.Close())

	b, err = book.Open(ctx, path, withThings)
	require.NoError(t, err)
	defer b.Close()
	writeThing(t, b, "after")
	assert.Equal(t, 2, countThings(t, b))
	assert.NoError(t, b.Check(ctx))
}

// A copy of which a row did not arrive as it was is not kept.
func TestACopyIsHeldAgainstTheOriginal(t *testing.T) {
	spoils := steps("spoils", "001_spoil.sql", `
		CREATE TRIGGER spoil AFTER INSERT ON thing BEGIN UPDATE thing SET pieces = pieces + 1 WHERE id = NEW.id; END;`)
	b := booktest.New(t, things, spoils)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := tx.Exec(`INSERT INTO thing (serial, pieces) VALUES ('R-1', 1)`)
		return err
	}))
	dir := t.TempDir()
	_, err := b.CopyTo(ctx, filepath.Join(dir, "copy"), nil)
	assert.ErrorContains(t, err, "thing")
	assert.ErrorContains(t, err, "did not arrive as it was")
	assert.Empty(t, sums(t, dir))
}
