package measures_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/measures"
	"lungwort/delivery/stocking"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// story collects the facts of one person with one cylinder and one
// concentrator.
type story struct{ facts []inventory.Fact }

func (s *story) at(day float64, item inventory.ItemID, person inventory.PersonID, said inventory.Statement) {
	s.facts = append(s.facts, inventory.Fact{
		ID: inventory.FactID(len(s.facts) + 1), Happened: on(day), Recorded: on(day), Item: item, Person: person, Statement: said,
	})
}

const hour = 1.0 / 24

// discharged is a person ordered 2 L/min on day 0, changed to 4 on day 1, home
// on day 1.5, running two hours later with 1,000 psi left.
func discharged() *story {
	s := new(story)
	s.at(0, "", "p", &delivery.Ordered{Rest: 2, Hours: 24})
	s.at(1, "", "p", &delivery.Ordered{Rest: 4, Hours: 24})
	s.at(1.5, "e1", "p", &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, Role: inventory.Bridging})
	s.at(1.5, "e1", "", &inventory.Observed{Gauge: new(gas.PSI(2000))})
	s.at(1.5, "", "p", &delivery.Discharged{Ward: "6B", Opened: on(1.5)})
	s.at(1.5+2*hour-0.001, "e1", "", &inventory.Observed{Gauge: new(gas.PSI(1000))})
	s.at(1.5+2*hour, "c1", "p", &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 5}, Role: inventory.InUse})
	s.at(1.5+2*hour, "", "p", &delivery.Switched{To: delivery.FromConcentrator})
	return s
}

func (s *story) episode(t *testing.T) measures.Episode {
	t.Helper()
	all := measures.Episodes("p", s.facts, delivery.NewProgramme())
	require.Len(t, all, 1)
	return all[0]
}

func (s *story) measure(t *testing.T, name string, now float64, more func(*measures.Book)) measures.Measure {
	t.Helper()
	b := measures.Book{Programme: delivery.NewProgramme(), Now: on(now), Episodes: measures.Episodes("p", s.facts, delivery.NewProgramme())}
	if more != nil {
		more(&b)
	}
	for _, m := range b.Measures() {
		if m.Name == name {
			return m
		}
	}
	require.Fail(t, "no measure", name)
	return measures.Measure{}
}

// Both clocks: from the first and from the complete order.
func TestOrderToRunning(t *testing.T) {
	s := discharged()
	assert.Equal(t, 38*time.Hour, s.measure(t, "First order to running", 3, nil).Figure().Middle)
	assert.Equal(t, 14*time.Hour, s.measure(t, "Complete order to running", 3, nil).Figure().Middle)

	waits := new(story)
	waits.facts = s.facts[:5] // the concentrator is not there yet
	m := waits.measure(t, "Complete order to running", 3, nil)
	assert.Equal(t, []measures.Case{{Person: "p", At: on(1), Took: 48 * time.Hour, Open: true}}, m.Cases)
}

// The margin is what the bridging cylinder alone had left: 54 min by the real
// gas, the smaller beside (1000 - 200) psi × 0.28 L/psi ÷ 4 L/min = 56 min by
// the textbook rule (the factor 0.28 of an E as respiratory-therapy texts give
// it); what came with the concentrator does not count.
func TestBridgeMargin(t *testing.T) {
	s := discharged()
	assert.Equal(t, 54*time.Minute, s.episode(t).Margin)
	s.facts[6].Statement = &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, Role: inventory.Backup}
	assert.Equal(t, 54*time.Minute, s.episode(t).Margin)
	s.facts = append(s.facts[:5:5], s.facts[6:]...) // nobody read the gauge
	assert.False(t, s.episode(t).MarginSet)
	assert.Equal(t, "no case", s.measure(t, "Bridge margin", 3, nil).Says(s.measure(t, "Bridge margin", 3, nil).Figure()))
}

// An empty gauge harms on the cylinder alone; saving gas counts as without.
func TestWithoutOxygen(t *testing.T) {
	s := discharged()
	s.at(3, "e1", "", &inventory.Observed{Gauge: new(gas.PSI(0))}) // the concentrator runs
	assert.Empty(t, s.measure(t, "Without oxygen", 9, nil).Cases)
	s.at(4, "", "p", &delivery.Switched{To: delivery.FromCylinder})
	s.at(4.1, "e1", "", &inventory.Observed{Gauge: new(gas.PSI(0))})
	s.at(5, "", "p", &delivery.Called{Answered: true, Saving: true})
	parts := s.measure(t, "Without oxygen", 9, nil).Parts()
	require.Len(t, parts, 2)
	assert.Equal(t, "gauge at zero while on the cylinder", parts[0].Why)
	assert.Equal(t, "turned down to save gas", parts[1].Why)
}

// One cylinder at zero is not without oxygen while another may hold gas; when all
// are, that is one time, however often they are read, until gas is brought.
func TestWithoutOxygenIsEveryCylinderAtZero(t *testing.T) {
	s := discharged()
	zero := func(at float64, item inventory.ItemID) {
		s.at(at, item, "", &inventory.Observed{Gauge: new(gas.PSI(0))})
	}
	times := func() int { return len(s.measure(t, "Without oxygen", 99, nil).Cases) }
	bring := func(at float64, item inventory.ItemID) {
		s.at(at, item, "p", &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}, Role: inventory.Backup})
	}
	bring(3, "e2")
	s.at(4, "", "p", &delivery.Switched{To: delivery.FromCylinder})
	zero(5, "e1")
	assert.Equal(t, 0, times(), "nobody read the other")
	zero(6, "e2")
	assert.Equal(t, 1, times())
	zero(7, "e1")
	assert.Equal(t, 1, times(), "the same time")

	bring(8, "e3")
	s.at(8, "e3", "", &inventory.Observed{Gauge: new(gas.PSI(2000))})
	zero(8, "e2")
	assert.Equal(t, 1, times(), "gas came")
	zero(9, "e3")
	assert.Equal(t, 2, times())
}

// A try is not an answer; who is not due yet is open; who went back before is
// left out.
func TestFirstCallInTime(t *testing.T) {
	s := discharged()
	tried, answered := "First call tried in time", "First call answered in time"
	assert.Equal(t, 1, s.measure(t, tried, 2, nil).Figure().Open)
	s.at(1.5+15*hour, "", "p", &delivery.Called{})
	s.at(1.5+40*hour, "", "p", &delivery.Called{Answered: true})
	assert.InDelta(t, 1, s.measure(t, tried, 9, nil).Figure().Share, 1e-12)
	assert.InDelta(t, 0, s.measure(t, answered, 9, nil).Figure().Share, 1e-12)

	back := discharged()
	back.at(1.5+10*hour, "", "p", &delivery.Stopped{Reason: "readmitted"})
	assert.Empty(t, back.measure(t, tried, 9, nil).Cases)
}

func TestPapersSayWhatTheyLack(t *testing.T) {
	s := discharged()
	assert.Equal(t, "proof, consent", s.measure(t, "Papers complete", 9, nil).Cases[0].Why)
	s.at(2, "", "p", &delivery.Consented{To: delivery.FireService, Given: true})
	s.at(2, "", "p", &delivery.Proven{Items: []inventory.ItemID{"e1", "c1"}})
	assert.True(t, s.measure(t, "Papers complete", 9, nil).Cases[0].Met)
}

// lending is a book with three things of one ended loan: one back, one lost,
// one still there.
func lending(b *measures.Book) {
	machine := inventory.Spec{Kind: inventory.Concentrator}
	b.Items = []inventory.Item{
		{ID: "c1", Spec: machine, State: inventory.Ready},
		{ID: "c2", Spec: machine, State: inventory.Missing, Loss: &inventory.Loss{At: on(20), Why: "moved away", Worth: 900, Person: "p"}},
		{ID: "c3", Spec: machine, State: inventory.Idle, Person: "p"},
		{ID: "c4", Spec: machine, State: inventory.InRepair},
	}
	lent := on(1.6)
	b.Cycles = map[inventory.ItemID][]stocking.Cycle{
		"c1": {{Item: "c1", Person: "p", Lent: lent, Idle: on(10), Back: on(12), Ready: on(13)}},
		"c2": {{Item: "c2", Person: "p", Lent: lent, Lost: on(20)}},
		"c3": {{Item: "c3", Person: "p", Lent: lent, Idle: on(10)}},
	}
	b.Programme.Prices = delivery.Prices{Visit: 60, Fill: 20}
}

func TestRecoveryUseAndLoss(t *testing.T) {
	s := discharged()
	s.at(10, "", "p", &delivery.Stopped{Reason: "recovered"})
	back := s.measure(t, "Came back", 30, lending)
	require.Len(t, back.Cases, 3)
	assert.Equal(t, "concentrator, recovered", back.Cases[0].Why)
	f := back.Figure()
	assert.Equal(t, 1, f.Open)
	assert.InDelta(t, 0.5, f.Share, 1e-12)

	used := s.measure(t, "In use now", 30, lending).Figure()
	assert.Equal(t, 3, used.N, "what is in repair is not counted")
	assert.Zero(t, used.Share, "idle in a home is not in use")

	lost := s.measure(t, "Lost", 30, lending)
	assert.InDelta(t, 900, lost.Figure().Sum, 1e-9)
	idle := s.measure(t, "Idle days", 30, lending)
	assert.Equal(t, []bool{false, true}, []bool{idle.Cases[0].Open, idle.Cases[1].Open})
	out := s.measure(t, "Days out", 30, lending)
	require.Len(t, out.Cases, 3)
	assert.Equal(t, 1, out.Figure().N-out.Figure().Open)
}

// A loan costs nothing certain until everything is back or lost.
func TestCostOfACompletedLoan(t *testing.T) {
	s := discharged()
	s.at(10, "", "p", &delivery.Stopped{Reason: "recovered"})
	trips := map[inventory.PersonID][]measures.Trip{"p": {{At: on(1.6)}, {At: on(12)}}}
	cost := "Cost of a completed loan"
	assert.Empty(t, s.measure(t, cost, 30, lending).Cases, "one thing is still there")
	done := s.measure(t, cost, 30, func(b *measures.Book) {
		lending(b)
		b.Trips = trips
		b.Items, b.Items[2].State = b.Items[:3], inventory.Ready
		b.Cycles["c3"][0].Back = on(15)
	})
	require.Len(t, done.Cases, 1)
	assert.InDelta(t, 2*60+900, done.Cases[0].Amount, 1e-9)
	assert.Contains(t, s.measure(t, cost, 30, nil).Definition, "No prices are set yet")
}

// A visit is one visit whatever was done at it, and its cause is its task.
func TestTripsOutsideTheShift(t *testing.T) {
	s := discharged()
	p := delivery.NewProgramme()
	p.Vehicles = []delivery.Vehicle{{Name: "van 1", From: "08:00", Until: "17:00"}}
	s.at(2, "", "p", &delivery.Tasked{Task: delivery.Swap, Backup: true})
	task := s.facts[len(s.facts)-1].ID
	night := 2 + 12*hour // 21:00
	s.at(night, "e1", "p", &inventory.Collected{Vehicle: "van 1"})
	s.at(night, "", "p", &delivery.Visited{})
	s.at(night, "", "p", &delivery.Done{Task: task})
	s.at(3, "", "p", &delivery.Visited{})
	trips := measures.Trips("p", s.facts, p)
	require.Len(t, trips, 2)
	assert.Equal(t, measures.Trip{Person: "p", At: on(night), Cause: "low backup", Outside: true}, trips[0])
	assert.False(t, trips[1].Outside)
}
