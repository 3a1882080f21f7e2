package book_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
)

// aBook makes a book, closes it and returns its path.
func aBook(t testing.TB, o book.Options) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.lungwort")
	b, err := book.Create(ctx, path, o)
	require.NoError(t, err)
	require.NoError(t, b.Close())
	return path
}

func TestASecondProgramIsToldWhoHasTheBookAndMayLook(t *testing.T) {
	path := aBook(t, withThings)
	startHolding(t, path)
	_, err := book.Open(ctx, path, withThings)
	assert.Equal(t, refusal.Busy, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, path+" is in use by ")
	assert.Regexp(t, `process \d+, since \w+day \d+ \w+ \d{4} \d\d:\d\d`, err.Error())

	b, err := book.OpenReadOnly(ctx, path, withThings)
	require.NoError(t, err)
	defer b.Close()
	assert.True(t, b.ReadOnly())
	assert.Equal(t, 1, countThings(t, b), "what was committed is seen, what was not isn't")
	err = b.Write(ctx, func(*book.Tx) error { return nil })
	assert.Equal(t, refusal.ReadOnly, refusal.KindOf(err), "%v", err)
}

func TestABookIsSoundAfterItsProgramWasKilledInAnAct(t *testing.T) {
	path := aBook(t, withThings)
	kill := startHolding(t, path)
	kill()
	b, err := book.Open(ctx, path, withThings)
	require.NoError(t, err)
	defer b.Close()
	assert.Equal(t, 1, countThings(t, b), "what was committed stays, what was not is gone")
	assert.NoError(t, b.Check(ctx))
}

func TestOneProgramOpensABookToWriteOnce(t *testing.T) {
	path := aBook(t, withThings)
	link := filepath.Join(t.TempDir(), "link")
	require.NoError(t, os.Symlink(path, link))
	b, err := book.Open(ctx, link, withThings)
	require.NoError(t, err)
	defer b.Close()
	assert.Equal(t, path, b.Path())
	for _, name := range []string{path, link} {
		_, err := book.Open(ctx, name, withThings)
		assert.Equal(t, refusal.Busy, refusal.KindOf(err), "%s: %v", name, err)
	}
	assert.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "still ours")
		return err
	}))
}

func TestLooksDoNotHinderTheWriterNorSeeHalfAnAct(t *testing.T) {
	path := aBook(t, withThings)
	b, err := book.Open(ctx, path, withThings)
	require.NoError(t, err)
	defer b.Close()
	looker, err := book.OpenReadOnly(ctx, path, withThings)
	require.NoError(t, err)
	defer looker.Close()
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1")
		assert.Equal(t, 0, countThings(t, looker))
		assert.Equal(t, 0, countThings(t, b))
		return err
	}))
	assert.Equal(t, 1, countThings(t, looker))
	assert.Equal(t, 1, countThings(t, b))
}

func TestABookLockedByAForeignProgramIsBusy(t *testing.T) {
	path := aBook(t, withThings)
	db := foreignConnection(t, path)
	for _, q := range []string{`PRAGMA locking_mode = EXCLUSIVE`, `BEGIN EXCLUSIVE`, `CREATE TABLE x (y)`, `COMMIT`} {
		_, err := db.Exec(q)
		require.NoError(t, err, q)
	}
	assertRefused(t, path, withThings, refusal.Busy, "in use by another program")
}

func TestAnActThatMeetsAForeignWriterIsRefusedAsBusy(t *testing.T) {
	path := aBook(t, withThings)
	b, err := book.Open(ctx, path, withThings)
	require.NoError(t, err)
	defer b.Close()
	db := foreignConnection(t, path)
	_, err = db.Exec(`BEGIN IMMEDIATE`)
	require.NoError(t, err)
	add := func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1")
		return err
	}
	err = b.Write(ctx, add)
	assert.Equal(t, refusal.Busy, refusal.KindOf(err), "%v", err)
	_, err = db.Exec(`ROLLBACK`)
	require.NoError(t, err)
	assert.NoError(t, b.Write(ctx, add))
}
