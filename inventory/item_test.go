package inventory_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// said is a fact about item "i" at so many minutes past nine, recorded in the
// order given.
type said struct {
	at     int
	person inventory.PersonID
	says   inventory.Statement
}

var nine = time.Date(2030, time.March, 4, 9, 0, 0, 0, time.FixedZone("", -3*3600))

func told(story ...said) []inventory.Fact {
	facts := make([]inventory.Fact, len(story))
	for i, s := range story {
		facts[i] = inventory.Fact{
			ID: inventory.FactID(i + 1), Happened: nine.Add(time.Duration(s.at) * time.Minute),
			Item: "i", Person: s.person, Statement: s.says,
		}
	}
	return facts
}

var (
	harbour = inventory.At(inventory.AtDepot, "harbour")
	van     = inventory.At(inventory.AtVehicle, "van 1")
	home    = inventory.At(inventory.AtAddress, "a1")

	enrolled = said{0, "", &inventory.Enrolled{Tag: 7, Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}}
	arrived  = said{0, "", &inventory.Moved{To: harbour}}
	cleared  = said{1, "", &inventory.Cleared{Depot: "harbour"}}
)

func lent(at int, to inventory.PersonID, role inventory.Role) said {
	return said{at, to, &inventory.Lent{Role: role, At: home}}
}

// stock is an item ready at the depot, and then more.
func stock(more ...said) []inventory.Fact {
	return told(append([]said{enrolled, arrived, cleared}, more...)...)
}

func TestFoldOfCustody(t *testing.T) {
	returned := said{30, "p", &inventory.Returned{Depot: "harbour"}}
	for name, c := range map[string]struct {
		facts  []inventory.Fact
		state  inventory.State
		place  inventory.Place
		person inventory.PersonID
		last   inventory.PersonID
		why    string
		doubts int
	}{
		"nothing is known":             {nil, inventory.InQuarantine, "missing", "", "", "", 0},
		"new things wait":              {told(enrolled, arrived), inventory.InQuarantine, harbour, "", "", "not yet cleared", 0},
		"cleared":                      {stock(), inventory.Ready, harbour, "", "", "", 0},
		"van stock stays ready":        {stock(said{2, "", &inventory.Moved{To: van}}), inventory.Ready, van, "", "", "", 0},
		"reserved":                     {stock(said{2, "p", &inventory.Reserved{}}), inventory.Held, harbour, "p", "", "", 0},
		"freed":                        {stock(said{2, "p", &inventory.Reserved{}}, said{3, "", &inventory.Freed{}}), inventory.Ready, harbour, "", "", "", 0},
		"reserved never had it":        {stock(said{2, "p", &inventory.Reserved{}}, said{3, "", &inventory.Cleared{Depot: "harbour"}}), inventory.Ready, harbour, "", "", "", 0},
		"handed over":                  {stock(lent(2, "p", inventory.Bridging)), inventory.HandedOver, home, "p", "", "", 0},
		"backup":                       {stock(lent(2, "p", inventory.Bridging), said{3, "p", &inventory.Serving{As: inventory.Backup}}), inventory.AsBackup, home, "p", "", "", 0},
		"on hold":                      {stock(lent(2, "p", inventory.InUse), said{3, "p", &inventory.Serving{As: inventory.OnHold}}), inventory.Waiting, home, "p", "", "", 0},
		"collected":                    {stock(lent(2, "p", inventory.InUse), said{3, "p", &inventory.Collected{Vehicle: "van 1"}}), inventory.WithDriver, van, "", "p", "", 0},
		"returned":                     {stock(lent(2, "p", inventory.InUse), returned), inventory.Dirty, harbour, "", "p", "", 0},
		"benched":                      {stock(lent(2, "p", inventory.InUse), returned, said{31, "", &inventory.Benched{}}), inventory.OnBench, harbour, "", "p", "", 0},
		"failed":                       {stock(lent(2, "p", inventory.InUse), returned, said{31, "", &inventory.Tested{Detail: "leaks"}}), inventory.InQuarantine, harbour, "", "p", "failed its test: leaks", 0},
		"at plant":                     {stock(said{2, "", &inventory.Moved{To: "plant:works"}}), inventory.OutAtPlant, "plant:works", "", "", "", 0},
		"back from plant":              {stock(said{2, "", &inventory.Moved{To: "plant:works"}}, said{3, "", &inventory.Moved{To: harbour}}), inventory.OnBench, harbour, "", "", "", 0},
		"in repair":                    {stock(said{2, "", &inventory.Moved{To: "workshop"}}), inventory.InRepair, "workshop", "", "", "", 0},
		"missing from a home":          {stock(lent(2, "p", inventory.InUse), said{3, "p", &inventory.Moved{To: "missing"}}), inventory.Missing, "missing", "", "p", "", 0},
		"retired":                      {stock(said{2, "", &inventory.Moved{To: "retired"}}), inventory.Gone, "retired", "", "", "", 0},
		"a load comes in by van dirty": {stock(lent(2, "p", inventory.InUse), said{3, "p", &inventory.Collected{Vehicle: "van 1"}}, said{4, "", &inventory.Moved{To: harbour}}), inventory.Dirty, harbour, "", "p", "", 0},

		"quarantined in a home stays lent": {stock(lent(2, "p", inventory.InUse), said{3, "p", &inventory.Quarantined{Why: "alarm"}}), inventory.AtWork, home, "p", "", "alarm", 0},
		"and comes back to quarantine":     {stock(lent(2, "p", inventory.InUse), said{3, "p", &inventory.Quarantined{Why: "alarm"}}, returned), inventory.InQuarantine, harbour, "", "p", "alarm", 0},
		"quarantined on the road":          {stock(lent(2, "p", inventory.InUse), said{3, "p", &inventory.Collected{Vehicle: "van 1"}}, said{4, "", &inventory.Quarantined{Why: "alarm"}}), inventory.WithDriver, van, "", "p", "alarm", 0},
		"a ride does not end a quarantine": {stock(said{2, "", &inventory.Quarantined{Why: "alarm"}}, said{3, "", &inventory.Moved{To: van}}, said{4, "", &inventory.Moved{To: harbour}}), inventory.InQuarantine, harbour, "", "", "alarm", 0},
		"nor does the workshop":            {stock(said{2, "", &inventory.Quarantined{Why: "alarm"}}, said{3, "", &inventory.Moved{To: "workshop"}}, said{4, "", &inventory.Moved{To: harbour}}), inventory.InQuarantine, harbour, "", "", "alarm", 0},
		"a recall of what is missing":      {stock(said{2, "", &inventory.Moved{To: "missing"}}, said{3, "", &inventory.Quarantined{Why: "recall"}}), inventory.Missing, "missing", "", "", "recall", 0},
		"a recall of what was reserved":    {stock(said{2, "p", &inventory.Reserved{}}, said{3, "", &inventory.Quarantined{Why: "recall"}}), inventory.InQuarantine, harbour, "", "", "recall", 0},
		"cleared again":                    {stock(said{2, "", &inventory.Quarantined{Why: "alarm"}}, said{3, "", &inventory.Cleared{Depot: "harbour"}}), inventory.Ready, harbour, "", "", "", 0},
		"another's that was lost, seen in a home": {
			told(said{0, "", &inventory.Enrolled{Spec: inventory.Spec{Foreign: true, Owner: "other"}}}, said{1, "", &inventory.Moved{To: "missing"}}, said{2, "p", &inventory.Moved{To: home}}),
			inventory.NotOurs, home, "", "", "not yet cleared", 0},
		"another's is never ours":             {told(said{0, "", &inventory.Enrolled{Spec: inventory.Spec{Foreign: true, Owner: "other"}}}, arrived), inventory.NotOurs, harbour, "", "", "not yet cleared", 0},
		"lent to a second person":             {stock(lent(2, "p", inventory.InUse), lent(3, "q", inventory.InUse)), inventory.AtWork, home, "q", "", "", 1},
		"moved while on loan":                 {stock(lent(2, "p", inventory.InUse), said{3, "", &inventory.Moved{To: harbour}}), inventory.Dirty, harbour, "", "p", "", 1},
		"lent although kept back":             {stock(said{2, "", &inventory.Quarantined{Why: "leaks"}}, lent(3, "p", inventory.Backup)), inventory.AsBackup, home, "p", "", "leaks", 1},
		"released while on loan":              {stock(lent(2, "p", inventory.InUse), said{3, "", &inventory.Cleared{Depot: "harbour"}}), inventory.Ready, harbour, "", "p", "", 1},
		"benched while on loan":               {stock(lent(2, "p", inventory.InUse), said{3, "", &inventory.Benched{}}), inventory.AtWork, home, "p", "", "", 1},
		"tested while on loan":                {stock(lent(2, "p", inventory.InUse), said{3, "", &inventory.Tested{Detail: "leaks"}}), inventory.AtWork, home, "p", "", "", 1},
		"late: lent before it was reserved":   {stock(said{9, "q", &inventory.Reserved{}}, lent(5, "p", inventory.InUse)), inventory.AtWork, home, "p", "", "", 1},
		"late: lent before it was freed":      {stock(said{3, "q", &inventory.Reserved{}}, said{9, "", &inventory.Freed{}}, lent(5, "p", inventory.InUse)), inventory.AtWork, home, "p", "", "", 1},
		"late: returned before it was idle":   {stock(lent(2, "p", inventory.InUse), said{40, "p", &inventory.Serving{As: inventory.NotNeeded}}, returned), inventory.Dirty, harbour, "", "p", "", 0},
		"late: quarantined before a reserve":  {stock(said{9, "p", &inventory.Reserved{}}, said{5, "", &inventory.Quarantined{Why: "leaks"}}), inventory.InQuarantine, harbour, "", "", "leaks", 1},
		"idle says nothing of another's loan": {stock(lent(2, "p", inventory.InUse), said{3, "q", &inventory.Serving{As: inventory.NotNeeded}}), inventory.AtWork, home, "p", "", "", 0},
		"lent before it was entered":          {told(said{5, "", enrolled.says}, lent(2, "p", inventory.InUse)), inventory.AtWork, home, "p", "", "", 0},
	} {
		i := inventory.Fold("i", c.facts)
		assert.Equal(t, c.state, i.State, name)
		assert.Equal(t, c.place, i.Place, name)
		assert.Equal(t, c.person, i.Person, name)
		assert.Equal(t, c.last, i.Last, name)
		assert.Equal(t, c.why, i.Why, name)
		assert.Len(t, i.Doubts, c.doubts, "%s: %v", name, i.Doubts)
	}
}

func gauge(at int, psi float64) said {
	return said{at, "", &inventory.Observed{Gauge: new(gas.PSI(psi))}}
}

// TestFoldOfReadings: what was seen last counts, by when it was seen; a new
// fill says that what was read before says nothing any more.
func TestFoldOfReadings(t *testing.T) {
	late := inventory.Fold("i", stock(gauge(30, 900), gauge(10, 1900)))
	assert.Equal(t, gas.PSI(900), late.Gauge.Value, "keyed late, seen earlier")
	assert.Equal(t, nine.Add(30*time.Minute), late.Gauge.At)
	assert.Equal(t, "read", late.Gauge.How())

	filled := inventory.Fold("i", stock(gauge(10, 200), said{20, "", &inventory.Filled{Lot: "L1", Full: gas.PSI(2000)}}))
	assert.Nil(t, filled.Gauge)
	assert.Equal(t, "L1", filled.Fill.Lot)

	meter := inventory.Fold("i", stock(said{5, "", &inventory.Observed{Hours: new(18099.0)}}, said{6, "", &inventory.Observed{Hours: new(3033.0), Told: true}}))
	assert.Equal(t, 3033.0, meter.Hours.Value)
	assert.Equal(t, "told", meter.Hours.How())
	assert.Equal(t, []string{"hours meter went down from 18099 to 3033 (Mon 4 Mar 09:06)"}, meter.Doubts)
}

func TestPassedAndFailed(t *testing.T) {
	fail, pass := said{31, "", &inventory.Tested{Detail: "81 %"}}, said{32, "", &inventory.Tested{Passed: true}}
	back := []said{lent(2, "p", inventory.InUse), {30, "p", &inventory.Returned{Depot: "harbour"}}}
	for name, c := range map[string]struct {
		more           []said
		failed, passed bool
	}{
		"back":                    {nil, false, false},
		"passed":                  {[]said{pass}, false, true},
		"failed":                  {[]said{fail}, true, false},
		"failed, then passed":     {[]said{fail, pass}, false, true},
		"failed, then benched":    {[]said{fail, {33, "", &inventory.Benched{}}}, true, false},
		"passed, then lent again": {[]said{pass, {40, "", &inventory.Cleared{Depot: "harbour"}}, lent(41, "p", inventory.InUse), {50, "p", &inventory.Returned{Depot: "harbour"}}}, false, false},
	} {
		i := inventory.Fold("i", stock(append(back, c.more...)...))
		assert.Equal(t, c.failed, i.Failed(), name)
		assert.Equal(t, c.passed, !i.Passed.IsZero(), name)
	}
}

// correct returns a fact that puts a statement in the place of another, or
// takes it back when there is none.
func correct(facts []inventory.Fact, of inventory.FactID, s inventory.Statement) []inventory.Fact {
	was := facts[of-1]
	was.ID, was.Corrects, was.Statement = inventory.FactID(len(facts)+1), of, s
	if s == nil {
		was.Statement = &inventory.Retracted{Why: "keyed by mistake"}
	}
	return append(facts, was)
}

func ids(facts []inventory.Fact) []inventory.FactID {
	var list []inventory.FactID
	for _, f := range facts {
		list = append(list, f.ID)
	}
	return list
}

func TestStanding(t *testing.T) {
	three := func() []inventory.Fact { return told(gauge(1, 100), gauge(2, 200), gauge(3, 300)) }
	wrong := &inventory.Observed{Gauge: new(gas.PSI(999))}
	for name, c := range map[string]struct {
		facts []inventory.Fact
		want  []inventory.FactID
	}{
		"none":                          {nil, nil},
		"by happening":                  {told(gauge(3, 1), gauge(1, 2), gauge(2, 3)), []inventory.FactID{2, 3, 1}},
		"at once, by recording":         {told(gauge(1, 1), gauge(1, 2)), []inventory.FactID{1, 2}},
		"taken back":                    {correct(three(), 2, nil), []inventory.FactID{1, 3}},
		"corrected, in its place":       {correct(three(), 1, wrong), []inventory.FactID{4, 2, 3}},
		"corrected twice":               {correct(correct(three(), 1, wrong), 1, wrong), []inventory.FactID{4, 5, 2, 3}},
		"a correction corrected":        {correct(correct(three(), 1, wrong), 4, wrong), []inventory.FactID{5, 2, 3}},
		"a correction taken back":       {correct(correct(three(), 1, wrong), 4, nil), []inventory.FactID{1, 2, 3}},
		"a taking back taken back":      {correct(correct(three(), 2, nil), 4, nil), []inventory.FactID{1, 2, 3}},
		"and that taken back once more": {correct(correct(correct(three(), 2, nil), 4, nil), 5, nil), []inventory.FactID{1, 3}},
	} {
		assert.Equal(t, c.want, ids(inventory.Standing(c.facts)), name)
	}
}

// TestFoldIsTheSameInAnyOrder: what the facts say does not depend on the order
// they are handed over in.
func TestFoldIsTheSameInAnyOrder(t *testing.T) {
	facts := correct(stock(gauge(2, 1900), lent(3, "p", inventory.Bridging), gauge(4, 1500), gauge(9, 100)), 7, nil)
	want := inventory.Fold("i", facts)
	rapid.Check(t, func(rt *rapid.T) {
		shuffled := rapid.Permutation(facts).Draw(rt, "order")
		assert.Equal(rt, want, inventory.Fold("i", shuffled))
	})
}
