package book_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

// The server dies and its stand-by, at another address, takes over: while only
// the stand-by answers nothing is written and that is told; once it is promoted
// every acknowledged act is there and work goes on by itself.
func TestAStandByTakesOver(t *testing.T) {
	first, err := booktest.NewServer()
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, first.Remove()) })
	name := first.Empty(t)
	second, err := first.StandBy(t)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, second.Remove()) })
	address := fmt.Sprintf("postgres://keeper@127.0.0.1:%d,127.0.0.1:%d/%s?sslmode=disable", first.Port(), second.Port(), name)
	b, err := book.Create(ctx, address, withThings)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, b.Close()) })
	writeThing(t, b, "acknowledged")
	told := listen(t, b)

	require.NoError(t, first.Stop())
	assert.Equal(t, book.Lost, next(t, told).news)
	err = b.Write(ctx, func(tx *book.Tx) error { _, err := addThing(tx, "meanwhile"); return err })
	assert.Contains(t, []refusal.Kind{refusal.ReadOnly, refusal.Unreachable}, refusal.KindOf(err), "%v", err)

	second.Promote(t)
	assert.Equal(t, heard{news: book.Back}, next(t, told))
	writeThing(t, b, "after")
	assert.Equal(t, 2, countThings(t, b))
	assert.NoError(t, b.Check(ctx))
}
