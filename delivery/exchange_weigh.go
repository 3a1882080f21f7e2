package delivery

import (
	"cmp"
	"fmt"
	"slices"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
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
		if _, known := x.programme.Sizes.LookUp(r.Size); err == nil && !known {
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
	if size, known := x.programme.SizeOf(spec); known && r.Gauge != nil && *r.Gauge < size.Service*inventory.FullShare {
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
