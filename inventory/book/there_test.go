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

// A program that keeps folders alike, or a hand, puts another file in the
// place of the open book. What is written then would be found by nobody.
func TestABookWhoseFileWasReplacedIsUsedNoMore(t *testing.T) {
	for name, replace := range map[string]func(t *testing.T, path string){
		"moved away": func(t *testing.T, path string) {
			require.NoError(t, os.Rename(path, path+".old"))
		},
		"replaced by an older one": func(t *testing.T, path string) {
			old, err := os.ReadFile(path)
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(path+".new", old, 0o600))
			require.NoError(t, os.Rename(path+".new", path))
		},
		"removed": func(t *testing.T, path string) {
			require.NoError(t, os.Remove(path))
		},
	} {
		t.Run(name, func(t *testing.T) {
			path := aBook(t, withThings)
			b, err := book.Open(ctx, path, withThings)
			require.NoError(t, err)
			defer b.Close()
			require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
				_, err := addThing(tx, "kept")
				return err
			}))
			replace(t, path)

			err = b.Write(ctx, func(tx *book.Tx) error {
				t.Error("an act was begun on a file that is gone")
				return nil
			})
			assert.Equal(t, refusal.Damaged, refusal.KindOf(err), "%v", err)
			assert.ErrorContains(t, err, path+" was moved or replaced while it was open")
			err = b.Read(ctx, func(tx *book.Tx) error { return nil })
			assert.Equal(t, refusal.Damaged, refusal.KindOf(err), "what is shown is never of two files: %v", err)
		})
	}
}

// An act that was under way when the file went is not acknowledged.
func TestAnActInAFileThatGoesIsNotAcknowledged(t *testing.T) {
	path := aBook(t, withThings)
	b, err := book.Open(ctx, path, withThings)
	require.NoError(t, err)
	defer b.Close()
	err = b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "lost")
		require.NoError(t, os.Rename(path, filepath.Join(filepath.Dir(path), "away")))
		return err
	})
	assert.Equal(t, refusal.Damaged, refusal.KindOf(err), "%v", err)
}
