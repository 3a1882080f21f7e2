package store_test

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// everywhere is what every list says of one person.
type everywhere struct {
	watched bool
	call    bool // due within two days
	stop    bool // a van still goes there
	tasks   string
	states  string // of the kit, by serial
	phase   delivery.Phase
}

// lists reads every list anew.
func (s *scene) lists(who inventory.PersonID) everywhere {
	s.t.Helper()
	ctx := context.Background()
	var e everywhere
	rows, err := s.Watch(ctx, s.now)
	require.NoError(s.t, err)
	for _, w := range rows {
		e.watched = e.watched || w.Person.ID == who
	}
	p, err := s.Programme(ctx)
	require.NoError(s.t, err)
	later, err := s.Watch(ctx, s.now.Add(48*time.Hour))
	require.NoError(s.t, err)
	for _, c := range delivery.DueCalls(p, later, s.now.Add(48*time.Hour)) {
		e.call = e.call || c.Person.ID == who
	}
	runs, err := s.Runs(ctx, "")
	require.NoError(s.t, err)
	for _, r := range runs {
		_, stops := r.Visit(who)
		e.stop = e.stop || stops
	}
	open, err := s.Tasks(ctx, s.now)
	require.NoError(s.t, err)
	for _, t := range open {
		if t.Person.ID == who {
			for _, task := range t.Care.Tasks {
				e.tasks = strings.TrimSpace(e.tasks + " " + string(task.Tasked.Task))
			}
		}
	}
	page, err := s.Page(ctx, who, s.now)
	require.NoError(s.t, err)
	e.phase = page.Care.Phase
	for _, i := range page.Kit {
		e.states += i.Spec.Serial + " " + string(i.State) + "; "
	}
	return e
}

// TestEachEventReachesEveryList: watch list, calls, runs, tasks, stock and page
// change in the same transaction.
func TestEachEventReachesEveryList(t *testing.T) {
	start := everywhere{true, true, true, "deliver", "E-bridge handed over; ", delivery.OnBridge}
	day := func(s *scene, days int) time.Time { return s.now.AddDate(0, 0, days) }
	for name, c := range map[string]struct {
		act  func(*scene) delivery.Act
		want everywhere
		held inventory.State // of the machine that was set aside
	}{
		"nothing": {nil, start, inventory.Held},
		"stop": {func(s *scene) delivery.Act {
			return delivery.StopOxygen{Person: s.who["Bridge"], Reason: "recovered", OrderedBy: "clinic"}
		}, everywhere{false, false, true, "collect", "E-bridge not needed; ", delivery.Over}, inventory.Ready},
		"death": {func(s *scene) delivery.Act {
			return delivery.Die{Person: s.who["Bridge"], ToldBy: "ward 6B", Contact: "Ben", Phone: "555-0177", NotBefore: day(s, 7)}
		}, everywhere{false, false, false, "collect", "E-bridge not needed; ", delivery.Over}, inventory.Ready},
		"readmission": {func(s *scene) delivery.Act {
			return delivery.Readmit{Person: s.who["Bridge"], Ward: "6B", Until: day(s, 3)}
		}, everywhere{false, false, false, "collect", "E-bridge on hold; ", delivery.InHospital}, inventory.Ready},
		"move": {func(s *scene) delivery.Act {
			return delivery.Relocate{Person: s.who["Bridge"], Address: delivery.Address{Street: "Rope Walk 3", Mains: delivery.MainsYes}}
		}, everywhere{true, true, false, "deliver", "E-bridge handed over; ", delivery.OnBridge}, inventory.Held},
		"refusal": {func(s *scene) delivery.Act {
			return delivery.Refuse{Person: s.who["Bridge"], What: delivery.TheBackup, Why: "no room", Again: day(s, 3)}
		}, start, inventory.Held},
		"recall": {func(s *scene) delivery.Act {
			return delivery.Recall{Notice: "Q-9", Items: []inventory.ItemID{s.thing["E-bridge"], s.thing["CN-held"]}}
		}, everywhere{true, true, true, "deliver swap", "E-bridge handed over; ", delivery.OnBridge}, inventory.InQuarantine},
		"missed delivery": {func(s *scene) delivery.Act {
			return delivery.Visit{Run: s.run, Person: s.who["Bridge"], Failed: "nobody in", Next: s.now.Add(time.Hour)}
		}, everywhere{true, true, false, "deliver", "E-bridge handed over; ", delivery.OnBridge}, inventory.Held},
	} {
		s := newScene(t)
		if c.act != nil {
			s.do(c.act(s))
		}
		assert.Equal(t, c.want, s.lists(s.who["Bridge"]), name)
		held, err := s.Item(context.Background(), "CN-held", 0)
		require.NoError(t, err)
		assert.Equal(t, c.held, held.State, name)
		s.clean()
	}
}

// A missed delivery recalculates cover at once: the home stands on top before
// anybody calls.
func TestMissedDeliveryComesToTheTop(t *testing.T) {
	s := newScene(t)
	s.do(delivery.Read{Item: s.thing["E-bridge"], Gauge: new(gas.PSI(350))})
	s.do(delivery.Visit{Run: s.run, Person: s.who["Bridge"], Failed: "van broke down", Next: s.now.Add(6 * time.Hour)})
	rows, err := s.Watch(context.Background(), s.now.Add(time.Minute))
	require.NoError(t, err)
	assert.Equal(t, s.who["Bridge"], rows[0].Person.ID)
	assert.NotEqual(t, depletion.Holds, rows[0].Verdict)
}

// Death 3 April, call due 4 April: suppressed; the charge is asked about; one
// named person, from a day on.
func TestAfterADeathNobodyIsCalledButOneFromADayOn(t *testing.T) {
	s := newScene(t)
	who := s.who["Running"]
	s.do(delivery.Die{Person: who, ToldBy: "ward 6B", Contact: "daughter", Phone: "555-0177", NotBefore: s.now.AddDate(0, 0, 7)})
	_, err := s.Do(context.Background(), s.hand(), delivery.Call{Person: who, Answered: true})
	assert.Equal(t, refusal.Conflict, refusal.KindOf(err))
	assert.ErrorContains(t, err, "Then only daughter, 555-0177")
	_, err = s.Do(context.Background(), s.hand(), delivery.Ask{Person: who, Task: delivery.Collect, Why: "now"})
	assert.ErrorContains(t, err, "Nobody goes there before")
	asked, err := s.Questions(context.Background(), false)
	require.NoError(t, err)
	require.Len(t, asked, 1)
	assert.Equal(t, delivery.ChargeRunning, asked[0].Clash)
	plan, err := s.Propose(context.Background(), s.now, 100, nil, nil)
	require.NoError(t, err)
	for _, r := range plan.Runs {
		for _, stop := range r.Stops {
			assert.NotContains(t, stop.Persons, who, "no run goes there before the day")
		}
	}
	s.now = s.now.AddDate(0, 0, 8)
	s.do(delivery.Call{Person: who, Answered: true})
}

// Readmitted with the portable: it stays on the ward, to be fetched; what is at
// home is held, is used again on the next discharge, and no machine is lent
// meanwhile.
func TestReadmittedAndHomeAgain(t *testing.T) {
	s := newScene(t)
	who := s.who["Running"]
	says := s.do(delivery.Readmit{Person: who, Ward: "6B", Until: s.now.AddDate(0, 0, 3), Portable: []inventory.ItemID{s.thing["E-lent"]}}).Says
	assert.Contains(t, says, "Fetch from ward 6B: E-lent.")
	portable, err := s.Item(context.Background(), "E-lent", 0)
	require.NoError(t, err)
	assert.Equal(t, inventory.Dirty, portable.State)
	assert.Equal(t, inventory.At(inventory.AtWard, "6B"), portable.Place)
	atWard, _, err := s.Items(context.Background(), items.Filter{Place: inventory.At(inventory.AtWard, "6B")})
	require.NoError(t, err)
	assert.Len(t, atWard, 1)
	machine, err := s.Item(context.Background(), "CN-running", 0)
	require.NoError(t, err)
	assert.Equal(t, inventory.Waiting, machine.State)
	_, err = s.Do(context.Background(), s.hand(), delivery.Ask{Person: who, Task: delivery.Swap, Why: "x"})
	assert.Error(t, err)

	s.now = s.now.AddDate(0, 0, 1)
	s.do(delivery.Discharge{Person: who, Ward: "6B", HandOver: []delivery.Piece{{Item: s.thing["E-ready"], Gauge: new(gas.PSI(1900))}}})
	again := s.lists(who)
	assert.Equal(t, delivery.OnBridge, again.phase)
	assert.Contains(t, again.states, "CN-running in use")
	assert.Empty(t, again.tasks, "the hold's collection is gone")
	s.clean()
}

// A move that we carry out names the old home to the driver, but no fact holds
// where that is: it goes with the address when the person is erased.
func TestAMoveLeavesNoStreetInTheFacts(t *testing.T) {
	s := newScene(t)
	who := s.who["Running"]
	old := s.watch(who).Address
	s.do(delivery.Relocate{
		Person: who, Address: delivery.Address{Street: "Rope Walk 3", Mains: delivery.MainsYes}, From: s.now.AddDate(0, 0, 1), Until: s.now.AddDate(0, 0, 9),
		Along: []inventory.ItemID{s.thing["E-lent"]}, Mover: delivery.Us,
	})
	page, err := s.Page(t.Context(), who, s.now)
	require.NoError(t, err)
	assert.True(t, slices.ContainsFunc(page.Care.Tasks, func(t delivery.OpenTask) bool {
		return t.Why == "move: bring along what is at the old home, "+old.Where()
	}), "%v", page.Care.Tasks)
	facts, err := s.Facts(t.Context(), items.About{Person: who})
	require.NoError(t, err)
	for _, f := range facts {
		body, err := json.Marshal(f.Statement)
		require.NoError(t, err)
		assert.NotContains(t, string(body), old.Street)
		assert.NotContains(t, string(body), "Rope Walk 3")
	}
}

// One person at two addresses with dates: the stay counts while it lasts.
func TestAStayEndsByItself(t *testing.T) {
	s := newScene(t)
	who := s.who["Running"]
	home := s.watch(who).Address
	s.do(delivery.Relocate{
		Person: who, Address: delivery.Address{Street: "Rope Walk 3"}, Until: s.now.AddDate(0, 0, 10), Along: []inventory.ItemID{s.thing["E-lent"]},
	})
	assert.Equal(t, "Rope Walk 3", s.watch(who).Address.Street)
	s.now = s.now.AddDate(0, 0, 11)
	assert.Equal(t, home.Street, s.watch(who).Address.Street)
	s.clean()
}
