package delivery

import (
	"cmp"

	"lungwort/inventory"
)

type (
	// Settings puts a programme's settings in force.
	Settings struct {
		Programme Programme
	}
	// SetClock says by which clock the programme lives; without a zone, by that
	// of each machine.
	SetClock struct {
		Zone string `act:"zone,optional" help:"name in the IANA time zone database, as Europe/Lisbon; left out: the clock of each machine"`
	}
)

// Decide puts the settings in force.
func (a Settings) Decide(View) (Change, error) {
	if err := a.Programme.Check(); err != nil {
		return Change{}, err
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &Decided{Programme: a.Programme}}},
		Says:  "The settings are in force.",
	}, nil
}

// Decide puts the programme on the clock of the zone.
func (a SetClock) Decide(v View) (Change, error) {
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	p.TimeZone = a.Zone
	c, err := Settings{Programme: p}.Decide(v)
	c.Says = "All times are on the clock of " + cmp.Or(a.Zone, "each machine") + "."
	return c, err
}
