package delivery

import (
	"cmp"
	"fmt"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The acts that bring an item into the book, fill it, read it and move it. The
// act tags name their fields for commands.
type (
	// Enrol brings an item into the book at a depot.
	Enrol struct {
		Spec    inventory.Spec
		Depot   string `act:"depot" help:"where it is"`
		Gauge   *gas.Pressure
		Hours   *float64
		Weight  *gas.Kilograms // of a liquid vessel, with what is in it
		Lot     string
		Cleared bool // it is clean, tested and ready to lend
	}
	// Read records what somebody saw on an item.
	Read struct {
		Item   inventory.ItemID `act:"item" help:"tag or serial"`
		Gauge  *gas.Pressure    `act:"gauge,optional" help:"gauge pressure with unit"`
		Hours  *float64         `act:"hours,optional" help:"hours meter"`
		Oxygen *float64         `act:"oxygen,optional" help:"oxygen, percent"`
		Flow   *gas.Flow        `act:"flow,optional" help:"flow the oxygen was measured at"`
		Told   bool             `act:"told,optional" help:"reported by phone, not read by one of us"`
		Temp   *gas.Celsius     `act:"temp,optional" help:"temperature of the cylinder, as 21C"`
		Weight *gas.Kilograms   `act:"weight,optional" help:"of a liquid vessel on the scale, as 40kg"`
	}
	// Label records that labels of ours were printed for items.
	Label struct {
		Items  []inventory.ItemID `act:"items" help:"tags or serials, comma between"`
		Stock  string             `act:"stock,optional" help:"on which label paper"`
		Copies int
	}
	// Move puts an item at another place of ours.
	Move struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
		To   inventory.Place  `act:"to" help:"depot:NAME, ward:NAME, vehicle:NAME, plant:NAME, workshop, missing or retired"`
	}
)

// Decide enrols the item; not cleared, it waits in quarantine.
func (a Enrol) Decide(v View) (Change, error) {
	if err := a.may(v); err != nil {
		return Change{}, err
	}
	spec, full, err := own(v, a.Spec)
	if err != nil {
		return Change{}, err
	}
	a.Spec = spec
	id, tag, err := v.NewItem()
	if err != nil {
		return Change{}, err
	}
	item := inventory.Item{ID: id, Tag: tag, Spec: a.Spec}
	seen := inventory.Observed{Gauge: a.Gauge, Hours: a.Hours, Weight: a.Weight}
	if err := observable(v, item, seen); err != nil {
		return Change{}, err
	}
	var c Change
	c.item(id, &inventory.Enrolled{Tag: tag, Spec: a.Spec})
	c.item(id, &inventory.Moved{To: inventory.At(inventory.AtDepot, a.Depot)})
	if a.Lot != "" {
		c.item(id, &inventory.Filled{Lot: a.Lot, Full: full})
	}
	c.observed(id, "", seen)
	if a.Cleared && !a.Spec.Foreign {
		c.item(id, &inventory.Cleared{Depot: a.Depot})
	}
	c.Says = fmt.Sprintf("%s %s is in the book.", a.Spec.Kind, item.Label())
	return c, nil
}

// may refuses what is no item, is in the book already, or is nowhere. Two
// makers may have used the same serial, so the model counts too.
func (a Enrol) may(v View) error {
	if !slices.Contains(inventory.Kinds(), a.Spec.Kind) {
		return refusal.New(refusal.Invalid, fmt.Sprintf("%q is no kind of item.", a.Spec.Kind), "Say "+kindsInWords()+".")
	}
	if err := knownPlate(v, a.Spec); err != nil {
		return err
	}
	if a.Cleared && a.Spec.Kind == inventory.Vessel && a.Weight == nil {
		return refusal.New(refusal.Invalid, fmt.Sprintf("Liquid vessel %s was not weighed.", a.Spec.Serial), "Weigh it: no vessel is called ready without.")
	}
	if a.Cleared && a.Spec.Kind == inventory.Cylinder && a.Gauge == nil {
		return refusal.New(refusal.Invalid, fmt.Sprintf("Cylinder %s has no gauge reading.", a.Spec.Serial), "Read the gauge: no cylinder is called ready without one.")
	}
	twins, err := v.Serial(a.Spec.Serial)
	if err != nil {
		return err
	}
	for _, twin := range twins {
		if twin.Spec.Kind == a.Spec.Kind && inventory.SerialKey(twin.Spec.Model) == inventory.SerialKey(a.Spec.Model) {
			return refusal.New(refusal.Conflict,
				fmt.Sprintf("%s %s is in the book already, %s.", a.Spec.Kind, twin.Label(), twin.State),
				"Look at its page; if this is another thing, enter its model.")
		}
	}
	return knownPlace(v, inventory.At(inventory.AtDepot, a.Depot))
}

// Decide records the reading for the item and for the person who has it.
func (a Read) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	seen := inventory.Observed{Gauge: a.Gauge, Hours: a.Hours, Oxygen: a.Oxygen, Flow: a.Flow, Told: a.Told, Temperature: a.Temp, Weight: a.Weight}
	if err := observable(v, item, seen); err != nil {
		return Change{}, err
	}
	var c Change
	c.observed(item.ID, borrower(item), seen)
	if len(c.Facts) == 0 {
		return c, refusal.New(refusal.Invalid, "There is no value in the reading.", "Give a gauge, hours, oxygen or a weight.")
	}
	c.Says = fmt.Sprintf("The reading of %s is in the book.", item.Label())
	return c, nil
}

// Decide records the print for each item, so that its page shows every label
// that may be about.
func (a Label) Decide(v View) (Change, error) {
	if len(a.Items) == 0 {
		return Change{}, refusal.New(refusal.Invalid, "No label was printed.", "Choose the items first.")
	}
	if err := twice(v, a.Items); err != nil {
		return Change{}, err
	}
	var c Change
	for _, id := range a.Items {
		if _, err := v.Item(id); err != nil {
			return Change{}, err
		}
		c.item(id, &inventory.Labelled{Stock: a.Stock, Copies: max(a.Copies, 1)})
	}
	c.Says = fmt.Sprintf("%d labels are printed.", len(a.Items)*max(a.Copies, 1))
	if len(a.Items) == 1 && a.Copies <= 1 {
		c.Says = "1 label is printed."
	}
	return c, nil
}

// borrower returns who has an item on loan, not for whom it is reserved.
func borrower(i inventory.Item) inventory.PersonID {
	if i.Lent() {
		return i.Person
	}
	return ""
}

// Decide moves the item. What is on loan can't be moved, it is collected; what
// a driver brings is returned, so that its gauge is read.
func (a Move) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	lost := a.To.Kind() == inventory.AtMissing || a.To.Kind() == inventory.AtRetired
	if item.Lent() && !lost {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is on loan.", item.Label()), "Collect or return it first.")
	}
	switch kind := a.To.Kind(); {
	case item.State == inventory.WithDriver && (kind == inventory.AtDepot || kind == inventory.AtWard):
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s comes with a driver.", item.Label()), "Book it as a return, with its reading.")
	case item.State == inventory.Gone && kind != inventory.AtRetired:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is retired.", item.Label()), "Take the retirement back on its page if that is wrong.")
	}
	if err := knownPlace(v, a.To); err != nil {
		return Change{}, err
	}
	var c Change
	c.about(item.ID, borrower(item), &inventory.Moved{To: a.To})
	c.Says = fmt.Sprintf("%s is now at %s.", item.Label(), a.To.InWords())
	if item.State == inventory.Held && a.To.Kind() != inventory.AtDepot && a.To.Kind() != inventory.AtVehicle && a.To.Kind() != inventory.AtWard {
		c.Says += " It was set aside for a person: choose another."
	}
	return c, nil
}

func knownPlace(v View, to inventory.Place) error {
	p, err := v.Programme()
	if err != nil {
		return err
	}
	known := false
	switch to.Kind() {
	case inventory.AtMissing, inventory.AtRetired, inventory.AtWorkshop:
		known = true
	case inventory.AtDepot:
		known = named(p.Depots, to.Name())
	case inventory.AtWard:
		known = named(append(slices.Clone(p.Wards), p.Hospital), to.Name())
	case inventory.AtPlant:
		known = named(p.Plants, to.Name())
	case inventory.AtVehicle:
		_, known = p.Vehicle(to.Name())
	}
	if !known {
		return refusal.New(refusal.NotFound, fmt.Sprintf("The programme has no place %q.", to), "Choose a depot, ward, vehicle or plant of the settings.")
	}
	return nil
}

// named reports whether one of the sites goes by a name.
func named(sites []Site, name string) bool {
	return name != "" && slices.ContainsFunc(sites, func(s Site) bool { return s.Name == name })
}

// own returns what a cylinder of the programme's own size is, and what it is full
// at: the facts about it must say so by themselves, for the fold knows only the
// sizes that come with the program.
func own(v View, s inventory.Spec) (inventory.Spec, gas.Pressure, error) {
	if _, shipped := gas.LookUp(s.Size); shipped || s.Kind != inventory.Cylinder {
		return s, 0, nil
	}
	p, err := v.Programme()
	size, _ := p.SizeOf(s)
	s.Valve = cmp.Or(s.Valve, size.Valve)
	return s, size.Service, err
}
