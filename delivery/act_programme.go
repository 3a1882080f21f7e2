package delivery

import (
	"fmt"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts about the whole programme.
type (
	// Outage says that power is, or will be, out.
	Outage struct {
		Area  string    `act:"area" help:"area or power line"`
		From  time.Time `act:"from" help:"begin"`
		Until time.Time `act:"until,optional" help:"end"`
		Cause string    `act:"cause,optional" help:"the reason"`
	}
	// Settings puts a programme's settings in force.
	Settings struct {
		Programme Programme
	}
)

// Decide records the outage for the area.
func (a Outage) Decide(View) (Change, error) {
	if endsBeforeItBegins(a.From, a.Until) {
		return Change{}, refusal.New(refusal.Invalid, "The outage ends before it begins.", "Check the two times.")
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &PowerCut{Area: a.Area, From: a.From, Until: a.Until, Cause: a.Cause}}},
		Says:  fmt.Sprintf("Power out in %s from %s.", a.Area, a.From.Format("Mon 15:04")),
	}, nil
}

func endsBeforeItBegins(from, until time.Time) bool {
	return !from.IsZero() && !until.IsZero() && !until.After(from)
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
