package store_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

func TestDischargeRefuses(t *testing.T) {
	s := newScene(t)
	full := func(serial string) delivery.Piece {
		return delivery.Piece{Item: s.thing[serial], Gauge: new(gas.PSI(2000))}
	}
	discharge := func(family string, change func(*delivery.Discharge)) delivery.Discharge {
		d := delivery.Discharge{Person: s.who[family], HandOver: []delivery.Piece{full("E-ready")}}
		if change != nil {
			change(&d)
		}
		return d
	}
	over := func(pieces ...delivery.Piece) func(*delivery.Discharge) {
		return func(d *delivery.Discharge) { d.HandOver = pieces }
	}
	bring := func(serials ...string) func(*delivery.Discharge) {
		return func(d *delivery.Discharge) {
			for _, serial := range serials {
				d.Bring = append(d.Bring, s.thing[serial])
			}
		}
	}
	s.refuses(map[string]no{
		"no order":      {discharge("Known", nil), refusal.Invalid, "There is no order"},
		"already home":  {discharge("Running", nil), refusal.Conflict, "on oxygen at home already"},
		"on the bridge": {discharge("Bridge", nil), refusal.Conflict, "on oxygen at home already"},
		"nothing":       {discharge("Ordered", over()), refusal.Invalid, "Nothing is handed over"},
		"no mains":      {discharge("Dark", bring("CN-ready")), refusal.Unready, "has no mains: a concentrator can't run there"},
		"unread":        {discharge("Ordered", over(delivery.Piece{Item: s.thing["E-ready"]})), refusal.Invalid, "has no gauge reading at hand-over"},
		"overfull":      {discharge("Ordered", over(delivery.Piece{Item: s.thing["E-ready"], Gauge: new(gas.PSI(2600))})), refusal.Invalid, "not possible"},
		"twice":         {discharge("Ordered", over(full("E-ready"), full("E-ready"))), refusal.Invalid, "is named twice"},
		"along and brought": {discharge("Ordered", func(d *delivery.Discharge) { d.Bring = []inventory.ItemID{s.thing["E-ready"]} }),
			refusal.Invalid, "is named twice"},
		"on loan":      {discharge("Ordered", over(full("E-lent"))), refusal.Unready, "is on loan to another person. Nearest ready: E-ready at harbour, 2,000 psi"},
		"held":         {discharge("Ordered", bring("CN-held")), refusal.Unready, "is reserved for another person"},
		"with driver":  {discharge("Ordered", over(full("E-driver"))), refusal.Unready, "is with driver"},
		"failed":       {discharge("Ordered", bring("CN-failed")), refusal.Unready, "is quarantine (failed its test"},
		"recalled":     {discharge("Ordered", bring("CN-recalled")), refusal.Unready, "is named by recall Q-1. Nearest ready: CN-ready"},
		"theirs":       {discharge("Ordered", bring("ZX-theirs")), refusal.Unready, "belongs to Other supplier"},
		"retired":      {discharge("Ordered", over(full("E-retired"))), refusal.Unready, "is retired"},
		"window":       {discharge("Ordered", func(d *delivery.Discharge) { d.From, d.Until = s.now, s.now.Add(-time.Minute) }), refusal.Invalid, "ends before it begins"},
		"no such item": {discharge("Ordered", over(delivery.Piece{Item: "i999999"})), refusal.NotFound, "No item"},
		"nobody":       {delivery.Discharge{Person: "p99999"}, refusal.NotFound, "No person"},
	})
	s.do(delivery.Order{Person: s.who["Ordered"], Rest: 4, Exertion: 6, Hours: 24})
	s.refuses(map[string]no{
		"too small": {discharge("Ordered", bring("CN-ready")), refusal.Unready, "gives 5 L/min at most, 6 L/min is ordered. Nearest ready: CN-large"},
	})
}

func TestDischargeWrites(t *testing.T) {
	s := newScene(t)
	s.writes(delivery.Discharge{
		Person: s.who["Ordered"], Ward: "6B", Arrives: s.now.Add(time.Hour),
		Consents: map[string]bool{"data sharing": true, "home visits": false},
		HandOver: []delivery.Piece{{Item: s.thing["E-ready"], Gauge: new(gas.PSI(2000))}, {Item: s.thing["RG-ready"]}},
		Bring:    []inventory.ItemID{s.thing["CN-ready"]},
	}, "consented", "consented", "discharged", "lent", "observed", "lent", "reserved", "tasked")
	w := s.watch(s.who["Ordered"])
	assert.Equal(t, delivery.OnBridge, w.Care.Phase)
	assert.Equal(t, []string{"data sharing"}, w.Care.Consented())
	assert.Equal(t, inventory.HandedOver, s.item(s.thing["E-ready"]).State)
	assert.Equal(t, inventory.AtWork, s.item(s.thing["RG-ready"]).State)
	assert.Equal(t, inventory.Held, s.item(s.thing["CN-ready"]).State)

	// without mains a plan with cylinders alone goes through, and brings some
	spare := s.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-dark"}, 2000)
	s.writes(delivery.Discharge{Person: s.who["Dark"], Bring: []inventory.ItemID{spare}}, "discharged", "reserved", "tasked")
}

func TestVisitRefuses(t *testing.T) {
	s := newScene(t)
	left := func(serials ...string) (pieces []delivery.Piece) {
		for _, serial := range serials {
			pieces = append(pieces, delivery.Piece{Item: s.thing[serial]})
		}
		return pieces
	}
	took := func(serials ...string) (taken []delivery.Taken) {
		for _, serial := range serials {
			taken = append(taken, delivery.Taken{Item: s.thing[serial]})
		}
		return taken
	}
	running := s.who["Running"]
	s.refuses(map[string]no{
		"failed, yet left":    {delivery.Visit{Person: running, Failed: "nobody home", Left: left("E-ready")}, refusal.Invalid, "left and took nothing"},
		"failed, yet runs":    {delivery.Visit{Person: running, Failed: "nobody home", Running: true}, refusal.Invalid, "left and took nothing"},
		"left twice":          {delivery.Visit{Person: running, Left: left("E-ready", "E-ready")}, refusal.Invalid, "is named twice"},
		"left and taken":      {delivery.Visit{Person: running, Left: left("E-lent"), Took: took("E-lent")}, refusal.Invalid, "is named twice"},
		"another's":           {delivery.Visit{Person: running, Took: took("E-bridge")}, refusal.Conflict, "Do not touch E-bridge"},
		"nobody's":            {delivery.Visit{Person: running, Took: took("E-ready")}, refusal.Conflict, "is not on loan to this person"},
		"held for another":    {delivery.Visit{Person: running, Left: left("CN-held")}, refusal.Unready, "is reserved for another person"},
		"never read":          {delivery.Visit{Person: running, Left: left("E-unread")}, refusal.Unready, "is quarantine (not yet cleared)"},
		"overfull":            {delivery.Visit{Person: running, Took: []delivery.Taken{{Item: s.thing["E-lent"], Gauge: new(gas.PSI(3000))}}}, refusal.Invalid, "not possible"},
		"no machine":          {delivery.Visit{Person: s.who["Bridge"], Running: true}, refusal.Conflict, "There is no concentrator to run"},
		"low oxygen, running": {delivery.Visit{Person: running, Running: true, Oxygen: new(81.0)}, refusal.Unready, "gives 81.0 % oxygen, under 82 %"},
		"oxygen of nothing":   {delivery.Visit{Person: running, Running: true, Oxygen: new(181.0)}, refusal.Invalid, "not possible"},
		"after a stop":        {delivery.Visit{Person: s.who["Over"], Left: left("E-ready")}, refusal.Conflict, "Oxygen was stopped"},
		"not on the run":      {delivery.Visit{Run: s.run, Person: running}, refusal.Conflict, "no open stop for the person"},
		"no such run":         {delivery.Visit{Run: "r99999", Person: running}, refusal.NotFound, "No run"},
	})
}

func TestVisitWrites(t *testing.T) {
	s := newScene(t)
	bridge, running := s.who["Bridge"], s.who["Running"]
	says := s.writes(delivery.Visit{Run: s.run, Person: bridge, Failed: "locked door", Next: s.now.Add(time.Hour)}, "visited", "done")
	assert.Contains(t, says, "The stop failed: locked door")
	task := s.watch(bridge).Care.Tasks[0]
	assert.Equal(t, []string{"locked door"}, task.Tries)
	assert.True(t, s.now.Add(time.Hour).Equal(task.From))

	// left but not running: the bridge goes on, and so does the task
	says = s.writes(delivery.Visit{Person: bridge, Left: []delivery.Piece{{Item: s.thing["CN-held"]}}}, "lent")
	assert.Contains(t, says, "The task to deliver stays open.")
	assert.Equal(t, delivery.OnBridge, s.watch(bridge).Care.Phase)
	s.writes(delivery.Switch{Person: bridge, To: delivery.FromConcentrator, Why: "told by phone"}, "switched", "done", "tasked") // what the bridge took is missing from the backup
	assert.Equal(t, delivery.Running, s.watch(bridge).Care.Phase)

	// under the floor: kept back, and another one comes
	s.writes(delivery.Visit{Person: running, Oxygen: new(80.0)}, "observed", "quarantined", "tasked")
	assert.Equal(t, inventory.AtWork, s.item(s.thing["CN-running"]).State)
	assert.True(t, s.watch(running).Care.Has(delivery.Swap))
	s.writes(delivery.Visit{
		Person: running, Running: true, Oxygen: new(95.0),
		Left: []delivery.Piece{{Item: s.thing["CN-ready"]}}, Took: []delivery.Taken{{Item: s.thing["CN-running"]}},
	}, "lent", "collected", "observed", "switched", "done")
	assert.Equal(t, delivery.FromConcentrator, s.watch(running).Care.Breathes)
	s.writes(delivery.Return{Item: s.thing["CN-running"], Depot: "harbour"}, "returned")
	assert.Equal(t, inventory.InQuarantine, s.item(s.thing["CN-running"]).State, "it never slips back into stock")
}

// TestLeftCylinderIsAsOldAsItsReading: nothing is read at the door by the
// program; what was read in the depot counts, with its age.
func TestLeftCylinderIsAsOldAsItsReading(t *testing.T) {
	s := newScene(t)
	read := s.item(s.thing["E-ready"]).Gauge.At
	s.now = s.now.Add(20 * 24 * time.Hour)
	s.writes(delivery.Visit{Person: s.who["Running"], Left: []delivery.Piece{{Item: s.thing["E-ready"]}}}, "lent")
	held, has := s.watch(s.who["Running"]).Care.Holding(s.thing["E-ready"])
	require.True(t, has)
	assert.Equal(t, gas.PSI(2000), held.Gauge.Value)
	assert.True(t, read.Equal(held.Gauge.At), "read %s", held.Gauge.At)
}
