package store_test

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
)

// moment is what a book said at one instant of recording: every item and the
// state of every person.
type moment struct {
	at    time.Time
	items []inventory.Item
	care  map[inventory.PersonID]delivery.Care
}

// known reads everything a desk says.
func (c *custody) known(t require.TestingT, desk *store.Desk, at time.Time) *moment {
	ctx := context.Background()
	m := &moment{at: at, care: make(map[inventory.PersonID]delivery.Care)}
	var err error
	m.items, _, err = desk.Items(ctx, items.Filter{})
	require.NoError(t, err)
	for _, who := range c.persons {
		page, err := desk.Page(ctx, who, c.now)
		require.NoError(t, err)
		m.care[who] = page.Care
	}
	return m
}

// asOf opens the book as it was known at the marked act and holds it against
// what it said then, whatever was keyed late, corrected or taken back since.
func (c *custody) asOf(rt *rapid.T, t *testing.T) {
	if c.mark == nil {
		return
	}
	ctx := context.Background()
	b, err := c.desk.Past(ctx, filepath.Join(t.TempDir(), "past.lungwort"), c.mark.at, book.Options{Sets: store.Migrations()})
	require.NoError(rt, err)
	defer func() { require.NoError(rt, b.Close()) }()
	past := store.NewDesk(b)
	found, _, err := past.Items(ctx, items.Filter{})
	require.NoError(rt, err)
	require.Equal(rt, c.mark.items, found)
	for who, then := range c.mark.care {
		page, err := past.Page(ctx, who, c.now)
		require.NoError(rt, err)
		require.Equal(rt, then, page.Care)
	}
	if c.erased { // the past knows nothing of the erasure that took the salt away
		return
	}
	a, err := past.Audit(ctx)
	require.NoError(rt, err)
	require.Empty(rt, a.Mismatches)
}
