package book_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"filippo.io/age"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
)

var friday = time.Date(2030, time.March, 8, 7, 30, 0, 0, time.UTC)

func proven(context.Context, *book.Book) error { return nil }

func files(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestACopyADay(t *testing.T) {
	b, err := book.Open(ctx, aBook(t, withThings), withThings)
	require.NoError(t, err)
	defer b.Close()
	c := book.Copies{Dir: filepath.Join(t.TempDir(), "copies"), Prove: proven}
	file, err := c.Keep(ctx, b, friday)
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(c.Dir, "copy-2030-03-08.lungwort"), file)
	again, err := c.Keep(ctx, b, friday.Add(9*time.Hour))
	require.NoError(t, err)
	assert.Empty(t, again, "one a day")
	_, err = c.Keep(ctx, b, friday.AddDate(0, 0, 1))
	require.NoError(t, err)
	assert.Equal(t, []string{"copy-2030-03-08.lungwort", "copy-2030-03-09.lungwort"}, files(t, c.Dir))
	copied, err := book.OpenReadOnly(ctx, file, withThings)
	require.NoError(t, err)
	assert.NoError(t, copied.Close())
}

// What is not proven gets no name, and nothing is left of it; what a program
// left behind when it died is in nobody's way.
func TestWhatIsNotProvenIsNoCopy(t *testing.T) {
	b, err := book.Open(ctx, aBook(t, withThings), withThings)
	require.NoError(t, err)
	defer b.Close()
	wrong := errors.New("3 mismatches")
	c := book.Copies{Dir: t.TempDir(), Prove: func(context.Context, *book.Book) error { return wrong }}
	require.NoError(t, os.WriteFile(filepath.Join(c.Dir, "unfinished.lungwort"), []byte("half"), 0o600))
	_, err = c.Keep(ctx, b, friday)
	assert.ErrorIs(t, err, wrong)
	assert.Empty(t, files(t, c.Dir))
}

func TestASealedCopyOpensWithItsKeyAlone(t *testing.T) {
	key, err := age.GenerateX25519Identity()
	require.NoError(t, err)
	other, err := age.GenerateX25519Identity()
	require.NoError(t, err)
	dir := t.TempDir()
	keys, wrong := filepath.Join(dir, "key.txt"), filepath.Join(dir, "other.txt")
	require.NoError(t, os.WriteFile(keys, []byte("# made for a test\n"+key.String()+"\n"), 0o600))
	require.NoError(t, os.WriteFile(wrong, []byte(other.String()), 0o600))

	b, err := book.Open(ctx, aBook(t, withThings), withThings)
	require.NoError(t, err)
	defer b.Close()
	c := book.Copies{Dir: filepath.Join(dir, "copies"), Sealed: []string{key.Recipient().String()}, Prove: proven}
	file, err := c.Keep(ctx, b, friday)
	require.NoError(t, err)
	assert.Equal(t, []string{"copy-2030-03-08.lungwort.age"}, files(t, c.Dir), "nothing lies there in plain")
	_, err = book.OpenReadOnly(ctx, file, withThings)
	assert.Error(t, err)

	plain := filepath.Join(dir, "plain.lungwort")
	assert.Equal(t, refusal.Invalid, refusal.KindOf(book.Unseal(file, wrong, plain)))
	assert.Equal(t, refusal.Invalid, refusal.KindOf(book.Unseal(file, file, plain)), "no key file")
	require.NoError(t, book.Unseal(file, keys, plain))
	copied, err := book.OpenReadOnly(ctx, plain, withThings)
	require.NoError(t, err)
	assert.NoError(t, copied.Close())

	whole, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, whole[:len(whole)-100], 0o600))
	assert.Equal(t, refusal.Damaged, refusal.KindOf(book.Unseal(file, keys, plain)), "one that was cut short")
	_, err = book.Copies{Dir: dir, Sealed: []string{"age1nobody"}, Prove: proven}.Keep(ctx, b, friday)
	assert.ErrorContains(t, err, "age1nobody")
}

func TestTheRuleOfCopies(t *testing.T) {
	var days []string
	for n := range 500 {
		days = append(days, friday.AddDate(0, 0, -n).Format(time.DateOnly))
	}
	gone := book.Outlived(days, friday)
	kept := slices.DeleteFunc(slices.Clone(days), func(d string) bool { return slices.Contains(gone, d) })
	assert.Equal(t, days[:15], kept[:15], "two weeks of days")
	assert.Equal(t, []string{"2030-02-18", "2030-02-11", "2030-02-04", "2030-02-01"}, kept[15:19], "then Mondays, and first days of months")
	assert.Equal(t, "2029-04-01", kept[len(kept)-1], "a year of months")
}

// The newest copy is never removed, nor one of the last two weeks, and what
// was kept yesterday and outlives the rule today was old.
func TestTheRuleKeepsWhatIsNew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ages := rapid.SliceOfNDistinct(rapid.IntRange(0, 900), 1, 60, rapid.ID).Draw(t, "ages")
		var days []string
		for _, n := range ages {
			days = append(days, friday.AddDate(0, 0, -n).Format(time.DateOnly))
		}
		gone := book.Outlived(days, friday)
		newest := slices.Max(days)
		for _, day := range gone {
			at, err := time.Parse(time.DateOnly, day)
			if err != nil || day == newest || friday.Sub(at) < 14*24*time.Hour {
				t.Fatalf("%s is removed of %v", day, days)
			}
		}
	})
}
