package delivery

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Stocktake is a blind count of one place: what was scanned there, without
// having been shown what should be there. Nothing is moved by it; each
// difference has an owner and a next step.
type Stocktake struct {
	Place   inventory.Place    `act:"place" help:"depot:NAME, ward:NAME or vehicle:NAME"`
	Zone    inventory.Zone     `act:"zone,optional" help:"of a depot: dirty bay, bench, hold shelf or clean shelf; left out: all of it"`
	Seen    []inventory.ItemID `act:"seen,optional" help:"scanned there: tags or serials, comma between"`
	Unknown []string           `act:"unknown,optional" help:"serials the book does not know, comma between"`
	Owner   string             `act:"owner" help:"who settles the differences"`
}

// Decide holds the count against the book.
func (a Stocktake) Decide(v View) (Change, error) {
	switch a.Place.Kind() {
	case inventory.AtDepot, inventory.AtWard, inventory.AtVehicle:
	default:
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%s can't be counted.", a.Place.InWords()), "Count a depot, a ward or a vehicle.")
	}
	if err := knownPlace(v, a.Place); err != nil {
		return Change{}, err
	}
	if a.Zone != "" && (a.Place.Kind() != inventory.AtDepot || !slices.Contains(inventory.Zones(), a.Zone)) {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%s has no %q.", capital(a.Place.InWords()), a.Zone), "A depot has a dirty bay, a bench, a hold shelf and a clean shelf.")
	}
	if err := twice(v, a.Seen); err != nil {
		return Change{}, err
	}
	here, err := v.AtPlace(a.Place)
	if err != nil {
		return Change{}, err
	}
	here = slices.DeleteFunc(here, func(i inventory.Item) bool { return !a.meant(i) })
	var c Change
	taken := &inventory.Stocktaken{Place: a.Place, Zone: a.Zone, Seen: len(a.Seen) + len(a.Unknown), Expected: len(here), Owner: a.Owner}
	differs := func(sort string, item inventory.Item, says, next string) {
		taken.Different = append(taken.Different, inventory.Exception{Sort: sort, Item: item.ID, Serial: item.Spec.Serial, Says: says, Next: next})
	}
	for _, id := range a.Seen {
		item, err := v.Item(id)
		if err != nil {
			return Change{}, err
		}
		c.item(id, &inventory.Sighted{At: a.Place})
		switch {
		case item.Place != a.Place:
			differs(inventory.Elsewhere, item, item.Label()+" is here, the book has it "+whereabouts(item), elsewhere(item))
		case !a.meant(item) && !settledIn(a.Zone, item):
			differs(inventory.OtherZone, item, fmt.Sprintf("%s is %s, the book has it %s", item.Label(), a.Zone.InWords(), item.State), a.putRight(item))
		}
	}
	for _, item := range here {
		if !slices.Contains(a.Seen, item.ID) {
			next := "Look once more; then mark it missing."
			if a.Zone != "" {
				next = "Look in the other zones too; then mark it missing."
			}
			differs(inventory.NotFound, item, item.Label()+" was not found", next)
		}
	}
	for _, serial := range a.Unknown {
		differs(inventory.Stranger, inventory.Item{Spec: inventory.Spec{Serial: serial}}, serial+" is not in the book", "Book it as a stray, with its owner if it is marked.")
	}
	c.Facts = append(c.Facts, inventory.Fact{Statement: taken})
	c.Says = counted(*taken)
	return c, nil
}

// Where names what is counted.
func (a Stocktake) Where() string { return inventory.Stocktaken{Place: a.Place, Zone: a.Zone}.Where() }

// meant reports whether an item of the place is looked for in the count.
func (a Stocktake) meant(item inventory.Item) bool {
	return a.Zone == "" || item.State.Zone() == a.Zone
}

// settledIn reports whether nothing is open about an item in a zone: it belongs
// there, or it is held back anyhow and not among what is lent.
func settledIn(zone inventory.Zone, item inventory.Item) bool {
	at := item.State.Zone()
	return at == zone || zone != inventory.CleanShelf && at == inventory.HoldShelf
}

// putRight is the next step for what stands in another zone than its own.
func (a Stocktake) putRight(item inventory.Item) string {
	switch {
	case a.Zone == inventory.CleanShelf:
		return "Take it off the shelf: nothing is lent before it passed the bench."
	case item.State.Zone() == inventory.CleanShelf:
		return "Keep it from being lent until it went over the bench again."
	case a.Zone == inventory.TestBench:
		return "Put it on the bench in the book too."
	}
	return "Carry it to the " + string(item.State.Zone()) + "."
}

// whereabouts says how the book has an item, and where.
func whereabouts(item inventory.Item) string {
	if item.State == inventory.Missing || item.State == inventory.Gone {
		return string(item.State)
	}
	return string(item.State) + " at " + item.Place.InWords()
}

// elsewhere is the next step for what stands where the book does not have it.
func elsewhere(item inventory.Item) string {
	if item.State == inventory.Gone {
		return "Keep it apart; take its retirement back on its page if that is wrong."
	}
	if comesBack(item) {
		return "Return it, with its reading."
	}
	return "Move it here in the book."
}

// comesBack reports whether an item is booked in as a return, with a reading.
func comesBack(item inventory.Item) bool {
	return item.Lent() || item.State == inventory.WithDriver || item.State == inventory.Missing
}

// counted says what a count came to, each difference with its next step.
func counted(s inventory.Stocktaken) string {
	by := make(map[string]int)
	for _, e := range s.Different {
		by[e.Sort]++
	}
	says := fmt.Sprintf("%s counted: %d seen, the book has %d; %d not found, %d the book has elsewhere, %d unknown",
		capital(s.Where()), s.Seen, s.Expected, by[inventory.NotFound], by[inventory.Elsewhere], by[inventory.Stranger])
	if n := by[inventory.OtherZone]; n > 0 {
		says += fmt.Sprintf(", %d of another zone", n)
	}
	says += "."
	if len(s.Different) == 0 {
		return says + " It fits."
	}
	lines := []string{says + " " + s.Owner + " settles:"}
	for _, e := range s.Different {
		lines = append(lines, "  "+capital(e.Says)+". "+e.Next)
	}
	return strings.Join(lines, "\n")
}

// CountDifference is one of a count, and whether the book has followed it since.
type CountDifference struct {
	inventory.Exception
	Thing   inventory.Item // as it stands now; of a stranger nothing
	Settled bool
}

// CountDifferences returns those of a count as they stand now.
func CountDifferences(v View, s inventory.Stocktaken) ([]CountDifference, error) {
	list := make([]CountDifference, len(s.Different))
	for i, e := range s.Different {
		list[i] = CountDifference{Exception: e}
		if e.Sort == inventory.Stranger {
			known, err := v.Serial(e.Serial)
			if err != nil {
				return nil, err
			}
			list[i].Settled = len(known) > 0
			continue
		}
		item, err := v.Item(e.Item)
		if err != nil {
			return nil, err
		}
		list[i].Thing = item
		switch e.Sort {
		case inventory.Elsewhere:
			list[i].Settled = item.Place == s.Place
		case inventory.OtherZone:
			list[i].Settled = item.Place != s.Place || settledIn(s.Zone, item)
		default:
			list[i].Settled = item.Place != s.Place || s.Zone != "" && item.State.Zone() != s.Zone
		}
	}
	return list, nil
}

// Step returns the act that settles a difference, and false where more must be
// asked first: of a retired thing on its page, of others on their return; and
// where a thing is only to be carried to its zone.
func (d CountDifference) Step(counted inventory.Stocktaken) (Act, bool) {
	switch {
	case d.Sort == inventory.OtherZone && d.Thing.State.Zone() == inventory.CleanShelf:
		return Quarantine{Item: d.Item, Why: "stood " + counted.Zone.InWords()}, true
	case d.Sort == inventory.OtherZone && counted.Zone == inventory.TestBench && d.Thing.State == inventory.Dirty:
		return Bench{Item: d.Item}, true
	case d.Sort == inventory.NotFound:
		return Move{Item: d.Item, To: inventory.At(inventory.AtMissing, "")}, true
	case d.Sort == inventory.Elsewhere && d.Thing.State != inventory.Gone && !comesBack(d.Thing):
		return Move{Item: d.Item, To: counted.Place}, true
	}
	return nil, false
}
