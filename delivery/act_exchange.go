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

type (
	// Exchange is one visit of a filling plant: cylinders go out, cylinders
	// come in, both sides sign. What does not fit is signed as an exception
	// with its next step; nothing is replaced by itself.
	Exchange struct {
		Plant, Depot    string
		Slip            string // the plant's own number
		Driver          string // who signs for the plant
		Out             []inventory.ItemID
		In              []Received
		OutMore, InMore []inventory.Counted // on the slip, not scanned
		Later           bool                // what goes out now comes back another day
		Accept          bool                // sign although it does not fit
	}
	// Received is one cylinder that comes in. Of one the book does not know,
	// the serial, whose it is and its size are given.
	Received struct {
		Item   inventory.ItemID
		Serial string
		Owner  string
		Size   gas.SizeCode
		Lot    string
		Made   time.Time     // the day on the label; zero: today
		Gauge  *gas.Pressure // of the sample
		Requal string        // month, 2006-01
	}
	// TellOwner records that the owner of a thing was told what is wrong.
	TellOwner struct {
		Item inventory.ItemID `act:"item" help:"tag or serial"`
		How  string           `act:"how,optional" help:"phone, mail or in person"`
		What string           `act:"what,optional" help:"what they were told"`
	}
)

// exchanging holds an exchange against the book.
type exchanging struct {
	Exchange
	v                   View
	programme           Programme
	lines               exchangeLines
	there               []inventory.Item // at the plant before
	out, in             []inventory.Item // in the book; in keeps the order of In with empty ones for strangers
	exceptions          []inventory.Exception
	backBySerial, asked map[inventory.ItemID]bool
}

// Weigh holds the exchange against what the book knows and writes nothing.
func (a Exchange) Weigh(v View) (ExchangeSlip, error) {
	x, err := a.weigh(v)
	if err != nil {
		return ExchangeSlip{}, err
	}
	return ExchangeSlip{Lines: x.lines.sorted(), Exceptions: x.exceptions}, nil
}

func (a Exchange) weigh(v View) (*exchanging, error) {
	x := &exchanging{Exchange: a, v: v, backBySerial: map[inventory.ItemID]bool{}}
	plant := inventory.At(inventory.AtPlant, a.Plant)
	for _, place := range []inventory.Place{plant, inventory.At(inventory.AtDepot, a.Depot)} {
		if err := knownPlace(v, place); err != nil {
			return nil, err
		}
	}
	var err error
	if x.programme, err = v.Programme(); err != nil {
		return nil, err
	}
	if x.there, err = v.AtPlace(plant); err != nil {
		return nil, err
	}
	x.there = slices.DeleteFunc(x.there, func(i inventory.Item) bool { return i.Spec.Kind != inventory.Cylinder })
	for _, i := range x.there {
		x.lines.of(i.Spec.Owner, i.Spec.Size).Before++
	}
	for _, step := range []func() error{x.goOut, x.comeIn} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	x.settle()
	return x, nil
}

// goOut refuses what must not leave and counts the rest.
func (x *exchanging) goOut() error {
	if err := twice(x.v, x.Out); err != nil {
		return err
	}
	for _, id := range x.Out {
		item, err := x.v.Item(id)
		if err != nil {
			return err
		}
		if err := mayLeave(item); err != nil {
			return err
		}
		x.out = append(x.out, item)
		x.lines.of(item.Spec.Owner, item.Spec.Size).Out++
	}
	for _, c := range x.OutMore {
		x.lines.of(c.Owner, c.Size).Out += c.Count
	}
	return nil
}

// mayLeave refuses what can't go out on an exchange.
func mayLeave(item inventory.Item) error {
	no := func(says, next string) error {
		return refusal.New(refusal.Conflict, item.Label()+" "+says+".", next)
	}
	switch {
	case item.Spec.Kind != inventory.Cylinder:
		return no("is a "+item.Spec.What()+" and is not filled", "Scan a cylinder.")
	case item.Lent():
		return no("is on loan", "Return it first, with its reading.")
	case item.State == inventory.WithDriver:
		return no("comes with a driver", "Book it as a return first, with its reading.")
	case item.Recall != "":
		return no("is named by recall "+item.Recall, "Keep it in quarantine for the maker.")
	case item.Soiled && item.Told.IsZero():
		return no("is soiled and the plant was not told", "Keep it bagged; tell the plant and record that first.")
	case item.State == inventory.Held:
		return no("is reserved for a person", "Choose another for that person first.")
	case item.State == inventory.OutAtPlant || item.State == inventory.Gone:
		return no("is "+string(item.State)+" in the book", "Scan again; record that it came first if it did.")
	}
	return nil
}

// comeIn counts what comes and notes what does not fit.
func (x *exchanging) comeIn() error {
	seen := map[string]bool{}
	for _, r := range x.In {
		if key := cmp.Or(string(r.Item), inventory.SerialKey(r.Serial)); key == "" || seen[key] {
			return refusal.New(refusal.Invalid, fmt.Sprintf("%s came in twice, or without a serial.", cmp.Or(r.Serial, "A cylinder")), "Scan each cylinder once.")
		} else {
			seen[key] = true
		}
		item, err := x.received(r)
		if err != nil {
			return err
		}
		x.in = append(x.in, item)
		x.look(r, item)
	}
	for _, c := range x.InMore {
		line := x.lines.of(c.Owner, c.Size)
		line.In += c.Count
		for range c.Count {
			x.note(inventory.NotScanned, inventory.Item{}, fmt.Sprintf("one %s of %s is counted, not scanned", c.Size, whose(c.Owner)), "Scan it before it is lent: its fill has no lot in the book.")
		}
	}
	return nil
}

// received returns the item that came, empty for a stranger.
func (x *exchanging) received(r Received) (inventory.Item, error) {
	if r.Item == "" {
		twins, err := x.v.Serial(r.Serial)
		if err == nil && len(twins) > 0 {
			err = refusal.New(refusal.Ask, fmt.Sprintf("%s is in the book: %s, %s.", r.Serial, twins[0].Spec.What(), twins[0].State), "Scan our label to choose it.")
		}
		if _, known := gas.LookUp(r.Size); err == nil && !known {
			err = refusal.New(refusal.Invalid, fmt.Sprintf("%s has no known size.", r.Serial), "Say the size of the unknown cylinder, as US-E.")
		}
		item := inventory.Item{Spec: inventory.Spec{Kind: inventory.Cylinder, Serial: r.Serial, Size: r.Size, Owner: r.Owner, Requal: r.Requal}}
		if err == nil {
			err = plausible(x.v, item, r.Gauge)
		}
		return item, err
	}
	item, err := x.v.Item(r.Item)
	if err != nil {
		return item, err
	}
	if slices.Contains(x.Out, r.Item) {
		return item, refusal.New(refusal.Conflict, item.Label()+" goes out and comes in on one exchange.", "Take it off one side.")
	}
	return item, plausible(x.v, item, r.Gauge)
}

// look counts one that came and notes its exceptions.
func (x *exchanging) look(r Received, item inventory.Item) {
	spec := item.Spec
	atPlant := slices.ContainsFunc(x.there, func(i inventory.Item) bool { return i.ID == item.ID })
	switch {
	case item.ID == "" && spec.Owner == "":
		x.note(inventory.Stranger, item, spec.Serial+" is unknown and carries no owner", "It waits in quarantine and replaces nothing: ask the plant whose it is.")
	case item.ID == "":
		x.lines.of(spec.Owner, spec.Size).In++
		x.note(inventory.Stranger, item, spec.Serial+" is new: rented from "+spec.Owner, "It is entered as theirs; put our label on it.")
	case atPlant || spec.Owner != "" && item.State == inventory.Gone: // theirs, gone back by count, and here again
		x.lines.of(spec.Owner, spec.Size).In++
		x.backBySerial[item.ID] = true
	default:
		x.lines.of(spec.Owner, spec.Size).In++
		x.note(inventory.WrongOne, item, fmt.Sprintf("%s came from the plant, the book has it %s at %s", item.Label(), item.State, item.Place.InWords()), "Find out which is right: the book takes it in and asks about the rest.")
	}
	if err := fillable(item, x.v.At()); err != nil {
		x.note(inventory.PastRequal, item, item.Label()+" was filled after its month of requalification", "Read the new stamp if it was requalified; else send it back unused.")
	}
	if r.Lot == "" {
		x.note(inventory.WithoutLot, item, spec.Serial+" has no lot", "Read the drug label, or send it back: without a lot no recall finds it.")
	}
	if size, known := gas.LookUp(spec.Size); known && r.Gauge != nil && *r.Gauge < size.Service*inventory.FullShare {
		x.note(inventory.NotFull, item, fmt.Sprintf("%s reads %s, full is %s", spec.Serial, *r.Gauge, size.Service), "Pull it, report it, and read every other of lot "+cmp.Or(r.Lot, "unknown")+".")
	}
}

// settle works out what is due of each line, and what stays at the plant.
func (x *exchanging) settle() {
	for i := range x.lines {
		l := &x.lines[i]
		l.Due = l.Before
		if l.Owner != "" && !x.Later {
			l.Due += l.Out
		}
		l.Left = max(0, l.Before+l.Out-l.In)
		switch short := l.Short(); {
		case l.Owner == "":
		case short > 0:
			x.note(inventory.ShortOf, inventory.Item{}, fmt.Sprintf("%d %s of %s are owed", short, l.Size, l.Owner), "Write it on both slips; the next exchange asks for them.")
		case short < 0:
			x.note(inventory.OverCount, inventory.Item{}, fmt.Sprintf("%d %s of %s more than due", -short, l.Size, l.Owner), "Count again; if it is right, the rental count goes up.")
		}
	}
	for _, i := range x.there {
		if i.Spec.Owner == "" && !x.backBySerial[i.ID] && x.v.At().Sub(i.Since) >= x.programme.PlantTime {
			x.note(inventory.OwnMissing, i, i.Label()+" is ours and did not come back", "Ask the plant for it by serial; it stays at the plant in the book. Another is no replacement.")
		}
	}
}

func (x *exchanging) note(sort string, item inventory.Item, says, next string) {
	x.exceptions = append(x.exceptions, inventory.Exception{Sort: sort, Item: item.ID, Serial: item.Spec.Serial, Says: says, Next: next})
}

func whose(owner string) string { return cmp.Or(owner, "the programme") }

// Decide signs the exchange: one fact of what was signed, and the facts of
// each cylinder.
func (a Exchange) Decide(v View) (Change, error) {
	if len(a.Out)+len(a.In)+len(a.OutMore)+len(a.InMore) == 0 {
		return Change{}, refusal.New(refusal.Invalid, "Nothing goes out and nothing comes in.", "Scan what the truck takes and brings.")
	}
	x, err := a.weigh(v)
	if err != nil {
		return Change{}, err
	}
	slip := ExchangeSlip{Lines: x.lines.sorted(), Exceptions: x.exceptions}
	switch {
	case a.Driver == "":
		return Change{}, refusal.New(refusal.Invalid, "Nobody signs for the plant.", "Write who drives the plant's truck.")
	case len(x.exceptions) > 0 && !a.Accept:
		return Change{}, refusal.New(refusal.Ask, "It does not fit: "+slip.Says()+".", "Check the list; then sign with the exceptions.")
	}
	c := Change{Says: fmt.Sprintf("Exchange with %s signed: %s.", a.Plant, slip.Says())}
	signed := &inventory.Exchanged{Plant: a.Plant, Depot: a.Depot, Slip: a.Slip, Driver: a.Driver, Exceptions: x.exceptions}
	for _, l := range slip.Lines {
		if l.Out > 0 {
			signed.Out = append(signed.Out, inventory.Counted{Owner: l.Owner, Size: l.Size, Count: l.Out})
		}
		if l.In > 0 {
			signed.In = append(signed.In, inventory.Counted{Owner: l.Owner, Size: l.Size, Count: l.In})
		}
	}
	for _, i := range x.out {
		signed.Went = append(signed.Went, i.ID)
		c.item(i.ID, &inventory.Moved{To: inventory.At(inventory.AtPlant, a.Plant)})
	}
	if signed.Came, err = x.write(&c); err != nil {
		return Change{}, err
	}
	x.giveBack(&c)
	c.Facts = append(c.Facts, inventory.Fact{Statement: signed})
	return c, nil
}

// write enters what came in and returns its items.
func (x *exchanging) write(c *Change) ([]inventory.ItemID, error) {
	var came []inventory.ItemID
	for n, r := range x.In {
		id, spec := x.in[n].ID, x.in[n].Spec
		if id == "" {
			var tag uint32
			var err error
			if id, tag, err = x.v.NewItem(); err != nil {
				return nil, err
			}
			if spec.Owner == "" { // a stray: it is nobody's yet, least of all ours
				came = append(came, id)
				c.item(id, &inventory.Enrolled{Tag: tag, Spec: inventory.Spec{Serial: spec.Serial}})
				c.item(id, &inventory.Moved{To: inventory.At(inventory.AtDepot, x.Depot)})
				c.item(id, &inventory.Quarantined{Why: "came from " + x.Plant + " unknown"})
				continue
			}
			c.item(id, &inventory.Enrolled{Tag: tag, Spec: spec})
		}
		came = append(came, id)
		filled := &inventory.Filled{Lot: r.Lot, Plant: x.Plant, Made: r.Made}
		if r.Gauge != nil {
			filled.Full = *r.Gauge
		}
		c.item(id, filled)
		c.observed(id, "", inventory.Observed{Gauge: r.Gauge})
		c.item(id, &inventory.Moved{To: inventory.At(inventory.AtDepot, x.Depot)})
		if x.in[n].ID == "" {
			c.item(id, &inventory.Benched{})
		}
	}
	return came, nil
}

// giveBack ends the book's hold on rented cylinders that the plant kept and
// settled by count with others, those longest at the plant first.
func (x *exchanging) giveBack(c *Change) {
	there := append(slices.Clone(x.there), x.out...)
	slices.SortStableFunc(there[:len(x.there)], func(a, b inventory.Item) int { return a.Since.Compare(b.Since) })
	for _, l := range x.lines {
		if l.Owner == "" {
			continue
		}
		var kept []inventory.ItemID
		for _, i := range there {
			if i.Spec.Owner == l.Owner && i.Spec.Size == l.Size && !x.backBySerial[i.ID] {
				kept = append(kept, i.ID)
			}
		}
		for _, id := range kept[:max(0, len(kept)-l.Left)] {
			c.item(id, &inventory.Moved{To: inventory.At(inventory.AtRetired, ""), Why: "stays with " + l.Owner + ", exchanged by count"})
		}
	}
}

// Decide records who was told.
func (a TellOwner) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	what := a.What
	if what == "" && item.Soiled {
		what = "soiled, kept bagged"
	}
	if what == "" {
		what = item.Why
	}
	var c Change
	c.item(item.ID, &inventory.OwnerTold{Owner: item.Spec.Owner, How: a.How, What: what})
	c.Says = fmt.Sprintf("It is recorded that %s was told about %s.", cmp.Or(item.Spec.Owner, "the plant"), item.Label())
	return c, nil
}
