package book_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
)

// TestCopyUntil: the copy ends at the instant, the book does not.
func TestCopyUntil(t *testing.T) {
	clock := booktest.NewClock()
	set := steps("notes", "001_note.sql", `CREATE TABLE note (id {{ID}}, at {{INT}} NOT NULL){{STRICT}};
{{APPEND_ONLY note}}`)
	b := booktest.NewAt(t, clock, set)
	note := func() {
		require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(`INSERT INTO note (at) VALUES ($1)`, book.Instant(tx.Now))
			return err
		}))
	}
	note()
	until := clock.Now()
	clock.Advance(time.Millisecond)
	note()

	path := filepath.Join(t.TempDir(), "past.lungwort")
	require.NoError(t, b.CopyUntil(ctx, path, "at", until, "note"))
	past, err := book.Open(ctx, path, book.Options{Sets: []book.Set{set}})
	require.NoError(t, err)
	defer past.Close()
	for want, of := range map[int]*book.Book{1: past, 2: b} {
		require.NoError(t, of.Read(ctx, func(tx *book.Tx) error {
			var n int
			err := tx.QueryRow(`SELECT count(*) FROM note`).Scan(&n)
			assert.Equal(t, want, n)
			return err
		}))
	}
	assert.Error(t, b.CopyUntil(ctx, path, "at", until, "note"), "nothing is written over")
	assert.Error(t, b.CopyUntil(ctx, filepath.Join(t.TempDir(), "x"), "at", until, "nothing"))
}
