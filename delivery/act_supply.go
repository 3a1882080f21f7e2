package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// The acts on counted supplies: cannulas, tubing, connectors, washers.
type (
	// ReceiveSupply takes one lot of a supply in.
	ReceiveSupply struct {
		Supply  string          `act:"supply" help:"what it is: cannula, extension tubing, swivel connector"`
		Count   int             `act:"count" help:"how many"`
		Lot     string          `act:"lot" help:"lot on the bag; write 'none' where there is none"`
		To      inventory.Place `act:"to" help:"depot:NAME or ward:NAME"`
		From    string          `act:"from,optional" help:"who supplied it"`
		Expires string          `act:"expires,optional" help:"day on the bag, as 2031-01-31"`
	}
	// CountSupply counts one supply at one place, lot by lot.
	CountSupply struct {
		Supply string          `act:"supply" help:"what was counted"`
		At     inventory.Place `act:"at-place" help:"depot:NAME or ward:NAME"`
		Lots   string          `act:"lots" help:"all that is there, as '18 lot C77, 20 lot D01'; 'none' for nothing"`
	}
	// MoveSupply takes supplies to another place of ours, or throws them away.
	MoveSupply struct {
		Supply string          `act:"supply" help:"what it is"`
		Count  int             `act:"count" help:"how many"`
		Lot    string          `act:"lot,optional" help:"lot on the bag"`
		From   inventory.Place `act:"from" help:"depot:NAME or ward:NAME"`
		To     inventory.Place `act:"to" help:"depot:NAME, ward:NAME, or retired for what is thrown away"`
		Why    string          `act:"why,optional" help:"the reason"`
	}
	// GiveSupply gives a person supplies beside a kit.
	GiveSupply struct {
		Person   inventory.PersonID `act:"person" help:"record number, name or id"`
		Supplies string             `act:"supplies" help:"as '2 cannula lot C77, 1 extension tubing'"`
		From     inventory.Place    `act:"from" help:"depot:NAME or ward:NAME"`
	}
	// RecallSupply marks a lot of a supply as named by a recall: it is given to
	// nobody any more.
	RecallSupply struct {
		Notice string `act:"notice" help:"number or name of the notice"`
		Supply string `act:"supply" help:"what it is"`
		Lot    string `act:"lot" help:"lot on the bag"`
	}
)

// noLot is what is written for a bag that carries no lot.
const noLot = "none"

// Decide takes the lot in.
func (a ReceiveSupply) Decide(v View) (Change, error) {
	h, err := handful(a.Supply, a.Count, a.Lot)
	if err != nil {
		return Change{}, err
	}
	if _, err := time.Parse(time.DateOnly, a.Expires); a.Expires != "" && err != nil {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%q is no day.", a.Expires), "Write it as 2031-01-31.")
	}
	if err := storeroom(v, a.To); err != nil {
		return Change{}, err
	}
	c := programmeFact(&inventory.Supplied{Handful: h, To: a.To, From: a.From, Expires: a.Expires})
	c.Says = fmt.Sprintf("%s received at %s.", handfuls([]inventory.Handful{h}), a.To.InWords())
	return c, nil
}

// Decide sets what is there, and says by how much the book was off.
func (a CountSupply) Decide(v View) (Change, error) {
	lots, err := a.lots()
	if err != nil {
		return Change{}, err
	}
	if err := storeroom(v, a.At); err != nil {
		return Change{}, err
	}
	stock, err := v.Supplies()
	if err != nil {
		return Change{}, err
	}
	seen, had := 0, 0
	for _, h := range lots {
		seen += h.Count
	}
	for _, s := range stock {
		if s.At == a.At && inventory.SupplyKey(s.Supply) == inventory.SupplyKey(a.Supply) {
			had += s.Count
		}
	}
	c := programmeFact(&inventory.SupplyCounted{Supply: strings.TrimSpace(a.Supply), At: a.At, Lots: lots})
	c.Says = fmt.Sprintf("%d %s counted at %s; the book had %d.", seen, a.Supply, a.At.InWords(), had)
	return c, nil
}

// lots reads what was counted.
func (a CountSupply) lots() ([]inventory.Handful, error) {
	if strings.TrimSpace(a.Supply) == "" {
		return nil, refusal.New(refusal.Invalid, "A count is of one supply.", "Say what was counted.")
	}
	if strings.EqualFold(strings.TrimSpace(a.Lots), noLot) {
		return nil, nil
	}
	var lots []inventory.Handful
	for part := range strings.SplitSeq(a.Lots, ",") {
		h, err := readHandful(strings.Replace(strings.TrimSpace(part), " ", " "+a.Supply+" ", 1), a.Supply)
		if err != nil {
			return nil, err
		}
		lots = append(lots, h)
	}
	return lots, nil
}

// Decide moves the supplies.
func (a MoveSupply) Decide(v View) (Change, error) {
	h, err := handful(a.Supply, a.Count, a.Lot)
	if err != nil {
		return Change{}, err
	}
	if err := storeroom(v, a.From); err != nil {
		return Change{}, err
	}
	away := a.To.Kind() == inventory.AtRetired
	if err := storeroom(v, a.To); err != nil && !away {
		return Change{}, err
	}
	if a.From == a.To {
		return Change{}, refusal.New(refusal.Invalid, "They are there already.", "Choose another place.")
	}
	left, err := stillThere(v, []inventory.Handful{h}, a.From)
	if err != nil {
		return Change{}, err
	}
	c := programmeFact(&inventory.SupplyMoved{Handful: h, From: a.From, To: a.To, Why: a.Why})
	c.Says = fmt.Sprintf("%s moved to %s.%s", handfuls([]inventory.Handful{h}), a.To.InWords(), left)
	if away {
		c.Says = fmt.Sprintf("%s thrown away.%s", handfuls([]inventory.Handful{h}), left)
	}
	return c, nil
}

// Decide gives the supplies.
func (a GiveSupply) Decide(v View) (Change, error) {
	of, err := ReadSupplies(a.Supplies)
	if err != nil {
		return Change{}, err
	}
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	if care.Phase == Over {
		return Change{}, refusal.New(refusal.Conflict, "Oxygen was stopped: there is nothing to bring.", "Discharge them again if they are back on oxygen.")
	}
	if err := storeroom(v, a.From); err != nil {
		return Change{}, err
	}
	left, err := mayBeGiven(v, of, a.From)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.person(a.Person, &inventory.Given{Of: of, From: a.From})
	c.Says = fmt.Sprintf("Given: %s.%s", handfuls(of), left)
	return c, nil
}

// Decide marks the lot, and says where it still lies and who has it.
func (a RecallSupply) Decide(v View) (Change, error) {
	if strings.TrimSpace(a.Supply) == "" || inventory.SerialKey(a.Lot) == "" || strings.TrimSpace(a.Notice) == "" {
		return Change{}, refusal.New(refusal.Invalid, "A recall of a supply names the notice, the supply and its lot.", "Read the notice again.")
	}
	stock, err := v.Supplies()
	if err != nil {
		return Change{}, err
	}
	there := 0
	for _, s := range stock {
		if inventory.SupplyKey(s.Supply) == inventory.SupplyKey(a.Supply) && inventory.SerialKey(s.Lot) == inventory.SerialKey(a.Lot) {
			there += s.Count
		}
	}
	c := programmeFact(&inventory.SupplyRecalled{Supply: strings.TrimSpace(a.Supply), Lot: strings.TrimSpace(a.Lot), Notice: a.Notice})
	c.Says = fmt.Sprintf("Recall %s: lot %s of %s is given to nobody any more; %d still with us. The recall by this lot names who was given it.", a.Notice, a.Lot, a.Supply, there)
	return c, nil
}

// programmeFact is a change of one fact about the whole programme.
func programmeFact(s inventory.Statement) Change {
	return Change{Facts: []inventory.Fact{{Statement: s}}}
}

// storeroom refuses a place where no supplies are kept.
func storeroom(v View, at inventory.Place) error {
	if at.Kind() != inventory.AtDepot && at.Kind() != inventory.AtWard {
		return refusal.New(refusal.Invalid, fmt.Sprintf("Supplies are kept at a depot or a ward, not at %q.", at), "Choose depot or ward.")
	}
	return knownPlace(v, at)
}

// mayBeGiven refuses a lot that is recalled or expired, and says where the book
// has fewer than are given.
func mayBeGiven(v View, of []inventory.Handful, from inventory.Place) (string, error) {
	if len(of) == 0 {
		return "", nil
	}
	stock, err := v.Supplies()
	if err != nil {
		return "", err
	}
	for _, h := range of {
		for _, s := range stock {
			if !sameLot(s, h) || s.Usable(v.At()) {
				continue
			}
			why := "expired " + s.Expires
			if s.Recall != "" {
				why = "is named by recall " + s.Recall
			}
			return "", refusal.New(refusal.Unready, fmt.Sprintf("Lot %s of %s %s.", h.Lot, h.Supply, why), "Keep it apart and give another lot.")
		}
	}
	return stillThere(v, of, from)
}

// stillThere says where the book has fewer than are taken.
func stillThere(v View, of []inventory.Handful, from inventory.Place) (string, error) {
	stock, err := v.Supplies()
	if err != nil || from == "" {
		return "", err
	}
	said := ""
	for _, h := range of {
		had := 0
		for _, s := range stock {
			if s.At == from && (h.Lot == "" && inventory.SupplyKey(s.Supply) == inventory.SupplyKey(h.Supply) || sameLot(s, h)) {
				had += s.Count
			}
		}
		if had < h.Count {
			said += fmt.Sprintf(" The book has %d %s there: count them.", max(0, had), h.Supply)
		}
	}
	return said, nil
}

func sameLot(s inventory.SupplyStock, h inventory.Handful) bool {
	return h.Lot != "" && inventory.SupplyKey(s.Supply) == inventory.SupplyKey(h.Supply) && inventory.SerialKey(s.Lot) == inventory.SerialKey(h.Lot)
}

// supplied returns where the supplies of the kit are taken from, and where the
// book has fewer there than are given.
func (d Discharge) supplied(v View) (from inventory.Place, short string, err error) {
	if from = d.SuppliesFrom; from == "" {
		if from, err = storeFor(v, d.Supplies, d.Ward); err != nil {
			return "", "", err
		}
	}
	short, err = mayBeGiven(v, d.Supplies, from)
	return from, short, err
}

// storeFor returns the place a kit's supplies are taken from: the ward's own
// store where the book has any of them there, else the first depot.
func storeFor(v View, of []inventory.Handful, ward string) (inventory.Place, error) {
	if len(of) == 0 {
		return "", nil
	}
	stock, err := v.Supplies()
	if err != nil || len(stock) == 0 {
		return "", err
	}
	at := inventory.At(inventory.AtWard, ward)
	kept := slices.ContainsFunc(stock, func(s inventory.SupplyStock) bool {
		return s.At == at && slices.ContainsFunc(of, func(h inventory.Handful) bool { return inventory.SupplyKey(h.Supply) == inventory.SupplyKey(s.Supply) })
	})
	p, err := v.Programme()
	switch {
	case err != nil:
		return "", err
	case kept || len(p.Depots) == 0:
		return at, nil
	}
	return inventory.At(inventory.AtDepot, p.Depots[0].Name), nil
}
