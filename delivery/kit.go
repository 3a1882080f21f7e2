package delivery

import (
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// Kit is a list a person's kit is built from.
type Kit struct {
	Name     string              `json:"name"`
	Upto     gas.Flow            `json:"upto,omitempty"` // the highest ordered flow it is for; zero: any
	Items    []Wanted            `json:"items"`
	Supplies []inventory.Handful `json:"supplies"`
}

// Instead is what goes out in place of a cylinder of which none is ready: two
// small ones for a large one. The bridge and the cover are worked out with what
// really goes out.
type Instead struct {
	Of    gas.SizeCode `json:"of"`
	Take  gas.SizeCode `json:"take"`
	Count int          `json:"count"` // of these for one
}

// Kit returns the kit list of a name.
func (p Programme) Kit(name string) (Kit, bool) {
	for _, k := range p.Kits {
		if k.Name == name {
			return k, true
		}
	}
	return Kit{}, false
}

// KitFor returns the first kit list that is for a flow; where none is, the
// first.
func (p Programme) KitFor(highest gas.Flow) (Kit, bool) {
	for _, k := range p.Kits {
		if k.Upto == 0 || highest <= k.Upto {
			return k, true
		}
	}
	if len(p.Kits) == 0 {
		return Kit{}, false
	}
	return p.Kits[0], true
}

// Substitutes returns what can go out in the place of a cylinder, the first
// choice first.
func (p Programme) Substitutes(want Wanted) []Wanted {
	var others []Wanted
	for _, i := range p.Instead {
		if want.Kind == inventory.Cylinder && i.Of == want.Size {
			others = append(others, Wanted{Kind: want.Kind, Size: i.Take, Count: want.Count * i.Count})
		}
	}
	return others
}
