package delivery

import (
	"fmt"
	"strings"

	"lungwort/delivery/gazetteer"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// PlaceChoice is a home with the places it may lie at.
type PlaceChoice struct {
	Person  inventory.PersonID
	Address Address
	Matches []gazetteer.Match
}

// Listed lists the places that may be meant, numbered from 1.
func (c PlaceChoice) Listed() string {
	words := make([]string, len(c.Matches))
	for i, m := range c.Matches {
		words[i] = fmt.Sprintf("%d: %s", i+1, matchSays(m))
	}
	if len(words) == 0 {
		return "No listed place and no postcode leads there."
	}
	return "It may be " + strings.Join(words, "; ") + "."
}

// matchSays names a place that may be meant, and how it was found.
func matchSays(m gazetteer.Match) string {
	where := m.Where()
	if m.Usual {
		where = "the middle of postcode " + m.Postcode
	}
	if m.Area != "" {
		where += ", " + m.Area
	}
	return fmt.Sprintf("%s (%.4f, %.4f)", where, m.Lat, m.Lon)
}

// Choose places the home at one of the places that may be meant, counted from
// 1, only about right.
func (c PlaceChoice) Choose(n int) (Place, error) {
	if n < 1 || n > len(c.Matches) {
		return Place{}, refusal.New(refusal.Invalid, fmt.Sprintf("There is no place %d for %s. %s", n, c.Address.Where(), c.Listed()), "Choose one of them, or write latitude and longitude.")
	}
	m := c.Matches[n-1]
	return Place{Person: c.Person, Address: c.Address.ID, At: Point{Lat: m.Lat, Lon: m.Lon, Area: m.Area}, By: byOf(m), Rough: true}, nil
}
