package delivery

import (
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Veil returns the person as those are shown who must not be read over a
// shoulder: initials and the number in the book. It can't be written back.
func (p Person) Veil() Person {
	name := strings.TrimSpace(initial(p.Given) + " " + initial(p.Family) + " " + string(p.ID))
	return p.masked(name)
}

// Hidden returns the person as their number alone.
func (p Person) Hidden() Person { return p.masked(string(p.ID)) }

func (p Person) masked(name string) Person {
	m := Person{ID: p.ID, Family: name, Language: p.Language, Masked: true}
	for _, ph := range p.Phones {
		m.Phones = append(m.Phones, Phone{Number: notShown, Whose: ph.Whose})
	}
	if p.Contact != nil {
		m.Contact = &Phone{Number: notShown}
	}
	return m
}

// notShown stands where a number is not shown.
const notShown = "not shown"

func initial(name string) string {
	for _, r := range name {
		return strings.ToUpper(string(r)) + "."
	}
	return ""
}

// Veil returns the home by its number, with what planning needs.
func (a Address) Veil() Address {
	a.Street, a.Town, a.Access, a.Earlier, a.Masked = "home "+string(a.ID), "", "", nil, true
	return a
}

// Written refuses to write back what was not shown.
func (c Change) Written() error {
	for _, p := range c.Persons {
		if p.Masked {
			return masked(p.ID)
		}
	}
	for _, a := range c.Addresses {
		if a.Masked {
			return masked("")
		}
	}
	return nil
}

func masked(id inventory.PersonID) error {
	return refusal.New(refusal.Unready, strings.TrimSpace("Names and homes are not shown now, and can't be written "+string(id))+".", "Switch the privacy view off (F12) and open the page again.")
}
