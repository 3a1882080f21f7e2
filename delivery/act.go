package delivery

import (
	"fmt"
	"time"

	"lungwort/delivery/gazetteer"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// View is what an act may look at while it decides: the book as it stands
// inside the act's own transaction.
type View interface {
	At() time.Time // when the act happened, in its own offset
	Programme() (Programme, error)
	Item(inventory.ItemID) (inventory.Item, error)
	// Serial returns the items of a serial; several makers may have used it.
	Serial(string) ([]inventory.Item, error)
	// History returns every fact about an item, in the order of recording.
	History(inventory.ItemID) ([]inventory.Fact, error)
	// Product returns what a product number (GTIN) stood for when a thing was
	// last received under it, and whether one was.
	Product(gtin string) (inventory.Spec, bool, error)
	// Fact returns a fact, and whether it stands or was corrected already.
	Fact(inventory.FactID) (fact inventory.Fact, stands bool, err error)
	// Wrote returns the facts from first to last, and the facts after them that
	// are about the same things and persons, or that plan runs.
	Wrote(first, last inventory.FactID) (wrote, later []inventory.Fact, err error)
	Care(inventory.PersonID) (Care, error)
	Person(inventory.PersonID) (Person, error)
	// Supplies returns the counted supplies at each place.
	Supplies() ([]inventory.SupplyStock, error)
	Address(inventory.AddressID) (Address, error)
	// Addresses returns every address in the book.
	Addresses() ([]Address, error)
	// Gazetteer returns what addresses are looked up in.
	Gazetteer() (gazetteer.Gazetteer, error)
	// Unplaced returns the homes nobody knows the place of.
	Unplaced() ([]Unplaced, error)
	Run(inventory.RunID) (Run, error)
	// Reserved returns the items set aside for a person.
	Reserved(inventory.PersonID) ([]inventory.Item, error)
	// Visits returns the runs that still go to a person.
	Visits(inventory.PersonID) ([]Run, error)
	// Twins returns the persons who may be the same person and were not told
	// apart yet.
	Twins(inventory.PersonID) ([]Person, error)
	// AtPlace returns the items at a place.
	AtPlace(inventory.Place) ([]inventory.Item, error)
	// Alternative returns the best ready item of what is wanted, and whether
	// there is one.
	Alternative(Wanted) (inventory.Item, bool, error)
	// Board returns the runs and what waits for one, as they stand.
	Board() (Board, error)
	// ReadyGas counts the cylinders that are ready, by size.
	ReadyGas() (map[gas.SizeCode]int, error)
	// Access returns who may work in the book.
	Access() (Access, error)
	NewItem() (inventory.ItemID, uint32, error)
	NewPerson() (inventory.PersonID, error)
	NewAddress() (inventory.AddressID, error)
	NewRun() (inventory.RunID, error)
	NewAnswer() (AnswerID, error)
}

// Act is one thing somebody does. Everything the program writes goes through
// an act: from the window, from a command, from a sheet.
type Act interface {
	// Decide returns what the act changes, or a refusal. It writes nothing.
	Decide(View) (Change, error)
}

// Change is what an act writes, all of it or nothing.
type Change struct {
	Facts     []inventory.Fact // Happened, By and Source may be left empty: the act's own
	Persons   []Person
	Addresses []Address
	Answers   []SheetAnswer
	Erases    []inventory.PersonID // who they were is taken away
	Secrets   []Secret             // kept as hashes alone
	Says      string               // one sentence on what was done
}

// about adds a fact about an item, a person or both.
func (c *Change) about(item inventory.ItemID, person inventory.PersonID, s inventory.Statement) {
	c.Facts = append(c.Facts, inventory.Fact{Item: item, Person: person, Statement: s})
}

// item adds a fact about an item alone.
func (c *Change) item(id inventory.ItemID, s inventory.Statement) { c.about(id, "", s) }

// person adds a fact about a person alone.
func (c *Change) person(id inventory.PersonID, s inventory.Statement) { c.about("", id, s) }

// observed adds a reading of an item when there is any value in it. The
// reading is also the person's who has the item.
func (c *Change) observed(id inventory.ItemID, person inventory.PersonID, o inventory.Observed) {
	if o.Gauge != nil || o.Hours != nil || o.Oxygen != nil || o.Flow != nil || o.Weight != nil {
		c.about(id, person, &o)
	}
}

// ready refuses an item that can't be lent to a person now, and names the
// nearest alternative.
func ready(v View, item inventory.Item, person inventory.PersonID) error {
	why := ""
	switch {
	case item.Spec.Foreign:
		why = "belongs to " + item.Spec.Owner + ", not to the programme"
	case item.Recall != "":
		why = "is named by recall " + item.Recall
	case item.Lent():
		why = "is on loan to another person"
		if item.Person == person {
			why = "is already on loan to this person"
		}
	case item.State == inventory.Held && item.Person != person:
		why = "is reserved for another person"
	case item.State != inventory.Ready && item.State != inventory.Held:
		why = "is " + string(item.State)
		if item.Why != "" {
			why += " (" + item.Why + ")"
		}
	}
	if why == "" {
		return nil
	}
	shared, err := sharing(v, item, person)
	if err != nil {
		return err
	}
	return refuse(v, item, why+shared)
}

// sharing says what comes of one machine for two persons of a house: it splits
// a fixed flow unequally. Empty where nobody would share.
func sharing(v View, item inventory.Item, person inventory.PersonID) (string, error) {
	if item.Spec.Kind != inventory.Concentrator || item.Person == "" || person == "" || item.Person == person {
		return "", nil
	}
	mine, err := v.Care(person)
	if err != nil {
		return "", err
	}
	other, err := v.Care(item.Person)
	if refusal.KindOf(err) == refusal.NotFound {
		return "", nil // a form has read one person only; the act itself sees both
	}
	if err != nil || mine.Order == nil || other.Order == nil || mine.Address == "" || other.Address == "" {
		return "", err
	}
	here, err := v.Address(mine.Address)
	if err != nil {
		return "", err
	}
	if there, err := v.Address(other.Address); err != nil || there.Where() != here.Where() {
		return "", err
	}
	words := fmt.Sprintf(" in the same house: %s and %s are ordered there", other.Order.Highest(), mine.Order.Highest())
	if sum := other.Order.Highest() + mine.Order.Highest(); sum > item.Spec.Rated {
		words += fmt.Sprintf(", %s together, over its %s", sum, item.Spec.Rated)
	}
	return words + "; each person has a machine of their own", nil
}

// refuse says why an item can't be lent and what could be lent instead.
func refuse(v View, item inventory.Item, why string) error {
	return refusal.New(refusal.Unready, fmt.Sprintf("%s %s %s.", item.Spec.Kind, item.Label(), why), instead(v, Wanted{
		Kind: item.Spec.Kind, Size: item.Spec.Size, Rated: item.Spec.Rated,
	}))
}

func instead(v View, want Wanted) string {
	other, ok, err := v.Alternative(want)
	if err != nil || !ok {
		return fmt.Sprintf("No other %s is ready: look at the bench and at what is not needed in homes.", want.Kind)
	}
	gauge := ""
	if other.Gauge != nil {
		gauge = ", " + other.Gauge.Value.String()
	}
	return fmt.Sprintf("Nearest ready: %s at %s%s.", other.Label(), other.Place.Name(), gauge)
}

// observable refuses what can't be seen on an item.
func observable(v View, item inventory.Item, o inventory.Observed) error {
	switch {
	case o.Hours != nil && !(*o.Hours >= 0 && *o.Hours < 1e6):
		return refusal.New(refusal.Invalid, fmt.Sprintf("An hours meter of %g is not possible on %s.", *o.Hours, item.Label()), "Read the meter again.")
	case o.Oxygen != nil && !(*o.Oxygen >= 0 && *o.Oxygen <= 100):
		return refusal.New(refusal.Invalid, fmt.Sprintf("Oxygen of %g %% is not possible.", *o.Oxygen), "Read the analyser again.")
	}
	if o.Weight != nil {
		return weighable(item, *o.Weight)
	}
	return plausible(v, item, o.Gauge)
}

// twice refuses a thing that one act names twice.
func twice(v View, ids []inventory.ItemID) error {
	seen := make(map[inventory.ItemID]bool, len(ids))
	for _, id := range ids {
		if !seen[id] {
			seen[id] = true
			continue
		}
		item, err := v.Item(id)
		if err != nil {
			return err
		}
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s is named twice.", item.Label()), "Take one of them away.")
	}
	return nil
}

// plausible refuses a gauge reading a cylinder can't show.
func plausible(v View, item inventory.Item, gauge *gas.Pressure) error {
	if gauge == nil {
		return nil
	}
	if item.Spec.Kind != inventory.Cylinder {
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s has no gauge: it is a %s.", item.Label(), item.Spec.What()), "Scan the cylinder.")
	}
	p, err := v.Programme()
	if err != nil {
		return err
	}
	size, ok := p.SizeOf(item.Spec)
	if !ok {
		return refusal.New(refusal.Invalid, fmt.Sprintf("%s has no known size.", item.Label()), "Set the size of the cylinder first.")
	}
	if !(*gauge >= 0 && *gauge <= size.Service*5/4) {
		return refusal.New(refusal.Invalid,
			fmt.Sprintf("A gauge of %s is not possible on %s, filled to %s.", *gauge, item.Label(), size.Service),
			"Read the gauge again, and its unit.")
	}
	return nil
}
