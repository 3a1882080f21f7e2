package outage_test

import (
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
	"lungwort/ui/outage"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func loaded(t *testing.T) (*uitest.Desk, *outage.Model) {
	t.Helper()
	d := uitest.New(t)
	m := outage.NewModel(d.Work)
	m.Load()
	require.Empty(t, d.Refused)
	return d, m
}

func shown(t *testing.T, d *uitest.Desk) (*outage.View, fyne.Window) {
	t.Helper()
	v := outage.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Outage})
	win.Canvas().Focus(v.Keyboard())
	return v, win
}

func row(t *testing.T, m *outage.Model, id inventory.PersonID) outage.Row {
	t.Helper()
	for _, r := range m.Rows {
		if r.ID == id {
			return r
		}
	}
	t.Fatalf("%s is not on the list", id)
	return outage.Row{}
}

// The power cut that is out now is shown first: Odd alone hangs on the line.
func TestThePowerCutUnderWayIsChosen(t *testing.T) {
	d, m := loaded(t)
	assert.True(t, m.Recorded())
	assert.Equal(t, "Harbour line", m.Places[0].Name)
	assert.Equal(t, "out since 15:20 to 20:20", m.Places[0].Detail)
	require.Len(t, m.Rows, 1)
	assert.Equal(t, d.Persons["Odd"], m.Rows[0].ID)
	assert.Equal(t, "call now", m.Rows[0].Call)
}

// A what-if everywhere lists every home on oxygen, by hours of cover, and
// counts what the depots lack.
func TestWhatIfEverywhere(t *testing.T) {
	d, m := loaded(t)
	m.Choose("everywhere ")
	assert.False(t, m.Recorded())
	assert.Equal(t, "", m.Rows[0].Ends, "who can't be told about stands first")
	rows, err := d.Watch(t.Context(), uitest.Now)
	require.NoError(t, err)
	assert.Len(t, m.Rows, len(rows))
	few := m.Answer.Title
	m.SetHours(72 * time.Hour)
	assert.NotEqual(t, few, m.Answer.Title)
	assert.Contains(t, row(t, m, d.Persons["Anwen"]).Next, "go where power is", "2 L/min for three days is more than cylinders carry")
	_, err = m.CallForm(d.Persons["Jory"])
	assert.ErrorContains(t, err, "not recorded yet")
	_, err = m.BackForm()
	assert.ErrorContains(t, err, "No recorded power cut is chosen")
}

// Recording, calling and ending, each form answered as a person would.
func TestFromRecordToPowerBack(t *testing.T) {
	d, m := loaded(t)
	m.Choose("line Ness line")
	require.Len(t, m.Rows, 1)
	done := func(err error) { require.NoError(t, err) }
	record := m.RecordForm()
	require.Empty(t, record.Submit(record.Answered().With(ask.Answers{"cause": "storm"}), done))
	require.True(t, m.Recorded())
	rhea := d.Persons["Rhea"]
	id, due := m.NextCall()
	require.True(t, due)
	assert.Equal(t, rhea, id)

	call, err := m.CallForm(rhea)
	require.NoError(t, err)
	wrong := call.Submit(call.Answered().With(ask.Answers{"found": "turned down", "worse": "no"}), done)
	assert.ErrorContains(t, wrong["flow"], "what the flow meter shows")
	says, alarm := call.Live(ask.Answers{"found": "turned down"})
	assert.True(t, alarm)
	assert.Contains(t, says, "tell the clinician")
	wrong = call.Submit(call.Answered().With(ask.Answers{"found": "on backup", "worse": "no", "flow": "1"}), done)
	assert.ErrorContains(t, wrong["saving"], "who saves gas does not say so", "asked on every call")
	require.Empty(t, call.Submit(call.Answered().With(ask.Answers{"found": "on backup", "saving": "yes", "worse": "no", "flow": "1", "gauge": "1500"}), done))
	r := row(t, m, rhea)
	assert.Equal(t, "turned down", r.Found)
	assert.Contains(t, r.Next, "at the order", "both run-out times stand there")
	_, due = m.NextCall()
	assert.False(t, due, "she was just called")

	back, err := m.BackForm()
	require.NoError(t, err)
	require.Empty(t, back.Submit(back.Answered(), done))
	assert.Equal(t, "Harbour line", m.Places[0].Name)
	assert.False(t, m.Places[1].Cut.ID != 0, "only one power cut is left")
	d.Clean()
}

// Who can't be carried through by cylinders goes where power is, by one form: the
// stay is in the book, the visit off the runs, the home off the list.
func TestGoesWherePowerIs(t *testing.T) {
	d, m := loaded(t)
	odd := d.Persons["Odd"]
	form, err := m.ShelterForm(odd)
	require.NoError(t, err)
	wrong := form.Submit(form.Answered(), func(error) {})
	assert.ErrorContains(t, wrong["where"], "choose where")
	require.NotEmpty(t, form.Fields[0].Options, "the hospital and its wards are offered, the nearest first")
	require.Empty(t, form.Submit(form.Answered().With(ask.Answers{"where": form.Fields[0].Options[0].Value, "how": "taxi"}), func(err error) { require.NoError(t, err) }))
	stay, away := d.Page("Odd").Care.StayAt(uitest.Now)
	require.True(t, away)
	assert.Equal(t, time.Date(2030, time.March, 5, 20, 20, 0, 0, uitest.Zone), stay.Until.In(uitest.Zone), "until power is expected back")
	for _, r := range m.Rows {
		assert.NotEqual(t, odd, r.ID, "power is where they are")
	}
	d.Clean()
}

// Who does not answer twice is on a list of their own until somebody looks in.
func TestNobodyAnswers(t *testing.T) {
	d, m := loaded(t)
	odd := d.Persons["Odd"]
	_, err := m.LookInForm(odd)
	assert.ErrorContains(t, err, "not called without an answer")
	for range 2 {
		call, err := m.CallForm(odd)
		require.NoError(t, err)
		require.Empty(t, call.Submit(call.Answered().With(ask.Answers{"found": "unreachable"}), func(err error) { require.NoError(t, err) }))
	}
	m.SetList(outage.NoAnswer)
	require.Len(t, m.Rows, 1)
	assert.Equal(t, "no answer 2 times", m.Rows[0].Found)
	assert.Contains(t, m.Rows[0].Next, "have somebody look in")
	d.At(uitest.Now.Add(time.Minute))
	look, err := m.LookInForm(odd)
	require.NoError(t, err)
	require.Empty(t, look.Submit(look.Answered().With(ask.Answers{"told": "neighbour at no. 11", "reply": "goes over"}), func(err error) { require.NoError(t, err) }))
	assert.Contains(t, row(t, m, odd).Next, "somebody looks in, asked 16:21")
	d.Clean()
}

// A call is logged by keys alone: 1, the finding, the flow, the gauge, Enter.
func TestCallByKeys(t *testing.T) {
	d := uitest.New(t)
	_, win := shown(t, d)
	uitest.Shoot(t, win, "outage")
	uitest.Type(win, "1")
	require.NotNil(t, win.Canvas().Overlays().Top())
	uitest.Type(win, "o") // on backup
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "n") // not turned down
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "2")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "1400")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "n")
	uitest.Shoot(t, win, "outage-call")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	assert.Nil(t, win.Canvas().Overlays().Top(), "the form is closed")
	require.NotNil(t, d.Page("Odd").Care.InCut)
	assert.Equal(t, delivery.FoundBackup, d.Page("Odd").Care.InCut.Found)
	uitest.Type(win, "1")
	assert.Contains(t, d.Said[len(d.Said)-1], "No call is due")
	for _, key := range "234" {
		uitest.Type(win, string(key))
		require.NotNil(t, win.Canvas().Overlays().Top(), "key %c", key)
		uitest.Press(win, fyne.KeyEscape)
	}
	assert.LessOrEqual(t, win.Content().MinSize().Width, uitest.Stage.Width)
	d.Clean()
}

func TestPrint(t *testing.T) {
	d, m := loaded(t)
	m.Print()
	require.Len(t, d.Shown, 1)
	assert.Regexp(t, `outage-list-2030-03-05-1620\.pdf$`, filepath.Base(d.Shown[0]))
}

// An empty book says what it lacks, and prints nothing.
func TestEmptyBook(t *testing.T) {
	d := uitest.NewEmpty(t)
	_, win := shown(t, d)
	uitest.Shoot(t, win, "outage-empty")
	m := outage.NewModel(d.Work)
	m.Load()
	assert.Empty(t, m.Rows)
	assert.Equal(t, "no home is on oxygen", m.Answer.Title)
	m.Print()
	assert.Contains(t, d.Refusal().Says, "No home is on the list")
}

// TestAreaDrawnOnTheMap: the homes chosen there are a what-if, and recorded the
// cut touches just them, however many others live along the street.
func TestAreaDrawnOnTheMap(t *testing.T) {
	d, _ := loaded(t)
	v := outage.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Outage, Homes: []inventory.PersonID{d.Persons["Anwen"], d.Persons["Ines"]}})
	uitest.Shoot(t, win, "outage-area")
	assert.Equal(t, delivery.ByHomes, v.Model().Plan.Cut.By, "not the power cut under way")
	m := outage.NewModel(d.Work)
	m.OpenArea([]inventory.PersonID{d.Persons["Anwen"], d.Persons["Ines"]})
	require.Empty(t, d.Refused)
	assert.False(t, m.Recorded())
	assert.Contains(t, m.RecordForm().Title, "in an area drawn on the map")
	ids := make(map[inventory.PersonID]bool)
	for _, r := range m.Rows {
		ids[r.ID] = true
	}
	assert.True(t, ids[d.Persons["Anwen"]] && ids[d.Persons["Ines"]])
	assert.False(t, ids[d.Persons["Odd"]])

	form := m.RecordForm()
	require.Empty(t, form.Submit(form.Answered().With(ask.Answers{"cause": "storm"}), func(err error) { require.NoError(t, err) }))
	again := outage.NewModel(d.Work)
	again.Load()
	recorded := 0
	for _, p := range again.Places {
		if p.Cut.By == delivery.ByHomes {
			recorded++
			assert.NotEmpty(t, p.Cut.Homes)
		}
	}
	assert.Equal(t, 1, recorded)
	d.Clean()
}
