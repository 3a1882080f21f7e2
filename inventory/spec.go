package inventory

import "lungwort/inventory/gas"

// Spec is what an item is: what is written on its plate and its label.
type Spec struct {
	Kind    Kind         `json:"kind"`
	Serial  string       `json:"serial,omitempty"` // the maker's, as stamped
	Model   string       `json:"model,omitempty"`
	Owner   string       `json:"owner,omitempty"`   // empty: the programme's own
	Size    gas.SizeCode `json:"size,omitempty"`    // cylinders
	Rated   gas.Flow     `json:"rated,omitempty"`   // concentrators: most it can give
	Requal  string       `json:"requal,omitempty"`  // month it is due, 2026-06
	Shell   string       `json:"shell,omitempty"`   // a cylinder's specification: 3AL
	Foreign bool         `json:"foreign,omitempty"` // another supplier's, seen and left alone

	// What only one kind of thing has, or two that belong together.
	Valve   string        `json:"valve,omitempty"`   // of a cylinder, or what a regulator fits
	Seal    string        `json:"seal,omitempty"`    // regulators: what goes between it and the valve
	Volts   int           `json:"volts,omitempty"`   // concentrators: of the mains it is made for
	Pool    string        `json:"pool,omitempty"`    // oximeters: the number written on it, where its serial can't be read
	Carries gas.SizeCode  `json:"carries,omitempty"` // carts: the size of cylinder
	Tare    gas.Kilograms `json:"tare,omitempty"`    // liquid vessels: empty, with fittings
	Holds   gas.Kilograms `json:"holds,omitempty"`   // liquid vessels: liquid when full
	Loses   gas.Kilograms `json:"loses,omitempty"`   // liquid vessels: evaporation a day, the maker's figure

	Marked gas.Marks `json:"marked,omitzero"` // cylinders: its own figures, where they differ from its size

	// From the maker's own code, where it was scanned.
	GTIN    string `json:"gtin,omitempty"`    // product number, fourteen digits
	Lot     string `json:"lot,omitempty"`     // of making; the lot of a fill is the fill's
	Made    string `json:"made,omitempty"`    // 2006-01-02
	Expires string `json:"expires,omitempty"` // 2006-01-02
}

// The valves of cylinders, as the table of sizes names them.
const (
	PostValve     = "post"
	ThreadedValve = "threaded"
	IntegralValve = "integral" // regulator and valve in one
)

// Product returns what is the same for every piece of the product.
func (s Spec) Product() Spec {
	return Spec{
		Kind: s.Kind, Model: s.Model, Owner: s.Owner, Size: s.Size, Rated: s.Rated, GTIN: s.GTIN,
		Valve: s.Valve, Seal: s.Seal, Volts: s.Volts, Carries: s.Carries, Tare: s.Tare, Holds: s.Holds, Loses: s.Loses,
	}
}

// What returns what the item is in words: "oxygen cylinder US-E".
func (s Spec) What() string {
	switch {
	case s.Kind == Cylinder && s.Size != "":
		return "oxygen cylinder " + string(s.Size)
	case s.Kind == Cylinder:
		return "oxygen cylinder"
	case s.Kind == Concentrator && s.Rated > 0:
		return "concentrator to " + s.Rated.String()
	case s.Kind == Cart && s.Carries != "":
		return "cart for " + string(s.Carries)
	case s.Kind == "":
		return "unknown thing"
	}
	return string(s.Kind)
}

// ValveOf returns a cylinder's valve: as noted for it, else as its size has.
func (s Spec) ValveOf() string {
	if size, known := gas.LookUp(s.Size); s.Valve == "" && known {
		return size.Valve
	}
	return s.Valve
}

// Liquid returns the vessel a spec describes.
func (s Spec) Liquid() gas.LiquidVessel {
	return gas.LiquidVessel{Tare: s.Tare, Holds: s.Holds, Loses: s.Loses}
}

// HoldsGas reports whether a kind of thing is lent for the gas in it, and so has
// fills.
func (k Kind) HoldsGas() bool { return k == Cylinder || k == Vessel }
