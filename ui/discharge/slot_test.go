package discharge_test

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/discharge"
	"lungwort/ui/uitest"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// TestSlotIsOfferedAndTaken: the soonest place on the runs stands beside the
// promise; taken, it feeds the bridge and hand-over puts the visit on the run.
func TestSlotIsOfferedAndTaken(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	m.SetGauge(cylinder(t, m).ID(), "1950")
	require.True(t, m.Quoted)
	assert.Equal(t, m.Slot.Promise(), m.Time(discharge.Arrives), "what is offered is proposed")
	assert.Contains(t, m.SlotOffer(), "Promise ")
	m.SetTime(discharge.Arrives, uitest.Now.Add(5*time.Hour), nil)
	m.TakeSlot()
	assert.True(t, m.Taken)
	assert.Equal(t, m.Slot.Promise(), m.Bridge.Arrives, "it feeds the bridge")
	assert.Contains(t, m.Hint(discharge.Arrives), "hand-over puts it on the run")
	vehicle := m.Slot.Name
	m.HandOver()
	d.Clean()
	runs, err := d.Desk.Runs(context.Background(), "")
	require.NoError(t, err)
	found := ""
	for _, r := range runs {
		for _, s := range r.Stops {
			if len(s.Persons) == 1 && s.Persons[0] == d.Persons["Nia"] {
				found = r.Vehicle
			}
		}
	}
	require.NotEmpty(t, found, "the visit is on a run")
	assert.Contains(t, vehicle, found)
}

// TestAnotherPromiseLetsTheSlotGo: who writes another time plans by hand.
func TestAnotherPromiseLetsTheSlotGo(t *testing.T) {
	d := stocked(t)
	m := atWard(t, d)
	m.TakeSlot()
	m.SetTime(discharge.Arrives, uitest.Now.Add(5*time.Hour), nil)
	assert.False(t, m.Taken)
	m.Turn(machineOf(m).ID()) // nothing is brought any more
	assert.False(t, m.Quoted)
	assert.Empty(t, m.SlotOffer())
}

func machineOf(m *discharge.Model) discharge.Piece {
	for _, p := range m.Pieces {
		if p.Want.Kind == inventory.Concentrator {
			return p
		}
	}
	return discharge.Piece{}
}

// TestSlotByKeys: Tab after the promise, Enter.
func TestSlotByKeys(t *testing.T) {
	d := stocked(t)
	v := discharge.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Discharge, Person: d.Persons["Nia"]})
	uitest.Shoot(t, win, "discharge-slot-1-offered")
	offered := func() bool {
		b, is := win.Canvas().Focused().(*widgets.Button)
		return is && strings.HasPrefix(b.Text, "Promise ")
	}
	for range 60 {
		if win.Canvas().FocusNext(); offered() {
			break
		}
	}
	require.True(t, offered(), "the offer is on the way of Tab")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Shoot(t, win, "discharge-slot-2-taken")
	assert.False(t, offered(), "it is taken")
}

// TestLessOnTheRoadIsOffered: a van comes past next door two hours from now. It is
// offered beside the soonest; taken, that round has the visit.
func TestLessOnTheRoadIsOffered(t *testing.T) {
	d := stocked(t)
	page, err := d.Desk.Page(context.Background(), d.Persons["Nia"], uitest.Now)
	require.NoError(t, err)
	next := d.Act(delivery.Register{
		Person:  delivery.Person{Family: "Quist"},
		Address: delivery.Address{Street: "Net Loft Lane 2", Mains: delivery.MainsYes, Point: page.Address.Point},
	}).Facts[0].Person
	d.Act(delivery.Ask{Person: next, Task: delivery.Swap, Why: "tubing", Parts: "tubing", From: uitest.Now.Add(2 * time.Hour)})
	d.Act(delivery.TakeSlot{Person: next})

	m := atWard(t, d)
	m.SetGauge(cylinder(t, m).ID(), "1950")
	require.Contains(t, m.LaterOffer(), " less on the road")
	soonest, later := m.Slot.Promise(), m.Later.Promise()
	assert.True(t, later.After(soonest))
	m.TakeLater()
	assert.Equal(t, later, m.Bridge.Arrives, "it feeds the bridge")
	assert.Empty(t, m.LaterOffer())
	m.HandOver()
	d.Clean()
	runs, err := d.Desk.Runs(context.Background(), "")
	require.NoError(t, err)
	with := func(who inventory.PersonID) string {
		for _, r := range runs {
			for _, s := range r.Stops {
				if slices.Contains(s.Persons, who) {
					return string(r.ID)
				}
			}
		}
		return "none"
	}
	assert.Equal(t, with(next), with(d.Persons["Nia"]))
}
