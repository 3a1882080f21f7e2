package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// desk is a desk on a fresh book with a small programme and what most tests
// need.
type desk struct {
	*store.Desk
	t   *testing.T
	now time.Time
}

func newDesk(t *testing.T) *desk { return newDeskAt(t, booktest.NewClock()) }

// newDeskAt is a desk whose book records by a clock.
func newDeskAt(t *testing.T, clock *booktest.Clock) *desk {
	d := &desk{store.NewDesk(booktest.NewAt(t, clock, store.Migrations()...)), t, booktest.Start}
	p := delivery.NewProgramme()
	p.Hospital = delivery.Site{Name: "hospital", Point: delivery.Point{Lat: 36.5, Lon: -40.5, Area: "Great Quillet"}}
	p.Wards = []delivery.Site{{Name: "6B"}}
	p.Depots = []delivery.Site{{Name: "harbour", Title: "Harbour depot", Point: delivery.Point{Lat: 36.51, Lon: -40.52, Area: "Great Quillet"}}}
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

func (d *desk) refused(act delivery.Act) *refusal.Error {
	d.t.Helper()
	_, err := d.Do(context.Background(), d.hand(), act)
	var no *refusal.Error
	require.ErrorAs(d.t, err, &no)
	return no
}

func (d *desk) enrol(spec inventory.Spec, gauge float64) inventory.ItemID {
	d.t.Helper()
	act := delivery.Enrol{Spec: spec, Depot: "harbour", Cleared: true}
	if gauge > 0 {
		act.Gauge = new(gas.PSI(gauge))
	}
	return d.do(act).Facts[0].Item
}

func (d *desk) register(family string) inventory.PersonID {
	d.t.Helper()
	return d.do(delivery.Register{
		Person:  delivery.Person{Family: family, Given: "Ines"},
		Address: delivery.Address{Street: "Kelp Street 22", Mains: delivery.MainsYes, Point: delivery.Point{Lat: 36.52, Lon: -40.5, Area: "Great Quillet"}},
	}).Facts[0].Person
}

func (d *desk) watch(id inventory.PersonID) delivery.Watch {
	d.t.Helper()
	w, err := d.WatchOne(context.Background(), id, d.now)
	require.NoError(d.t, err)
	return w
}

func (d *desk) item(id inventory.ItemID) inventory.Item {
	d.t.Helper()
	page, err := d.ItemPage(context.Background(), id)
	require.NoError(d.t, err)
	return page.Item
}

func (d *desk) clean() {
	d.t.Helper()
	a, err := d.Audit(context.Background())
	require.NoError(d.t, err)
	assert.Empty(d.t, a.Mismatches)
}

// TestTheDay walks the main job: discharge, set-up, stop, collection, return,
// bench, ready again.
func TestTheDay(t *testing.T) {
	d := newDesk(t)
	cylinder := d.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-20117"}, 2000)
	machine := d.enrol(inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Serial: "CN00417"}, 0)
	who := d.register("Abara")
	d.do(delivery.Order{Person: who, Rest: 2, Exertion: 3, Hours: 24})

	out := d.do(delivery.Discharge{
		Person: who, Ward: "6B", Arrives: d.now.Add(time.Hour),
		HandOver: []delivery.Piece{{Item: cylinder, Gauge: new(gas.PSI(2000))}},
		Bring:    []inventory.ItemID{machine},
	})
	assert.Contains(t, out.Says, "Bridge")
	w := d.watch(who)
	assert.Equal(t, delivery.OnBridge, w.Care.Phase)
	assert.Equal(t, inventory.HandedOver, d.item(cylinder).State)
	assert.Equal(t, inventory.Held, d.item(machine).State)
	assert.True(t, w.Care.Has(delivery.Deliver))
	assert.NotEqual(t, depletion.Unknown, w.Verdict)

	d.now = d.now.Add(time.Hour)
	d.do(delivery.Visit{
		Person: who, Running: true, Oxygen: new(94.0),
		Left: []delivery.Piece{{Item: machine, Hours: new(1204.0)}},
	})
	w = d.watch(who)
	assert.Equal(t, delivery.Running, w.Care.Phase)
	assert.False(t, w.Care.Has(delivery.Deliver))
	assert.Equal(t, inventory.AsBackup, d.item(cylinder).State)
	assert.Equal(t, inventory.AtWork, d.item(machine).State)

	d.now = d.now.Add(9 * 24 * time.Hour)
	d.do(delivery.StopOxygen{Person: who, Reason: "recovered", OrderedBy: "clinician on ward 6B"})
	w = d.watch(who)
	assert.False(t, w.Care.Watched())
	assert.True(t, w.Care.Has(delivery.Collect))
	assert.Equal(t, inventory.Idle, d.item(machine).State)

	d.do(delivery.Visit{Person: who, Took: []delivery.Taken{
		{Item: machine, Hours: new(1420.0)}, {Item: cylinder, Gauge: new(gas.PSI(900))},
	}})
	assert.Equal(t, inventory.WithDriver, d.item(machine).State)
	no := d.refused(delivery.Return{Item: cylinder, Depot: "harbour"})
	assert.Equal(t, refusal.Invalid, no.Kind, "a cylinder is never booked without a reading")
	d.do(delivery.Return{Item: cylinder, Depot: "harbour", Gauge: new(gas.PSI(900))})
	d.do(delivery.Return{Item: machine, Depot: "harbour", Hours: new(1420.0)})
	assert.Equal(t, inventory.Dirty, d.item(machine).State)

	d.do(delivery.Test{Item: machine, Passed: true, Oxygen: new(93.0)})
	d.do(delivery.Release{Item: machine, Depot: "harbour"})
	assert.Equal(t, inventory.Ready, d.item(machine).State)
	d.clean()
}

func TestDischargeRefusesWhatCannotBeLent(t *testing.T) {
	d := newDesk(t)
	small := d.enrol(inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Serial: "CN00418"}, 0)
	large := d.enrol(inventory.Spec{Kind: inventory.Concentrator, Rated: 10, Serial: "CN00900"}, 0)
	cylinder := d.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-20118"}, 1900)
	who := d.register("Okoro")
	full := []delivery.Piece{{Item: cylinder, Gauge: new(gas.PSI(1900))}}

	no := d.refused(delivery.Discharge{Person: who, HandOver: full})
	assert.Contains(t, no.Says, "no order")

	d.do(delivery.Order{Person: who, Rest: 4, Exertion: 6, Hours: 24})
	no = d.refused(delivery.Discharge{Person: who, HandOver: full, Bring: []inventory.ItemID{small}})
	assert.Contains(t, no.Says, "5 L/min at most, 6 L/min is ordered")
	assert.Contains(t, no.Next, "CN00900")

	no = d.refused(delivery.Discharge{Person: who, HandOver: []delivery.Piece{{Item: cylinder}}, Bring: []inventory.ItemID{large}})
	assert.Contains(t, no.Says, "no gauge reading")

	no = d.refused(delivery.Discharge{Person: who, HandOver: full, Bring: []inventory.ItemID{large}})
	assert.Contains(t, no.Says, "no check-in bands are recorded")
	d.do(delivery.GiveBands{Person: who, Target: 90, Borderline: 6, Emergency: 7, By: "Dr Holm"})
	d.do(delivery.Discharge{Person: who, HandOver: full, Bring: []inventory.ItemID{large}})
	other := d.register("Quist")
	d.do(delivery.Order{Person: other, Rest: 2, Hours: 24})
	no = d.refused(delivery.Discharge{Person: other, HandOver: full})
	assert.Contains(t, no.Says, "on loan to another person")
	d.clean()
}
