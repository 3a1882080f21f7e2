package delivery

import (
	"fmt"
	"strings"

	"lungwort/delivery/gazetteer"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts that find where addresses lie by their names.
type (
	// TakePlaces keeps the places of a file, in which addresses are looked up
	// from now on, and looks up the homes nobody knows the place of.
	TakePlaces struct {
		File   string // its name alone
		Places []gazetteer.Place
	}
	// FindPlaces looks up the homes nobody knows the place of.
	FindPlaces struct{}
)

// Unplaced is a home nobody knows the place of, and somebody who lives there.
type Unplaced struct {
	Person  inventory.PersonID
	Address Address
}

// Decide keeps the places.
func (a TakePlaces) Decide(v View) (Change, error) {
	switch n := len(a.Places); {
	case n == 0:
		return Change{}, refusal.New(refusal.Invalid, "The place file names no place.", "It needs the columns Name, Latitude and Longitude.")
	case n > MostPlaces:
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("The place file names %d places; %d can be kept.", n, MostPlaces), "Cut it to the part of the country you serve.")
	}
	g, err := v.Gazetteer()
	if err != nil {
		return Change{}, err
	}
	g.Places = a.Places
	c := Change{Facts: []inventory.Fact{{Statement: &PlacesListed{File: a.File, Places: a.Places}}}}
	looked, err := c.lookUp(v, g)
	c.Says = strings.TrimSpace(fmt.Sprintf("%s of %s are kept. %s", count(len(a.Places), "place"), a.File, looked))
	return c, err
}

// Decide looks up every home without a place.
func (FindPlaces) Decide(v View) (Change, error) {
	g, err := v.Gazetteer()
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.Says, err = c.lookUp(v, g)
	if c.Says == "" {
		c.Says = "Every home has its place."
	}
	return c, err
}

// lookUp places every home that one place alone can be meant for, and says how
// many, and which have to be asked about.
func (c *Change) lookUp(v View, g gazetteer.Gazetteer) (says string, err error) {
	homes, err := v.Unplaced()
	if err != nil || len(homes) == 0 {
		return "", err
	}
	by := make(map[PlacedBy]int)
	var asked []string
	nowhere := 0
	for _, h := range homes {
		home, how, ok := h.Address.found(g)
		switch several := len(h.Address.Matches(g)); {
		case ok:
			by[how]++
			c.Addresses = append(c.Addresses, home)
			c.person(h.Person, &Placed{Address: home.ID, By: how, Rough: true})
		case several > 1:
			asked = append(asked, fmt.Sprintf("%s: %d places may be meant", home.Where(), several))
		default:
			nowhere++
		}
	}
	var parts []string
	if n := len(c.Addresses); n > 0 {
		parts = append(parts, fmt.Sprintf("%s found, only about right until confirmed: %d in the place file, %d by postcode.", count(n, "home"), by[ByPlaceFile], by[ByPostcode]))
	}
	if len(asked) > 0 {
		parts = append(parts, "To be asked: "+strings.Join(asked, "; ")+".")
	}
	if nowhere > 0 {
		parts = append(parts, fmt.Sprintf("Not found: %s.", count(nowhere, "home")))
	}
	return strings.Join(parts, " "), nil
}
