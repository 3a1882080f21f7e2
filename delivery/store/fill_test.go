package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// TestThePersonsAFillServed: the same cylinder served two persons with two fills;
// the recall of a lot names those whom that fill served, and no others.
func TestThePersonsAFillServed(t *testing.T) {
	s := newScene(t)
	one := s.thing["E-ready"]
	next := func(act delivery.Act) {
		s.now = s.now.Add(time.Hour)
		s.do(act)
	}
	next(delivery.Quarantine{Item: one, Why: "valve stiff"})
	for _, turn := range []struct{ lot, who string }{{"G771", "Running"}, {"G772", "Bridge"}} {
		next(delivery.Refill{Item: one, Lot: turn.lot, Full: gas.PSI(2000), Depot: "harbour"})
		next(delivery.Release{Item: one, Depot: "harbour"})
		next(delivery.Visit{Person: s.who[turn.who], Left: []delivery.Piece{{Item: one, Gauge: new(gas.PSI(2000))}}})
		next(delivery.Return{Item: one, Depot: "harbour", Gauge: new(gas.PSI(300))})
		next(delivery.Bench{Item: one})
	}
	for lot, who := range map[string]string{"g-771": "Running", "G772": "Bridge"} {
		found, err := s.FindRecalled(context.Background(), delivery.RecallNotice{Lot: lot})
		require.NoError(t, err)
		require.Len(t, found.Places, 1, lot)
		assert.Equal(t, []inventory.PersonID{s.who[who]}, found.Places[0].Persons, lot)
	}
	found, err := s.FindRecalled(context.Background(), delivery.RecallNotice{Serials: []string{"E-ready"}})
	require.NoError(t, err)
	assert.Len(t, found.Places[0].Persons, 2, "by its serial everybody counts")
}
