package delivery

import (
	"fmt"
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The parts of what a list says.
type (
	// Event is one thing that a list says happened.
	Event struct {
		At   time.Time
		Says inventory.Statement
	}
	// Arrival is a thing of a list with what happened to it. A thing without
	// an ID is enrolled, at Since or with its first event.
	Arrival struct {
		ID     inventory.ItemID
		Spec   inventory.Spec
		Since  time.Time
		Events []Event
	}
	// Loan is what happened between a person and a thing of the book.
	Loan struct {
		Kind   inventory.Kind
		Serial string
		Events []Event
	}
	// Resident is a person of a list with the home, the kit and what happened.
	// A person without an ID is registered.
	Resident struct {
		Person  Person
		Address Address
		With    int // 1-based: lives with this earlier resident of the act; zero: at Address
		Events  []Event
		Kit     []Loan
	}
	// TakeIn writes what a list says: things and the persons of one home, new
	// to the book or known, and what happened to them, each at its own time.
	// What a list says did happen is recorded even where it contradicts other
	// facts; the contradiction becomes a doubt on the item.
	TakeIn struct {
		From   string // file and rows, for a refusal
		Things []Arrival
		People []Resident
	}
)

// Decide enrols, registers and records.
func (a TakeIn) Decide(v View) (Change, error) {
	var c Change
	for _, thing := range a.Things {
		if err := a.arrive(v, &c, thing); err != nil {
			return Change{}, a.because(err)
		}
	}
	homes := make([]inventory.AddressID, len(a.People))
	for i, r := range a.People {
		home := inventory.AddressID("")
		if r.With > 0 && r.With <= i {
			home = homes[r.With-1]
		}
		var err error
		if homes[i], err = a.settle(v, &c, r, home); err != nil {
			return Change{}, a.because(err)
		}
	}
	if at, ahead := c.ahead(v.At()); ahead {
		return Change{}, a.because(refusal.New(refusal.Invalid,
			fmt.Sprintf("%s lies ahead of %s.", at.Format("2 Jan 2006 15:04"), v.At().Format("2 Jan 2006 15:04")), "Check the dates of the list."))
	}
	c.Says = fmt.Sprintf("%d things and %d persons are taken in.", len(a.Things), len(a.People))
	return c, nil
}

func (a TakeIn) because(err error) error {
	if a.From == "" {
		return err
	}
	return refusal.New(refusal.KindOf(err), a.From+": "+refusal.For(err), "Nothing of the list was taken in.").Because(err)
}

// ahead returns a time of the change that lies after now, if there is one.
func (c Change) ahead(now time.Time) (time.Time, bool) {
	i := slices.IndexFunc(c.Facts, func(f inventory.Fact) bool { return f.Happened.After(now) })
	if i < 0 {
		return time.Time{}, false
	}
	return c.Facts[i].Happened, true
}

func (a TakeIn) arrive(v View, c *Change, thing Arrival) error {
	id := thing.ID
	item := inventory.Item{ID: id, Spec: thing.Spec}
	if id == "" {
		if err := knownSize(thing.Spec); err != nil {
			return err
		}
		var tag uint32
		var err error
		if id, tag, err = v.NewItem(); err != nil {
			return err
		}
		item = inventory.Item{ID: id, Tag: tag, Spec: thing.Spec}
		since := v.At()
		if !thing.Since.IsZero() {
			since = thing.Since
		}
		c.at(firstOf(thing.Events, since), id, "", &inventory.Enrolled{Tag: tag, Spec: thing.Spec})
	}
	for _, e := range thing.Events {
		if err := a.check(v, item, e); err != nil {
			return err
		}
		c.at(e.At, id, "", e.Says)
	}
	return nil
}

// knownSize refuses a cylinder whose size says nothing.
func knownSize(s inventory.Spec) error {
	if s.Kind != inventory.Cylinder {
		return nil
	}
	if _, ok := gas.LookUp(s.Size); !ok {
		return refusal.New(refusal.Invalid, fmt.Sprintf("No cylinder size goes by %q.", s.Size), "Give region and letter, as US-E.")
	}
	return nil
}

// at adds a fact with its own time.
func (c *Change) at(when time.Time, item inventory.ItemID, person inventory.PersonID, s inventory.Statement) {
	c.Facts = append(c.Facts, inventory.Fact{Happened: when, Item: item, Person: person, Statement: s})
}

func firstOf(events []Event, otherwise time.Time) time.Time {
	first := otherwise
	for _, e := range events {
		if e.At.Before(first) {
			first = e.At
		}
	}
	return first
}

// check refuses an event that can't be: a place the programme does not have,
// a gauge the cylinder can't show.
func (a TakeIn) check(v View, item inventory.Item, e Event) error {
	switch s := e.Says.(type) {
	case *inventory.Moved:
		return knownPlace(v, s.To)
	case *inventory.Cleared:
		return knownPlace(v, inventory.At(inventory.AtDepot, s.Depot))
	case *inventory.Returned:
		return knownPlace(v, inventory.At(inventory.AtDepot, s.Depot))
	case *inventory.Observed:
		return plausible(v, item, s.Gauge)
	}
	return nil
}

// settle registers the resident where the book does not know the person, and
// records what happened. It returns where the person lives.
func (a TakeIn) settle(v View, c *Change, r Resident, home inventory.AddressID) (inventory.AddressID, error) {
	since := firstOf(r.Events, v.At())
	for _, loan := range r.Kit {
		since = firstOf(loan.Events, since)
	}
	person := r.Person
	switch {
	case person.ID != "":
		care, err := v.Care(person.ID)
		if err != nil {
			return "", err
		}
		home = care.Address
	case person.Name() == "":
		return "", refusal.New(refusal.Invalid, "A person needs a name.", "Give at least the family name.")
	default:
		var err error
		if person.ID, err = v.NewPerson(); err != nil {
			return "", err
		}
		c.Persons = append(c.Persons, person)
		c.at(since, "", person.ID, &Registered{})
		if home, err = a.house(v, c, r, home); err != nil {
			return "", err
		}
		if home != "" {
			c.at(since, "", person.ID, &Settled{Address: home})
		}
	}
	for _, e := range r.Events {
		c.at(e.At, "", person.ID, e.Says)
	}
	for _, loan := range r.Kit {
		if err := a.lend(v, c, loan, person.ID, home); err != nil {
			return "", err
		}
	}
	return home, nil
}

// house brings a new address into the book, unless the person lives with
// somebody or the list has no address.
func (a TakeIn) house(v View, c *Change, r Resident, home inventory.AddressID) (inventory.AddressID, error) {
	if home != "" || r.Address.Where() == "" {
		return home, nil
	}
	id, err := v.NewAddress()
	if err != nil {
		return "", err
	}
	r.Address.ID = id
	c.Addresses = append(c.Addresses, r.Address)
	return id, nil
}

func (a TakeIn) lend(v View, c *Change, loan Loan, who inventory.PersonID, home inventory.AddressID) error {
	found, err := v.Serial(loan.Serial)
	if err != nil {
		return err
	}
	found = slices.DeleteFunc(found, func(i inventory.Item) bool { return i.Spec.Kind != loan.Kind })
	if len(found) != 1 {
		return refusal.New(refusal.Ask, fmt.Sprintf("%d things of the book are %s %s.", len(found), loan.Kind, loan.Serial), "Say which one by its label.")
	}
	item := found[0]
	for _, e := range loan.Events {
		if err := a.check(v, item, e); err != nil {
			return err
		}
		says := e.Says
		if lent, ok := says.(*inventory.Lent); ok {
			says = &inventory.Lent{Spec: item.Spec, Role: lent.Role, At: inventory.At(inventory.AtAddress, string(home))}
		}
		c.at(e.At, item.ID, who, says)
	}
	return nil
}
