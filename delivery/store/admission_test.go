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
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

// admission is a new person with an order and a kit of one cylinder that goes
// along and one machine that is brought.
func admission(d *desk, cylinder, machine inventory.ItemID) delivery.Admission {
	return delivery.Admission{
		Register: delivery.Register{
			Person:  delivery.Person{Family: "Lund", Given: "Nia"},
			Address: delivery.Address{Street: "Shore Road 8", Mains: delivery.MainsYes, Point: delivery.Point{Lat: 36.52, Lon: -40.5, Area: "Great Quillet"}},
		},
		Order: &delivery.Order{Rest: 2, Exertion: 3, Hours: 24},
		Discharge: delivery.Discharge{
			Ward: "6B", Arrives: d.now.Add(time.Hour), Consents: map[string]bool{"data sharing": true, "risk form": false},
			HandOver: []delivery.Piece{{Item: cylinder, Gauge: new(gas.PSI(2000))}}, Bring: []inventory.ItemID{machine},
		},
	}
}

func kit(d *desk) (cylinder, machine inventory.ItemID) {
	cylinder = d.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-20130"}, 2000)
	machine = d.enrol(inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Serial: "CN00430"}, 0)
	return cylinder, machine
}

func TestAdmissionRegistersOrdersAndHandsOverInOne(t *testing.T) {
	d := newDesk(t)
	cylinder, machine := kit(d)
	act := admission(d, cylinder, machine)

	var bridge delivery.Bridge
	require.NoError(t, d.Ask(context.Background(), d.now, func(v delivery.View) (err error) {
		bridge, err = act.Bridge(v)
		return err
	}))
	assert.True(t, bridge.WayKnown)
	assert.Equal(t, gas.Flow(3), bridge.Flow, "the highest ordered")

	out := d.do(act)
	assert.Contains(t, out.Says, "Lund, Nia is in the book. The order is in force")
	w := d.watch(out.Facts[0].Person)
	assert.Equal(t, delivery.OnBridge, w.Care.Phase)
	assert.Equal(t, "Shore Road 8", w.Address.Street)
	assert.Equal(t, gas.Flow(3), w.Care.Order.Exertion)
	assert.Equal(t, map[string]bool{"data sharing": true, "risk form": false}, w.Care.Consents)
	assert.Equal(t, inventory.HandedOver, d.item(cylinder).State)
	assert.Equal(t, w.Care.Person, d.item(machine).Person)
	d.clean()
}

func TestAdmissionRefusedWritesNothing(t *testing.T) {
	d := newDesk(t)
	cylinder, machine := kit(d)
	act := admission(d, cylinder, machine)
	act.Discharge.HandOver[0].Gauge = nil
	before, err := d.Facts(context.Background(), items.About{})
	require.NoError(t, err)

	no := d.refused(act)
	assert.Contains(t, no.Says, "no gauge reading")
	after, err := d.Facts(context.Background(), items.About{})
	require.NoError(t, err)
	assert.Len(t, after, len(before))
	found, err := d.Homes(context.Background(), "Lund", 5)
	require.NoError(t, err)
	assert.Empty(t, found, "the person was not left behind")
}

func TestAdmissionOfSomebodyKnownKeepsTheOrder(t *testing.T) {
	d := newDesk(t)
	cylinder, machine := kit(d)
	act := admission(d, cylinder, machine)
	who := d.register("Quist")
	d.do(delivery.Order{Person: who, Rest: 1, Hours: 16})
	act.Register.Person.ID, act.Register.Address.ID, act.Order = who, d.watch(who).Address.ID, nil

	d.do(act)
	w := d.watch(who)
	assert.Equal(t, gas.Flow(1), w.Care.Order.Rest)
	assert.Equal(t, "Shore Road 8", w.Address.Street, "where they sleep tonight")
	assert.Equal(t, "Lund, Nia", w.Person.Name())
	d.clean()
}

// TestBridgeWithoutPrediction: a pulse setting is not litres a minute, and a
// way nobody knows is not a short one.
func TestBridgeWithoutPrediction(t *testing.T) {
	d := newDesk(t)
	cylinder, machine := kit(d)
	p, err := d.Programme(context.Background())
	require.NoError(t, err)
	judge := func(act delivery.Admission) delivery.BridgeAnswer {
		var answer delivery.BridgeAnswer
		require.NoError(t, d.Ask(context.Background(), d.now, func(v delivery.View) error {
			b, err := act.Bridge(v)
			require.NoError(t, err)
			answer, err = b.Answer(p)
			return err
		}))
		return answer
	}
	act := admission(d, cylinder, machine)
	known := judge(act)
	act.Register.Address.Point = delivery.Point{}
	guessed := judge(act)
	assert.Greater(t, guessed.Needs, known.Needs)
	assert.Contains(t, guessed.Assumed, "the way home is not known: 2 h taken")

	act.Order = &delivery.Order{Setting: "2", Hours: 24}
	pulse := judge(act)
	assert.Equal(t, depletion.Unknown, pulse.Verdict)
	assert.Contains(t, pulse.Title, "pulse setting 2 is not litres a minute")
	d.do(act) // what can't be predicted can still be decided by a clinician
	d.clean()
}

// TestStopOfTwoClosesWithTheLast: two persons under one roof are one stop.
func TestStopOfTwoClosesWithTheLast(t *testing.T) {
	d := newDesk(t)
	first, second := d.register("Rowe"), d.register("Vale")
	home := d.watch(first).Address.ID
	run := d.do(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{
		Vehicle: "van 1", Day: "2030-03-05",
		Stops: []delivery.PlannedStop{{Address: home, Persons: []inventory.PersonID{first, second}}},
	}}}}).Facts[0].Run

	d.do(delivery.Visit{Run: run, Person: first})
	no := d.refused(delivery.Visit{Run: run, Person: first})
	assert.Contains(t, no.Says, "no open stop for the person")
	assert.Contains(t, d.refused(delivery.EndRun{Run: run}).Says, "1 stops of the run are still open")
	d.do(delivery.Visit{Run: run, Person: second, Failed: "nobody home"})
	d.do(delivery.EndRun{Run: run})
	runs, err := d.Runs(context.Background(), "2030-03-05")
	require.NoError(t, err)
	require.Len(t, runs, 1)
	assert.Equal(t, "nobody home", runs[0].Stops[0].Failed)
	assert.Equal(t, d.now, runs[0].Stops[0].Closed.In(d.now.Location()))
	d.clean()
}

func (d *desk) watchPage(who inventory.PersonID) store.PersonPage {
	d.t.Helper()
	page, err := d.Page(context.Background(), who, d.now)
	require.NoError(d.t, err)
	return page
}
