package delivery_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/inventory"
)

// drive is a fact of run "r" at so many minutes past two, recorded in the
// order given.
type drive struct {
	at   int
	who  inventory.PersonID
	says inventory.Statement
}

func driven(drives ...drive) []inventory.Fact {
	facts := make([]inventory.Fact, len(drives))
	for i, d := range drives {
		facts[i] = inventory.Fact{ID: inventory.FactID(i + 1), Happened: minute(d.at), Run: "r", Person: d.who, Statement: d.says}
	}
	return facts
}

// plan is a run with a stop for each address; p and q live at "a1", s at "a2".
func plan(addresses ...inventory.AddressID) *delivery.Planned {
	p := &delivery.Planned{Vehicle: "van 1", Day: "2030-03-04", Departs: minute(5), Back: minute(200)}
	for _, a := range addresses {
		stop := delivery.PlannedStop{Address: a, Persons: []inventory.PersonID{"s"}, Tasks: []inventory.FactID{2}, Arrive: minute(60)}
		if a == "a1" {
			stop.Persons, stop.Tasks = []inventory.PersonID{"p", "q"}, []inventory.FactID{1}
		}
		p.Stops = append(p.Stops, stop)
	}
	return p
}

func was(at int, who inventory.PersonID, address inventory.AddressID, failed string) drive {
	return drive{at, who, &delivery.Visited{Address: address, Failed: failed}}
}

func TestFoldRun(t *testing.T) {
	begin := drive{0, "", plan("a1", "a2")}
	again := drive{30, "", plan("a1", "a2")}
	for name, c := range map[string]struct {
		drives []drive
		open   []inventory.AddressID // in order
		stops  int
	}{
		"planned":                            {[]drive{begin}, []inventory.AddressID{"a1", "a2"}, 2},
		"one of two seen":                    {[]drive{begin, was(20, "p", "a1", "")}, []inventory.AddressID{"a1", "a2"}, 2},
		"both seen":                          {[]drive{begin, was(20, "p", "a1", ""), was(21, "q", "a1", "")}, []inventory.AddressID{"a2"}, 2},
		"failed is closed":                   {[]drive{begin, was(20, "s", "a2", "nobody home")}, []inventory.AddressID{"a1"}, 2},
		"planned anew":                       {[]drive{begin, again}, []inventory.AddressID{"a1", "a2"}, 2},
		"anew, with what is done":            {[]drive{begin, was(20, "s", "a2", ""), again}, []inventory.AddressID{"a1"}, 2},
		"anew, and what is done keyed late":  {[]drive{begin, again, was(20, "s", "a2", "")}, []inventory.AddressID{"a1"}, 2},
		"anew, after it failed":              {[]drive{begin, was(20, "s", "a2", "nobody home"), again}, []inventory.AddressID{"a1", "a2"}, 3},
		"anew, with one of two seen":         {[]drive{begin, was(20, "p", "a1", ""), again, was(40, "q", "a1", "")}, []inventory.AddressID{"a2"}, 2},
		"a visit nobody planned":             {[]drive{begin, was(20, "x", "a9", "")}, []inventory.AddressID{"a1", "a2"}, 2},
		"a visit at another address than so": {[]drive{begin, was(20, "s", "a1", "")}, []inventory.AddressID{"a1", "a2"}, 2},
	} {
		run := delivery.FoldRun("r", driven(c.drives...))
		var open []inventory.AddressID
		for _, s := range run.Open() {
			open = append(open, s.Address)
		}
		assert.Equal(t, c.open, open, name)
		assert.Len(t, run.Stops, c.stops, name)
	}
}

func TestRunVisitsWhoWaits(t *testing.T) {
	run := delivery.FoldRun("r", driven(drive{0, "", plan("a1")}, was(20, "p", "a1", "")))
	_, comes := run.Visit("p")
	assert.False(t, comes, "p was seen already")
	at, comes := run.Visit("q")
	assert.True(t, comes)
	assert.Equal(t, minute(60), at)
	_, comes = run.Visit("x")
	assert.False(t, comes)
}

func TestFoldRunIsTheSameInAnyOrder(t *testing.T) {
	facts := driven(drive{0, "", plan("a1", "a2")}, was(20, "p", "a1", ""), drive{30, "", plan("a2", "a1")},
		was(40, "q", "a1", ""), was(50, "s", "a2", "no answer"), drive{90, "", &delivery.Ended{}})
	want := delivery.FoldRun("r", facts)
	assert.Equal(t, minute(90), want.Ended)
	assert.Equal(t, []time.Time{minute(50), minute(40)}, []time.Time{want.Stops[0].Closed, want.Stops[1].Closed})
	rapid.Check(t, func(rt *rapid.T) {
		assert.Equal(rt, want, delivery.FoldRun("r", rapid.Permutation(facts).Draw(rt, "order")))
	})
}
