package delivery

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// LeaveAlone records another supplier's thing seen in a home: known from then
// on, never collected, never lent.
type LeaveAlone struct {
	Person inventory.PersonID `act:"person" help:"in whose home it stands: record number, name or id"`
	Owner  string             `act:"owner" help:"whose label it carries"`
	Serial string             `act:"serial,optional" help:"as on its plate; empty: it can't be read"`
	Kind   inventory.Kind     `act:"kind,optional" help:"what it is, as concentrator"`
	Model  string             `act:"model,optional" help:"as on its plate"`
}

// Decide enters the thing as another's at the home; one that is known already is
// seen there.
func (a LeaveAlone) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	a.Owner = strings.TrimSpace(a.Owner)
	switch {
	case a.Owner == "":
		return Change{}, refusal.New(refusal.Invalid, "It is not said whose it is.", "Read the owner's label; if there is none, ask the household.")
	case care.Address == "":
		return Change{}, refusal.New(refusal.Invalid, "There is no address where it could stand.", "Enter where the person sleeps.")
	case a.Kind != "" && !slices.Contains(inventory.Kinds(), a.Kind):
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%q is no kind of item.", a.Kind), "Say "+kindsInWords()+", or leave it out.")
	}
	home := inventory.At(inventory.AtAddress, string(care.Address))
	id, err := a.there(v)
	if err != nil {
		return Change{}, err
	}
	var c Change
	if id == "" {
		var tag uint32
		if id, tag, err = v.NewItem(); err != nil {
			return Change{}, err
		}
		c.item(id, &inventory.Enrolled{Tag: tag, Spec: inventory.Spec{Kind: a.Kind, Serial: a.Serial, Model: a.Model, Owner: a.Owner, Foreign: true}})
	}
	c.about(id, a.Person, &inventory.Moved{To: home, Why: "seen there, left alone"})
	what := strings.TrimSpace(a.Serial)
	if what == "" {
		what = "What was seen"
	}
	c.Says = fmt.Sprintf("%s belongs to %s and is left alone: only what is ours is collected there.", what, a.Owner)
	return c, nil
}

// there returns the thing of that owner and serial when it is in the book; what
// is ours is refused.
func (a LeaveAlone) there(v View) (inventory.ItemID, error) {
	twins, err := v.Serial(a.Serial)
	if err != nil {
		return "", err
	}
	for _, twin := range twins {
		switch {
		case twin.Spec.Foreign && strings.EqualFold(twin.Spec.Owner, a.Owner):
			return twin.ID, nil
		case !twin.Spec.Foreign:
			return "", refusal.New(refusal.Ask, fmt.Sprintf("%s is in the book as ours: %s, %s.", a.Serial, twin.Spec.What(), twin.State),
				"Look whose label it carries. If it is really another's with the same serial, write its model before the serial.")
		}
	}
	return "", nil
}
