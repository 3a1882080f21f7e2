// Package storetest is the contract of the stores: what must hold on every
// database a book can be kept in. Each database runs it from its own tests.
package storetest

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/gas"
)

// Run runs the contract. Open gives each test a fresh book with the tables of
// store.Migrations, closed when the test ends.
func Run(t *testing.T, open func(*testing.T) *book.Book) {
	for _, c := range []struct {
		name string
		test func(*desk)
	}{
		{"facts are never changed", factsNeverChange},
		{"facts keep time, offset and order", factsKeepTheirTimes},
		{"facts are chosen by what they are about", factsAreChosen},
		{"facts are chosen by when they were known", factsAreKnownThen},
		{"state follows late and corrected facts", stateFollows},
		{"a taken back power cut is none", cutsAreTakenBack},
		{"settings are those of the book", settingsAreThoseOfTheBook},
		{"items are filtered and limited", itemsAreFiltered},
		{"items are found by any of their names", itemsAreFound},
		{"persons are searched as people type", personsAreSearched},
		{"counters never give a number twice", countersCount},
		{"a refused act leaves nothing", refusalsLeaveNothing},
		{"several acts are one", severalActsAreOne},
		{"a look sees one moment", looksSeeOneMoment},
		{"the audit finds what was tampered with", auditFindsTampering},
		{"a person can be erased", personsAreErased},
		{"names are asked for where the book says so", namesAreAsked},
		{"each role does its own work", rolesHold},
		{"a changed role holds at once", rolesChangeUnderWay},
		{"passphrases are no facts", secretsAreNoFacts},
		{"guessing slows down and is recorded", guessingSlowsDown},
		{"each role sees what it needs", rolesSee},
		{"the privacy view shows initials", veiledReadings},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(newDesk(t, open(t))) })
	}
}

// desk is a desk on a fresh book with a small programme.
type desk struct {
	*store.Desk
	t   *testing.T
	now time.Time
}

// summer is an offset west of the clock of the book, which keeps UTC.
var summer = time.FixedZone("", -3*3600)

func newDesk(t *testing.T, b *book.Book) *desk {
	d := &desk{store.NewDesk(b), t, time.Date(2030, time.March, 4, 11, 0, 0, 0, summer)}
	p := delivery.NewProgramme()
	p.Depots = []delivery.Site{{Name: "harbour", Title: "Harbour depot"}}
	p.Vehicles = []delivery.Vehicle{{Name: "van 1", Depot: "harbour", Pieces: 30, Kg: 200, From: "08:00", Until: "20:00"}}
	d.do(delivery.Settings{Programme: p})
	return d
}

func (d *desk) hand() store.Hand {
	return store.Hand{By: "tester", Source: inventory.Keyed, At: d.now}
}

func (d *desk) do(act delivery.Act) store.Outcome {
	d.t.Helper()
	out, err := d.Do(context.Background(), d.hand(), act)
	require.NoError(d.t, err)
	return out
}

// write runs statements on the book itself, past the desk.
func (d *desk) write(query string, args ...any) error {
	return d.Book().Write(context.Background(), func(tx *book.Tx) error {
		_, err := tx.Exec(query, args...)
		return err
	})
}

func (d *desk) cylinder(serial string) inventory.ItemID {
	d.t.Helper()
	spec := inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: serial, Model: "Alu"}
	return d.do(delivery.Enrol{Spec: spec, Depot: "harbour", Gauge: new(gas.PSI(2000)), Cleared: true}).Facts[0].Item
}

func (d *desk) concentrator(serial string) inventory.ItemID {
	d.t.Helper()
	spec := inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Serial: serial, Model: "Still 5"}
	return d.do(delivery.Enrol{Spec: spec, Depot: "harbour", Cleared: true}).Facts[0].Item
}

func (d *desk) person(family, given, street, phone string) inventory.PersonID {
	d.t.Helper()
	return d.do(delivery.Register{
		Person:  delivery.Person{Family: family, Given: given, Phones: []delivery.Phone{{Number: phone}}},
		Address: delivery.Address{Street: street, Mains: delivery.MainsYes},
	}).Facts[0].Person
}

// discharged is a person at home with a cylinder, from the present on.
func (d *desk) discharged(family, serial string) (inventory.PersonID, inventory.ItemID) {
	d.t.Helper()
	who, item := d.person(family, "Ines", "Gull Row 14", "555-0110"), d.cylinder(serial)
	d.do(delivery.Order{Person: who, Rest: 2, Hours: 24})
	d.do(delivery.Discharge{Person: who, HandOver: []delivery.Piece{{Item: item, Gauge: new(gas.PSI(2000))}}})
	return who, item
}

func (d *desk) item(id inventory.ItemID) inventory.Item {
	d.t.Helper()
	page, err := d.ItemPage(context.Background(), id)
	require.NoError(d.t, err)
	return page.Item
}

func (d *desk) page(id inventory.PersonID) store.PersonPage {
	d.t.Helper()
	page, err := d.Page(context.Background(), id, d.now)
	require.NoError(d.t, err)
	return page
}

func (d *desk) mismatches() []string {
	d.t.Helper()
	a, err := d.Audit(context.Background())
	require.NoError(d.t, err)
	return a.Mismatches
}
