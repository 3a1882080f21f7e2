package store_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
	"lungwort/inventory"
)

// lives registers somebody in a home without a place.
func lives(d *desk, home delivery.Address) inventory.PersonID {
	return d.do(delivery.Register{Person: delivery.Person{Family: "Lund", Given: home.Street}, Address: home}).Facts[0].Person
}

// TestHomesAreFoundByName: one place of the name is taken, only about right;
// two are asked about; none stays unknown until somebody says.
func TestHomesAreFoundByName(t *testing.T) {
	d := newDesk(t)
	one := lives(d, delivery.Address{Street: "Kelp Street 22", Town: "Ness"})
	two := lives(d, delivery.Address{Street: "Gull Row 3"})
	none := lives(d, delivery.Address{Street: "Nowhere 1", Town: "Elsewhere"})
	us := lives(d, delivery.Address{Street: "1 Elm St", Town: "Beverly Hills", Postcode: "90210"})
	assert.True(t, d.watchPage(us).Address.Rough, "a US postcode is looked up when the home is entered")
	assert.InDelta(t, 34.1, d.watchPage(us).Address.Point.Lat, 0.05)
	assert.False(t, d.watchPage(one).Address.Point.Known())

	out := d.do(delivery.TakePlaces{File: "places.csv", Places: []gazetteer.Place{
		{Name: "Kelp Street", Town: "Ness", Area: "Little", Lat: 36.6, Lon: -40.3},
		{Name: "Gull Row", Town: "Ness", Lat: 36.61, Lon: -40.31},
		{Name: "Gull Row", Town: "Harbour", Lat: 36.51, Lon: -40.52},
	}})
	assert.Equal(t, "3 places of places.csv are kept. 1 home found, only about right until confirmed: 1 in the place file, 0 by postcode. "+
		"To be asked: Gull Row 3: 2 places may be meant. Not found: 1 home.", out.Says)
	home := d.watchPage(one).Address
	assert.Equal(t, delivery.Point{Lat: 36.6, Lon: -40.3, Area: "Little"}, home.Point)
	assert.True(t, home.Rough)
	assert.Equal(t, "place on the map taken from the place file, only about right", delivery.Sentence(d.watchPage(one).Facts[0]))
	assert.False(t, d.watchPage(two).Address.Point.Known(), "nobody guesses")
	assert.False(t, d.watchPage(none).Address.Point.Known())

	choice, err := d.PlacesFor(t.Context(), two)
	require.NoError(t, err)
	assert.Equal(t, "It may be 1: Gull Row, Ness (36.6100, -40.3100); 2: Gull Row, Harbour (36.5100, -40.5200).", choice.Listed())
	_, err = choice.Choose(3)
	assert.ErrorContains(t, err, "There is no place 3")
	act, err := choice.Choose(2)
	require.NoError(t, err)
	d.do(act)
	assert.Equal(t, -40.52, d.watchPage(two).Address.Point.Lon)

	confirmed := d.watchPage(one).Address
	d.do(delivery.Place{Person: one, Address: confirmed.ID, At: confirmed.Point, By: delivery.ByTyping})
	assert.False(t, d.watchPage(one).Address.Rough)
	assert.Contains(t, d.do(delivery.FindPlaces{}).Says, "Not found: 1 home.")
	next := lives(d, delivery.Address{Street: "Kelp Street 40", Town: "Ness"})
	assert.True(t, d.watchPage(next).Address.Rough, "whoever comes later is looked up too")
}

// TestPlanNamesPlacesAboutRight: a plan, a day planned anew and a slot say that
// they rest on a place nobody confirmed.
func TestPlanNamesPlacesAboutRight(t *testing.T) {
	d := newDesk(t)
	who := promisedAt(d, d.now.Add(2*time.Hour))
	page := d.watchPage(who)
	d.do(delivery.Place{Person: who, Address: page.Address.ID, At: page.Address.Point, By: delivery.ByTyping, Rough: true})
	plan := proposed(t, d)
	require.Len(t, plan.Notes, 1)
	assert.Contains(t, plan.Notes[0], "is only about right")
	board, err := d.Board(t.Context(), d.now)
	require.NoError(t, err)
	anew, err := board.Replan(t.Context(), 100)
	require.NoError(t, err)
	assert.Equal(t, plan.Notes, anew.Notes)
	stop, waits := board.StopOf(who)
	require.True(t, waits)
	assert.Contains(t, board.SlotAnswer(stop).Assumed, plan.Notes[0])
}
