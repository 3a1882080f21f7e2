package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

// A machine's clock is set back by years between two acts: both are kept, in
// the order they were recorded, what was known before is still told, and
// whoever sits there is warned.
func TestAClockSetBackLosesNothing(t *testing.T) {
	for name, fresh := range map[string]func(testing.TB, *booktest.Clock, ...book.Set) *book.Book{
		"in a file": booktest.NewAt, "on a server": booktest.OnServerAt,
	} {
		t.Run(name, func(t *testing.T) {
			ctx, clock := context.Background(), booktest.NewClock()
			d := &desk{store.NewDesk(fresh(t, clock, store.Migrations()...)), t, booktest.Start}
			d.do(delivery.Settings{Programme: oneDepot()})
			item := d.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-1"}, 2000)
			before := clock.Now()
			says, err := d.Cautions(ctx, clock.Now())
			require.NoError(t, err)
			assert.Empty(t, says)

			clock.Set(time.Date(2019, time.January, 1, 0, 3, 0, 0, time.UTC))
			says, err = d.Cautions(ctx, clock.Now())
			require.NoError(t, err)
			require.Len(t, says, 1)
			assert.Contains(t, says[0], "clock says Tuesday 1 January 2019 00:03, but the book was last written Monday 4 March 2030 14:00")
			d.do(delivery.Read{Item: item, Gauge: new(gas.PSI(1500))})
			clock.Set(before.Add(time.Hour))
			d.do(delivery.Read{Item: item, Gauge: new(gas.PSI(1400))})

			facts, err := d.Facts(ctx, items.About{Item: item})
			require.NoError(t, err)
			recorded := facts[0].Recorded
			for _, f := range facts {
				assert.False(t, f.Recorded.Before(recorded), "the book's own order goes back at fact %d", f.ID)
				recorded = f.Recorded
			}
			assert.Equal(t, before.Add(time.Hour), recorded)
			audit, err := d.Audit(ctx)
			require.NoError(t, err)
			assert.Empty(t, audit.Mismatches)
		})
	}
}
