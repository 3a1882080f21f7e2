package outage

import (
	"slices"
	"strconv"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// drawn is the ID of the place that was drawn on the map.
const drawn = "drawn"

// OpenArea reads the book for the homes of an area drawn on the map; with none, for
// the place chosen before.
func (m *Model) OpenArea(homes []inventory.PersonID) {
	if len(homes) > 0 {
		m.drawn, m.here = homes, drawn
	}
	m.Load()
}

// areaOf is the area drawn on the map as a place.
func areaOf(rows []delivery.Watch, homes []inventory.PersonID, now time.Time) Place {
	cut := delivery.PowerCut{By: delivery.ByHomes, Area: "an area drawn", From: now}
	for _, w := range rows {
		if slices.Contains(homes, w.Care.Person) && !slices.Contains(cut.Homes, w.Address.ID) {
			cut.Homes = append(cut.Homes, w.Address.ID)
		}
	}
	touched := 0 // with those who share an address
	for _, w := range rows {
		if cut.Touches(w.Address) {
			touched++
		}
	}
	return Place{ID: drawn, Name: "Area drawn", Detail: "what if: on the map", Count: strconv.Itoa(touched), Cut: cut}
}
