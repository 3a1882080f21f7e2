package delivery

import (
	"fmt"
	"slices"
	"strings"
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
	// Amendment changes who a known person is, or where the home is.
	Amendment struct {
		Person  Person
		Address *Address // nil: the home stays as it is
		Moved   bool     // Address is another home
		What    []string // what is otherwise, in words
	}
	// TakeIn writes what a list says: things and the persons of one home, new
	// to the book or known, and what happened to them, each at its own time.
	// What a list says did happen is recorded even where it contradicts other
	// facts; the contradiction becomes a doubt on the item.
	TakeIn struct {
		From   string // file and rows, for a refusal
		Things []Arrival
		People []Resident
		Amends []Amendment
	}
)

// Decide enrols, registers and records.
func (a TakeIn) Decide(v View) (Change, error) {
	t := taking{view: v}
	for _, thing := range a.Things {
		if err := t.arrive(thing); err != nil {
			return Change{}, a.because(err)
		}
	}
	for _, r := range a.People {
		if err := t.settle(r); err != nil {
			return Change{}, a.because(err)
		}
	}
	for _, m := range a.Amends {
		if err := t.amend(m); err != nil {
			return Change{}, a.because(err)
		}
	}
	if at, ahead := t.ahead(v.At()); ahead {
		return Change{}, a.because(refusal.New(refusal.Invalid,
			fmt.Sprintf("%s lies ahead of %s.", at.Format("2 Jan 2006 15:04"), v.At().Format("2 Jan 2006 15:04")), "Check the dates of the list."))
	}
	t.Says = fmt.Sprintf("%d things and %d persons are taken in.", len(a.Things), len(a.People))
	return t.Change, nil
}

func (a TakeIn) because(err error) error {
	if a.From == "" {
		return err
	}
	return refusal.New(refusal.KindOf(err), a.From+": "+refusal.For(err), "Nothing of the list was taken in.").Because(err)
}

// taking is one TakeIn while it is decided.
type taking struct {
	Change
	view    View
	arrived []inventory.Item      // enrolled by this act
	homes   []inventory.AddressID // of the residents so far
}

// at adds a fact with its own time.
func (t *taking) at(when time.Time, item inventory.ItemID, person inventory.PersonID, s inventory.Statement) {
	t.Facts = append(t.Facts, inventory.Fact{Happened: when, Item: item, Person: person, Statement: s})
}

// ahead returns a time of the change that lies after now, if there is one.
func (t *taking) ahead(now time.Time) (time.Time, bool) {
	i := slices.IndexFunc(t.Facts, func(f inventory.Fact) bool { return f.Happened.After(now) })
	if i < 0 {
		return time.Time{}, false
	}
	return t.Facts[i].Happened, true
}

// arrive enrols a thing that is new, and records what happened to it.
func (t *taking) arrive(thing Arrival) error {
	item := inventory.Item{ID: thing.ID, Spec: thing.Spec}
	if item.ID == "" {
		if err := knownSize(t.view, thing.Spec); err != nil {
			return err
		}
		var err error
		if item.ID, item.Tag, err = t.view.NewItem(); err != nil {
			return err
		}
		since := t.view.At()
		if !thing.Since.IsZero() {
			since = thing.Since
		}
		t.at(firstOf(thing.Events, since), item.ID, "", &inventory.Enrolled{Tag: item.Tag, Spec: thing.Spec})
		t.arrived = append(t.arrived, item)
	}
	for _, e := range thing.Events {
		if err := t.check(item, e); err != nil {
			return err
		}
		t.at(e.At, item.ID, "", e.Says)
	}
	return nil
}

// knownSize refuses a cylinder whose size says nothing, and marks on it that
// can't be.
func knownSize(v View, s inventory.Spec) error {
	if s.Kind != inventory.Cylinder {
		if s.Marked != (gas.Marks{}) {
			return refusal.New(refusal.Invalid, fmt.Sprintf("A %s has no contents of its own.", s.Kind), "Leave contents, full pressure and water volume out.")
		}
		return nil
	}
	p, err := v.Programme()
	if err != nil {
		return err
	}
	if size, ok := p.Sizes.LookUp(s.Size); ok {
		_, err := size.Marked(s.Marked)
		return impossible(err)
	} else {
		return refusal.New(refusal.Invalid, fmt.Sprintf("No cylinder size goes by %q.", s.Size), "Give region and letter, as US-E.")
	}
}

// impossible puts a sentence of the arithmetic of gas as a refusal.
func impossible(err error) error {
	if err == nil {
		return nil
	}
	what, next, _ := strings.Cut(err.Error(), ". ")
	return refusal.New(refusal.Invalid, what+".", next+".").Because(err)
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
func (t *taking) check(item inventory.Item, e Event) error {
	switch s := e.Says.(type) {
	case *inventory.Moved:
		return knownPlace(t.view, s.To)
	case *inventory.Cleared:
		return knownPlace(t.view, inventory.At(inventory.AtDepot, s.Depot))
	case *inventory.Returned:
		return knownPlace(t.view, inventory.At(inventory.AtDepot, s.Depot))
	case *inventory.Observed:
		return plausible(t.view, item, s.Gauge)
	}
	return nil
}

// settle registers a resident the book does not know, and records what
// happened.
func (t *taking) settle(r Resident) error {
	home, err := t.home(r)
	if err != nil {
		return err
	}
	t.homes = append(t.homes, home)
	who := r.Person
	if who.ID == "" {
		if who.ID, err = t.register(r, home); err != nil {
			return err
		}
	}
	for _, e := range r.Events {
		t.at(e.At, "", who.ID, e.Says)
	}
	for _, loan := range r.Kit {
		if err := t.lend(loan, who.ID, home); err != nil {
			return err
		}
	}
	return nil
}

// home returns the address of a resident: the book's, the house-mate's, or a
// new one; empty where the list has none.
func (t *taking) home(r Resident) (inventory.AddressID, error) {
	if r.Person.ID != "" {
		care, err := t.view.Care(r.Person.ID)
		return care.Address, err
	}
	if r.With > 0 && r.With <= len(t.homes) && t.homes[r.With-1] != "" {
		return t.homes[r.With-1], nil
	}
	if r.Address.Where() == "" {
		return "", nil
	}
	id, err := t.view.NewAddress()
	if err != nil {
		return "", err
	}
	r.Address.ID = id
	t.Addresses = append(t.Addresses, r.Address)
	return id, nil
}

func (t *taking) register(r Resident, home inventory.AddressID) (inventory.PersonID, error) {
	person := r.Person
	if person.Name() == "" {
		return "", refusal.New(refusal.Invalid, "A person needs a name.", "Give at least the family name.")
	}
	since := firstOf(r.Events, t.view.At())
	for _, loan := range r.Kit {
		since = firstOf(loan.Events, since)
	}
	var err error
	if person.ID, err = t.view.NewPerson(); err != nil {
		return "", err
	}
	t.Persons = append(t.Persons, person)
	t.at(since, "", person.ID, &Registered{})
	if home != "" {
		t.at(since, "", person.ID, &Settled{Address: home})
	}
	return person.ID, nil
}

// amend changes a known person. The fact says what is otherwise, and not how:
// who a person is stays out of the facts.
func (t *taking) amend(m Amendment) error {
	was, err := t.view.Person(m.Person.ID)
	if err != nil {
		return err
	}
	if m.Person.Name() == "" {
		return refusal.New(refusal.Invalid, "A person needs a name.", "Give at least the family name.")
	}
	t.Persons = append(t.Persons, was.amended(m.Person, t.view.At()))
	t.at(t.view.At(), "", m.Person.ID, &Amended{What: m.What})
	if m.Address == nil {
		return nil
	}
	home := *m.Address
	if m.Moved || home.ID == "" {
		if home.ID, err = t.view.NewAddress(); err != nil {
			return err
		}
		home.Earlier = nil // another home has no past here
		t.at(t.view.At(), "", m.Person.ID, &Settled{Address: home.ID})
		t.Addresses = append(t.Addresses, home)
		return nil
	}
	before, err := t.view.Address(home.ID)
	if err != nil {
		return err
	}
	t.Addresses = append(t.Addresses, before.amended(home, t.view.At()))
	return nil
}

// lend records a loan of a thing of the book, or of this act.
func (t *taking) lend(loan Loan, who inventory.PersonID, home inventory.AddressID) error {
	found, err := t.view.Serial(loan.Serial)
	if err != nil {
		return err
	}
	found = slices.DeleteFunc(append(found, t.arrived...), func(i inventory.Item) bool {
		return i.Spec.Kind != loan.Kind || inventory.SerialKey(i.Spec.Serial) != inventory.SerialKey(loan.Serial)
	})
	if len(found) != 1 {
		return refusal.New(refusal.Ask, fmt.Sprintf("%d things of the book are %s %s.", len(found), loan.Kind, loan.Serial), "Say which one by its label.")
	}
	item := found[0]
	for _, e := range loan.Events {
		if err := t.check(item, e); err != nil {
			return err
		}
		says := e.Says
		if lent, ok := says.(*inventory.Lent); ok {
			says = &inventory.Lent{Spec: item.Spec, Role: lent.Role, At: inventory.At(inventory.AtAddress, string(home))}
		}
		t.at(e.At, item.ID, who, says)
	}
	return nil
}
