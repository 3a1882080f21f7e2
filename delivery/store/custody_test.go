package store_test

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// custody drives a desk with random acts, right and wrong, and checks after
// each what must always hold.
type custody struct {
	desk    *store.Desk
	clock   *booktest.Clock // of recording; now is that of happening
	now     time.Time
	items   []inventory.ItemID
	persons []inventory.PersonID
	facts   []inventory.Fact
	cuts    []inventory.FactID
	trips   []inventory.FactID
	checked int
	mark    *moment // what was known at some act
	erased  bool    // somebody was
}

// between is how many acts pass between two looks at the whole book, which
// take longer than the acts.
const between = 8

func (c *custody) do(t *rapid.T, act delivery.Act) {
	c.now = c.now.Add(time.Minute)
	c.clock.Advance(time.Minute)
	at := c.now
	if rapid.IntRange(0, 9).Draw(t, "late") == 0 {
		at = at.Add(-time.Duration(rapid.IntRange(1, 600).Draw(t, "minutes late")) * time.Minute)
	}
	out, err := c.desk.Do(context.Background(), store.Hand{By: "rapid", Source: inventory.Keyed, At: at}, act)
	var no *refusal.Error
	if err != nil && !errors.As(err, &no) {
		t.Fatalf("%T: %v is no refusal", act, err)
	}
	if no != nil && (no.Says == "" || no.Next == "") {
		t.Fatalf("%T: refusal without a sentence or a next step: %+v", act, no)
	}
	c.facts = append(c.facts, out.Facts...)
	for _, f := range out.Facts {
		c.note(f)
	}
}

// note keeps what a fact brings into the book, to act on it later.
func (c *custody) note(f inventory.Fact) {
	switch f.Statement.(type) {
	case *inventory.Enrolled:
		if !slices.Contains(c.items, f.Item) {
			c.items = append(c.items, f.Item)
		}
	case *delivery.Registered:
		c.persons = append(c.persons, f.Person)
	case *delivery.Erased:
		c.erased = true
	case *delivery.PowerCut:
		c.cuts = append(c.cuts, f.ID)
	case *delivery.TripBooked:
		c.trips = append(c.trips, f.ID)
	}
}

func (c *custody) item(t *rapid.T) inventory.ItemID {
	return rapid.SampledFrom(c.items).Draw(t, "item")
}

func (c *custody) person(t *rapid.T) inventory.PersonID {
	return rapid.SampledFrom(c.persons).Draw(t, "person")
}

func gaugeOf(t *rapid.T) *gas.Pressure {
	if rapid.IntRange(0, 5).Draw(t, "gauge read") == 0 {
		return nil
	}
	return new(gas.PSI(float64(rapid.IntRange(0, 2200).Draw(t, "psi"))))
}

// test measures a machine mostly, and says what failed mostly.
func (c *custody) test(t *rapid.T) {
	act := delivery.Test{Item: c.item(t), Passed: rapid.Bool().Draw(t, "passed"), Detail: rapid.SampledFrom([]string{"", "leaks", "leaks"}).Draw(t, "found")}
	if rapid.IntRange(0, 3).Draw(t, "measured") > 0 {
		act.Oxygen = new(94.0)
	}
	c.do(t, act)
}

// acts are the moves of the machine, by name.
func (c *custody) acts() map[string]func(*rapid.T) {
	return map[string]func(*rapid.T){
		"enrol": func(t *rapid.T) {
			kind := rapid.SampledFrom(inventory.Kinds()).Draw(t, "kind")
			spec := inventory.Spec{Kind: kind, Serial: fmt.Sprintf("S%03d", len(c.items))}
			act := delivery.Enrol{Depot: "harbour", Cleared: true}
			switch kind {
			case inventory.Cylinder:
				spec.Size, act.Gauge = "US-E", gaugeOf(t)
			case inventory.Concentrator:
				spec.Rated = 5
			case inventory.Vessel:
				spec.Tare, spec.Holds = 23, 33
				act.Weight = new(gas.Kilograms(40))
			}
			act.Spec = spec
			c.do(t, act)
		},
		"register": func(t *rapid.T) {
			c.do(t, delivery.Register{
				Person:  delivery.Person{Family: fmt.Sprintf("Person %d", len(c.persons))},
				Address: delivery.Address{Street: "Gull Row 14", Mains: delivery.MainsYes},
			})
		},
		"order": func(t *rapid.T) {
			c.do(t, delivery.Order{Person: c.person(t), Rest: gas.Flow(rapid.IntRange(0, 8).Draw(t, "rest")), Hours: 24})
		},
		"discharge": func(t *rapid.T) {
			act := delivery.Discharge{Person: c.person(t), Arrives: c.now.Add(2 * time.Hour)}
			for range rapid.IntRange(0, 3).Draw(t, "handed over") {
				act.HandOver = append(act.HandOver, delivery.Piece{Item: c.item(t), Gauge: gaugeOf(t)})
			}
			for range rapid.IntRange(0, 2).Draw(t, "brought") {
				act.Bring = append(act.Bring, c.item(t))
			}
			c.do(t, act)
		},
		"visit": func(t *rapid.T) {
			act := delivery.Visit{Person: c.person(t), Running: rapid.Bool().Draw(t, "running")}
			for range rapid.IntRange(0, 2).Draw(t, "left") {
				act.Left = append(act.Left, delivery.Piece{Item: c.item(t), Gauge: gaugeOf(t)})
			}
			for range rapid.IntRange(0, 2).Draw(t, "took") {
				act.Took = append(act.Took, delivery.Taken{Item: c.item(t), Gauge: gaugeOf(t)})
			}
			c.do(t, act)
		},
		"stop": func(t *rapid.T) {
			c.do(t, delivery.StopOxygen{Person: c.person(t), Reason: "recovered", OrderedBy: "ward"})
		},
		"return":     func(t *rapid.T) { c.do(t, delivery.Return{Item: c.item(t), Depot: "harbour", Gauge: gaugeOf(t)}) },
		"bench":      func(t *rapid.T) { c.do(t, delivery.Bench{Item: c.item(t)}) },
		"test":       c.test,
		"release":    func(t *rapid.T) { c.do(t, delivery.Release{Item: c.item(t), Depot: "harbour"}) },
		"read":       func(t *rapid.T) { c.do(t, delivery.Read{Item: c.item(t), Gauge: gaugeOf(t)}) },
		"quarantine": func(t *rapid.T) { c.do(t, delivery.Quarantine{Item: c.item(t), Why: "leaks"}) },
		"move": func(t *rapid.T) {
			to := rapid.SampledFrom([]inventory.Place{"depot:harbour", "vehicle:van 1", "missing", "workshop", "depot:nowhere"}).Draw(t, "to")
			c.do(t, delivery.Move{Item: c.item(t), To: to})
		},
		"refill": func(t *rapid.T) {
			c.do(t, delivery.Refill{Item: c.item(t), Lot: "L1", Full: gas.PSI(2000), Depot: "harbour"})
		},
		"call": func(t *rapid.T) {
			c.do(t, delivery.Call{Person: c.person(t), Answered: true, Gauge: gaugeOf(t)})
		},
		"died": func(t *rapid.T) {
			c.do(t, delivery.Die{Person: c.person(t), ToldBy: "ward", Contact: "daughter", Phone: "555-0177", NotBefore: c.now.Add(72 * time.Hour)})
		},
		"readmit": func(t *rapid.T) {
			act := delivery.Readmit{Person: c.person(t), Ward: "6B", Until: c.now.Add(96 * time.Hour)}
			for range rapid.IntRange(0, 1).Draw(t, "portable") {
				act.Portable = append(act.Portable, c.item(t))
			}
			c.do(t, act)
		},
		"move home": func(t *rapid.T) {
			act := delivery.Relocate{Person: c.person(t), Address: delivery.Address{Street: "Fern Lane 1", Mains: delivery.MainsYes}}
			if rapid.Bool().Draw(t, "for some days") {
				act.Until, act.Along = c.now.Add(48*time.Hour), []inventory.ItemID{c.item(t)}
			}
			c.do(t, act)
		},
		"refuse": func(t *rapid.T) {
			c.do(t, delivery.Refuse{Person: c.person(t), What: delivery.TheBackup, Why: "no room", Again: c.now.Add(24 * time.Hour)})
		},
		"stocktake": func(t *rapid.T) {
			act := delivery.Stocktake{Place: "depot:harbour", Zone: rapid.SampledFrom(append(inventory.Zones(), "")).Draw(t, "zone"), Owner: "warehouse"}
			for range rapid.IntRange(0, 3).Draw(t, "seen") {
				act.Seen = append(act.Seen, c.item(t))
			}
			c.do(t, act)
		},
		"exchange": func(t *rapid.T) {
			act := delivery.Exchange{Plant: "works", Depot: "harbour", Driver: "the plant's", Accept: true}
			for range rapid.IntRange(0, 2).Draw(t, "out") {
				act.Out = append(act.Out, c.item(t))
			}
			for range rapid.IntRange(0, 2).Draw(t, "in") {
				act.In = append(act.In, delivery.Received{Item: c.item(t), Lot: "L2", Gauge: gaugeOf(t)})
			}
			c.do(t, act)
		},
		"requalify": func(t *rapid.T) {
			stamp := rapid.SampledFrom([]string{"04-28", "10 A123 27 +", "?"}).Draw(t, "stamp")
			c.do(t, delivery.Requalify{Item: c.item(t), Stamp: stamp, Shell: "3AL", Confirm: rapid.Bool().Draw(t, "confirmed")})
		},
		"answer": func(t *rapid.T) {
			open, err := c.desk.Questions(context.Background(), false)
			if err != nil {
				t.Fatal(err)
			}
			if len(open) == 0 {
				return
			}
			q := rapid.SampledFrom(open).Draw(t, "question")
			choice := rapid.SampledFrom(q.Choices()).Draw(t, "choice")
			c.do(t, delivery.Resolve{Question: q.Key, Choice: choice.Value, Why: "looked at again"})
		},
		"retract": func(t *rapid.T) {
			f := rapid.SampledFrom(c.facts).Draw(t, "fact")
			c.do(t, delivery.Retract{Fact: f.ID, Why: "keyed by mistake"})
		},
		"": c.check,
	}
}

// check holds after every act: each item is in one place; a lent item has one
// person; nothing appears or vanishes. From time to time, and at the end, the
// person's facts agree and the audit is clean.
func (c *custody) check(t *rapid.T) {
	ctx := context.Background()
	all, total, err := c.desk.Items(ctx, items.Filter{})
	if err != nil {
		t.Fatal(err)
	}
	if total != len(c.items) {
		t.Fatalf("%d items are in the book, %d were enrolled", total, len(c.items))
	}
	for _, i := range all {
		if i.Place == "" || i.State == "" {
			t.Fatalf("item %s is nowhere or nothing: %+v", i.ID, i)
		}
		theirs := i.Spec.Foreign && i.Place.Kind() == inventory.AtAddress // seen in a home, left alone
		if theirs && (i.Lent() || i.State != inventory.NotOurs) {
			t.Fatalf("item %s is another's in a home and %s", i.ID, i.State)
		}
		if !theirs && i.Lent() != (i.Place.Kind() == inventory.AtAddress) {
			t.Fatalf("item %s is %s at %s", i.ID, i.State, i.Place)
		}
		if i.Lent() && i.Person == "" {
			t.Fatalf("item %s is lent to nobody", i.ID)
		}
		if !i.Lent() && i.State != inventory.Held && i.Person != "" {
			t.Fatalf("item %s is %s but belongs to %s", i.ID, i.State, i.Person)
		}
	}
	if c.mark == nil && rapid.IntRange(0, 19).Draw(t, "marked") == 0 {
		c.mark = c.known(t, c.desk, c.clock.Now())
	}
	if c.checked++; c.checked%between == 0 {
		c.whole(t, all)
	}
}

// whole looks at the whole book.
func (c *custody) whole(t *rapid.T, all []inventory.Item) {
	c.agree(t, all)
	a, err := c.desk.Audit(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Mismatches) > 0 {
		t.Fatalf("audit: %v", a.Mismatches)
	}
}

// agree holds the two sides of a loan together: an item lent to a person is in
// that person's kit, and nothing else is.
func (c *custody) agree(t *rapid.T, all []inventory.Item) {
	lentTo := make(map[inventory.ItemID]inventory.PersonID)
	for _, i := range all {
		if i.Lent() {
			lentTo[i.ID] = i.Person
		}
	}
	for _, who := range c.persons {
		page, err := c.desk.Page(context.Background(), who, c.now)
		if err != nil {
			t.Fatal(err)
		}
		for _, h := range page.Care.Kit {
			if lentTo[h.Item] != who {
				t.Fatalf("%s has %s in the kit, the item says it is lent to %q", who, h.Item, lentTo[h.Item])
			}
			delete(lentTo, h.Item)
		}
	}
	if len(lentTo) > 0 {
		t.Fatalf("lent but in nobody's kit: %v", lentTo)
	}
}

func TestCustodyHolds(t *testing.T) {
	ctx := context.Background()
	rapid.Check(t, func(rt *rapid.T) {
		clock := booktest.NewClock()
		c := &custody{desk: store.NewDesk(booktest.NewAt(t, clock, store.Migrations()...)), clock: clock, now: booktest.Start}
		_, err := c.desk.Do(ctx, store.Hand{By: "rapid", At: c.now}, delivery.Settings{Programme: custodyProgramme()})
		require.NoError(t, err)
		acts := c.acts()
		maps.Copy(acts, c.depotActs())
		maps.Copy(acts, c.personActs())
		for _, first := range []string{"register", "register", "enrol", "enrol", "enrol", "enrol"} {
			acts[first](rt)
		}
		if len(c.items) == 0 {
			_, err := c.desk.Programme(ctx)
			require.NoError(t, err)
			return
		}
		rt.Repeat(acts)
		all, _, err := c.desk.Items(ctx, items.Filter{})
		require.NoError(t, err)
		c.whole(rt, all)
		c.asOf(rt, t)
	})
}

// custodyProgramme has what the acts of the model need: an amnesty that is on,
// maintenance that falls due, a plant, a ward.
func custodyProgramme() delivery.Programme {
	p := delivery.NewProgramme()
	p.Hospital = delivery.Site{Name: "hospital", Point: delivery.Point{Lat: 36.5, Lon: -40.5, Area: "Great Quillet"}}
	p.Wards = []delivery.Site{{Name: "6B"}}
	p.Depots = []delivery.Site{{Name: "harbour", Point: delivery.Point{Lat: 36.51, Lon: -40.52, Area: "Great Quillet"}}}
	p.Vehicles = []delivery.Vehicle{{Name: "van 1", Depot: "harbour", Pieces: 30, Kg: 200, From: "08:00", Until: "20:00"}}
	p.Plants = []delivery.Site{{Name: "works"}}
	p.Upkeep = []delivery.UpkeepRule{{Kind: inventory.Concentrator, What: "inner filter", Days: 300}}
	p.Held = map[inventory.Kind]int{inventory.Oximeter: 1}
	p.Amnesty = delivery.Amnesty{From: "2000-01-01", Until: "2099-12-31", Where: "the quay"}
	return p
}
