package delivery

import (
	"fmt"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The acts about one item. Field tags name the fields for people and
// commands; the doc of an act is its Says sentence.
type (
	// Enrol brings an item into the book at a depot.
	Enrol struct {
		Spec    inventory.Spec
		Depot   string `act:"depot" help:"where it is"`
		Gauge   *gas.Pressure
		Hours   *float64
		Lot     string
		Cleared bool // it is clean, tested and ready to lend
	}
	// Refill records a new fill of a cylinder.
	Refill struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Lot   string           `act:"lot" help:"lot on the drug label"`
		Full  gas.Pressure     `act:"gauge" help:"gauge after filling"`
		Plant string           `act:"plant,optional" help:"who filled it"`
		Depot string           `act:"depot" help:"where it is now"`
	}
	// Read records what somebody saw on an item.
	Read struct {
		Item   inventory.ItemID `act:"item" help:"tag or serial"`
		Gauge  *gas.Pressure    `act:"gauge,optional" help:"gauge pressure with unit"`
		Hours  *float64         `act:"hours,optional" help:"hours meter"`
		Oxygen *float64         `act:"oxygen,optional" help:"oxygen, percent"`
		Flow   *gas.Flow        `act:"flow,optional" help:"flow the oxygen was measured at"`
		Told   bool             `act:"told,optional" help:"reported by phone, not read by one of us"`
	}
	// Move puts an item at another place of ours.
	Move struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
		To   inventory.Place  `act:"to" help:"depot:NAME, ward:NAME, vehicle:NAME, plant:NAME, workshop, missing or retired"`
	}
	// Bench starts the work on a returned item.
	Bench struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
	}
	// Test records the outcome of the bench.
	Test struct {
		Item   inventory.ItemID `act:"item" help:"tag or serial"`
		Passed bool             `act:"passed,optional" help:"the item passed"`
		Oxygen *float64         `act:"oxygen,optional" help:"oxygen after warm-up, percent"`
		Detail string           `act:"detail,optional" help:"what was found"`
	}
	// Release makes an item ready to lend again.
	Release struct {
		Item  inventory.ItemID `act:"item" help:"tag or serial"`
		Depot string           `act:"depot" help:"where it is ready"`
	}
	// Quarantine keeps an item from being lent.
	Quarantine struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
		Why  string           `act:"why" help:"the reason"`
	}
	// Recall marks the items a notice names.
	Recall struct {
		Notice string             `act:"notice" help:"number of the recall notice"`
		Items  []inventory.ItemID `act:"items" help:"tags or serials, comma between"`
	}
	// Retract takes a fact back.
	Retract struct {
		Fact inventory.FactID `act:"fact" help:"number of the fact"`
		Why  string           `act:"why" help:"the reason"`
	}
)

// PurityFloor is the oxygen under which a concentrator fails: the alarm level
// of the WHO-UNICEF technical specifications for oxygen therapy devices, 2019.
const PurityFloor = 82

// Decide enrols the item; not cleared, it waits in quarantine.
func (a Enrol) Decide(v View) (Change, error) {
	if err := a.may(v); err != nil {
		return Change{}, err
	}
	id, tag, err := v.NewItem()
	if err != nil {
		return Change{}, err
	}
	item := inventory.Item{ID: id, Tag: tag, Spec: a.Spec}
	if err := observable(v, item, inventory.Observed{Gauge: a.Gauge, Hours: a.Hours}); err != nil {
		return Change{}, err
	}
	var c Change
	c.item(id, &inventory.Enrolled{Tag: tag, Spec: a.Spec})
	c.item(id, &inventory.Moved{To: inventory.At(inventory.AtDepot, a.Depot)})
	if a.Lot != "" {
		c.item(id, &inventory.Filled{Lot: a.Lot})
	}
	c.observed(id, "", inventory.Observed{Gauge: a.Gauge, Hours: a.Hours})
	if a.Cleared && !a.Spec.Foreign {
		c.item(id, &inventory.Cleared{Depot: a.Depot})
	}
	c.Says = fmt.Sprintf("%s %s is in the book.", a.Spec.Kind, item.Label())
	return c, nil
}

// may refuses what is no item, is in the book already, or is nowhere. Two
// makers may have used the same serial, so the model counts too.
func (a Enrol) may(v View) error {
	if !slices.Contains(inventory.Kinds(), a.Spec.Kind) {
		return refusal.New(refusal.Invalid, fmt.Sprintf("%q is no kind of item.", a.Spec.Kind), "Say cylinder, regulator, concentrator or oximeter.")
	}
	if err := knownSize(a.Spec); err != nil {
		return err
	}
	if a.Cleared && a.Spec.Kind == inventory.Cylinder && a.Gauge == nil {
		return refusal.New(refusal.Invalid, fmt.Sprintf("Cylinder %s has no gauge reading.", a.Spec.Serial), "Read the gauge: no cylinder is called ready without one.")
	}
	twins, err := v.Serial(a.Spec.Serial)
	if err != nil {
		return err
	}
	for _, twin := range twins {
		if twin.Spec.Kind == a.Spec.Kind && inventory.SerialKey(twin.Spec.Model) == inventory.SerialKey(a.Spec.Model) {
			return refusal.New(refusal.Conflict,
				fmt.Sprintf("%s %s is in the book already, %s.", a.Spec.Kind, twin.Label(), twin.State),
				"Look at its page; if this is another thing, enter its model.")
		}
	}
	return knownPlace(v, inventory.At(inventory.AtDepot, a.Depot))
}

// Decide records the fill and puts the cylinder on the bench of the depot.
func (a Refill) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if item.Spec.Kind != inventory.Cylinder {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%s is a %s and is not filled.", item.Label(), item.Spec.Kind), "Scan a cylinder.")
	}
	if item.Lent() {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is on loan.", item.Label()), "Record its return first.")
	}
	if item.State == inventory.Gone {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is retired and is not filled.", item.Label()), "Keep it apart; take the retirement back if that is wrong.")
	}
	if err := knownPlace(v, inventory.At(inventory.AtDepot, a.Depot)); err != nil {
		return Change{}, err
	}
	if err := plausible(v, item, &a.Full); err != nil {
		return Change{}, err
	}
	var c Change
	c.item(item.ID, &inventory.Filled{Lot: a.Lot, Full: a.Full, Plant: a.Plant})
	c.observed(item.ID, "", inventory.Observed{Gauge: &a.Full})
	c.item(item.ID, &inventory.Moved{To: inventory.At(inventory.AtDepot, a.Depot)})
	c.Says = fmt.Sprintf("%s is filled to %s, lot %s. Release it to lend it.", item.Label(), a.Full, a.Lot)
	return c, nil
}

// Decide records the reading for the item and for the person who has it.
func (a Read) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	seen := inventory.Observed{Gauge: a.Gauge, Hours: a.Hours, Oxygen: a.Oxygen, Flow: a.Flow, Told: a.Told}
	if err := observable(v, item, seen); err != nil {
		return Change{}, err
	}
	var c Change
	c.observed(item.ID, borrower(item), seen)
	if len(c.Facts) == 0 {
		return c, refusal.New(refusal.Invalid, "There is no value in the reading.", "Give a gauge, hours or oxygen.")
	}
	c.Says = fmt.Sprintf("The reading of %s is in the book.", item.Label())
	return c, nil
}

// borrower returns who has an item on loan, not for whom it is reserved.
func borrower(i inventory.Item) inventory.PersonID {
	if i.Lent() {
		return i.Person
	}
	return ""
}

// Decide moves the item. What is on loan can't be moved, it is collected; what
// a driver brings is returned, so that its gauge is read.
func (a Move) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	lost := a.To.Kind() == inventory.AtMissing || a.To.Kind() == inventory.AtRetired
	if item.Lent() && !lost {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is on loan.", item.Label()), "Collect or return it first.")
	}
	switch kind := a.To.Kind(); {
	case item.State == inventory.WithDriver && (kind == inventory.AtDepot || kind == inventory.AtWard):
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s comes with a driver.", item.Label()), "Book it as a return, with its reading.")
	case item.State == inventory.Gone && kind != inventory.AtRetired:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is retired.", item.Label()), "Take the retirement back on its page if that is wrong.")
	}
	if err := knownPlace(v, a.To); err != nil {
		return Change{}, err
	}
	var c Change
	c.about(item.ID, borrower(item), &inventory.Moved{To: a.To})
	c.Says = fmt.Sprintf("%s is now at %s.", item.Label(), a.To.InWords())
	if item.State == inventory.Held && a.To.Kind() != inventory.AtDepot && a.To.Kind() != inventory.AtVehicle && a.To.Kind() != inventory.AtWard {
		c.Says += " It was set aside for a person: choose another."
	}
	return c, nil
}

func knownPlace(v View, to inventory.Place) error {
	p, err := v.Programme()
	if err != nil {
		return err
	}
	known := false
	switch to.Kind() {
	case inventory.AtMissing, inventory.AtRetired, inventory.AtWorkshop:
		known = true
	case inventory.AtDepot, inventory.AtWard, inventory.AtPlant:
		_, known = p.Site(to.Name())
	case inventory.AtVehicle:
		_, known = p.Vehicle(to.Name())
	}
	if !known {
		return refusal.New(refusal.NotFound, fmt.Sprintf("The programme has no place %q.", to), "Choose a depot, ward, vehicle or plant of the settings.")
	}
	return nil
}

// Decide puts a returned item on the bench.
func (a Bench) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if item.State != inventory.Dirty && item.State != inventory.InQuarantine {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s, not waiting for the bench.", item.Label(), item.State), "Return it first.")
	}
	var c Change
	c.item(item.ID, &inventory.Benched{})
	c.Says = fmt.Sprintf("%s is on the bench.", item.Label())
	return c, nil
}

// Decide records the test. Oxygen under the alarm level fails, whatever was
// ticked.
func (a Test) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if item.State != inventory.OnBench && item.State != inventory.Dirty && item.State != inventory.InQuarantine {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("%s is %s, not on the bench.", item.Label(), item.State), "Put it on the bench first.")
	}
	passed, detail := a.Passed, a.Detail
	if a.Oxygen != nil && *a.Oxygen < PurityFloor {
		passed, detail = false, fmt.Sprintf("oxygen %.1f %%, under %d %%", *a.Oxygen, PurityFloor)
	}
	if err := observable(v, item, inventory.Observed{Oxygen: a.Oxygen}); err != nil {
		return Change{}, err
	}
	var c Change
	c.observed(item.ID, "", inventory.Observed{Oxygen: a.Oxygen})
	c.item(item.ID, &inventory.Tested{Passed: passed, Detail: detail})
	c.Says = fmt.Sprintf("%s passed.", item.Label())
	if !passed {
		c.Says = fmt.Sprintf("%s failed and is in quarantine: %s.", item.Label(), detail)
	}
	return c, nil
}

// Decide releases the item.
func (a Release) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if err := releasable(item); err != nil {
		return Change{}, err
	}
	if err := knownPlace(v, inventory.At(inventory.AtDepot, a.Depot)); err != nil {
		return Change{}, err
	}
	var c Change
	c.item(item.ID, &inventory.Cleared{Depot: a.Depot})
	c.Says = fmt.Sprintf("%s is ready to lend.", item.Label())
	return c, nil
}

// releasable refuses what the bench can't make ready. A cylinder needs a
// reading, a concentrator that was lent a test; what failed or is named by a
// recall is never released.
func releasable(item inventory.Item) error {
	no := func(kind refusal.Kind, says, next string) error {
		return refusal.New(kind, item.Label()+" "+says+".", next)
	}
	back := item.State == inventory.Dirty || item.State == inventory.OnBench
	switch {
	case item.Lent():
		return no(refusal.Conflict, "is on loan", "Record its return first.")
	case item.Spec.Foreign:
		return no(refusal.Foreign, "belongs to "+item.Spec.Owner, "Tell the owner to fetch it.")
	case item.Spec.Kind == "":
		return no(refusal.Unready, "is not known to the book", "Find out what it is and whose, then enrol it.")
	case item.Recall != "":
		return no(refusal.Unready, "is named by recall "+item.Recall, "Keep it in quarantine for the maker.")
	case !back && item.State != inventory.InQuarantine:
		return no(refusal.Conflict, "is "+string(item.State)+", not on the bench", "Bring it to the bench first.")
	case item.Failed():
		return no(refusal.Unready, item.Why, "Mend it and test it again first.")
	case item.Spec.Kind == inventory.Concentrator && back && item.Last != "" && item.Passed.IsZero():
		return no(refusal.Unready, "was not tested since it came back", "Test its oxygen first.")
	case item.Spec.Kind == inventory.Cylinder && item.Gauge == nil:
		return no(refusal.Unready, "has no gauge reading", "Read the gauge: no cylinder is called full or empty without one.")
	}
	return nil
}

// Decide quarantines the item. In a home it is marked, and a swap opened to
// fetch it.
func (a Quarantine) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.about(item.ID, borrower(item), &inventory.Quarantined{Why: a.Why})
	c.Says = fmt.Sprintf("%s is kept from being lent: %s.", item.Label(), a.Why)
	if who := borrower(item); who != "" && item.State != inventory.Idle {
		c.person(who, exchange(item, a.Why))
		c.Says += " A swap is open for the person who has it."
	}
	if item.State == inventory.Held {
		c.Says += " It was set aside for a person: choose another."
	}
	return c, nil
}

// Decide marks each item, quarantines it, and opens a swap for each person
// who has one.
func (a Recall) Decide(v View) (Change, error) {
	if len(a.Items) == 0 {
		return Change{}, refusal.New(refusal.Invalid, "The recall names no item of ours.", "Search for what the notice names first.")
	}
	if err := twice(v, a.Items); err != nil {
		return Change{}, err
	}
	var c Change
	homes, held := 0, 0
	for _, id := range a.Items {
		item, err := v.Item(id)
		if err != nil {
			return Change{}, err
		}
		c.item(id, &inventory.Recalled{Notice: a.Notice})
		c.about(id, borrower(item), &inventory.Quarantined{Why: "recall " + a.Notice})
		if who := borrower(item); who != "" {
			homes++
			c.person(who, exchange(item, "recall "+a.Notice))
		}
		if item.State == inventory.Held {
			held++
		}
	}
	c.Says = fmt.Sprintf("Recall %s: %d items marked, %d of them in homes; a swap is open for each.", a.Notice, len(a.Items), homes)
	if held > 0 {
		c.Says += fmt.Sprintf(" %d were set aside for persons: choose others.", held)
	}
	return c, nil
}

// exchange is the task to bring another thing of the same sort.
func exchange(item inventory.Item, why string) *Tasked {
	return &Tasked{
		Task: Swap, Why: why,
		Bring: []Wanted{{Kind: item.Spec.Kind, Size: item.Spec.Size, Rated: item.Spec.Rated, Count: 1}},
	}
}

// Decide retracts the fact for the same item, person and run it was about.
func (a Retract) Decide(v View) (Change, error) {
	of, stands, err := v.Fact(a.Fact)
	if err != nil {
		return Change{}, err
	}
	if !stands {
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("Fact %d was corrected or taken back already.", a.Fact), "Look at the timeline for what stands now.")
	}
	switch of.Statement.(type) {
	case *inventory.Enrolled, *Registered:
		return Change{}, refusal.New(refusal.Conflict, fmt.Sprintf("Fact %d brought this into the book and can't be taken back.", a.Fact), "Correct what is wrong in it; retire a thing that is not there.")
	}
	return Change{
		Facts: []inventory.Fact{{
			Happened:  of.Happened,
			Corrects:  a.Fact,
			Item:      of.Item,
			Person:    of.Person,
			Run:       of.Run,
			Statement: &inventory.Retracted{Why: a.Why},
		}},
		Says: fmt.Sprintf("Fact %d is taken back: %s.", a.Fact, a.Why),
	}, nil
}
