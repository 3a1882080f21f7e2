package delivery

import (
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
)

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
