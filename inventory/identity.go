// Package inventory is the things of the programme: what is lent, where each
// thing is, what was seen of it, and the facts all of that rests on.
//
// Nothing here knows how it is stored. State is never written by hand: it is
// the fold of facts (see Fold), so that a late or corrected fact takes its
// place and everything derived from it changes with it.
package inventory

import (
	"strings"
)

// The identifiers of the book. Each kind has its own type so that one can't
// be passed for another.
type (
	// ItemID names one serial-numbered thing for as long as the book exists.
	ItemID string
	// PersonID names a person without saying who it is; see delivery.Person.
	PersonID string
	// AddressID names a home.
	AddressID string
	// RunID names one trip of one vehicle.
	RunID string
	// FactID numbers the facts of a book in order of recording, from 1.
	FactID int64
)

// Kind is what sort of thing an item is.
type Kind string

// The kinds of item a programme lends by serial.
const (
	Cylinder     Kind = "cylinder"
	Regulator    Kind = "regulator"
	Concentrator Kind = "concentrator"
	Oximeter     Kind = "oximeter"
	Cart         Kind = "cart" // for a cylinder in use on the move
	Vessel       Kind = "liquid vessel"
)

// Kinds lists the kinds in the order a kit is picked.
func Kinds() []Kind { return []Kind{Concentrator, Cylinder, Regulator, Oximeter, Cart, Vessel} }

// Short returns the kind in one word, for where many stand in a row.
func (k Kind) Short() string {
	if k == Vessel {
		return "vessel"
	}
	return string(k)
}

// PlaceKind is what sort of place a thing is at.
type PlaceKind string

// The places a thing can be.
const (
	AtDepot    PlaceKind = "depot"
	AtWard     PlaceKind = "ward"
	AtVehicle  PlaceKind = "vehicle"
	AtAddress  PlaceKind = "address"
	AtPlant    PlaceKind = "plant"
	AtWorkshop PlaceKind = "workshop"
	AtMissing  PlaceKind = "missing"
	AtRetired  PlaceKind = "retired"
)

// Place is where a thing is, as "depot:harbour". Missing and retired are
// places too, so that every item is always in exactly one.
type Place string

// At returns the place of a kind with a name of the programme.
func At(kind PlaceKind, name string) Place {
	if name == "" {
		return Place(kind)
	}
	return Place(string(kind) + ":" + name)
}

// Kind returns what sort of place p is.
func (p Place) Kind() PlaceKind {
	kind, _, _ := strings.Cut(string(p), ":")
	return PlaceKind(kind)
}

// Name returns the programme's name of the place; empty for missing and
// retired.
func (p Place) Name() string {
	_, name, _ := strings.Cut(string(p), ":")
	return name
}

// InWords returns the place as people say it: "depot harbour", "van 1", "a
// home". It names no home.
func (p Place) InWords() string {
	switch p.Kind() {
	case AtVehicle:
		if p.Name() == "" || p.Name() == "unknown" {
			return "a vehicle"
		}
		return p.Name()
	case AtAddress:
		return "a home"
	}
	if p.Name() == "" {
		return string(p.Kind())
	}
	return string(p.Kind()) + " " + p.Name()
}
