package person_test

import (
	"context"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/uitest"
)

func in(days int) string { return uitest.Now.AddDate(0, 0, days).Format(time.RFC3339) }

// The menu leads to every form by its letters and Enter.
func TestWhatHappenedLeadsToItsForm(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	for _, what := range m.HappenedForm(nil).Fields[0].Options {
		var next ask.Form
		wrong, done := answered(m.HappenedForm(func(f ask.Form) { next = f }), ask.Answers{"what": what.Value})
		require.Empty(t, wrong)
		assert.True(t, done)
		assert.NotEmpty(t, next.Title, what.Value)
		wrong, done = answered(next, nil)
		assert.NotEmpty(t, wrong, "%s asks for what it needs", what.Value)
		assert.False(t, done)
	}
	wrong, _ := answered(m.HappenedForm(nil), nil)
	assert.ErrorContains(t, wrong["what"], "choose")
	assert.Zero(t, d.Changes)
}

func TestDeathLeavesOnePersonToCall(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	_, done := answered(m.DiedForm(), ask.Answers{"told": "ward 6B", "contact": "daughter", "phone": "555-0177", "from": in(7)})
	require.True(t, done)
	assert.Contains(t, d.Said[0], "Only daughter, 555-0177, may be called")
	assert.Contains(t, detail(m, "died")[0], "only daughter 555-0177 is called")
	assert.False(t, m.Page.Watched)
	d.Offered()
	assert.Nil(t, d.Page("Jory").Care.Died, "taken down for the wrong person: undone")
	d.Clean()
}

func TestInHospitalTheKitIsHeld(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	_, done := answered(m.ReadmitForm(), ask.Answers{"ward": "6B", "until": in(5), string(d.Things["E-20101"]): "along"})
	require.True(t, done)
	assert.Equal(t, inventory.At(inventory.AtWard, "6B"), d.Thing("E-20101").Place)
	assert.Equal(t, inventory.OnHold, d.Page("Jory").Care.Kit[0].Role)
	assert.Equal(t, delivery.InHospital, d.Page("Jory").Care.Phase)
	d.Clean()
}

// For some days the portable goes along and the concentrator stays.
func TestAwayForSomeDays(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Jory")
	_, done := answered(m.MovedForm(), ask.Answers{"street": "Fern Lane 1", "mains": "mains", "until": in(3), string(d.Things["E-20101"]): "along"})
	require.True(t, done)
	assert.Contains(t, d.Said[0], "Moves along: E-20101. Stays: CN00401.")
	care := d.Page("Jory").Care
	assert.NotEqual(t, care.Address, care.AddressAt(uitest.Now.Add(time.Hour)))
	assert.Equal(t, care.Address, care.AddressAt(uitest.Now.AddDate(0, 0, 4)), "then home again")
	d.Clean()
}

func TestRefusedBackupIsOfferedAgain(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Anwen")
	_, done := answered(m.RefuseForm(), ask.Answers{"what": delivery.TheBackup, "why": "no room", "again": in(2)})
	require.True(t, done)
	assert.Contains(t, detail(m, "no backup")[0], "no room")
	_, still := d.Page("Anwen").Care.Refused(delivery.TheBackup, uitest.Now.AddDate(0, 0, 3))
	assert.False(t, still)
	d.Clean()
}

// A trip longer than the gas lasts makes an act-by; taken off, nothing is due.
func TestTripIsBookedAndTakenOff(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Anwen")
	wrong, _ := answered(m.TripForm(), ask.Answers{"from": in(1)})
	assert.ErrorContains(t, wrong["until"], "are back")
	_, done := answered(m.TripForm(), ask.Answers{"from": in(1), "until": in(4), "where": "clinic"})
	require.True(t, done)
	trips := d.Page("Anwen").Care.Trips
	require.Len(t, trips, 1)
	assert.Equal(t, "clinic", trips[0].Where)
	m = open(d, "Anwen")
	_, done = answered(m.TripOffForm(), ask.Answers{"trip": m.TripOffForm().Fields[0].Options[0].Value})
	require.True(t, done)
	assert.Empty(t, d.Page("Anwen").Care.Trips)

	wrong, _ = answered(m.TubingForm(), ask.Answers{"when": ""})
	assert.Error(t, wrong["metres"])
	_, done = answered(m.TubingForm(), ask.Answers{"metres": "30"})
	require.True(t, done)
	assert.Equal(t, 30.0, d.Page("Anwen").Care.Tubing)
	d.Clean()
}

// Erasing asks for the name and refuses while something of ours is there.
func TestErasingIsConfirmedByTheName(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Otto")
	wrong, _ := answered(m.EraseForm(), ask.Answers{"why": "he asked for it", "name": "Hall"})
	assert.ErrorContains(t, wrong["name"], "family name")
	var refused error
	m.EraseForm().Submit(ask.Answers{"why": "he asked for it", "name": "hale"}, func(err error) { refused = err })
	assert.ErrorContains(t, refused, "kept until")
	_, done := answered(m.EraseForm(), ask.Answers{"why": "he asked for it", "sooner": "sooner", "name": "hale"})
	require.True(t, done)
	assert.True(t, d.Page("Otto").Person.Erased)
	assert.NotContains(t, m.Page.Name, "Hale")

	m = open(d, "Jory")
	form := m.EraseForm()
	form.Submit(ask.Answers{"why": "asked", "name": "Vale"}, func(err error) { refused = err })
	assert.ErrorContains(t, refused, "on oxygen of ours")
	d.Clean()
}

// A death is taken down by keys alone: 8, the event, the answers.
func TestDeathByKeys(t *testing.T) {
	d := uitest.New(t)
	win := shown(t, d, "Jory")
	uitest.Type(win, "8")
	uitest.Shoot(t, win, "person-happened")
	uitest.Type(win, "d")
	uitest.Press(win, fyne.KeyReturn)
	require.NotNil(t, win.Canvas().Overlays().Top())
	for _, answer := range []string{"ward 6B", "daughter", "555-0177", uitest.Now.AddDate(0, 0, 7).Format("2006-01-02 15:04")} {
		uitest.Type(win, answer)
		uitest.Press(win, fyne.KeyReturn)
	}
	uitest.Shoot(t, win, "person-died")
	uitest.Press(win, fyne.KeyReturn)
	require.Nil(t, win.Canvas().Overlays().Top())
	assert.NotNil(t, d.Page("Jory").Care.Died)
	d.Clean()
}

// The driver at a locked door is told the minutes and whom to call; a visit that
// failed stays open with its next try.
func TestLockedDoor(t *testing.T) {
	d := uitest.New(t)
	m := open(d, "Ines") // on the bridge, the van is on its way
	form := m.DoorForm()
	assert.Contains(t, form.Before, "min of gas")
	assert.Contains(t, form.Before, "Call 555-0131")
	assert.Contains(t, form.Before, "Next slot: the last stop of van 1")
	wrong, done := answered(form, ask.Answers{})
	assert.False(t, done)
	assert.ErrorContains(t, wrong["why"], "what was tried")
	wrong, done = answered(form, ask.Answers{"why": "rang twice, neighbour away"})
	require.Empty(t, wrong)
	require.True(t, done)
	tasks := d.Page("Ines").Care.Tasks
	require.NotEmpty(t, tasks)
	assert.Contains(t, tasks[0].Tries[0], "locked door: rang twice")
	runs, err := d.Desk.Runs(context.Background(), "")
	require.NoError(t, err)
	for _, r := range runs {
		_, stops := r.Visit(d.Persons["Ines"])
		assert.False(t, stops, "the stop of %s is closed too", r.Vehicle)
	}
	d.Clean()
}
