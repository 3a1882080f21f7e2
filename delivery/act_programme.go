package delivery

import "lungwort/inventory"

// Settings puts a programme's settings in force.
type Settings struct {
	Programme Programme
}

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
