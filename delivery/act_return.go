package delivery

import (
	"fmt"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Return books one scanned item into the dirty bay of a depot.
type Return struct {
	Item   inventory.ItemID `act:"item" help:"tag or serial"`
	Depot  string           `act:"depot" help:"where it is"`
	Gauge  *gas.Pressure    `act:"gauge,optional" help:"gauge of a cylinder"`
	Hours  *float64         `act:"hours,optional" help:"hours meter"`
	Weight *gas.Kilograms   `act:"weight,optional" help:"of a liquid vessel"`
	Empty  bool             `act:"empty,optional" help:"it was given back, or is labelled, as empty"`
	Soiled bool             `act:"soiled,optional" help:"bag it and keep it apart"`
	Lacks  []string         `act:"lacks,optional" help:"small parts that did not come back, comma between"`
}

// Stray books a thing whose serial the book does not know into quarantine;
// it is never taken into stock by being scanned.
type Stray struct {
	Serial string `act:"serial" help:"as stamped"`
	Depot  string `act:"depot" help:"where it is"`
	Owner  string `act:"owner,optional" help:"whose label it carries"`
}

// fullWhenEmpty is the share of the service pressure over which a cylinder
// that comes back as used asks whether the person ever had gas from it.
// Common practice, no source.
const fullWhenEmpty = 0.8

// Decide returns the item. A cylinder is never booked without a reading.
func (a Return) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if err := knownPlace(v, inventory.At(inventory.AtDepot, a.Depot)); err != nil {
		return Change{}, err
	}
	if item.Spec.Kind == inventory.Cylinder && a.Gauge == nil {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("Cylinder %s has no reading.", item.Label()), "Read the gauge: no cylinder is booked empty without one.")
	}
	if item.Spec.Kind == inventory.Vessel && a.Weight == nil {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("Liquid vessel %s was not weighed.", item.Label()), "Weigh it: no vessel is booked empty without.")
	}
	seen := inventory.Observed{Gauge: a.Gauge, Hours: a.Hours, Weight: a.Weight}
	if err := observable(v, item, seen); err != nil {
		return Change{}, err
	}
	if !item.Lent() && item.State != inventory.WithDriver && item.State != inventory.Missing {
		return Change{}, refusal.New(refusal.Conflict,
			fmt.Sprintf("%s is %s; nobody has it on loan.", item.Label(), item.State),
			"Scan again; if it is right, move it instead.")
	}
	var c Change
	who := borrower(item)
	c.observed(item.ID, who, seen)
	c.about(item.ID, who, &inventory.Returned{Depot: a.Depot, Soiled: a.Soiled, Lacks: a.Lacks, Empty: a.Empty})
	c.Says = fmt.Sprintf("%s is in the dirty bay.", item.Label())
	says, err := a.hadGas(v, item)
	if err != nil {
		return Change{}, err
	}
	c.Says += says
	if a.Gauge != nil {
		if note := gas.TransportNote(*a.Gauge); note != "" {
			c.Says += " " + note
		}
	}
	return c, a.closeCollection(v, &c, who, item.ID)
}

// hadGas says that the clinician is asked whether the person had gas, where the
// gauge makes that doubtful.
func (a Return) hadGas(v View, item inventory.Item) (string, error) {
	p, err := v.Programme()
	size, known := p.SizeOf(item.Spec)
	switch {
	case err != nil || !known || a.Gauge == nil:
	case a.Empty && inventory.HoldsGas(size.Service, *a.Gauge):
		return fmt.Sprintf(" Called empty, but its gauge reads %s: ask the clinician whether this person had gas.", *a.Gauge), nil
	case *a.Gauge >= size.Service*fullWhenEmpty:
		return " It came back nearly full: ask the clinician whether this person had gas.", nil
	}
	return "", err
}

// closeCollection closes the collection when the last item is back.
func (a Return) closeCollection(v View, c *Change, who inventory.PersonID, id inventory.ItemID) error {
	if who == "" {
		return nil
	}
	care, err := v.Care(who)
	if err != nil {
		return err
	}
	left := slices.ContainsFunc(care.Kit, func(h Holding) bool { return h.Item != id })
	for _, t := range care.Tasks {
		if t.Tasked.Task == Collect && !left {
			c.person(who, &Done{Task: t.ID})
		}
	}
	return nil
}

// Decide quarantines the stray under a tag of its own.
func (a Stray) Decide(v View) (Change, error) {
	if inventory.SerialKey(a.Serial) == "" {
		return Change{}, refusal.New(refusal.Invalid, "A stray needs the serial on its plate.", "Read it from the thing itself.")
	}
	if err := knownPlace(v, inventory.At(inventory.AtDepot, a.Depot)); err != nil {
		return Change{}, err
	}
	twins, err := v.Serial(a.Serial)
	if err != nil {
		return Change{}, err
	}
	if len(twins) > 0 && a.Owner == "" {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is in the book: %s, %s.", a.Serial, twins[0].Spec.What(), twins[0].State), "Return it; if it is another's, say whose.")
	}
	id, tag, err := v.NewItem()
	if err != nil {
		return Change{}, err
	}
	spec := inventory.Spec{Serial: a.Serial, Owner: a.Owner, Foreign: a.Owner != ""}
	var c Change
	c.item(id, &inventory.Enrolled{Tag: tag, Spec: spec})
	c.item(id, &inventory.Moved{To: inventory.At(inventory.AtDepot, a.Depot)})
	if spec.Foreign {
		c.Says = fmt.Sprintf("%s belongs to %s and is kept as not ours: tell them to fetch it.", a.Serial, a.Owner)
		return c, nil
	}
	c.item(id, &inventory.Quarantined{Why: "came back unknown"})
	c.Says = fmt.Sprintf("%s is unknown and waits in quarantine.", a.Serial)
	return c, nil
}

// Reconciliation compares what came back with what was expected of a person.
type Reconciliation struct {
	Back    []inventory.Item // expected and scanned
	Missing []inventory.Item // expected, not scanned
	Extra   []inventory.Item // scanned, not this person's
	Unknown []string         // scanned, not in the book
}

// Reconcile sorts scanned items against those expected back.
func Reconcile(expected, scanned []inventory.Item, unknown []string) Reconciliation {
	r := Reconciliation{Unknown: unknown}
	has := func(list []inventory.Item, id inventory.ItemID) bool {
		return slices.ContainsFunc(list, func(i inventory.Item) bool { return i.ID == id })
	}
	for _, item := range expected {
		if has(scanned, item.ID) {
			r.Back = append(r.Back, item)
		} else {
			r.Missing = append(r.Missing, item)
		}
	}
	for _, item := range scanned {
		if !has(expected, item.ID) {
			r.Extra = append(r.Extra, item)
		}
	}
	return r
}
