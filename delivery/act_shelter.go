package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Shelter records that somebody goes where power is, because cylinders can't
// carry their flow through a power cut: a place of the programme, or another
// address.
type Shelter struct {
	Person inventory.PersonID `act:"person" help:"record number, name or id"`
	Cut    inventory.FactID   `act:"cut,optional" help:"id of the power cut they leave"`
	Where  string             `act:"where" help:"hospital, ward or depot of the programme by its name, or the street of another address with power"`
	Town   string             `act:"town,optional" help:"town of another address"`
	Until  time.Time          `act:"until,optional" help:"left out: the end of the cut, where it is known"`
	Along  []inventory.ItemID `act:"along,optional" help:"what goes along; left out: everything"`
	How    string             `act:"how,optional" help:"who brings them there"`
}

// Decide records the stay. The home leaves the list of the power cut at once,
// for power is where they are.
func (a Shelter) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if !care.Watched() {
		return Change{}, refusal.New(refusal.Conflict, "This person has no oxygen of ours.", "There is nobody to bring where power is.")
	}
	until := a.Until
	if a.Cut != 0 && until.IsZero() {
		cut, err := powerCutOf(v, a.Cut)
		if err != nil {
			return Change{}, err
		}
		until = cut.Until
	}
	if until.IsZero() {
		return Change{}, refusal.New(refusal.Ask, "Nobody knows when power is back.", "Say until when they stay there at the least; it can be changed.")
	}
	where, phone := p.shelter(a.Where, a.Town)
	move := Relocate{Person: a.Person, Address: where, Until: until, Along: a.Along, Mover: strings.TrimSpace(a.How)}
	if len(a.Along) == 0 {
		for _, h := range care.Kit {
			move.Along = append(move.Along, h.Item)
		}
	}
	c, err := move.Decide(v)
	if phone != "" {
		c.Says = fmt.Sprintf("Call %s, %s: they are on the way. %s", where.Street, phone, c.Says)
	}
	return c, err
}

// shelter returns the address of a place of the programme, with its number, or
// of another address.
func (p Programme) shelter(name, town string) (Address, string) {
	name = strings.TrimSpace(name)
	for _, s := range p.sites() {
		if s.Title != "" && (strings.EqualFold(s.Name, name) || strings.EqualFold(s.Title, name)) {
			return Address{Street: s.Title, Point: s.Point, Mains: MainsYes}, s.Phone
		}
	}
	return Address{Street: name, Town: strings.TrimSpace(town), Mains: MainsYes}, ""
}

// Refuge is where somebody can go who can't stay without power.
type Refuge struct {
	Name  string
	Phone string
	Takes time.Duration
}

// Refuges returns the hospital and its wards, the nearest first: they have power
// of their own when the lines are dark. Common practice, no source.
func (p Programme) Refuges(from Point, at time.Time) []Refuge {
	var list []Refuge
	for _, s := range append([]Site{p.Hospital}, p.Wards...) {
		if leg := p.RideAt(from, s.Point, at); leg.Known && s.Title != "" {
			list = append(list, Refuge{Name: s.Title, Phone: s.Phone, Takes: leg.Takes})
		}
	}
	slices.SortStableFunc(list, func(a, b Refuge) int { return cmp.Compare(a.Takes, b.Takes) })
	return list
}
