package runs_test

import (
	"context"
	"os"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/runs"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func done(win fyne.Window) {
	ctrlEnter := &desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl}
	win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(ctrlEnter)
}

// TestPlanByKeys proposes, looks, accepts and prints from the keyboard.
func TestPlanByKeys(t *testing.T) {
	d := uitest.New(t)
	v := runs.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Runs})
	uitest.Shoot(t, win, "runs-1-open")
	before, err := d.Desk.Runs(context.Background(), "")
	require.NoError(t, err)

	done(win)
	uitest.Shoot(t, win, "runs-2-proposed")
	same, err := d.Desk.Runs(context.Background(), "")
	require.NoError(t, err)
	assert.Len(t, same, len(before), "a proposal is not in the book")
	done(win)
	uitest.Shoot(t, win, "runs-3-accepted")
	after, err := d.Desk.Runs(context.Background(), "")
	require.NoError(t, err)
	assert.Greater(t, len(after), len(before))

	v.Print()
	require.Empty(t, d.Refused)
	require.Len(t, d.Shown, 1)
	_, err = os.Stat(d.Shown[0])
	require.NoError(t, err)
	d.Clean()
}

// planned is the screen's model with the afternoon's tasks planned.
func planned(t *testing.T, d *uitest.Desk) *runs.Model {
	m := runs.NewModel(d.Work)
	m.Load()
	m.Plan()
	require.True(t, m.Proposing())
	return m
}

// TestProposalServesWhatWaits: each task that waits is on a proposed run or
// named as trouble, and nothing else is.
func TestProposalServesWhatWaits(t *testing.T) {
	d := uitest.New(t)
	m := planned(t, d)
	served := map[inventory.PersonID]int{}
	for _, r := range m.Proposed {
		if r.Person != "" {
			served[r.Person]++
		}
	}
	for _, tr := range m.Troubles {
		if served[tr.Person] == 0 {
			served[tr.Person]++
		}
	}
	for _, w := range m.Waiting {
		assert.Equal(t, 1, served[w.Person], w.Name)
		delete(served, w.Person)
	}
	assert.Empty(t, served)
}

// TestDryComesFirst: whoever is without oxygen is visited before the vehicle
// goes over the water to somebody whose gas is not known.
func TestDryComesFirst(t *testing.T) {
	d := uitest.New(t)
	at := map[inventory.PersonID]string{}
	for _, r := range planned(t, d).Proposed {
		at[r.Person] = r.Time
	}
	assert.Less(t, at[d.Persons["Ludo"]], at[d.Persons["Rhea"]])
	assert.Equal(t, "16:37", at[d.Persons["Ludo"]], "loaded in 10 min, 7 min of riding")
}

// TestTroubleNamesTheStop: a home nobody knows the way to can't be planned,
// and the screen says so with what would mend it.
func TestTroubleNamesTheStop(t *testing.T) {
	d := uitest.New(t)
	mira := d.Page("Mira")
	home := mira.Address
	home.Point = delivery.Point{}
	d.Act(delivery.Register{Person: mira.Person, Address: home})
	m := planned(t, d)
	var found *runs.Trouble
	for i := range m.Troubles {
		if m.Troubles[i].Person == mira.Person.ID {
			found = &m.Troubles[i]
		}
	}
	require.NotNil(t, found)
	assert.Equal(t, "the address has no place on the map", found.Says)
	assert.NotEmpty(t, found.Relief)
	m.Discard()
	assert.Empty(t, m.Troubles)
	assert.False(t, m.Proposing())
}

// TestLateStopIsMarked: a stop planned after its act-by stands out, with the
// verdict of the arrival.
func TestLateStopIsMarked(t *testing.T) {
	d := uitest.New(t)
	m := runs.NewModel(d.Work)
	m.Load()
	verdicts := map[string]bool{}
	for _, r := range m.Rows {
		if r.Person == d.Persons["Ines"] {
			assert.True(t, r.Late, "arrives %s, %s", r.Time, r.Beside)
			assert.NotNil(t, r.Ribbon)
			verdicts[r.Verdict] = true
		}
	}
	assert.True(t, verdicts["short"] || verdicts["dry"], "%v", verdicts)
}

// TestRunEndsWhenItsStopsAreClosed: Enter on the run brings its next stop up,
// and ends it once there is none.
func TestRunEndsWhenItsStopsAreClosed(t *testing.T) {
	d := uitest.New(t)
	m := runs.NewModel(d.Work)
	m.Load()
	head := m.Rows[0].ID
	m.Open(head)
	require.Len(t, d.Opened, 1)
	assert.Equal(t, work.Target{Room: work.Visit, Run: d.Run, Person: d.Persons["Tobin"]}, d.Opened[0])
	m.End(d.Run)
	assert.Contains(t, d.Refusal().Says, "still open")
	d.Refused = nil

	d.At(uitest.Now.Add(time.Hour))
	for _, who := range []string{"Tobin", "Anwen", "Ines"} {
		d.Act(delivery.Visit{Run: d.Run, Person: d.Persons[who], Failed: "road closed"})
	}
	m.Load()
	m.Open(head)
	assert.Empty(t, m.Rows, "the run is ended")
	d.Clean()
}

func TestNothingToPlan(t *testing.T) {
	d := uitest.NewEmpty(t)
	m := runs.NewModel(d.Work)
	m.Load()
	m.Go()
	assert.Contains(t, d.Refusal().Says, "No task waits")
	m.Sheet("")
	assert.Contains(t, d.Refusal().Says, "No run in force")
}

// TestVanIsCounted: at the end of a run the van is held against the book; a
// difference is named, and goes in with its reason.
func TestVanIsCounted(t *testing.T) {
	d := uitest.New(t)
	d.At(uitest.Now.Add(time.Hour))
	for _, who := range []string{"Tobin", "Anwen", "Ines"} {
		d.Act(delivery.Visit{Run: d.Run, Person: d.Persons[who], Failed: "road closed"})
	}
	m := runs.NewModel(d.Work)
	m.Load()
	var form ask.Form
	m.Ask = func(f ask.Form) { form = f }
	m.End(d.Run)
	answer := func(more ask.Answers) (refused error) {
		require.Empty(t, form.Submit(form.Answered().With(more), func(err error) { refused = err }))
		return refused
	}
	assert.NotEmpty(t, form.Submit(form.Answered().With(ask.Answers{"full": "some"}), nil), "not a number")
	assert.ErrorContains(t, answer(ask.Answers{"full": "9", "used": "0"}), "9 full and 0 used counted, the book has")
	require.NoError(t, answer(ask.Answers{"full": "9", "used": "0", "why": "one from the ward"}))
	assert.Empty(t, m.Rows, "the run is ended")
	d.Clean()
}

// TestLoadAlongTheRun: O shows what is on board after each stop, in every
// dimension, as the board stands; and what is asked of the vehicle.
func TestLoadAlongTheRun(t *testing.T) {
	d, _ := accepted(t)
	v := runs.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Runs})
	m := v.Model()
	win.Canvas().Focus(v.Board())
	uitest.Press(win, fyne.KeyRight)
	uitest.Type(win, "o")
	uitest.Shoot(t, win, "runs-load")
	loads := m.Loads()
	require.Len(t, loads.Lines, 4)
	for _, line := range loads.Lines {
		assert.Len(t, line.Values, len(loads.Steps), line.Name)
	}
	assert.Positive(t, loads.Lines[0].Limit)
	assert.Zero(t, loads.Lines[2].Limit, "nobody wrote how many litres the van holds")
	assert.Contains(t, m.Papers()[0], "kg of cylinders at most")
	uitest.Type(win, "o")
	d.Clean()
}
