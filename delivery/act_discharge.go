package delivery

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// Piece is one item handed to a person.
type Piece struct {
	Item   inventory.ItemID
	Gauge  *gas.Pressure // cylinders: read at hand-over
	Hours  *float64
	Weight *gas.Kilograms // liquid vessels
	With   []string       // small parts that go along; nil: nobody looked
}

// Discharge hands a kit over on the ward and starts the bridge: order, loans,
// readings, supplies and the delivery task, in one act.
type Discharge struct {
	Person   inventory.PersonID
	Ward     string
	Opened   time.Time // the valve; zero: at the act
	Leaves   time.Time
	HandOver []Piece            // goes along with the person
	Bring    []inventory.ItemID // is brought to the home and started there
	Supplies []inventory.Handful
	// SuppliesFrom is where they were taken; empty: from the ward's store where
	// the book has any there, else from the first depot.
	SuppliesFrom inventory.Place
	Consents     map[string]bool
	From         time.Time // window of the delivery
	Until        time.Time
	// Arrives is when the delivery is promised; the bridge is judged by it.
	Arrives time.Time
	// What somebody knows better for this way home; nil: as the roads and the
	// programme say.
	Ride, SetUp, WarmUp *time.Duration
}

func (d Discharge) opened(v View) time.Time {
	if d.Opened.IsZero() {
		return v.At()
	}
	return d.Opened
}

// Decide refuses what would leave the person without oxygen or break custody,
// and otherwise hands over.
func (d Discharge) Decide(v View) (Change, error) {
	care, err := v.Care(d.Person)
	if err != nil {
		return Change{}, err
	}
	if err := d.may(v, care); err != nil {
		return Change{}, err
	}
	if err := d.mains(v, care); err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	bridge, err := d.bridge(v)
	if err != nil {
		return Change{}, err
	}
	answer, err := bridge.Answer(p)
	if err != nil {
		return Change{}, err
	}
	var c Change
	for to, given := range sortedConsents(d.Consents) {
		c.person(d.Person, &Consented{To: to, Given: given})
	}
	from, short, err := d.supplied(v)
	if err != nil {
		return Change{}, err
	}
	c.person(d.Person, &Discharged{
		Ward: d.Ward, Opened: bridge.Opens, Leaves: bridge.Leaves,
		Supplies: d.Supplies, From: from, Verdict: string(answer.Verdict),
	})
	d.homeAgain(&c, care)
	var handed []inventory.Item
	for _, piece := range d.HandOver {
		item, err := d.lend(v, &c, care, piece)
		if err != nil {
			return Change{}, err
		}
		short += p.goesWithout(item, piece.With)
		handed = append(handed, item)
	}
	short += misfits(handed)
	wanted, err := d.reserve(v, &c, care)
	if err != nil {
		return Change{}, err
	}
	if err := care.withoutBands(p); err != nil {
		return Change{}, err
	}
	if len(wanted) > 0 {
		c.person(d.Person, &Tasked{Task: Deliver, Why: "discharged", From: d.From, Until: d.Until, Bring: wanted})
	}
	c.Says = fmt.Sprintf("Handed over. Bridge %s: %s.", answer.Verdict, answer.Title) + short
	return c, nil
}

// may holds the gate: order, address, times, something to breathe from.
func (d Discharge) may(v View, care Care) error {
	if care.Order == nil {
		return refusal.New(refusal.Invalid, "There is no order.", "Enter the order first: nobody leaves on oxygen without one.")
	}
	if err := care.Order.Check(); err != nil {
		return err
	}
	if care.Phase == Joined {
		return refusal.New(refusal.Conflict, "This person is kept under another record.", "Hand over under the record that is kept.")
	}
	if care.Watched() {
		return refusal.New(refusal.Conflict, "This person is on oxygen at home already.", "Open the person's page; add to the kit by a task.")
	}
	switch {
	case care.Address == "":
		return refusal.New(refusal.Invalid, "There is no address where they sleep tonight.", "Ask for it, and enter it.")
	case d.backwards():
		return refusal.New(refusal.Invalid, "A ride, a set-up or a warm-up under zero can't be.", "Write how long it takes.")
	case endsBeforeItBegins(d.From, d.Until):
		return refusal.New(refusal.Invalid, "The window of the delivery ends before it begins.", "Check the two times.")
	case len(d.pieces()) == 0:
		return refusal.New(refusal.Invalid, "Nothing is handed over and nothing is brought.", "Scan what goes along.")
	}
	if err := twice(v, d.pieces()); err != nil {
		return err
	}
	if err := oneKit(v, d.Person); err != nil {
		return err
	}
	for _, piece := range d.HandOver {
		item, err := v.Item(piece.Item)
		if err != nil {
			return err
		}
		if err := observable(v, item, inventory.Observed{Gauge: piece.Gauge, Hours: piece.Hours, Weight: piece.Weight}); err != nil {
			return err
		}
	}
	return nil
}

// oneKit refuses a second kit for somebody who may have one under another
// record.
func oneKit(v View, person inventory.PersonID) error {
	others, err := v.Twins(person)
	if err != nil {
		return err
	}
	for _, other := range others {
		care, err := v.Care(other.ID)
		if err != nil {
			return err
		}
		if care.Watched() || len(care.Kit) > 0 {
			return refusal.New(refusal.Ask,
				fmt.Sprintf("%s may be the same person, under record %s, and has a kit.", other.Short(), cmp.Or(other.Record, string(other.ID))),
				"Settle the question whether the two records are one person, then hand over.")
		}
	}
	return nil
}

// backwards reports whether a part of the way home takes less than no time.
func (d Discharge) backwards() bool {
	for _, part := range []*time.Duration{d.Ride, d.SetUp, d.WarmUp} {
		if part != nil && *part < 0 {
			return true
		}
	}
	return false
}

// pieces returns everything the discharge names.
func (d Discharge) pieces() []inventory.ItemID {
	all := slices.Clone(d.Bring)
	for _, piece := range d.HandOver {
		all = append(all, piece.Item)
	}
	return all
}

// homeAgain ends a hold: what waited at home is used again.
func (d Discharge) homeAgain(c *Change, care Care) {
	if care.Phase != InHospital {
		return
	}
	for _, h := range care.Kit {
		as := inventory.InUse
		if h.Spec.Kind == inventory.Cylinder {
			as = inventory.Backup
		}
		c.about(h.Item, d.Person, &inventory.Serving{As: as})
	}
	for _, t := range care.Tasks {
		c.person(d.Person, &Done{Task: t.ID})
	}
}

func (d Discharge) lend(v View, c *Change, care Care, piece Piece) (inventory.Item, error) {
	item, err := v.Item(piece.Item)
	if err != nil {
		return item, err
	}
	if err := Lendable(v, item, d.Person, care.Order); err != nil {
		return item, err
	}
	if item.Spec.Kind == inventory.Cylinder && piece.Gauge == nil {
		return item, refusal.New(refusal.Invalid, fmt.Sprintf("Cylinder %s has no gauge reading at hand-over.", item.Label()), "Read the gauge with the nurse.")
	}
	if item.Spec.Kind == inventory.Vessel && piece.Weight == nil && item.Weight == nil {
		return item, refusal.New(refusal.Invalid, fmt.Sprintf("Liquid vessel %s was never weighed.", item.Label()), "Weigh it before it leaves.")
	}
	p, err := v.Programme()
	if err != nil {
		return item, err
	}
	role := inventory.InUse
	if item.Spec.Kind == inventory.Cylinder {
		role = inventory.Bridging
	}
	c.about(item.ID, d.Person, &inventory.Lent{
		Spec: item.Spec, Role: role, At: inventory.At(inventory.AtAddress, string(care.Address)), With: p.partsAmong(item.Spec.Kind, piece.With),
	})
	c.observed(item.ID, d.Person, inventory.Observed{Gauge: piece.Gauge, Hours: piece.Hours, Weight: piece.Weight})
	return item, nil
}

// reserve sets aside what is brought to the home.
func (d Discharge) reserve(v View, c *Change, care Care) ([]Wanted, error) {
	var wanted []Wanted
	for _, id := range d.Bring {
		item, err := v.Item(id)
		if err != nil {
			return nil, err
		}
		if err := Lendable(v, item, d.Person, care.Order); err != nil {
			return nil, err
		}
		if item.State != inventory.Held {
			c.about(id, d.Person, &inventory.Reserved{})
		}
		wanted = append(wanted, Wanted{Kind: item.Spec.Kind, Size: item.Spec.Size, Rated: item.Spec.Rated, Count: 1})
	}
	return wanted, nil
}
