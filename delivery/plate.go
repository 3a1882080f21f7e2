package delivery

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Describe enters what stands on a thing's plate. What is left out stays as it
// is in the book.
type Describe struct {
	Item    inventory.ItemID `act:"item" help:"tag or serial"`
	Model   string           `act:"model,optional" help:"maker's model"`
	Rated   *gas.Flow        `act:"rated,optional" help:"most a concentrator gives"`
	Valve   string           `act:"valve,optional" help:"of a cylinder, or what a regulator fits: post, threaded or integral"`
	Seal    string           `act:"seal,optional" help:"of a regulator, as 'gasket, used once' or 'washer with ring'"`
	Volts   *int             `act:"volts,optional" help:"mains a concentrator is made for"`
	Pool    string           `act:"pool,optional" help:"number written on an oximeter"`
	Carries gas.SizeCode     `act:"carries,optional" help:"cylinder size a cart is for, as US-E"`
	Tare    *gas.Kilograms   `act:"tare,optional" help:"empty weight of a liquid vessel, as 23.1kg"`
	Holds   *gas.Kilograms   `act:"holds,optional" help:"liquid in it when full"`
	Loses   *gas.Kilograms   `act:"loses,optional" help:"evaporation a day, the maker's figure"`
	// What a cylinder is marked with, where that differs from its size; zero: it
	// is as its size has it.
	Contents *gas.Litres   `act:"contents,optional" help:"what this cylinder's label says it holds, as 660L"`
	Full     *gas.Pressure `act:"full,optional" help:"full pressure stamped on this cylinder, as 1900psi"`
	Water    *gas.Litres   `act:"water,optional" help:"water volume stamped on this cylinder, as 4.6L"`
}

// Decide describes the thing anew.
func (a Describe) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	spec := a.On(item.Spec)
	switch {
	case item.Spec.Foreign:
		return Change{}, refusal.New(refusal.Foreign, item.Label()+" belongs to "+item.Spec.Owner+".", "Leave it as its owner has it.")
	case spec == item.Spec:
		return Change{}, refusal.New(refusal.Invalid, "Nothing of the plate is given that is not in the book.", "Write what stands on it.")
	}
	if err := knownPlate(v, spec); err != nil {
		return Change{}, err
	}
	var c Change
	c.about(item.ID, borrower(item), &inventory.Described{Spec: spec})
	c.Says = fmt.Sprintf("%s is described anew.", item.Label())
	return c, nil
}

// On returns a spec with what the act gives.
func (a Describe) On(s inventory.Spec) inventory.Spec {
	for into, text := range map[*string]string{&s.Model: a.Model, &s.Valve: strings.ToLower(a.Valve), &s.Seal: a.Seal, &s.Pool: a.Pool} {
		if text = strings.TrimSpace(text); text != "" {
			*into = text
		}
	}
	if a.Carries != "" {
		s.Carries = a.Carries
	}
	given(&s.Rated, a.Rated)
	given(&s.Volts, a.Volts)
	given(&s.Tare, a.Tare)
	given(&s.Holds, a.Holds)
	given(&s.Loses, a.Loses)
	given(&s.Marked.Contents, a.Contents)
	given(&s.Marked.Service, a.Full)
	if a.Water != nil {
		s.Marked.Water = float64(*a.Water)
	}
	return s
}

func given[T any](into *T, value *T) {
	if value != nil {
		*into = *value
	}
}

// valves are the words for a valve.
var valves = []string{inventory.PostValve, inventory.ThreadedValve, inventory.IntegralValve}

// knownPlate refuses what can't stand on a thing of its kind.
func knownPlate(v View, s inventory.Spec) error {
	if err := knownSize(v, s); err != nil {
		return err
	}
	for _, own := range []struct {
		has   bool
		what  string
		kinds []inventory.Kind
	}{
		{s.Valve != "", "a valve", []inventory.Kind{inventory.Cylinder, inventory.Regulator}},
		{s.Seal != "", "a seal", []inventory.Kind{inventory.Regulator}},
		{s.Volts != 0, "a voltage", []inventory.Kind{inventory.Concentrator}},
		{s.Pool != "", "a pool number", []inventory.Kind{inventory.Oximeter}},
		{s.Carries != "", "a size to carry", []inventory.Kind{inventory.Cart}},
		{s.Tare != 0 || s.Holds != 0 || s.Loses != 0, "an empty weight, filling or evaporation", []inventory.Kind{inventory.Vessel}},
	} {
		if own.has && !slices.Contains(own.kinds, s.Kind) {
			return refusal.New(refusal.Invalid, fmt.Sprintf("A %s has not %s.", s.Kind, own.what), fmt.Sprintf("Leave it out, or say what the thing is: %s.", kindsInWords()))
		}
	}
	return plateValues(s)
}

// plateValues refuses values that are possible on no thing.
func plateValues(s inventory.Spec) error {
	_, carried := gas.LookUp(s.Carries)
	switch {
	case s.Valve != "" && !slices.Contains(valves, s.Valve):
		return refusal.New(refusal.Invalid, fmt.Sprintf("%q is no valve.", s.Valve), "Say "+strings.Join(valves, ", ")+".")
	case s.Volts != 0 && (s.Volts < 90 || s.Volts > 250):
		return refusal.New(refusal.Invalid, fmt.Sprintf("%d V is no mains in a home.", s.Volts), "Read the plate again, as 120 or 230.")
	case s.Carries != "" && !carried:
		return refusal.New(refusal.Invalid, fmt.Sprintf("No cylinder size goes by %q.", s.Carries), "Give region and letter, as US-E.")
	case !(s.Tare >= 0) || !(s.Holds >= 0) || !(s.Loses >= 0) || (s.Tare > 0) != (s.Holds > 0) || s.Loses > s.Holds:
		return refusal.New(refusal.Invalid, "Empty weight, filling and evaporation of the vessel don't fit each other.", "Read empty weight and filling from its plate, the evaporation a day from the maker's papers.")
	}
	return nil
}

// kindsInWords lists the kinds of item.
func kindsInWords() string {
	words := make([]string, len(inventory.Kinds()))
	for i, k := range inventory.Kinds() {
		words[i] = string(k)
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// weighable refuses a weight a vessel can't have.
func weighable(item inventory.Item, weight gas.Kilograms) error {
	if item.Spec.Kind != inventory.Vessel {
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s is not weighed: it is a %s.", item.Label(), item.Spec.What()), "Scan the liquid vessel.")
	}
	if _, err := item.Spec.Liquid().ByWeight(weight); err != nil {
		says, next, _ := strings.Cut(err.Error(), ". ")
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s: %s.", item.Label(), says), next+".")
	}
	return nil
}

// misfits says which regulators fit no valve of the cylinders they go with;
// empty where none is known not to.
func misfits(items []inventory.Item) string {
	var fits, valve []string
	for _, i := range items {
		switch {
		case i.Spec.Kind == inventory.Regulator && i.Spec.Valve != "":
			fits = append(fits, i.Spec.Valve)
		case i.Spec.Kind == inventory.Cylinder && i.Spec.ValveOf() != "":
			valve = append(valve, i.Spec.ValveOf())
		}
	}
	if len(fits) == 0 || len(valve) == 0 || slices.ContainsFunc(fits, func(f string) bool { return slices.Contains(valve, f) }) {
		return ""
	}
	return fmt.Sprintf(" The regulator is for a valve of the sort %s, the cylinder has the sort %s: take another before they leave.", fits[0], valve[0])
}
