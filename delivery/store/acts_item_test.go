package store_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

func TestActsOnItemsRefuse(t *testing.T) {
	s := newScene(t)
	cylinder := inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-new"}
	psi := func(v float64) *gas.Pressure { return new(gas.PSI(v)) }
	s.refuses(map[string]no{
		"enrol: no kind":       {delivery.Enrol{Spec: inventory.Spec{Kind: "balloon"}, Depot: "harbour"}, refusal.Invalid, "is no kind of item"},
		"enrol: no size":       {delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "E"}, Depot: "harbour"}, refusal.Invalid, "No cylinder size goes by"},
		"enrol: no depot":      {delivery.Enrol{Spec: cylinder, Depot: "6B"}, refusal.NotFound, `no place "depot:6B"`},
		"enrol: twin":          {delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Concentrator, Serial: "cn ready", Model: "still-5"}, Depot: "harbour"}, refusal.Conflict, "is in the book already"},
		"enrol: overfull":      {delivery.Enrol{Spec: cylinder, Depot: "harbour", Gauge: psi(6000)}, refusal.Invalid, "is not possible"},
		"enrol: ready, unread": {delivery.Enrol{Spec: cylinder, Depot: "harbour", Cleared: true}, refusal.Invalid, "has no gauge reading"},

		"refill: a machine": {delivery.Refill{Item: s.thing["CN-ready"], Full: gas.PSI(2000), Depot: "harbour"}, refusal.Invalid, "is not filled"},
		"refill: on loan":   {delivery.Refill{Item: s.thing["E-lent"], Full: gas.PSI(2000), Depot: "harbour"}, refusal.Conflict, "is on loan"},
		"refill: retired":   {delivery.Refill{Item: s.thing["E-retired"], Full: gas.PSI(2000), Depot: "harbour"}, refusal.Conflict, "is retired"},
		"refill: nowhere":   {delivery.Refill{Item: s.thing["E-ready"], Full: gas.PSI(2000), Depot: "nowhere"}, refusal.NotFound, "no place"},
		"refill: overfull":  {delivery.Refill{Item: s.thing["E-ready"], Full: gas.PSI(4000), Depot: "harbour"}, refusal.Invalid, "is not possible"},

		"read: nothing":     {delivery.Read{Item: s.thing["E-ready"]}, refusal.Invalid, "no value in the reading"},
		"read: no gauge":    {delivery.Read{Item: s.thing["CN-ready"], Gauge: psi(500)}, refusal.Invalid, "has no gauge"},
		"read: below zero":  {delivery.Read{Item: s.thing["E-ready"], Gauge: psi(-1)}, refusal.Invalid, "is not possible"},
		"read: no number":   {delivery.Read{Item: s.thing["E-ready"], Gauge: psi(math.NaN())}, refusal.Invalid, "is not possible"},
		"read: oxygen":      {delivery.Read{Item: s.thing["CN-ready"], Oxygen: new(101.0)}, refusal.Invalid, "Oxygen of 101 %"},
		"read: hours":       {delivery.Read{Item: s.thing["CN-ready"], Hours: new(math.Inf(1))}, refusal.Invalid, "hours meter"},
		"read: not a thing": {delivery.Read{Item: "i999999", Hours: new(1.0)}, refusal.NotFound, "No item i999999"},

		"move: on loan":     {delivery.Move{Item: s.thing["E-lent"], To: "depot:harbour"}, refusal.Conflict, "is on loan"},
		"move: with driver": {delivery.Move{Item: s.thing["E-driver"], To: "depot:harbour"}, refusal.Conflict, "comes with a driver"},
		"move: retired":     {delivery.Move{Item: s.thing["E-retired"], To: "depot:harbour"}, refusal.Conflict, "is retired"},
		"move: nowhere":     {delivery.Move{Item: s.thing["E-ready"], To: "vehicle:van 9"}, refusal.NotFound, `no place "vehicle:van 9"`},
		"move: to a home":   {delivery.Move{Item: s.thing["E-ready"], To: "address:a00001"}, refusal.NotFound, "no place"},

		"bench: ready":       {delivery.Bench{Item: s.thing["CN-ready"]}, refusal.Conflict, "not waiting for the bench"},
		"bench: on loan":     {delivery.Bench{Item: s.thing["CN-running"]}, refusal.Conflict, "not waiting for the bench"},
		"test: ready":        {delivery.Test{Item: s.thing["CN-ready"], Passed: true}, refusal.Conflict, "not on the bench"},
		"test: on loan":      {delivery.Test{Item: s.thing["CN-running"], Passed: true}, refusal.Conflict, "not on the bench"},
		"test: oxygen":       {delivery.Test{Item: s.thing["CN-dirty"], Passed: true, Oxygen: new(940.0)}, refusal.Invalid, "Oxygen of 940 %"},
		"test: no oxygen":    {delivery.Test{Item: s.thing["CN-dirty"], Passed: true}, refusal.Invalid, "The oxygen of CN-dirty was not measured"},
		"test: no reason":    {delivery.Test{Item: s.thing["CN-dirty"], Oxygen: new(94.0)}, refusal.Invalid, "does not say what failed"},
		"release: ready":     {delivery.Release{Item: s.thing["CN-ready"], Depot: "harbour"}, refusal.Conflict, "is ready, not on the bench"},
		"release: held":      {delivery.Release{Item: s.thing["CN-held"], Depot: "harbour"}, refusal.Conflict, "is reserved, not on the bench"},
		"release: on loan":   {delivery.Release{Item: s.thing["CN-running"], Depot: "harbour"}, refusal.Conflict, "is on loan"},
		"release: driver":    {delivery.Release{Item: s.thing["CN-driver"], Depot: "harbour"}, refusal.Conflict, "is with driver"},
		"release: failed":    {delivery.Release{Item: s.thing["CN-failed"], Depot: "harbour"}, refusal.Unready, "failed its test: oxygen 79.0 %, under 82 %"},
		"release: untested":  {delivery.Release{Item: s.thing["CN-dirty"], Depot: "harbour"}, refusal.Unready, "was not tested since it came back"},
		"release: recalled":  {delivery.Release{Item: s.thing["CN-recalled"], Depot: "harbour"}, refusal.Unready, "named by recall Q-1"},
		"release: theirs":    {delivery.Release{Item: s.thing["ZX-theirs"], Depot: "harbour"}, refusal.Foreign, "belongs to Other supplier"},
		"release: unknown":   {delivery.Release{Item: s.thing["ZX-unknown"], Depot: "harbour"}, refusal.Unready, "is not known to the book"},
		"release: unread":    {delivery.Release{Item: s.thing["E-unread"], Depot: "harbour"}, refusal.Unready, "has no gauge reading"},
		"recall: nothing":    {delivery.Recall{Notice: "Q-2"}, refusal.Invalid, "names no item"},
		"recall: twice":      {delivery.Recall{Notice: "Q-2", Items: []inventory.ItemID{s.thing["CN-ready"], s.thing["CN-ready"]}}, refusal.Invalid, "is named twice"},
		"return: not lent":   {delivery.Return{Item: s.thing["CN-ready"], Depot: "harbour"}, refusal.Conflict, "nobody has it on loan"},
		"return: unread":     {delivery.Return{Item: s.thing["E-lent"], Depot: "harbour"}, refusal.Invalid, "no cylinder is booked empty without one"},
		"return: nowhere":    {delivery.Return{Item: s.thing["CN-running"], Depot: "nowhere"}, refusal.NotFound, "no place"},
		"return: overfull":   {delivery.Return{Item: s.thing["E-lent"], Depot: "harbour", Gauge: psi(9000)}, refusal.Invalid, "is not possible"},
		"stray: no serial":   {delivery.Stray{Serial: " - ", Depot: "harbour"}, refusal.Invalid, "needs the serial"},
		"stray: in the book": {delivery.Stray{Serial: "e lent", Depot: "harbour"}, refusal.Conflict, "is in the book"},
		"stray: nowhere":     {delivery.Stray{Serial: "Q9", Depot: "nowhere"}, refusal.NotFound, "no place"},
		"retract: no fact":   {delivery.Retract{Fact: 99999, Why: "x"}, refusal.NotFound, "There is no fact 99999"},
	})
}

func TestActsOnItemsWrite(t *testing.T) {
	s := newScene(t)
	s.writes(delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Oximeter, Serial: "OX-1"}, Depot: "harbour"}, "enrolled", "moved")
	s.writes(delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-D", Serial: "D-1"}, Depot: "harbour", Lot: "L1", Gauge: new(gas.PSI(1900)), Cleared: true},
		"enrolled", "moved", "filled", "observed", "cleared")
	s.writes(delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Concentrator, Serial: "CN-ready", Model: "Brook"}, Depot: "harbour"}, "enrolled", "moved") // another maker's
	s.writes(delivery.Read{Item: s.thing["E-unread"], Gauge: new(gas.PSI(1900))}, "observed")
	s.writes(delivery.Release{Item: s.thing["E-unread"], Depot: "harbour"}, "cleared")
	s.writes(delivery.Refill{Item: s.thing["E-unread"], Lot: "L2", Full: gas.PSI(2000), Depot: "harbour"}, "filled", "observed", "moved")
	assert.Equal(t, inventory.Ready, s.item(s.thing["E-unread"]).State)

	s.writes(delivery.Test{Item: s.thing["CN-dirty"], Passed: true, Oxygen: new(94.0)}, "observed", "tested")
	s.writes(delivery.Release{Item: s.thing["CN-dirty"], Depot: "harbour"}, "cleared")
	s.writes(delivery.Bench{Item: s.thing["CN-failed"]}, "benched")
	s.refuses(map[string]no{"a bench does not mend": {delivery.Release{Item: s.thing["CN-failed"], Depot: "harbour"}, refusal.Unready, "failed its test"}})
	s.writes(delivery.Test{Item: s.thing["CN-failed"], Passed: true, Oxygen: new(93.0)}, "observed", "tested")
	s.writes(delivery.Release{Item: s.thing["CN-failed"], Depot: "harbour"}, "cleared")

	assert.Contains(t, s.writes(delivery.Move{Item: s.thing["CN-held"], To: "missing"}, "moved"), "choose another")
	s.writes(delivery.Move{Item: s.thing["RG-ready"], To: "vehicle:van 1"}, "moved")
	s.writes(delivery.Return{Item: s.thing["E-driver"], Depot: "harbour", Gauge: new(gas.PSI(300))}, "observed", "returned")
	s.writes(delivery.Quarantine{Item: s.thing["CN-ready"], Why: "smells of smoke"}, "quarantined")
	s.writes(delivery.Stray{Serial: "E-lent", Depot: "harbour", Owner: "Other supplier"}, "enrolled", "moved") // the same serial, another's
}

// TestQuarantineInAHomeFetchesIt: the person keeps the thing until another
// comes, and a swap is open for it.
func TestQuarantineInAHomeFetchesIt(t *testing.T) {
	s := newScene(t)
	says := s.writes(delivery.Quarantine{Item: s.thing["CN-running"], Why: "alarm"}, "quarantined", "tasked")
	assert.Contains(t, says, "A swap is open")
	assert.Equal(t, inventory.AtWork, s.item(s.thing["CN-running"]).State)
	task := s.watch(s.who["Running"]).Care.Tasks[0]
	assert.Equal(t, delivery.Swap, task.Tasked.Task)
	assert.Equal(t, []delivery.Wanted{{Kind: inventory.Concentrator, Rated: 5, Count: 1}}, task.Bring)

	s.writes(delivery.Quarantine{Item: s.thing["E-idle"], Why: "leaks"}, "quarantined") // not needed: the collection fetches it
}

func TestRecallReachesHomesAndReservations(t *testing.T) {
	s := newScene(t)
	says := s.writes(delivery.Recall{Notice: "Q-2", Items: []inventory.ItemID{s.thing["CN-running"], s.thing["CN-held"], s.thing["CN-ready"]}},
		"recalled", "quarantined", "tasked", "recalled", "quarantined", "recalled", "quarantined")
	assert.Contains(t, says, "3 items marked, 1 of them in homes")
	assert.Contains(t, says, "Set aside for persons: 1; choose others for them.")
	assert.Equal(t, inventory.InQuarantine, s.item(s.thing["CN-held"]).State)
	assert.Equal(t, inventory.AtWork, s.item(s.thing["CN-running"]).State)
	s.refuses(map[string]no{"lent again": {
		delivery.Visit{Person: s.who["Running"], Left: []delivery.Piece{{Item: s.thing["CN-ready"]}}}, refusal.Unready, "is named by recall Q-2"}})
}

// TestReturnAsksWhereGasWasNotUsed: a cylinder nearly full again is a question
// about the person, not luck.
func TestReturnAsksWhereGasWasNotUsed(t *testing.T) {
	s := newScene(t)
	out := s.do(delivery.Return{Item: s.thing["E-bridge"], Depot: "harbour", Gauge: new(gas.PSI(1990))})
	assert.Contains(t, out.Says, "ask the clinician whether this person had gas")
	out = s.do(delivery.Return{Item: s.thing["E-idle"], Depot: "harbour", Gauge: new(gas.PSI(400))})
	assert.NotContains(t, out.Says, "clinician")
	assert.False(t, s.watch(s.who["Over"]).Care.Has(delivery.Collect), "the last thing is back: the collection is done")
	s.clean()
}

func TestReconcile(t *testing.T) {
	of := func(ids ...inventory.ItemID) []inventory.Item {
		var list []inventory.Item
		for _, id := range ids {
			list = append(list, inventory.Item{ID: id})
		}
		return list
	}
	r := delivery.Reconcile(of("a", "b"), of("b", "c"), []string{"ZX-1"})
	assert.Equal(t, delivery.Reconciliation{Back: of("b"), Missing: of("a"), Extra: of("c"), Unknown: []string{"ZX-1"}}, r)
}
