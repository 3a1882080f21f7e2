package store_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

func TestActsOnPersonsRefuse(t *testing.T) {
	s := newScene(t)
	flow := func(v float64) *gas.Flow { return new(gas.Flow(v)) }
	order := func(rest, hours float64) delivery.Order {
		return delivery.Order{Person: s.who["Ordered"], Rest: gas.Flow(rest), Hours: hours}
	}
	s.refuses(map[string]no{
		"register: no name":    {delivery.Register{Address: delivery.Address{Street: "Quay 1"}}, refusal.Invalid, "needs a name"},
		"register: not there":  {delivery.Register{Person: delivery.Person{ID: "p99999", Family: "Vale"}}, refusal.NotFound, "No person p99999"},
		"order: no flow":       {order(0, 24), refusal.Invalid, "no flow at rest"},
		"order: no hours":      {order(2, 0), refusal.Invalid, "how many hours"},
		"order: 25 h a day":    {order(2, 25), refusal.Invalid, "how many hours"},
		"order: no number":     {order(2, math.NaN()), refusal.Invalid, "how many hours"},
		"order: flow":          {order(26, 24), refusal.Ask, "more than home kit gives"},
		"order: nobody":        {delivery.Order{Person: "p99999", Rest: 2, Hours: 24}, refusal.NotFound, "No person p99999"},
		"switch: to nothing":   {delivery.Switch{Person: s.who["Running"], To: "tent"}, refusal.Invalid, "nothing to breathe from"},
		"switch: no machine":   {delivery.Switch{Person: s.who["Bridge"], To: delivery.FromConcentrator}, refusal.Conflict, "has no concentrator of ours"},
		"switch: stopped":      {delivery.Switch{Person: s.who["Over"], To: delivery.FromCylinder}, refusal.Conflict, "has no oxygen of ours"},
		"switch: not home yet": {delivery.Switch{Person: s.who["Ordered"], To: delivery.FromCylinder}, refusal.Conflict, "has no oxygen of ours"},

		"call: no answer, yet a flow": {delivery.Call{Person: s.who["Running"], Flow: flow(2)}, refusal.Ask, "nobody answered"},
		"call: no answer, yet worse":  {delivery.Call{Person: s.who["Running"], Worse: true}, refusal.Ask, "nobody answered"},
		"call: exertion of -1":        {delivery.Call{Person: s.who["Running"], Answered: true, Exertion: new(-1.0)}, refusal.Invalid, "not possible"},
		"call: next before it":        {delivery.Call{Person: s.who["Running"], Answered: true, Next: s.now}, refusal.Invalid, "before this one"},
		"call: number -1":             {delivery.Call{Person: s.who["Running"], Contact: -1}, refusal.Invalid, "no such number"},
		"call: hours of nothing":      {delivery.Call{Person: s.who["Bridge"], Answered: true, Hours: new(3.0)}, refusal.Conflict, "no concentrator of ours"},
		"escalate: nobody":            {delivery.Escalate{Person: s.who["Running"]}, refusal.Invalid, "Nobody is named"},
		"escalate: nothing open":      {delivery.Escalate{Person: s.who["Running"], Told: "Dr Holm"}, refusal.Ask, "Nothing stands open"},
		"escalate: no such matter":    {delivery.Escalate{Person: s.who["Running"], Told: "Dr Holm", About: []string{"the weather"}}, refusal.Invalid, "is no matter"},
		"bands: nobody":               {delivery.GiveBands{Person: s.who["Running"]}, refusal.Invalid, "Nobody is named"},
		"bands: no order":             {delivery.GiveBands{Person: s.who["Known"], By: "Dr Holm", Waived: true}, refusal.Conflict, "no order"},
		"bands: both":                 {delivery.GiveBands{Person: s.who["Running"], By: "Dr Holm", Waived: true, Target: 90}, refusal.Ask, "waived at once"},
		"bands: no numbers":           {delivery.GiveBands{Person: s.who["Running"], By: "Dr Holm"}, refusal.Invalid, "can't be"},
		"bands: no flows":             {delivery.GiveBands{Person: s.who["Running"], By: "Dr Holm", Target: 90}, refusal.Invalid, "flows of the bands"},
		"bands: upside down":          {delivery.GiveBands{Person: s.who["Running"], By: "Dr Holm", Target: 90, Borderline: 6, Emergency: 5}, refusal.Invalid, "above the emergency"},
		"call: SpO2 of 193":           {delivery.Call{Person: s.who["Running"], Answered: true, SpO2: new(193.0), Flow: flow(2)}, refusal.Invalid, "not possible"},
		"call: SpO2 of NaN":           {delivery.Call{Person: s.who["Running"], Answered: true, SpO2: new(math.NaN()), Flow: flow(2)}, refusal.Invalid, "not possible"},
		"call: gauge of nothing":      {delivery.Call{Person: s.who["Known"], Answered: true, Gauge: new(gas.PSI(500))}, refusal.Conflict, "has no cylinder of ours"},
		"call: gauge too high":        {delivery.Call{Person: s.who["Running"], Answered: true, Gauge: new(gas.PSI(5000))}, refusal.Invalid, "not possible"},

		"stop: by nobody":       {delivery.StopOxygen{Person: s.who["Running"], Reason: "recovered", OrderedBy: " "}, refusal.Invalid, "names the clinician"},
		"stop: twice":           {delivery.StopOxygen{Person: s.who["Over"], Reason: "died", OrderedBy: "clinic"}, refusal.Conflict, "stopped already"},
		"stop: nothing":         {delivery.StopOxygen{Person: s.who["Known"], Reason: "died", OrderedBy: "clinic"}, refusal.Conflict, "has no oxygen of ours"},
		"ask: no task":          {delivery.Ask{Person: s.who["Running"], Task: "wash"}, refusal.Invalid, "is no task"},
		"ask: after a stop":     {delivery.Ask{Person: s.who["Over"], Task: delivery.Swap}, refusal.Conflict, "nothing to bring"},
		"ask: window":           {delivery.Ask{Person: s.who["Running"], Task: delivery.Swap, From: s.now, Until: s.now.Add(-time.Hour)}, refusal.Invalid, "ends before it begins"},
		"outage: window":        {delivery.Outage{Area: "Mill", From: s.now, Until: s.now.Add(-time.Hour)}, refusal.Invalid, "ends before it begins"},
		"outage: nowhere":       {delivery.Outage{From: s.now}, refusal.Invalid, "not said where"},
		"outage: by moonlight":  {delivery.Outage{By: "moon", Area: "Mill", From: s.now}, refusal.Invalid, "says not where"},
		"outage: a slip":        {delivery.Outage{Area: "Mlil line", From: s.now}, refusal.NotFound, "No address in the book lies on Mlil line"},
		"power back: no cut":    {delivery.PowerReturned{Cut: 1}, refusal.NotFound, "no power cut"},
		"outage call: no cut":   {delivery.OutageCall{Person: s.who["Running"], Cut: 1, Found: delivery.FoundBackup}, refusal.NotFound, "no power cut"},
		"settings: no number":   {delivery.Settings{}, refusal.Invalid, "no emergency number"},
		"runs: no such vehicle": {delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{Vehicle: "van 9"}}}}, refusal.NotFound, "no place"},
		"runs: closed":          {delivery.PlanRuns{Runs: []delivery.RunPlan{{ID: s.over, Planned: delivery.Planned{Vehicle: "van 1"}}}}, refusal.Conflict, "is closed"},
		"runs: stop made": {delivery.PlanRuns{Runs: []delivery.RunPlan{{Planned: delivery.Planned{
			Vehicle: "van 1", Stops: []delivery.PlannedStop{{Persons: []inventory.PersonID{s.who["Running"]}, Tasks: []inventory.FactID{1}}},
		}}}}, refusal.Conflict, "was made meanwhile"},
		"withdraw: which":  {delivery.Withdraw{Vehicle: "van 9", Why: "driver ill"}, refusal.NotFound, "no vehicle"},
		"withdraw: why":    {delivery.Withdraw{Vehicle: "van 1"}, refusal.Invalid, "for a reason"},
		"withdraw: past":   {delivery.Withdraw{Vehicle: "van 1", Why: "driver ill", Until: s.now.Add(-time.Hour)}, refusal.Invalid, "which is past"},
		"slot: no task":    {delivery.TakeSlot{Person: s.who["Running"]}, refusal.Conflict, "no task for today"},
		"slot: goes there": {delivery.TakeSlot{Person: s.who["Bridge"]}, refusal.Conflict, "goes there already"},
		"end: stops open":  {delivery.EndRun{Run: s.run}, refusal.Conflict, "still open"},
		"end: twice":       {delivery.EndRun{Run: s.over}, refusal.Conflict, "is closed"},
		"end: no run":      {delivery.EndRun{Run: "r99999"}, refusal.NotFound, "No run r99999"},
	})
}

func TestActsOnPersonsWrite(t *testing.T) {
	s := newScene(t)
	s.writes(delivery.Register{Person: delivery.Person{Family: "Vale"}}, "registered")
	s.writes(delivery.Register{Person: delivery.Person{Family: "Vale"}, Address: delivery.Address{Street: "Quay 1"}}, "registered", "settled")
	s.writes(delivery.Order{Person: s.who["Ordered"], Rest: 1, Hours: 16}, "ordered")
	says := s.writes(delivery.Order{Person: s.who["Running"], Rest: 4, Exertion: 6, Hours: 24}, "ordered", "tasked", "tasked")
	assert.Contains(t, says, "gives 5 L/min at most, 6 L/min is ordered: a swap is open")
	assert.Equal(t, gas.Flow(6), s.watch(s.who["Running"]).Care.Tasks[0].Bring[0].Rated)

	s.writes(delivery.Switch{Person: s.who["Running"], To: delivery.FromCylinder, Why: "power out"}, "switched")
	s.writes(delivery.Switch{Person: s.who["Running"], To: delivery.FromConcentrator, Why: "power back"}, "switched")
	s.writes(delivery.Call{Person: s.who["Running"]}, "called")
	s.writes(delivery.Call{Person: s.who["Running"], Answered: true, Gauge: new(gas.PSI(1900))}, "called", "observed")
	assert.True(t, s.item(s.thing["E-lent"]).Gauge.Told)
	s.writes(delivery.Ask{Person: s.who["Ordered"], Task: delivery.Deliver, Why: "before discharge"}, "tasked")
	s.do(delivery.Register{Person: delivery.Person{Family: "Miller"}, Address: delivery.Address{Street: "Mill Lane 3", Line: "Mill line"}})
	s.writes(delivery.Outage{Area: "Mill line", From: s.now}, "power cut")
}

// A call in a power cut records what the person breathes from now on; who
// turned it down is told to the clinician; power that is back ends the cut.
func TestCallsInAPowerCut(t *testing.T) {
	s := newScene(t)
	cut := s.do(delivery.Outage{By: delivery.Everywhere, From: s.now}).Facts[0].ID
	call := func(found delivery.Found) delivery.OutageCall {
		return delivery.OutageCall{Person: s.who["Running"], Cut: cut, Found: found}
	}
	s.refuses(map[string]no{
		"found: nothing":       {call("asleep"), refusal.Invalid, "says not how the home stands"},
		"turned down: to what": {call(delivery.FoundSaving), refusal.Ask, "not to what"},
	})
	s.writes(call(delivery.FoundNobody), "called")
	saving := call(delivery.FoundSaving)
	saving.Flow = new(gas.Flow(1))
	says := s.writes(saving, "called", "switched")
	assert.Contains(t, says, "Turned down to 1 L/min to save gas: tell the clinician")
	w := s.watch(s.who["Running"])
	assert.Equal(t, delivery.FromCylinder, w.Care.Breathes)
	assert.Equal(t, delivery.FoundSaving, w.Care.InCut.Found)
	assert.Zero(t, w.Care.InCut.Tried)
	s.writes(call(delivery.FoundRunning), "called", "switched")
	assert.Empty(t, s.watch(s.who["Running"]).Home.Outages, "their power is on")
	s.writes(delivery.PowerReturned{Cut: cut}, "power back")
	s.now = s.now.Add(time.Minute)
	assert.Empty(t, s.watch(s.who["Running"]).Cuts)
}

// TestCallsSayWhatTheClinicianMustHear walks calls whose flow is not as
// ordered: 3 L/min is the most ordered.
func TestCallsSayWhatTheClinicianMustHear(t *testing.T) {
	s := newScene(t)
	stray := s.register("Stray")
	for _, c := range []struct {
		name string
		call delivery.Call
		says string
	}{ // in this order: the flow last heard counts
		{"as ordered", delivery.Call{Person: s.who["Running"], SpO2: new(94.0), Flow: new(gas.Flow(2))}, "The call is recorded."},
		{"saving", delivery.Call{Person: s.who["Running"], Flow: new(gas.Flow(1)), Saving: true}, "Turned down to 1 L/min to save gas: tell the clinician."},
		{"no order", delivery.Call{Person: stray, Flow: new(gas.Flow(2))}, "2 L/min in use and no order in the book: tell the clinician now."},
		{"less", delivery.Call{Person: s.who["Running"], Flow: new(gas.Flow(1))}, "1 L/min in use, 2 L/min ordered at rest: tell the clinician."},
		{"emergency", delivery.Call{Person: s.who["Running"], SpO2: new(90.0), Flow: new(gas.Flow(2))}, "Emergency band: send to the emergency department now, number 911. A clinician decides."},
		{"more", delivery.Call{Person: s.who["Running"], Flow: new(gas.Flow(6))}, "6 L/min in use, 3 L/min ordered: tell the prescriber; gas is counted at 6 L/min."},
		{"borderline", delivery.Call{Person: s.who["Running"], SpO2: new(93.0), Flow: new(gas.Flow(3))}, "Borderline band: tell the clinician today."},
	} {
		c.call.Answered = true
		assert.Contains(t, s.do(c.call).Says, c.says, c.name)
	}
	_, highest := s.watch(s.who["Running"]).Care.Flow()
	assert.Equal(t, gas.Flow(3), highest, "the call before last told 6, the last of them less")
	says := s.do(delivery.Call{Person: s.who["Running"], Answered: true, SpO2: new(95.0)}).Says
	assert.Contains(t, says, "Incomplete: a saturation without the flow it was taken on says nothing.")
}

// TestStopReachesEveryList: the kit, the tasks, what was set aside and the
// collection, in one act.
func TestStopReachesEveryList(t *testing.T) {
	s := newScene(t)
	says := s.writes(delivery.StopOxygen{Person: s.who["Bridge"], Reason: "readmitted", OrderedBy: "ward 6B"},
		"stopped", "serving", "done", "freed", "tasked")
	assert.Contains(t, says, "1 item count as not needed; a collection is open.")
	assert.Equal(t, inventory.Idle, s.item(s.thing["E-bridge"]).State)
	assert.Equal(t, inventory.Ready, s.item(s.thing["CN-held"]).State)
	w := s.watch(s.who["Bridge"])
	require.Len(t, w.Care.Tasks, 1)
	assert.Equal(t, delivery.Collect, w.Care.Tasks[0].Tasked.Task)
	assert.Equal(t, "ward 6B", w.Care.StoppedBy)
	assert.False(t, w.Care.Watched())
}

// TestBackupTask: the due time is fixed when the low cover is recorded, one
// task is open at a time, and a swap closes it.
func TestBackupTask(t *testing.T) {
	s := newScene(t)
	who, cylinder := s.who["Running"], s.thing["E-lent"]
	recorded := s.now
	s.writes(delivery.Read{Item: cylinder, Gauge: new(gas.PSI(1900))}, "observed", "tasked") // (1,900 - 200) × 0.28 ÷ 2 is 238 min, under 4 h
	task := s.watch(who).Care.Tasks[0]
	assert.True(t, task.Backup)
	assert.Equal(t, recorded.Add(24*time.Hour), task.Due)
	assert.Contains(t, task.Why, "backup lasts 3 h 58 min, under 4 h")

	s.now = s.now.Add(2 * time.Hour)
	s.writes(delivery.Read{Item: cylinder, Gauge: new(gas.PSI(1000))}, "observed")
	assert.Equal(t, task.Due, s.watch(who).Care.Tasks[0].Due, "fixed")
	w := s.watch(who)
	assert.Equal(t, "tight", string(w.Verdict))
	assert.Equal(t, task.Due, w.ActBy())

	s.writes(delivery.Visit{
		Person: who, Left: []delivery.Piece{{Item: s.thing["E-ready"], Gauge: new(gas.PSI(2000))}}, Took: []delivery.Taken{{Item: cylinder}},
	}, "lent", "observed", "collected", "done")
	w = s.watch(who)
	assert.Empty(t, w.Care.Tasks)
	assert.Equal(t, "holds", string(w.Verdict))
	assert.Zero(t, w.ActBy(), "while the machine runs only dated causes make an act-by")
}

// TestBackupUnknownIsAsked: where the cylinder was not read no task is guessed.
func TestBackupUnknownIsAsked(t *testing.T) {
	care := delivery.FoldCare("p", []inventory.Fact{
		{ID: 1, Person: "p", Statement: &delivery.Ordered{Rest: 2, Hours: 24}},
		{ID: 2, Person: "p", Statement: &delivery.Discharged{}},
		{ID: 3, Person: "p", Item: "e", Statement: &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}},
		{ID: 4, Person: "p", Item: "m", Statement: &inventory.Lent{Spec: inventory.Spec{Kind: inventory.Concentrator}}},
		{ID: 5, Person: "p", Statement: &delivery.Switched{To: delivery.FromConcentrator}},
	})
	_, needed := care.BackupTask(delivery.NewProgramme(), time.Time{})
	assert.False(t, needed)
	care.Kit = care.Kit[1:]
	task, needed := care.BackupTask(delivery.NewProgramme(), time.Time{})
	assert.True(t, needed, "no backup at all")
	assert.Contains(t, task.Why, "0 min")
}
