package delivery_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

// heavy is a run that swaps so many H, 73 kg each.
func heavy(count int) (delivery.Run, []delivery.Along) {
	e := errand("a", point(36.51, "West"), 0, swap(inventory.Cylinder, "US-H", count))
	return run("r1", "van 1", 10, e), []delivery.Along{{Care: []delivery.Care{e.Care}}}
}

// The limits are those of 49 CFR 173.6(a), 200 kg (440 lb) gross on one
// vehicle, which covers medical oxygen (PHMSA letter 17-0027, 2017), and of
// 172.504(c), 454 kg (1,001 lb).
func TestTransportLimits(t *testing.T) {
	h := delivery.NewProgramme().GrossKg(inventory.Cylinder, "US-H")
	require.Greater(t, 3*h, int64(200))
	require.LessOrEqual(t, 2*h, int64(200))
	trained := delivery.Vehicle{Name: "van 1", Pieces: 40, Kg: 1000, Papers: []string{"Shipping paper", "emergency guide"}, Trained: "2028-03-05"}
	late, bare := trained, delivery.Vehicle{Name: "van 1", Pieces: 40, Kg: 1000}
	late.Trained = "2027-03-04" // three years to the day of the run
	for name, c := range map[string]struct {
		cylinders int
		vehicle   delivery.Vehicle
		verdict   depletion.Verdict
		do        string
	}{
		"under the limit nothing is asked": {2, bare, depletion.Holds, "No paper is asked for"},
		"over it the papers are on board":  {3, trained, depletion.Tight, "On board: shipping paper, emergency guide"},
		"or named":                         {3, bare, depletion.Short, "Missing: shipping paper"},
		"training has run out":             {3, late, depletion.Short, "Missing: the driver's training: it ran out on 4 Mar 2030"},
		"placards":                         {7, trained, depletion.Short, "Missing: OXYGEN placards"},
	} {
		p := isles()
		p.Transport, p.Vehicles = delivery.NewProgramme().Transport, []delivery.Vehicle{c.vehicle}
		r, stops := heavy(c.cylinders)
		a := p.LoadingOf(r, r.Cargo(delivery.NewProgramme(), stops, nil)).Answer()
		assert.Equal(t, c.verdict, a.Verdict, "%s: %v", name, a)
		assert.Contains(t, strings.Join(a.Do, "\n"), c.do, name)
	}
	small := bare
	small.Kg = 100
	p := isles()
	p.Transport, p.Vehicles = nil, []delivery.Vehicle{small}
	r, stops := heavy(2)
	l := p.LoadingOf(r, r.Cargo(delivery.NewProgramme(), stops, nil))
	assert.Contains(t, l.Excess(), "kg of cylinders")
	assert.Contains(t, l.Weighs(), "no transport rule")
}

// A rule holds from its first day to its last.
func TestTransportRulesAreDated(t *testing.T) {
	p := delivery.NewProgramme()
	p.Transport = []delivery.TransportRule{
		{Name: "new", Kg: 100, From: "2030-03-05", Source: "s"}, {Name: "old", Kg: 300, Until: "2030-03-04", Source: "s"}, {Name: "always", Kg: 50, Source: "s"},
	}
	names := func(day time.Time) (list []string) {
		for _, r := range p.InForce(day) {
			list = append(list, r.Name)
		}
		return list
	}
	assert.Equal(t, []string{"always", "old"}, names(minute(0)))
	assert.Equal(t, []string{"always", "new"}, names(minute(24*60)))
	for _, bad := range []delivery.TransportRule{
		{Name: "no source"}, {Name: "x", Source: "s", From: "soon"}, {Name: "x", Source: "s", From: "2030-03-05", Until: "2030-03-04"}, {Name: "x", Source: "s", Kg: -1},
	} {
		p.Transport = []delivery.TransportRule{bad}
		assert.Error(t, p.Check(), bad)
	}
}

// Ten cylinders on the paper, three given out: the paper stays as it was
// written (PHMSA interpretation 04-0232, 2004), the count goes on beside it.
func TestRunningCountBesideThePaper(t *testing.T) {
	var errands []delivery.Errand
	var stops []delivery.Along
	for _, name := range []inventory.PersonID{"a", "b"} {
		e := errand(name, point(36.51, "West"), 0, swap(inventory.Cylinder, "US-E", 3))
		errands, stops = append(errands, e), append(stops, delivery.Along{Care: []delivery.Care{e.Care}})
	}
	r := run("r1", "van 1", 10, errands...)
	spare := []inventory.Item{{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}}}
	for range 3 {
		spare = append(spare, spare[0])
	}
	// The first stop was made: three left, two taken.
	first := &r.Stops[0]
	first.Seen, first.Closed = first.Persons, minute(50)
	first.Left, first.Took = []inventory.ItemID{"e1", "e2", "e3"}, []inventory.ItemID{"e4", "e5"}
	e := inventory.Spec{Kind: inventory.Cylinder, Size: "US-E"}
	stops[0] = delivery.Along{Spec: map[inventory.ItemID]inventory.Spec{"e1": e, "e2": e, "e3": e, "e4": e, "e5": e}}

	c := r.Cargo(delivery.NewProgramme(), stops, spare)
	assert.Equal(t, 10, c.Out.Full)
	assert.Equal(t, 3, c.Given)
	assert.Equal(t, 7, c.Now.Full)
	assert.Equal(t, 2, c.Now.Used)
	p := isles()
	p.Transport, p.Vehicles = delivery.NewProgramme().Transport, []delivery.Vehicle{{Name: "van 1", Pieces: 40, Kg: 400}}
	facts := p.LoadingOf(r, c).Answer().Facts
	assert.Contains(t, facts[1], "3 of 10 given out, 7 full and 2 used on board now: the total on the paper need not be rewritten")
}

func TestBreaksAreReadAndWritten(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "12:00-13:30 30 min": "12:00-13:30 30 min", "12:00-13:30 30min;  17:00-18:00 15m": "12:00-13:30 30 min; 17:00-18:00 15 min",
		"9:00-10:00 1h": "09:00-10:00 60 min",
	} {
		read, err := delivery.ReadBreaks(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, delivery.Breaks(read))
	}
	for _, text := range []string{"noon", "13:00-12:00 30 min", "12:00-13:00", "12:00 30 min", "12:00-13:00 9 h", "1:00-2:00 5m;3:00-4:00 5m;5:00-6:00 5m;7:00-8:00 5m"} {
		_, err := delivery.ReadBreaks(text)
		assert.Error(t, err, text)
	}
}

func FuzzReadBreaks(f *testing.F) {
	f.Add("12:00-13:30 30 min; 17:00-18:00 15 min")
	f.Fuzz(func(t *testing.T, text string) {
		read, err := delivery.ReadBreaks(text)
		if err != nil {
			return
		}
		again, err := delivery.ReadBreaks(delivery.Breaks(read))
		require.NoError(t, err)
		assert.Equal(t, read, again)
	})
}

// The driver rests between twelve and half past one, and the plan says when;
// what fills the load space stays behind for another trip.
func TestPlanKeepsBreaksAndLoadSpace(t *testing.T) {
	pl := day()
	pl.Now, pl.Day = clockAt("08:00"), clockAt("08:00")
	pl.Programme.Vehicles[0].Breaks = []delivery.Break{{From: "12:00", Until: "13:30", Minutes: 30}}
	early, late := swap(inventory.Cylinder, "US-E", 1), swap(inventory.Cylinder, "US-E", 1)
	early.From, early.Until = clockAt("11:00"), clockAt("11:30")
	late.From, late.Until = clockAt("15:00"), clockAt("15:30")
	plan := planned(t, pl, errand("a", point(36.51, "West"), 0, early), errand("b", point(36.52, "West"), 0, late))
	require.Len(t, plan.Runs, 1)
	require.Len(t, plan.Runs[0].Rests, 1)
	rest := plan.Runs[0].Rests[0]
	assert.Equal(t, 30*time.Minute, rest.Until.Sub(rest.From))
	assert.False(t, rest.From.Before(clockAt("12:00")))
	assert.False(t, rest.From.After(clockAt("13:30")))

	pl.Programme.Vehicles[0].Breaks, pl.Programme.Vehicles[0].Litres = nil, 200
	plan = planned(t, pl, errand("a", point(36.51, "West"), 0, swap(inventory.Concentrator, "", 1)), errand("b", point(36.52, "West"), 0, swap(inventory.Concentrator, "", 1)))
	require.Len(t, plan.Troubles, 1, "two machines fill 240 litres")
	assert.Contains(t, plan.Troubles[0].Says, "full")
}
