package delivery

import (
	"cmp"
	"fmt"
	"slices"

	"lungwort/inventory/gas"
)

// SetSize adds a size of cylinder to those of the programme, or puts it in
// the place of the one under its code.
type SetSize struct {
	Region   string         `act:"region" help:"in one word, as US"`
	Letter   string         `act:"letter" help:"as people call it, as E"`
	Contents gas.Litres     `act:"contents" help:"what a full one holds, as 682L"`
	Full     gas.Pressure   `act:"full" help:"gauge of a full one, as 2015psi"`
	Water    *gas.Litres    `act:"water,optional" help:"water volume, as 4.6L"`
	Empty    *gas.Kilograms `act:"empty,optional" help:"mass when empty, with its valve, as 3.6kg"`
	Valve    string         `act:"valve,optional" help:"post, threaded or integral"`
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
