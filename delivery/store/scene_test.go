package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// scene is a desk with a thing in every state that matters to an act, by
// serial, and a person in every phase, by family name.
type scene struct {
	*desk
	thing map[string]inventory.ItemID
	who   map[string]inventory.PersonID
	run   inventory.RunID // with an open stop for Bridge
	over  inventory.RunID // ended
}

func newScene(t *testing.T) *scene { return newSceneAt(t, booktest.NewClock()) }

func newSceneAt(t *testing.T, clock *booktest.Clock) *scene {
	s := &scene{desk: newDeskAt(t, clock), thing: map[string]inventory.ItemID{}, who: map[string]inventory.PersonID{}}
	s.stock()
	for _, family := range []string{"Known", "Ordered", "Bridge", "Running", "Over", "Dark"} {
		s.who[family] = s.register(family)
	}
	dark := s.watch(s.who["Dark"]).Address
	dark.Mains = delivery.MainsNo
	s.do(delivery.Register{Person: s.watch(s.who["Dark"]).Person, Address: dark})
	for _, family := range []string{"Ordered", "Bridge", "Running", "Over", "Dark"} {
		s.do(delivery.Order{Person: s.who[family], Rest: 2, Exertion: 3, Hours: 24})
	}
	s.leaves("Bridge", "E-bridge", "CN-held")
	s.leaves("Running", "E-lent", "CN-running")
	s.do(delivery.Visit{Person: s.who["Running"], Left: []delivery.Piece{{Item: s.thing["CN-running"]}}, Running: true})
	s.leaves("Over", "E-idle", "CN-driver")
	s.do(delivery.Visit{Person: s.who["Over"], Left: []delivery.Piece{{Item: s.thing["CN-driver"]}}, Running: true})
	s.do(delivery.Visit{Person: s.who["Over"], Left: []delivery.Piece{{Item: s.thing["CN-dirty"]}, {Item: s.thing["E-driver"]}}})
	s.do(delivery.StopOxygen{Person: s.who["Over"], Reason: "recovered", OrderedBy: "clinic"})
	s.do(delivery.Visit{Person: s.who["Over"], Took: []delivery.Taken{{Item: s.thing["CN-driver"]}, {Item: s.thing["E-driver"]}}})
	s.do(delivery.Return{Item: s.thing["CN-dirty"], Depot: "harbour"})
	s.runs()
	s.now = s.now.Add(time.Hour)
	return s
}

func (s *scene) stock() {
	for _, serial := range []string{"E-ready", "E-bridge", "E-lent", "E-idle", "E-driver", "E-retired"} {
		s.thing[serial] = s.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: serial}, 2000)
	}
	for _, serial := range []string{"CN-ready", "CN-held", "CN-running", "CN-driver", "CN-dirty", "CN-failed", "CN-recalled"} {
		s.thing[serial] = s.enrol(inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Serial: serial, Model: "Still 5"}, 0)
	}
	s.thing["CN-large"] = s.enrol(inventory.Spec{Kind: inventory.Concentrator, Rated: 10, Serial: "CN-large"}, 0)
	s.thing["RG-ready"] = s.enrol(inventory.Spec{Kind: inventory.Regulator, Serial: "RG-ready"}, 0)
	s.thing["E-unread"] = s.do(delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-unread"}, Depot: "harbour"}).Facts[0].Item
	s.thing["ZX-theirs"] = s.do(delivery.Stray{Serial: "ZX-theirs", Depot: "harbour", Owner: "Other supplier"}).Facts[0].Item
	s.thing["ZX-unknown"] = s.do(delivery.Stray{Serial: "ZX-unknown", Depot: "harbour"}).Facts[0].Item
	s.do(delivery.Move{Item: s.thing["E-retired"], To: "retired"})
	s.do(delivery.Quarantine{Item: s.thing["CN-failed"], Why: "alarm"})
	s.do(delivery.Test{Item: s.thing["CN-failed"], Oxygen: new(79.0), Passed: true})
	s.do(delivery.Recall{Notice: "Q-1", Items: []inventory.ItemID{s.thing["CN-recalled"]}})
}

func (s *scene) leaves(family, cylinder, machine string) {
	s.do(delivery.Discharge{
		Person: s.who[family], Ward: "6B", Arrives: s.now.Add(time.Hour),
		HandOver: []delivery.Piece{{Item: s.thing[cylinder], Gauge: new(gas.PSI(2000))}},
		Bring:    []inventory.ItemID{s.thing[machine]},
	})
}

func (s *scene) runs() {
	plan := delivery.Planned{Vehicle: "van 1", Day: "2030-03-04", Stops: []delivery.PlannedStop{
		{Address: s.watch(s.who["Bridge"]).Address.ID, Persons: []inventory.PersonID{s.who["Bridge"]}, Arrive: s.now.Add(time.Hour)},
	}}
	s.run = s.do(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: plan}}}).Facts[0].Run
	s.over = s.do(delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{Vehicle: "van 1", Day: "2030-03-03"}}}}).Facts[0].Run
	s.do(delivery.EndRun{Run: s.over})
}

// no is an act that must be refused, and how.
type no struct {
	act  delivery.Act
	kind refusal.Kind
	says string
}

// refuses holds acts to their refusals. Nothing is written by any of them, so
// they share the scene.
func (s *scene) refuses(acts map[string]no) {
	s.t.Helper()
	count := func() int {
		facts, err := s.Facts(context.Background(), items.About{})
		require.NoError(s.t, err)
		return len(facts)
	}
	before := count()
	for name, c := range acts {
		_, err := s.Do(context.Background(), s.hand(), c.act)
		if !assert.Error(s.t, err, name) {
			return
		}
		assert.Equal(s.t, c.kind, refusal.KindOf(err), "%s: %v", name, err)
		assert.Contains(s.t, err.Error(), c.says, name)
		assert.Equal(s.t, before, count(), name)
	}
	s.clean()
}

// writes holds an act to the statements it writes, in order, and returns what
// it said.
func (s *scene) writes(act delivery.Act, want ...string) string {
	s.t.Helper()
	out := s.do(act)
	var says []string
	for _, f := range out.Facts {
		says = append(says, f.Statement.Says())
		assert.Equal(s.t, "tester", f.By)
		assert.False(s.t, f.Happened.IsZero())
	}
	assert.Equal(s.t, want, says, "%T", act)
	s.clean()
	return out.Says
}
