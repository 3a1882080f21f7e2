package delivery

import (
	"fmt"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The acts that bring home what is not needed, or say that it is lost.
type (
	// Chase records that somebody was asked for what is not needed any more.
	Chase struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		Step   string             `act:"step" help:"what was done: call, letter, stopped there"`
		Reply  string             `act:"reply,optional" help:"what was answered"`
	}
	// Lose enters a thing as lost, with what it is worth and why.
	Lose struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Worth *float64         `act:"worth,optional" help:"its value, in the money of the programme; left out: as the settings say"`
		Why   string           `act:"why" help:"the reason"`
	}
	// Find takes in a thing that was missing: its history and its loss stay.
	Find struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Where string           `act:"where" help:"where it was"`
		Depot string           `act:"depot" help:"where it is now"`
		Gauge *gas.Pressure    `act:"gauge,optional" help:"gauge of a cylinder"`
		Hours *float64         `act:"hours,optional" help:"hours meter"`
	}
)

// Decide records the asking; after a death nobody is asked before the day.
func (a Chase) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	person, err := v.Person(a.Person)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	hidden, any := HiddenIn(p, person, Home{Care: care}, v.At())
	switch {
	case !any:
		return Change{}, refusal.New(refusal.Conflict, "Nothing of ours is there that is not needed.", "Look at the person's page.")
	case hidden.Silent:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("This person died. Nobody is asked before %s.", hidden.Due.Format("Mon 2 Jan")), "Then "+hidden.Step+".")
	}
	var c Change
	c.person(a.Person, &Chased{Step: a.Step, Reply: a.Reply})
	care.Chases = append(care.Chases, Attempt{At: v.At()})
	hidden, _ = HiddenIn(p, person, Home{Care: care}, v.At())
	c.Says = fmt.Sprintf("Noted: %s. Next, %s: %s.", a.Step, hidden.Due.Format("Mon 2 Jan"), hidden.Step)
	return c, nil
}

// Decide moves the thing among the missing.
func (a Lose) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	worth, known := p.Prices.Worth[item.Spec.Kind]
	if a.Worth != nil {
		worth, known = *a.Worth, true
	}
	switch {
	case strings.TrimSpace(a.Why) == "":
		return Change{}, refusal.New(refusal.Invalid, "A loss has a reason.", "Say what is known of it.")
	case !known:
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("What this %s is worth is not in the settings.", item.Spec.Kind), "Give what it costs to replace, zero if nothing.")
	case !(worth >= 0 && worth < 1e9):
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("A value of %g can't be.", worth), "Give what it costs to replace, zero if nothing.")
	case item.State == inventory.Missing || item.State == inventory.Gone:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s already.", item.Label(), item.State), "Look at its page.")
	}
	var c Change
	c.about(item.ID, borrower(item), &inventory.Moved{To: inventory.At(inventory.AtMissing, ""), Why: a.Why, Worth: worth})
	c.Says = fmt.Sprintf("%s is lost, worth %.0f: %s. Its history stays; it is taken in again when it is found.", item.Label(), worth, a.Why)
	return c, nil
}

// Decide returns the thing into the dirty bay.
func (a Find) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if item.State != inventory.Missing {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is not missing: it is %s.", item.Label(), item.State), "Return or move it instead.")
	}
	c, err := Return{Item: a.Item, Depot: a.Depot, Gauge: a.Gauge, Hours: a.Hours}.Decide(v)
	if err != nil {
		return c, err
	}
	for _, f := range c.Facts {
		if s, back := f.Statement.(*inventory.Returned); back {
			s.Found = a.Where
		}
	}
	if item.Loss != nil {
		c.Says = fmt.Sprintf("%s was lost for %s. ", item.Label(), Spell(v.At().Sub(item.Loss.At))) + c.Says
	}
	return c, nil
}
