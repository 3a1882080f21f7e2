package delivery

import (
	"fmt"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Bridge returns the bridge question of the discharge as it stands, with what
// could be added; the screen asks it at every keystroke.
func (d Discharge) Bridge(v View) (Bridge, error) {
	b, err := d.bridge(v)
	if err != nil {
		return b, err
	}
	b.Ready, err = d.stillReady(v)
	return b, err
}

// bridge is Bridge without what could be added.
func (d Discharge) bridge(v View) (Bridge, error) {
	p, err := v.Programme()
	if err != nil {
		return Bridge{}, err
	}
	care, err := v.Care(d.Person)
	if err != nil {
		return Bridge{}, err
	}
	rest, highest := care.Flow()
	b := Bridge{
		Opens: d.opened(v), Leaves: d.Leaves, Flow: highest, Rest: rest, Arrives: d.Arrives,
		SetUp: p.SetUp, WarmUp: p.WarmUp, Margin: p.Margin, Reserve: p.Reserve, Sizes: p.Sizes, Spare: "US-E",
	}
	if b.Leaves.IsZero() {
		b.Leaves = b.Opens.Add(p.WardDelay)
	}
	address, err := v.Address(care.Address)
	if err != nil {
		address = Address{} // where they sleep is not known yet, and so neither is the way
	}
	b.Ride, b.WayKnown = p.rideOrGuess(p.Hospital.Point, address.Point, b.Leaves)
	if d.Ride != nil {
		b.WayKnown = true
	}
	for _, known := range []struct{ better, into *time.Duration }{{d.Ride, &b.Ride}, {d.SetUp, &b.SetUp}, {d.WarmUp, &b.WarmUp}} {
		if known.better != nil {
			*known.into = *known.better
		}
	}
	if care.Order != nil && care.Order.untold() {
		b.Setting = care.Order.Setting
	}
	brings, err := d.brings(v, inventory.Concentrator)
	if err != nil {
		return b, err
	}
	if brings {
		b.Thin = p.Thin()
	}
	b.Unasked = brings && address.Mains == ""
	if brings && address.Mains == MainsNo {
		b.NoMains = address.Where()
	}
	for _, piece := range d.HandOver {
		item, err := v.Item(piece.Item)
		if err != nil {
			return b, err
		}
		if item.Spec.Kind == inventory.Cylinder {
			size, _ := p.SizeOf(item.Spec) // unknown is told by the answer
			b.Gas = append(b.Gas, BridgeGas{Tag: item.Label(), Size: size, Gauge: piece.Gauge})
			b.Spare = item.Spec.Size
		}
	}
	return b, nil
}

// Forward says how the runs could bring the delivery in time for the gas that
// goes along, as they stand; empty where they can't, or need not.
func (d Discharge) Forward(v View, b Bridge, a BridgeAnswer) (string, error) {
	if a.Needs == 0 || a.Has >= a.Wants || len(d.Bring) == 0 {
		return "", nil
	}
	care, err := v.Care(d.Person)
	if err != nil {
		return "", err
	}
	person, err := v.Person(d.Person)
	if err != nil {
		return "", err
	}
	address, err := v.Address(care.Address)
	if err != nil {
		return "", err
	}
	p, err := v.Programme()
	if err != nil {
		return "", err
	}
	var bring []Wanted
	for _, id := range d.Bring {
		item, err := v.Item(id)
		if err != nil {
			return "", err
		}
		bring = append(bring, Wanted{Kind: item.Spec.Kind, Size: item.Spec.Size, Rated: item.Spec.Rated, Count: 1})
	}
	board, err := v.Board()
	if err != nil {
		return "", err
	}
	with, stop, known := board.With(p.Bringing(address, person.Language, b.Leaves, b.Opens.Add(a.Has), bring))
	if !known {
		return "", nil
	}
	return with.Forward(stop, b.Opens.Add(a.Has-b.SetUp-b.WarmUp)), nil
}

// stillReady counts the cylinders that are ready beside those named already.
func (d Discharge) stillReady(v View) (map[gas.SizeCode]int, error) {
	ready, err := v.ReadyGas()
	if err != nil {
		return nil, err
	}
	for _, id := range d.pieces() {
		item, err := v.Item(id)
		if err != nil {
			return nil, err
		}
		if item.Spec.Kind == inventory.Cylinder && item.State == inventory.Ready && ready[item.Spec.Size] > 0 {
			ready[item.Spec.Size]--
		}
	}
	return ready, nil
}

// mains refuses a concentrator for a home where nobody knows that it can run.
func (d Discharge) mains(v View, care Care) error {
	address, err := v.Address(care.Address)
	if err != nil {
		return err
	}
	if address.Mains == MainsYes || address.Mains == MainsPrepaid {
		return nil
	}
	brings, err := d.brings(v, inventory.Concentrator)
	if brings {
		return refusal.New(refusal.Unready,
			fmt.Sprintf("%s has %s: a concentrator can't run there.", address.Where(), orUnknown(string(address.Mains))),
			"Ask about mains power; without it the clinician decides on a plan with cylinders.")
	}
	return err
}

// brings reports whether a kind of thing is handed over or brought.
func (d Discharge) brings(v View, kind inventory.Kind) (bool, error) {
	for _, id := range d.pieces() {
		item, err := v.Item(id)
		if err != nil || item.Spec.Kind == kind {
			return err == nil, err
		}
	}
	return false, nil
}

func orUnknown(mains string) string {
	if mains == "" {
		return "no answer about mains power"
	}
	return mains
}
