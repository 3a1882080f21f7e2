package delivery

import (
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The acts about the night pack.
type (
	// PrintedPack says that the night pack was printed, who is in it and in
	// which order.
	PrintedPack struct {
		Persons []inventory.PersonID
	}
	// NightLine keys in one line of the log that was written on paper, with the
	// time that stands there.
	NightLine struct {
		Person  inventory.PersonID `act:"person" help:"name, record number, or the number in the pack, as 'no 12'"`
		Silent  bool               `act:"silent,optional" help:"we rang, and nobody answered"`
		Worse   bool               `act:"worse,optional" help:"breathless, blue, confused"`
		Gauge   *gas.Pressure      `act:"gauge,optional" help:"gauge as told, with unit"`
		Flow    *gas.Flow          `act:"flow,optional" help:"flow in use"`
		Machine Breathes           `act:"machine,optional" help:"cylinder or concentrator, when they changed over"`
		Said    string             `act:"said,optional" help:"what was said and done"`
		Again   time.Time          `act:"again,optional" help:"when to ring again"`
	}
)

// Decide records the printing.
func (a PrintedPack) Decide(View) (Change, error) {
	if len(a.Persons) == 0 {
		return Change{}, refusal.New(refusal.Unready, "No home is in the night pack.", "Take in your lists, or discharge somebody first.")
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &Printed{Paper: NightPack, Persons: slices.Clone(a.Persons)}}},
		Says:  "The night pack is printed: " + count(len(a.Persons), "home") + ".",
	}, nil
}

// Decide records the call, and that they changed over, as the line says.
func (a NightLine) Decide(v View) (Change, error) {
	c, err := Call{
		Person: a.Person, Answered: !a.Silent, Worse: a.Worse, Gauge: a.Gauge, Flow: a.Flow,
		Problem: strings.TrimSpace(a.Said), Next: a.Again,
	}.Decide(v)
	if err != nil || a.Machine == "" {
		return c, err
	}
	care, err := v.Care(a.Person)
	if err != nil || care.Breathes == a.Machine {
		return c, err
	}
	more, err := Switch{Person: a.Person, To: a.Machine, Why: "night log"}.Decide(v)
	if err != nil {
		return Change{}, err
	}
	return c.and(more), nil
}
