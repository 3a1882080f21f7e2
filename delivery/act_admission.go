package delivery

import (
	"strings"

	"lungwort/inventory"
)

// Admission brings a person into the book, or up to date, orders the oxygen
// and hands the kit over, all in one act: nobody is left half discharged.
type Admission struct {
	Register Register
	Order    *Order     // nil: the order in force stands
	Bands    *GiveBands // nil: nothing new is said of the bands
	// Discharge is of the person of Register; its Person is set by the act.
	Discharge Discharge
}

// Decide composes the three acts. Each decides on the book as it will stand
// once the ones before it are written.
func (a Admission) Decide(v View) (Change, error) {
	all, err := a.Register.Decide(v)
	if err != nil {
		return Change{}, err
	}
	ahead, err := foresee(v, all)
	if err != nil {
		return Change{}, err
	}
	if a.Order != nil {
		order := *a.Order
		order.Person = ahead.care.Person
		change, err := order.Decide(ahead)
		if err != nil {
			return Change{}, err
		}
		ahead.add(change)
		all = all.and(change)
	}
	if a.Bands != nil {
		bands := *a.Bands
		bands.Person = ahead.care.Person
		change, err := bands.Decide(ahead)
		if err != nil {
			return Change{}, err
		}
		ahead.add(change)
		all = all.and(change)
	}
	discharge := a.Discharge
	discharge.Person = ahead.care.Person
	change, err := discharge.Decide(ahead)
	if err != nil {
		return Change{}, err
	}
	return all.and(change), nil
}

// Bridge returns the bridge question of the admission as it stands, also
// while it is too incomplete to be done.
func (a Admission) Bridge(v View) (Bridge, error) {
	ahead := &foresight{View: v, person: a.Register.Person, address: a.Register.Address}
	if a.Register.Person.ID == "" {
		ahead.person.ID = "to be"
	} else {
		care, err := v.Care(a.Register.Person.ID)
		if err != nil {
			return Bridge{}, err
		}
		ahead.care = care
	}
	ahead.care.Person = ahead.person.ID
	if ahead.address.ID == "" {
		ahead.address.ID = "to be"
	}
	ahead.care.Address = ahead.address.ID
	if a.Order != nil {
		o := a.Order.Ordered()
		ahead.care.Order, ahead.care.OrderedAt = &o, v.At()
	}
	discharge := a.Discharge
	discharge.Person = ahead.care.Person
	return discharge.Bridge(ahead)
}

// and returns what c and then more write, in one change.
func (c Change) and(more Change) Change {
	return Change{
		Facts:     append(c.Facts, more.Facts...),
		Persons:   append(c.Persons, more.Persons...),
		Addresses: append(c.Addresses, more.Addresses...),
		Erases:    append(c.Erases, more.Erases...),
		Says:      strings.TrimSpace(c.Says + " " + more.Says),
	}
}

// foresight is the book as it will stand once the first part of an act is
// written: what the later parts of the same act decide on. It looks ahead for
// one person.
type foresight struct {
	View
	care    Care
	person  Person
	address Address
	isNew   bool
}

// foresee returns the book with a person's registering already in it.
func foresee(v View, registered Change) (*foresight, error) {
	person := registered.Persons[0]
	f := &foresight{View: v, person: person, care: Care{Person: person.ID, Phase: Known}}
	for _, fact := range registered.Facts {
		_, is := fact.Statement.(*Registered)
		f.isNew = f.isNew || is
	}
	if !f.isNew {
		care, err := v.Care(person.ID)
		if err != nil {
			return nil, err
		}
		f.care = care
	}
	f.add(registered)
	return f, nil
}

// add takes a further part of the act in.
func (f *foresight) add(c Change) {
	for _, fact := range c.Facts {
		if fact.Happened.IsZero() {
			fact.Happened = f.At()
		}
		if fact.Person == f.care.Person {
			f.care.apply(fact)
		}
	}
	for _, address := range c.Addresses {
		if address.ID == f.care.Address {
			f.address = address
		}
	}
}

// Care returns what will be known of the person.
func (f *foresight) Care(id inventory.PersonID) (Care, error) {
	if id == f.care.Person {
		return f.care, nil
	}
	return f.View.Care(id)
}

// Person returns who the person will be.
func (f *foresight) Person(id inventory.PersonID) (Person, error) {
	if id == f.person.ID {
		return f.person, nil
	}
	return f.View.Person(id)
}

// Twins returns who may be the same as the person will be.
func (f *foresight) Twins(id inventory.PersonID) ([]Person, error) {
	if id == f.person.ID && f.isNew {
		return nil, nil // nobody was asked about somebody the book does not know yet
	}
	return f.View.Twins(id)
}

// Address returns where the person will sleep.
func (f *foresight) Address(id inventory.AddressID) (Address, error) {
	if id != "" && id == f.address.ID {
		return f.address, nil
	}
	return f.View.Address(id)
}
