package delivery_test

import (
	"maps"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// TestByUrgency: dry, short, unknown, tight, holds; then by act-by, none last;
// then who needs something before who needs nothing. Nothing that can wait
// stands above something that cannot.
func TestByUrgency(t *testing.T) {
	row := func(name string, verdict depletion.Verdict, actBy int, tasks int) delivery.Watch {
		w := delivery.Watch{Person: delivery.Person{ID: inventory.PersonID(name), Family: name}, Verdict: verdict}
		w.Care.Phase = delivery.Running
		if actBy > 0 {
			w.Forecast.ActBy = minute(actBy)
		}
		w.Care.Tasks = make([]delivery.OpenTask, tasks)
		return w
	}
	stopped := row("stopped", "", 0, 1)
	stopped.Care.Phase = delivery.Over
	want := []delivery.Watch{
		row("dry", depletion.Dry, 10, 0), row("short soon", depletion.Short, 20, 0), row("short later", depletion.Short, 30, 0),
		row("unknown", depletion.Unknown, 0, 0), row("tight", depletion.Tight, 40, 0),
		row("holds, dated", depletion.Holds, 50, 0), row("holds, a task", depletion.Holds, 0, 1), row("holds", depletion.Holds, 0, 0), row("holds too", depletion.Holds, 0, 0),
		stopped,
	}
	rapid.Check(t, func(rt *rapid.T) {
		rows := rapid.Permutation(want).Draw(rt, "rows")
		delivery.ByUrgency(rows)
		var names, wanted []string
		for i := range rows {
			names, wanted = append(names, rows[i].Person.Family), append(wanted, want[i].Person.Family)
		}
		assert.Equal(rt, wanted, names)
	})
}

func TestHelp(t *testing.T) {
	p := delivery.NewProgramme()
	agreed := func(from int, kind inventory.Kind) delivery.Care {
		return delivery.Care{Tasks: []delivery.OpenTask{{Tasked: delivery.Tasked{
			Task: delivery.Deliver, From: minute(from), Bring: []delivery.Wanted{{Kind: kind, Count: 1}},
		}}}}
	}
	for name, c := range map[string]struct {
		home delivery.Home
		want int
	}{
		"the visit planned":           {delivery.Home{Visit: minute(45), Nearest: 5 * time.Minute}, 45},
		"a visit overdue":             {delivery.Home{Visit: minute(-45)}, -45},
		"the visit agreed on":         {delivery.Home{Care: agreed(900, inventory.Concentrator), Nearest: 5 * time.Minute}, 900},
		"one agreed on that is past":  {delivery.Home{Care: agreed(-5, inventory.Cylinder), Nearest: 20 * time.Minute}, 30},
		"one that brings no oxygen":   {delivery.Home{Care: agreed(900, inventory.Oximeter), Nearest: 20 * time.Minute}, 30},
		"loading, then the ride":      {delivery.Home{Nearest: 20 * time.Minute}, 30},
		"the way is not known at all": {delivery.Home{}, 120},
	} {
		assert.Equal(t, minute(c.want), c.home.Help(p, minute(0)), name)
	}
}

func TestNextAction(t *testing.T) {
	p := delivery.NewProgramme()
	late := homeAt(1500, 4, 3*time.Hour)
	assert.Contains(t, late.Next, "is after act-by")
	assert.True(t, late.Urgent)
	assert.Contains(t, homeAt(1000, 4, time.Hour).Next, "emergency number "+p.Emergency+" first")
	overdue := homeAt(2000, 2, -time.Hour)
	assert.Equal(t, depletion.Unknown, overdue.Verdict)
	assert.Contains(t, overdue.Next, "is not closed: ask the driver")
	assert.False(t, homeAt(2000, 2, time.Hour).Urgent)
}

// statements draws any statement of the book with a few of its fields set, the
// way a book of another hand might hold it.
func statements() *rapid.Generator[inventory.Statement] {
	words := delivery.Words()
	names := slices.Sorted(maps.Keys(words))
	return rapid.Custom(func(t *rapid.T) inventory.Statement {
		s := words[rapid.SampledFrom(names).Draw(t, "says")]()
		switch s := s.(type) {
		case *inventory.Lent:
			s.Spec = inventory.Spec{Kind: rapid.SampledFrom(inventory.Kinds()).Draw(t, "kind"), Size: rapid.SampledFrom([]gas.SizeCode{"", "US-E", "nonsense"}).Draw(t, "size")}
			s.Role = rapid.SampledFrom([]inventory.Role{inventory.Bridging, inventory.InUse, inventory.NotNeeded}).Draw(t, "role")
		case *inventory.Observed:
			s.Gauge = new(gas.PSI(rapid.Float64Range(-100, 1e6).Draw(t, "psi")))
		case *inventory.Moved:
			s.To = rapid.SampledFrom([]inventory.Place{"", "depot", "depot:harbour", "vehicle:", "missing", ":"}).Draw(t, "to")
		case *delivery.Ordered:
			s.Rest = gas.Flow(rapid.Float64Range(-1, 100).Draw(t, "rest"))
			s.Hours = rapid.Float64Range(-1, 30).Draw(t, "hours")
		case *delivery.Switched:
			s.To = rapid.SampledFrom([]delivery.Breathes{delivery.FromCylinder, delivery.FromConcentrator, "", "gills"}).Draw(t, "breathes")
		case *delivery.Discharged:
			s.Opened = minute(rapid.IntRange(-1000, 1000).Draw(t, "opened"))
		case *delivery.Done:
			s.Task = inventory.FactID(rapid.IntRange(0, 20).Draw(t, "task"))
		case *delivery.Promised:
			s.Task = inventory.FactID(rapid.IntRange(0, 20).Draw(t, "task"))
		case *delivery.Planned:
			s.Stops = []delivery.PlannedStop{{}, {Address: "a", Persons: []inventory.PersonID{"p", "p"}}}
		}
		return s
	})
}

// TestNoFactsMakeAPanic: whatever a book holds can be told, folded and
// forecast.
func TestNoFactsMakeAPanic(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var facts []inventory.Fact
		for i := range rapid.IntRange(0, 20).Draw(rt, "facts") {
			facts = append(facts, inventory.Fact{
				ID: inventory.FactID(i + 1), Happened: minute(rapid.IntRange(-1000, 1000).Draw(rt, "at")),
				Item:      rapid.SampledFrom([]inventory.ItemID{"", "i", "j"}).Draw(rt, "item"),
				Person:    rapid.SampledFrom([]inventory.PersonID{"", "p", "q"}).Draw(rt, "person"),
				Run:       rapid.SampledFrom([]inventory.RunID{"", "r"}).Draw(rt, "run"),
				Corrects:  inventory.FactID(rapid.IntRange(0, i).Draw(rt, "corrects")),
				Statement: statements().Draw(rt, "statement"),
			})
		}
		item := inventory.Fold("i", facts)
		if item.State == "" {
			rt.Fatalf("an item is nothing: %+v", item)
		}
		delivery.FoldRun("r", facts)
		for _, e := range delivery.Timeline(facts) {
			if e.Words == "" {
				rt.Fatalf("no words for a fact %T", e.Statement)
			}
		}
		p := delivery.NewProgramme()
		home := delivery.Home{Care: delivery.FoldCare("p", facts)}
		w := delivery.WatchHome(p, delivery.Person{ID: "p"}, home, minute(0))
		w.Answer(p, minute(0))
		home.Care.BackupTask(p, minute(0))
	})
}
