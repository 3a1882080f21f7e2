package delivery

import (
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The acts about one person.
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
		Review     time.Time          `act:"review,optional" help:"when 'still needed?' goes to the clinician"`
		Prescriber string             `act:"prescriber,optional" help:"who ordered it"`
	}
	// Switch says what a person breathes from now on.
	Switch struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		To     Breathes           `act:"to" help:"cylinder or concentrator"`
		Why    string             `act:"why,optional" help:"power out, machine stopped, trip"`
	}
	// Call records a call with a person.
	Call struct {
		Person   inventory.PersonID `act:"person" help:"record number, name or id"`
		Answered bool               `act:"answered,optional" help:"somebody answered"`
		SpO2     *float64           `act:"spo2,optional" help:"saturation, percent"`
		Flow     *gas.Flow          `act:"flow,optional" help:"flow in use"`
		Worse    bool               `act:"worse,optional" help:"feels worse, or breathless at rest"`
		Saving   bool               `act:"saving,optional" help:"turned it down to save gas"`
		Gauge    *gas.Pressure      `act:"gauge,optional" help:"gauge of the cylinder in use, as told"`
	}
	// StopOxygen ends the need for oxygen. It takes the person off the watch list,
	// opens the collection and counts the kit as not needed, at once.
	StopOxygen struct {
		Person    inventory.PersonID `act:"person" help:"record number, name or id"`
		Reason    string             `act:"reason" help:"recovered, moved away, died"`
		OrderedBy string             `act:"ordered-by" help:"the clinician who ordered it"`
	}
	// Ask opens a task for a person.
	Ask struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		Task   Task               `act:"task" help:"deliver, swap or collect"`
		Why    string             `act:"why" help:"the reason"`
		From   time.Time          `act:"from,optional" help:"not before"`
		Until  time.Time          `act:"until,optional" help:"not after"`
		Bring  []Wanted
	}
	// Outage says that power is, or will be, out.
	Outage struct {
		Area  string    `act:"area" help:"area or power line"`
		From  time.Time `act:"from" help:"begin"`
		Until time.Time `act:"until,optional" help:"end"`
		Cause string    `act:"cause,optional" help:"the reason"`
	}
	// Settings puts a programme's settings in force.
	Settings struct {
		Programme Programme
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
		c.Addresses = []Address{address}
		c.person(person.ID, &Settled{Address: address.ID})
	}
	c.Says = fmt.Sprintf("%s is in the book.", person.Name())
	return c, nil
}

// Check refuses an order that can't be worked with; the missing part is
// named.
func (o Ordered) Check() error {
	switch {
	case o.Setting == "" && o.Rest <= 0:
		return refusal.New(refusal.Invalid, "The order has no flow at rest.", "Send it back to the ward: no flow is assumed.")
	case !(o.Hours > 0 && o.Hours <= 24):
		return refusal.New(refusal.Invalid, "The order does not say how many hours a day.", "Send it back to the ward; for cover, 24 h would be assumed.")
	case max(o.Rest, o.Exertion, o.Asleep) > 25:
		return refusal.New(refusal.Ask, fmt.Sprintf("A flow of %s is more than home kit gives.", max(o.Rest, o.Exertion, o.Asleep)), "Ask the prescriber for flow and unit.")
	}
	return nil
}

// ordered returns what the act orders.
func (a Order) ordered() Ordered {
	return Ordered{
		Rest: a.Rest, Exertion: a.Exertion, Asleep: a.Asleep, Hours: a.Hours,
		Device: a.Device, Setting: a.Setting, Review: a.Review, Prescriber: a.Prescriber,
	}
}

// Decide records the order.
func (a Order) Decide(v View) (Change, error) {
	o := a.ordered()
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

// Band returns the check-in band a call falls in: fine, borderline or
// emergency; empty when no saturation was taken with a flow. At a shared edge
// the more careful band holds; feeling worse overrides the numbers.
func (b Bands) Band(c Called) string {
	switch {
	case c.Worse:
		return "emergency"
	case c.SpO2 == nil || c.Flow == nil:
		return ""
	case *c.SpO2 < b.Target || *c.Flow >= b.Emergency:
		return "emergency"
	case *c.Flow >= b.Borderline:
		return "borderline"
	}
	return "fine"
}

// Decide records the call, and the gauge that was told for the cylinder in
// use.
func (a Call) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if err := a.may(); err != nil {
		return Change{}, err
	}
	heard := Called{Answered: a.Answered, SpO2: a.SpO2, Flow: a.Flow, Worse: a.Worse, Saving: a.Saving}
	heard.Band = p.Bands.Band(heard)
	var c Change
	c.person(a.Person, &heard)
	if a.Gauge != nil {
		i := inUse(care)
		if i < 0 {
			return Change{}, refusal.New(refusal.Conflict, "This person has no cylinder of ours.", "Ask for the label of the cylinder.")
		}
		item, err := v.Item(care.Kit[i].Item)
		if err != nil {
			return Change{}, err
		}
		if err := plausible(v, item, a.Gauge); err != nil {
			return Change{}, err
		}
		c.observed(item.ID, a.Person, inventory.Observed{Gauge: a.Gauge, Told: true})
	}
	c.Says = p.Heard(heard) + care.unlikeOrdered(heard)
	return c, nil
}

// may refuses a call that contradicts itself.
func (a Call) may() error {
	told := a.SpO2 != nil || a.Flow != nil || a.Gauge != nil || a.Worse || a.Saving
	switch {
	case told && !a.Answered:
		return refusal.New(refusal.Ask, "A call that nobody answered can't have told anything.", "Say that it was answered, or leave the readings out.")
	case a.SpO2 != nil && a.Flow == nil:
		return refusal.New(refusal.Ask, "A saturation without the flow it was taken on says nothing.", "Ask for the flow that is set now.")
	case a.SpO2 != nil && !(*a.SpO2 >= 0 && *a.SpO2 <= 100):
		return refusal.New(refusal.Invalid, fmt.Sprintf("A saturation of %g %% is not possible.", *a.SpO2), "Ask for the reading again.")
	}
	return nil
}

// unlikeOrdered says what the clinician must hear of a flow in use that is not
// as ordered.
func (c Care) unlikeOrdered(heard Called) string {
	switch {
	case heard.Flow == nil:
	case c.Order == nil:
		return fmt.Sprintf(" %s in use and no order in the book: tell the clinician now.", *heard.Flow)
	case *heard.Flow > c.Order.Highest():
		return fmt.Sprintf(" %s in use, %s ordered: tell the prescriber; gas is counted at %s.", *heard.Flow, c.Order.Highest(), *heard.Flow)
	case heard.Saving:
		return fmt.Sprintf(" Turned down to %s to save gas: tell the clinician.", *heard.Flow)
	}
	return ""
}

// inUse returns the index of the cylinder breathed from first, or -1.
func inUse(care Care) int {
	for i, h := range care.Kit {
		if h.Spec.Kind == inventory.Cylinder {
			return i
		}
	}
	return -1
}

// Heard says what was heard on a call means, by the programme's bands.
func (p Programme) Heard(c Called) string {
	switch {
	case !c.Answered:
		return "No answer is recorded."
	case c.Band == "emergency":
		return "Emergency band: send to the emergency department now, number " + p.Emergency + ". A clinician decides."
	case c.Band == "borderline":
		return "Borderline band: tell the clinician today."
	}
	return "The call is recorded."
}

// Decide stops the oxygen.
func (a StopOxygen) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	switch {
	case strings.TrimSpace(a.OrderedBy) == "":
		return Change{}, refusal.New(refusal.Invalid, "A stop names the clinician who ordered it.", "Ask who ordered it; the programme never stops oxygen by itself.")
	case care.Phase == Over:
		return Change{}, refusal.New(refusal.Conflict, "Oxygen was stopped already.", "Look at the person's page for when and by whom.")
	case !care.Watched():
		return Change{}, refusal.New(refusal.Conflict, "This person has no oxygen of ours.", "Discharge them first.")
	}
	var c Change
	c.person(a.Person, &Stopped{Reason: a.Reason, OrderedBy: a.OrderedBy})
	for _, h := range care.Kit {
		c.about(h.Item, a.Person, &inventory.Serving{As: inventory.NotNeeded})
	}
	for _, t := range care.Tasks {
		if t.Tasked.Task != Collect {
			c.person(a.Person, &Done{Task: t.ID})
		}
	}
	reserved, err := v.Reserved(a.Person)
	if err != nil {
		return Change{}, err
	}
	for _, item := range reserved {
		c.about(item.ID, "", &inventory.Freed{})
	}
	if len(care.Kit) > 0 && !care.Has(Collect) {
		c.person(a.Person, &Tasked{Task: Collect, Why: "oxygen stopped: " + a.Reason})
	}
	c.Says = "Stopped. Nothing of ours is there."
	if len(care.Kit) > 0 {
		c.Says = fmt.Sprintf("Stopped. %s count as not needed; a collection is open.", count(len(care.Kit), "item"))
	}
	return c, nil
}

// Decide opens the task.
func (a Ask) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	switch {
	case a.Task != Deliver && a.Task != Swap && a.Task != Collect:
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%q is no task.", a.Task), "Say deliver, swap or collect.")
	case care.Phase == Over && a.Task != Collect:
		return Change{}, refusal.New(refusal.Conflict, "Oxygen was stopped: there is nothing to bring.", "Discharge them again if they are back on oxygen.")
	case endsBeforeItBegins(a.From, a.Until):
		return Change{}, refusal.New(refusal.Invalid, "The window of the visit ends before it begins.", "Check the two times.")
	}
	var c Change
	c.person(a.Person, &Tasked{Task: a.Task, Why: a.Why, From: a.From, Until: a.Until, Bring: a.Bring})
	c.Says = fmt.Sprintf("A task to %s is open.", a.Task)
	return c, nil
}

// Decide records the outage for the area.
func (a Outage) Decide(View) (Change, error) {
	if endsBeforeItBegins(a.From, a.Until) {
		return Change{}, refusal.New(refusal.Invalid, "The outage ends before it begins.", "Check the two times.")
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &PowerCut{Area: a.Area, From: a.From, Until: a.Until, Cause: a.Cause}}},
		Says:  fmt.Sprintf("Power out in %s from %s.", a.Area, a.From.Format("Mon 15:04")),
	}, nil
}

func endsBeforeItBegins(from, until time.Time) bool {
	return !from.IsZero() && !until.IsZero() && !until.After(from)
}

// Decide puts the settings in force.
func (a Settings) Decide(View) (Change, error) {
	if err := a.Programme.Check(); err != nil {
		return Change{}, err
	}
	return Change{
		Facts: []inventory.Fact{{Statement: &Decided{Programme: a.Programme}}},
		Says:  "The settings are in force.",
	}, nil
}
