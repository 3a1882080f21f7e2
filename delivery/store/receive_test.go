package store_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// still is a product as its maker's code names it (GTIN of GS1's own samples).
var still = inventory.Spec{
	Kind: inventory.Concentrator, Model: "Still 5", Rated: 5, Serial: "CN-9001",
	GTIN: "09521234543213", Lot: "B7", Made: "2030-01-15",
}

func TestReceivingRemembersTheProduct(t *testing.T) {
	s := newScene(t)
	s.do(delivery.Receive{Spec: still, Depot: "harbour"})
	item, err := s.Desk.Item(context.Background(), "CN-9001", 0)
	require.NoError(t, err)
	assert.Equal(t, still, item.Spec)
	assert.Equal(t, inventory.InQuarantine, item.State, "nothing new is lent before somebody cleared it")
	known, err := s.Desk.Catalogue(context.Background())
	require.NoError(t, err)
	assert.Equal(t, map[string]inventory.Spec{still.GTIN: still.Product()}, known)

	second := still
	second.Serial = "CN-9002"
	assert.Len(t, s.do(delivery.Receive{Spec: second, Depot: "harbour"}).Facts, 2, "what is known is not said again")
	other := still
	other.Serial, other.Model = "CN-9003", "Still 5 b"
	s.do(delivery.Receive{Spec: other, Depot: "harbour"})
	known, err = s.Desk.Catalogue(context.Background())
	require.NoError(t, err)
	assert.Equal(t, "Still 5 b", known[still.GTIN].Model, "the last word counts")
}

// A slip of the scanner leaves nothing behind but its facts; what has a story
// stays.
func TestASlipIsTakenOutOfTheBook(t *testing.T) {
	s := newScene(t)
	id := s.do(delivery.Receive{Spec: still, Depot: "harbour"}).Facts[0].Item
	out := s.do(delivery.Unreceive{Item: id})
	_, err := s.Desk.Item(context.Background(), "CN-9001", 0)
	assert.Equal(t, refusal.NotFound, refusal.KindOf(err))
	audit, err := s.Desk.Audit(context.Background())
	require.NoError(t, err)
	assert.Empty(t, audit.Mismatches)

	again := s.do(delivery.Receive{Spec: still, Depot: "harbour"}).Facts[0].Item
	assert.NotEqual(t, id, again, "a number is never given twice")
	s.do(delivery.Label{Items: []inventory.ItemID{again}})
	s.refuses(map[string]no{
		"label printed": {delivery.Unreceive{Item: again}, refusal.Conflict, "more than a slip: it was labelled"},
		"half of it":    {delivery.Retract{Fact: out.Facts[0].ID, Why: "it is there"}, refusal.Conflict, "received by a slip"},
		"out already":   {delivery.Unreceive{Item: id}, refusal.NotFound, "No item"},
		"no serial":     {delivery.Receive{Spec: inventory.Spec{Kind: inventory.Oximeter, Serial: "--"}, Depot: "harbour"}, refusal.Invalid, "by its serial"},
		"twin":          {delivery.Receive{Spec: still, Depot: "harbour"}, refusal.Conflict, "is in the book already"},
	})
}
