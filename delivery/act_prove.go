package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Prove records the proof that what is lent was delivered: signed by the person
// or somebody they named, with printed name and relationship. Staff can't sign
// (proof-of-delivery rule of one US payer, 42 CFR 424.57(c)(12); local rules
// decide).
type Prove struct {
	Person       inventory.PersonID `act:"person" help:"record number, name or id"`
	Signed       bool               `act:"signed,optional" help:"there is a signature"`
	Name         string             `act:"name,optional" help:"printed name of who signed"`
	Relationship string             `act:"relationship,optional" help:"patient, daughter, neighbour"`
}

// Signature is who signed for what was delivered. A name identifies, so it is
// kept with the person.
type Signature struct {
	Name         string    `json:"name"`
	Relationship string    `json:"relationship"`
	At           time.Time `json:"at"`
}

// staffWords are relationships that are none.
var staffWords = []string{"driver", "staff", "nurse", "coordinator", "supplier", "technician", "employee"}

// Missing returns what the proof lacks, in words.
func (a Prove) Missing(p Programme) []string {
	var missing []string
	if !a.Signed {
		missing = append(missing, "a signature")
	}
	if !legible(a.Name) {
		missing = append(missing, "a printed name that can be read")
	}
	relationship := strings.ToLower(strings.TrimSpace(a.Relationship))
	staff := slices.ContainsFunc(p.Vehicles, func(v Vehicle) bool { return v.Driver != "" && strings.EqualFold(v.Driver, strings.TrimSpace(a.Name)) })
	switch {
	case staff || slices.Contains(staffWords, relationship):
		missing = append(missing, "a signer who is not staff")
	case relationship == "":
		missing = append(missing, "the relationship to the patient")
	}
	return missing
}

// legible reports whether a name has a word of two letters or more.
func legible(name string) bool {
	return slices.ContainsFunc(strings.Fields(name), func(word string) bool {
		letters := 0
		for _, r := range word {
			if unicode.IsLetter(r) {
				letters++
			}
		}
		return letters >= 2
	})
}

// Decide records the proof for everything the person has on loan.
func (a Prove) Decide(v View) (Change, error) {
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	if missing := a.Missing(p); len(missing) > 0 {
		return Change{}, refusal.New(refusal.Invalid, "This is no proof of delivery: it lacks "+strings.Join(missing, " and ")+".", "Have the patient or somebody they name sign, with printed name and relationship.")
	}
	if len(care.Kit) == 0 {
		return Change{}, refusal.New(refusal.Conflict, "This person has nothing of ours.", "Record the delivery first.")
	}
	person, err := v.Person(a.Person)
	if err != nil {
		return Change{}, err
	}
	proven := Proven{}
	for _, h := range care.Kit {
		proven.Items = append(proven.Items, h.Item)
	}
	var c Change
	c.person(a.Person, &proven)
	person.Signatures = append(person.Signatures, Signature{Name: a.Name, Relationship: a.Relationship, At: v.At()})
	c.Persons = []Person{person}
	c.Says = fmt.Sprintf("Proven delivered: %s.", count(len(care.Kit), "item"))
	return c, nil
}
