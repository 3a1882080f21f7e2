package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts of what happens to a person that changes every list.
type (
	// Die records a death: it silences every call and visit, but for one named
	// contact from a day on.
	Die struct {
		Person    inventory.PersonID `act:"person" help:"record number, name or id"`
		ToldBy    string             `act:"told-by" help:"who told it: ward, clinician, family"`
		Contact   string             `act:"contact" help:"the one person who may be called"`
		Phone     string             `act:"phone" help:"that person's number"`
		NotBefore time.Time          `act:"not-before" help:"the first day that person may be called"`
	}
	// Readmit records that a person is in hospital: what is at home is held.
	Readmit struct {
		Person   inventory.PersonID `act:"person" help:"record number, name or id"`
		Ward     string             `act:"ward" help:"ward of the programme"`
		Until    time.Time          `act:"until" help:"until when the kit at home is held"`
		Portable []inventory.ItemID `act:"portable,optional" help:"what came along to the ward: tags or serials"`
	}
	// Refuse records what a person did not want.
	Refuse struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		What   string             `act:"what" help:"backup, or what else was refused"`
		Why    string             `act:"why" help:"as they said it"`
		Again  time.Time          `act:"again,optional" help:"when it is offered again"`
	}
)

// Decide silences every list and opens one gentle collection.
func (a Die) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	person, err := v.Person(a.Person)
	if err != nil {
		return Change{}, err
	}
	switch {
	case care.Died != nil:
		return Change{}, refusal.New(refusal.Conflict, "This death is in the book.", "Look at the person's page for whom to call and from when.")
	case strings.TrimSpace(a.Contact) == "" || strings.TrimSpace(a.Phone) == "":
		return Change{}, refusal.New(refusal.Invalid, "One person is named whom the programme may call.", "Ask the ward for the next of kin and the number.")
	case a.NotBefore.Before(v.At()):
		return Change{}, refusal.New(refusal.Invalid, "The first day to call lies before the death.", "Choose a day after it.")
	}
	var c Change
	c.person(a.Person, &Died{ToldBy: a.ToldBy, NotBefore: a.NotBefore})
	if err := silence(v, &c, care, "died"); err != nil {
		return Change{}, err
	}
	for _, h := range care.Kit {
		c.about(h.Item, a.Person, &inventory.Serving{As: inventory.NotNeeded})
	}
	for _, t := range care.Tasks {
		c.person(a.Person, &Done{Task: t.ID})
	}
	if len(care.Kit) > 0 {
		c.person(a.Person, &Tasked{Task: Collect, Why: "died: call " + a.Contact + " first", From: a.NotBefore})
	}
	person.Contact = &Phone{Number: a.Phone, Whose: a.Contact}
	c.Persons = []Person{person}
	c.Says = fmt.Sprintf("All calls and visits are silenced. Only %s, %s, may be called, from %s on. To collect then: %s. Ask whether a charge still runs.",
		a.Contact, a.Phone, a.NotBefore.Format("Mon 2 Jan"), count(len(care.Kit), "item"))
	return c, nil
}

// silence frees what was set aside and calls off the visits planned.
func silence(v View, c *Change, care Care, why string) error {
	reserved, err := v.Reserved(care.Person)
	if err != nil {
		return err
	}
	for _, item := range reserved {
		c.about(item.ID, "", &inventory.Freed{})
	}
	return callOff(v, c, care.Person, why)
}

// callOff takes a person off every run that still goes there.
func callOff(v View, c *Change, person inventory.PersonID, why string) error {
	runs, err := v.Visits(person)
	if err != nil {
		return err
	}
	for _, r := range runs {
		c.Facts = append(c.Facts, inventory.Fact{Run: r.ID, Person: person, Statement: &CalledOff{Why: why}})
	}
	return nil
}

// Decide holds what is at home until a day, and leaves at the ward what came
// along.
func (a Readmit) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	ward := inventory.At(inventory.AtWard, a.Ward)
	if err := knownPlace(v, ward); err != nil {
		return Change{}, err
	}
	switch {
	case !care.Watched() && care.Phase != InHospital:
		return Change{}, refusal.New(refusal.Conflict, "This person has no oxygen of ours at home.", "There is nothing to hold.")
	case !a.Until.After(v.At()):
		return Change{}, refusal.New(refusal.Invalid, "The hold ends before it begins.", "Say until when the ward expects to keep them.")
	}
	var c Change
	c.person(a.Person, &Readmitted{Ward: a.Ward, Until: a.Until})
	if err := silence(v, &c, care, "in hospital"); err != nil {
		return Change{}, err
	}
	fetch, err := a.hold(v, &c, care, ward)
	if err != nil {
		return Change{}, err
	}
	for _, t := range care.Tasks {
		c.person(a.Person, &Done{Task: t.ID})
	}
	held := len(care.Kit) - len(fetch)
	if held > 0 {
		c.person(a.Person, &Tasked{Task: Collect, Why: "hold ends: ask ward " + a.Ward + " first", From: a.Until})
	}
	c.Says = fmt.Sprintf("Held until %s: %s at home. Then they are collected, unless the hold is renewed or the person goes home.", a.Until.Format("Mon 2 Jan"), count(held, "item"))
	if len(fetch) > 0 {
		c.Says += fmt.Sprintf(" Fetch from ward %s: %s.", a.Ward, strings.Join(fetch, ", "))
	}
	return c, nil
}

// hold holds each thing, and returns the labels of what is to be fetched.
func (a Readmit) hold(v View, c *Change, care Care, ward inventory.Place) (fetch []string, err error) {
	for _, id := range a.Portable {
		if _, has := care.Holding(id); !has {
			item, err := v.Item(id)
			if err != nil {
				return nil, err
			}
			return nil, refusal.New(refusal.Conflict, fmt.Sprintf("%s is not on loan to this person.", item.Label()), "Read the label again on the ward.")
		}
	}
	for _, h := range care.Kit {
		if slices.Contains(a.Portable, h.Item) {
			c.about(h.Item, a.Person, &inventory.LeftAt{At: ward})
			fetch = append(fetch, h.Spec.Serial)
			continue
		}
		c.about(h.Item, a.Person, &inventory.Serving{As: inventory.OnHold})
	}
	return fetch, nil
}

// Decide records the refusal and says what follows from it.
func (a Refuse) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	switch {
	case !care.Watched():
		return Change{}, refusal.New(refusal.Conflict, "This person has no oxygen of ours.", "There is nothing to refuse.")
	case endsBeforeItBegins(v.At(), a.Again):
		return Change{}, refusal.New(refusal.Invalid, "The new offer lies before the refusal.", "Choose a day after it.")
	}
	var c Change
	c.person(a.Person, &Refused{What: a.What, Why: a.Why, Again: a.Again})
	c.Says = fmt.Sprintf("Refused: %s. Tell the clinician.", a.What)
	if a.What == TheBackup {
		for _, t := range care.Tasks {
			if t.Backup {
				c.person(a.Person, &Done{Task: t.ID})
			}
		}
		c.Says = "Refused: backup. When power or machine fails there is no gas of ours in this home; it stays on every outage list, marked so. Tell the clinician."
	}
	if !a.Again.IsZero() {
		c.Says += " Offer it again " + a.Again.Format("Mon 2 Jan") + "."
	}
	return c, nil
}
