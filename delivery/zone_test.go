package delivery_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
)

func TestZoneHolds(t *testing.T) {
	home := delivery.Address{Street: "Kelp Street 22b", Town: "Ness", Line: "Mill line", Point: point(36.5, "West")}
	for zone, want := range map[delivery.Zone]bool{
		{By: delivery.Everywhere}:                            true,
		{By: delivery.ByArea, Name: "west"}:                  true,
		{By: delivery.ByArea, Name: "Ness"}:                  false,
		{By: delivery.ByTown, Name: "Ness"}:                  true,
		{By: delivery.ByLine, Name: "Mill line"}:             true,
		{By: delivery.ByStreet, Name: "Kelp Street"}:         true,
		{By: delivery.ByStreet, Name: "Kelp Street, Ness"}:   true,
		{By: delivery.ByStreet, Name: "Kelp Street, Sallow"}: false,
		{Name: "kelp street"}:                                true,
		{Name: "Kelp"}:                                       false,
		{}:                                                   false,
	} {
		assert.Equal(t, want, zone.Holds(home), "%+v", zone)
	}
	assert.False(t, delivery.Zone{By: delivery.ByLine}.Holds(delivery.Address{}), "no name is no zone")
}

func TestZonesCountHomes(t *testing.T) {
	homes := []delivery.Address{
		{Street: "Kelp Street 22", Town: "Ness", Line: "Mill line"},
		{Street: "Kelp Street 9", Town: "Ness"},
		{Street: "12 Quay, flat 2"},
	}
	assert.Equal(t, []delivery.ZoneCount{
		{Zone: delivery.Zone{By: delivery.Everywhere}, Homes: 3},
		{Zone: delivery.Zone{By: delivery.ByTown, Name: "Ness"}, Homes: 2},
		{Zone: delivery.Zone{By: delivery.ByLine, Name: "Mill line"}, Homes: 1},
		{Zone: delivery.Zone{By: delivery.ByStreet, Name: "Kelp Street, Ness"}, Homes: 2},
		{Zone: delivery.Zone{By: delivery.ByStreet, Name: "Quay"}, Homes: 1},
	}, delivery.Zones(homes))
}

func TestOpenCuts(t *testing.T) {
	cut := func(id inventory.FactID, from, until int) inventory.Fact {
		c := delivery.PowerCut{Area: "Mill line", From: minute(from)}
		if until > 0 {
			c.Until = minute(until)
		}
		return inventory.Fact{ID: id, Happened: minute(0), Statement: &c}
	}
	back := func(of inventory.FactID, at int) inventory.Fact {
		return inventory.Fact{ID: of + 100, Happened: minute(at), Statement: &delivery.PowerBack{Cut: of}}
	}
	for name, c := range map[string]struct {
		facts []inventory.Fact
		want  []inventory.FactID
	}{
		"none":               {nil, nil},
		"under way":          {[]inventory.Fact{cut(1, 5, 0)}, []inventory.FactID{1}},
		"by begin":           {[]inventory.Fact{cut(1, 90, 0), cut(2, 5, 0)}, []inventory.FactID{2, 1}},
		"over by itself":     {[]inventory.Fact{cut(1, 5, 10)}, nil},
		"ended":              {[]inventory.Fact{cut(1, 5, 0), back(1, 20)}, nil},
		"called off":         {[]inventory.Fact{cut(1, 90, 120), back(1, 20)}, nil},
		"another one's":      {[]inventory.Fact{cut(1, 5, 0), back(2, 20)}, []inventory.FactID{1}},
		"back after the end": {[]inventory.Fact{cut(1, 5, 10), back(1, 70)}, nil},
	} {
		var got []inventory.FactID
		for _, c := range delivery.OpenCuts(c.facts, minute(60)) {
			got = append(got, c.ID)
		}
		assert.Equal(t, c.want, got, name)
	}
}

// An area drawn on the map touches the homes it was drawn around, and no other
// on their street.
func TestCutOfHomes(t *testing.T) {
	cut := delivery.PowerCut{By: delivery.ByHomes, Area: "an area of 2 homes", Homes: []inventory.AddressID{"a1", "a2"}}
	assert.True(t, cut.Touches(delivery.Address{ID: "a2", Street: "Kelp Street 2"}))
	assert.False(t, cut.Touches(delivery.Address{ID: "a3", Street: "Kelp Street 3"}))
	assert.Equal(t, "in an area of 2 homes on the map", cut.Zone().InWords())
}
