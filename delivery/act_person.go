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

// The acts that say who a person is, what is ordered and what they breathe.
type (
	// Register brings a person and a home into the book. With an ID the
	// person is known already and the fields given replace those kept.
	Register struct {
		Person  Person
		Address Address
	}
	// Order records a prescription; it replaces the whole order before it.
	Order struct {
		Person     inventory.PersonID `act:"person" help:"record number, name or id"`
		Rest       gas.Flow           `act:"rest" help:"flow at rest"`
		Exertion   gas.Flow           `act:"exertion,optional" help:"flow on exertion"`
		Asleep     gas.Flow           `act:"asleep,optional" help:"flow asleep"`
		Hours      float64            `act:"hours" help:"hours a day"`
		Device     string             `act:"device,optional" help:"cannula, mask"`
		Setting    string             `act:"setting,optional" help:"of a pulse device; never a flow"`
		Bolus      gas.Millilitres    `act:"bolus,optional" help:"of the pulse device at this setting, as 16.5mL"`
		Breaths    float64            `act:"breaths,optional" help:"a minute, with a bolus"`
		Review     time.Time          `act:"review,optional" help:"when 'still needed?' goes to the clinician"`
		Prescriber string             `act:"prescriber,optional" help:"who ordered it"`
		Names      string             `act:"names,optional" help:"equipment the order names: concentrator, cylinder; comma between"`
	}
	// Switch says what a person breathes from now on.
	Switch struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		To     Breathes           `act:"to" help:"cylinder or concentrator"`
		Why    string             `act:"why,optional" help:"power out, machine stopped, trip"`
	}
)

// Decide registers the person. A name, and a street where they sleep, are the
// least.
func (a Register) Decide(v View) (Change, error) {
	var c Change
	person, address := a.Person, a.Address
	if strings.TrimSpace(person.Family+person.Given) == "" {
		return c, refusal.New(refusal.Invalid, "A person needs a name.", "Give at least the family name.")
	}
	var err error
	if person.ID != "" {
		if _, err = v.Person(person.ID); err != nil {
			return c, err
		}
	} else {
		if person.ID, err = v.NewPerson(); err != nil {
			return c, err
		}
		c.person(person.ID, &Registered{})
	}
	c.Persons = []Person{person}
	if strings.TrimSpace(address.Street) != "" {
		if address.ID == "" {
			if address.ID, err = v.NewAddress(); err != nil {
				return c, err
			}
		}
		if address, err = c.place(v, person.ID, address); err != nil {
			return c, err
		}
		c.Addresses = []Address{address}
		c.person(person.ID, &Settled{Address: address.ID})
	}
	c.Says = fmt.Sprintf("%s is in the book.", person.Name())
	if address.Rough {
		c.Says += " " + address.PlaceSays()
	}
	return c, nil
}

// Check refuses an order that can't be worked with; the missing part is
// named.
func (o Ordered) Check() error {
	switch {
	case (o.Bolus != 0 || o.Breaths != 0) && o.Setting == "":
		return refusal.New(refusal.Invalid, "A bolus belongs to the setting of a pulse device.", "Give the setting too, or leave the bolus out.")
	case (o.Bolus != 0 || o.Breaths != 0) && o.untold():
		_, err := o.pulse().Uses()
		return refusal.New(refusal.Ask, "The pulse device's use can't be foretold.", "Give bolus and breaths a minute, or neither.").Because(err)
	case o.Setting == "" && o.Rest <= 0:
		return refusal.New(refusal.Invalid, "The order has no flow at rest.", "Send it back to the ward: no flow is assumed.")
	case !(o.Hours > 0 && o.Hours <= 24):
		return refusal.New(refusal.Invalid, "The order does not say how many hours a day.", "Send it back to the ward; for cover, 24 h would be assumed.")
	case !o.namesKnown():
		return refusal.New(refusal.Invalid, fmt.Sprintf("%q is not equipment an order names.", o.Names), "Name concentrator, cylinder or both.")
	case max(o.Rest, o.Exertion, o.Asleep) > 25:
		return refusal.New(refusal.Ask, fmt.Sprintf("A flow of %s is more than home kit gives.", max(o.Rest, o.Exertion, o.Asleep)), "Ask the prescriber for flow and unit.")
	}
	return nil
}

// named returns the kinds of equipment the order names.
func (o Ordered) named() []inventory.Kind {
	var kinds []inventory.Kind
	for name := range strings.SplitSeq(o.Names, ",") {
		if name = strings.TrimSpace(name); name != "" {
			kinds = append(kinds, inventory.Kind(name))
		}
	}
	return kinds
}

func (o Ordered) namesKnown() bool {
	return !slices.ContainsFunc(o.named(), func(k inventory.Kind) bool { return k != inventory.Concentrator && k != inventory.Cylinder })
}

// Ordered returns what the act orders.
func (a Order) Ordered() Ordered {
	return Ordered{
		Rest: a.Rest, Exertion: a.Exertion, Asleep: a.Asleep, Hours: a.Hours,
		Device: a.Device, Setting: a.Setting, Bolus: a.Bolus, Breaths: a.Breaths, Review: a.Review, Prescriber: a.Prescriber, Names: a.Names,
	}
}

// Decide records the order.
func (a Order) Decide(v View) (Change, error) {
	o := a.Ordered()
	if err := o.Check(); err != nil {
		return Change{}, err
	}
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.person(a.Person, &o)
	c.Says = "The order is in force; it replaces the whole order before it."
	if care.Phase == Over {
		c.Says = fmt.Sprintf("The order is kept, but oxygen was stopped %s: it starts nothing until a discharge. Was the stop a mistake? Then take it back.",
			Clock(care.Since, v.At()))
		return c, nil
	}
	if machine, has := care.Concentrator(); has {
		if why, small := TooSmall(machine.Spec, o); small {
			c.person(a.Person, &Tasked{
				Task:  Swap,
				Why:   "the concentrator " + why,
				Bring: []Wanted{{Kind: inventory.Concentrator, Rated: max(o.Rest, o.Exertion, o.Asleep), Count: 1}},
			})
			c.Says += " The concentrator " + why + ": a swap is open."
		}
	}
	return c, nil
}

// Decide records the switch.
func (a Switch) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	if a.To != FromCylinder && a.To != FromConcentrator {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%q is nothing to breathe from.", a.To), "Say cylinder or concentrator.")
	}
	if _, has := care.Concentrator(); a.To == FromConcentrator && !has {
		return Change{}, refusal.New(refusal.Conflict, "This person has no concentrator of ours.", "Record the delivery first.")
	}
	if !care.Watched() {
		return Change{}, refusal.New(refusal.Conflict, "This person has no oxygen of ours.", "Discharge them first.")
	}
	var c Change
	c.person(a.Person, &Switched{To: a.To, Why: a.Why})
	c.Says = fmt.Sprintf("On the %s from %s.", a.To, v.At().Format("Mon 15:04"))
	for _, t := range care.Tasks {
		if a.To == FromConcentrator && t.Tasked.Task == Deliver && t.brings(inventory.Concentrator) {
			c.person(a.Person, &Done{Task: t.ID})
		}
	}
	return c, nil
}
