package delivery

import (
	"cmp"
	"fmt"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

type (
	// Mark records what one cylinder is marked with, where that differs from its
	// size. What is left out is as its size has it.
	Mark struct {
		Item     inventory.ItemID `act:"item" help:"tag or serial"`
		Contents *gas.Litres      `act:"contents,optional" help:"what its label says it holds, as 660L"`
		Full     *gas.Pressure    `act:"full,optional" help:"full pressure stamped on it, as 1900psi"`
		Water    *gas.Litres      `act:"water,optional" help:"water volume stamped on it, as 4.6L"`
	}
	// SetSize adds a size of cylinder to those of the programme, or puts it in
	// the place of the one under its code.
	SetSize struct {
		Region   string         `act:"region" help:"in one word, as US"`
		Letter   string         `act:"letter" help:"as people call it, as E"`
		Contents gas.Litres     `act:"contents" help:"what a full one holds, as 682L"`
		Full     gas.Pressure   `act:"full" help:"gauge of a full one, as 2015psi"`
		Water    *gas.Litres    `act:"water,optional" help:"water volume, as 4.6L"`
		Empty    *gas.Kilograms `act:"empty,optional" help:"mass when empty, with its valve, as 3.6kg"`
		Valve    string         `act:"valve,optional" help:"post, threaded or integral"`
	}
)

// Decide records the marks; what can't be is refused.
func (a Mark) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if item.Spec.Kind != inventory.Cylinder {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%s is a %s.", item.Label(), item.Spec.Kind), "Scan a cylinder.")
	}
	spec := item.Spec
	spec.Marked = Marks(a.Contents, a.Full, a.Water)
	if err := knownPlate(v, spec); err != nil {
		return Change{}, err
	}
	if spec == item.Spec {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is marked so in the book already.", item.Label()), "")
	}
	var c Change
	c.about(item.ID, borrower(item), &inventory.Described{Spec: spec})
	c.Says = fmt.Sprintf("%s goes by its own marks.", item.Label())
	if spec.Marked == (gas.Marks{}) {
		c.Says = fmt.Sprintf("%s is as its size has it.", item.Label())
	}
	return c, nil
}

// Marks are the figures of one cylinder; nil ones are as its size has them.
func Marks(contents *gas.Litres, full *gas.Pressure, water *gas.Litres) (m gas.Marks) {
	if contents != nil {
		m.Contents = *contents
	}
	if full != nil {
		m.Service = *full
	}
	if water != nil {
		m.Water = float64(*water)
	}
	return m
}

// Size returns the size as it is entered.
func (a SetSize) Size() (gas.Size, error) {
	s := gas.Size{Region: a.Region, Letter: a.Letter, Contents: a.Contents, Service: a.Full, Valve: a.Valve}
	if a.Water != nil {
		s.WaterVolume = float64(*a.Water)
	}
	if a.Empty != nil {
		s.EmptyMass = float64(*a.Empty)
	}
	return gas.Own(s)
}

// Decide puts the size in force with the other settings.
func (a SetSize) Decide(v View) (Change, error) {
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	size, err := a.Size()
	if err != nil {
		return Change{}, impossible(err)
	}
	p.Sizes = slices.DeleteFunc(slices.Clone(p.Sizes), func(s gas.Size) bool { return s.Code == size.Code })
	p.Sizes = append(p.Sizes, size)
	slices.SortFunc(p.Sizes, func(a, b gas.Size) int { return cmp.Compare(a.Code, b.Code) })
	c, err := Settings{Programme: p}.Decide(v)
	c.Says = fmt.Sprintf("%s holds %s at %s.", size.Code, size.Contents, size.Service)
	return c, err
}
