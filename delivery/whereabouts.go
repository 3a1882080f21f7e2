package delivery

import (
	"cmp"
	"fmt"

	"lungwort/delivery/gazetteer"
	"lungwort/inventory"
)

// MostPlaces is how many places of a place file are kept.
const MostPlaces = 20_000

// ZIP returns the postcode of an address: as written, else a US one at the end
// of its town or street.
func (a Address) ZIP() string {
	return cmp.Or(a.Postcode, gazetteer.AtEnd(a.Town), gazetteer.AtEnd(a.Street))
}

// Matches returns where an address may lie by its name.
func (a Address) Matches(g gazetteer.Gazetteer) []gazetteer.Match {
	return g.Find(a.Street, a.Town, a.ZIP())
}

// found returns the address at the one place its name or postcode leads to, only
// about right, and how that was found. Nothing is chosen where several may be
// meant.
func (a Address) found(g gazetteer.Gazetteer) (Address, PlacedBy, bool) {
	matches := a.Matches(g)
	if len(matches) != 1 {
		return a, "", false
	}
	a.at(matches[0])
	return a, byOf(matches[0]), true
}

// at puts the address where a match lies, only about right. The area it has
// stays.
func (a *Address) at(m gazetteer.Match) {
	a.Point.Lat, a.Point.Lon, a.Rough = m.Lat, m.Lon, true
	a.Point.Area = cmp.Or(a.Point.Area, m.Area)
}

func byOf(m gazetteer.Match) PlacedBy {
	if m.How == gazetteer.ByPostcode {
		return ByPostcode
	}
	return ByPlaceFile
}

// place gives an address without a place the one its name or postcode leads to,
// and keeps where it comes from.
func (c *Change) place(v View, who inventory.PersonID, home Address) (Address, error) {
	if home.Point.Known() {
		return home, nil
	}
	g, err := v.Gazetteer()
	if err != nil {
		return home, err
	}
	placed, by, ok := home.found(g)
	if ok {
		c.person(who, &Placed{Address: home.ID, By: by, Rough: true})
	}
	return placed, nil
}

// PlaceSays says what is known of where an address lies; empty where nothing
// needs to be said.
func (a Address) PlaceSays() string {
	switch {
	case !a.Point.Known():
		return "Where it lies is not known: set its place, or no run can be reckoned there."
	case a.Rough:
		return "Its place on the map is only about right: ask the way, and confirm it at the visit."
	}
	return ""
}

// roughNotes names the calls whose place is only about right.
func roughNotes(calls []call) []string {
	var notes []string
	for _, c := range calls {
		if c.address.Rough {
			notes = append(notes, c.address.roughNote())
		}
	}
	return notes
}

// roughNotes names the stops ahead whose place is only about right.
func (b Board) roughNotes() []string {
	var calls []call
	for _, s := range b.stops {
		calls = append(calls, s.call)
	}
	return roughNotes(calls)
}

// roughNote tells a planner of a ride to a place that is only about right.
func (a Address) roughNote() string {
	return fmt.Sprintf("the place of %s is only about right: rides there may take longer; ask the way when you ring, and confirm it at the visit", a.Where())
}
