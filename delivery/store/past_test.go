package store_test

import (
	"context"
	"path/filepath"
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
)

// TestPast: what is recorded after an instant is not known at it, whenever it
// happened; a correction does not reach back either.
func TestPast(t *testing.T) {
	ctx, clock := context.Background(), booktest.NewClock()
	d := &desk{store.NewDesk(booktest.NewAt(t, clock, store.Migrations()...)), t, booktest.Start}
	p := delivery.NewProgramme()
	p.Depots = []delivery.Site{{Name: "harbour"}}
	d.do(delivery.Settings{Programme: p})
	who, item := d.register("Abara"), d.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-1"}, 2000)
	d.do(delivery.Order{Person: who, Rest: 2, Hours: 24})
	facts := d.do(delivery.Discharge{Person: who, HandOver: []delivery.Piece{{Item: item, Gauge: new(gas.PSI(2000))}}}).Facts
	before, err := d.Watch(ctx, d.now)
	require.NoError(t, err)
	known := clock.Now()

	clock.Advance(time.Second)
	d.do(delivery.Retract{Fact: facts[len(facts)-1].ID, Why: "another gauge"})
	d.do(delivery.StopOxygen{Person: who, Reason: "recovered", OrderedBy: "clinic"})
	after, err := d.Watch(ctx, d.now)
	require.NoError(t, err)
	require.Empty(t, after)

	open := func(at time.Time) *store.Desk {
		b, err := d.Past(ctx, filepath.Join(t.TempDir(), "past.lungwort"), at, book.Options{Sets: store.Migrations()})
		require.NoError(t, err)
		t.Cleanup(func() { assert.NoError(t, b.Close()) })
		return store.NewDesk(b)
	}
	past := open(known)
	was, err := past.Watch(ctx, d.now)
	require.NoError(t, err)
	assert.Equal(t, before, was)
	a, err := past.Audit(ctx)
	require.NoError(t, err)
	assert.Empty(t, a.Mismatches)

	nobody, err := open(known.Add(-time.Hour)).Watch(ctx, d.now)
	require.NoError(t, err)
	assert.Empty(t, nobody)
	d.clean()
}
