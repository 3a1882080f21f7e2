package calls_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory/gas"
	"lungwort/ui/calls"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func loaded(t *testing.T) (*uitest.Desk, *calls.Model) {
	t.Helper()
	d := uitest.New(t)
	m := calls.NewModel(d.Work)
	m.Load("")
	require.Empty(t, d.Refused)
	return d, m
}

func names(m *calls.Model) []string {
	var list []string
	for _, r := range m.Rows {
		list = append(list, r.Name)
	}
	return list
}

// The list begins with who runs out, and the first is in hand.
func TestMostCarefulFirst(t *testing.T) {
	d, m := loaded(t)
	require.NotEmpty(t, m.Rows)
	assert.Equal(t, "dry", m.Rows[0].Verdict)
	assert.Equal(t, m.Rows[0].Name, m.Name())
	assert.Contains(t, names(m), "Rowe, Anwen", "nobody answered there this morning")
	assert.Equal(t, 1, m.TellCount)
	m.Show(calls.Tell)
	assert.Equal(t, []string{"Fenn, Odd"}, names(m), "91 % on 1 L/min, turned down to save gas")
	d.Clean()
}

// What is typed is judged at once, and half a number is not.
func TestBandWhileTyping(t *testing.T) {
	_, m := loaded(t)
	m.Choose(m.Rows[len(m.Rows)-1].ID) // ordered 2 L/min at rest, 4 on exertion; the clinician's bands: 90 %, 6, 8
	steps := []struct {
		field calls.Field
		text  string
		title string
	}{
		{calls.SpO2, "9", "Ask: nothing is measured yet"},
		{calls.SpO2, "93", "Incomplete"},
		{calls.Flow, "2", "Fine"},
		{calls.Flow, "6", "Borderline band"},
		{calls.Flow, "8", "Emergency band"},
		{calls.Flow, "2", "Fine"},
		{calls.Exertion, "88", "Emergency band"},
		{calls.Exertion, "", "Fine"},
		{calls.Feels, calls.Worse, "Emergency band"},
	}
	for _, s := range steps {
		m.Set(s.field, s.text)
		assert.Contains(t, m.Card().Title, s.title, "%s = %q", s.field, s.text)
	}
	assert.Contains(t, m.Card().Do[0], "Emergency number 911")
	assert.True(t, m.Shows(calls.Told), "whom was told is asked at once")
}

// Save asks how they feel before anything is written.
func TestSaveAsksHowTheyFeel(t *testing.T) {
	d, m := loaded(t)
	var at []calls.Field
	m.Focus = func(f calls.Field) { at = append(at, f) }
	m.Set(calls.SpO2, "101")
	m.Save()
	assert.ErrorContains(t, m.Wrong[string(calls.Feels)], "overrides the numbers")
	assert.ErrorContains(t, m.Wrong[string(calls.SpO2)], "not between")
	assert.Equal(t, []calls.Field{calls.Feels}, at)
	assert.Nil(t, d.Page("Ludo").Care.LastCall)
}

// What was written for one person waits while another is called.
func TestWhatIsWrittenWaits(t *testing.T) {
	_, m := loaded(t)
	first, second := m.Rows[0].ID, m.Rows[1].ID
	m.Set(calls.SpO2, "93")
	m.Choose(second)
	assert.Empty(t, m.Text(calls.SpO2))
	m.Choose(first)
	assert.Equal(t, "93", m.Text(calls.SpO2))
}

// Whoever was asked for is called, due or not; other numbers can be tried.
func TestCallWithOnePerson(t *testing.T) {
	d, m := loaded(t)
	m.Load(d.Persons["Anwen"])
	assert.Equal(t, "Rowe, Anwen", m.Name())
	assert.Equal(t, []string{"Speaks Welsh", "hard of hearing: let it ring", "no answer once"}, m.Mind())
	numbers := m.Numbers()
	require.Len(t, numbers, 2)
	assert.True(t, numbers[0].Chosen)
	assert.Equal(t, "daughter 555-0177", numbers[1].Text)
	m.OtherNumber()
	assert.True(t, m.Numbers()[1].Chosen)
	m.NoAnswer()
	assert.Equal(t, 2, d.Page("Anwen").Care.Tried)
	d.Clean()
}

// A call keyed in later takes its time, and one that lies ahead is refused.
func TestACallOfThisMorning(t *testing.T) {
	d, m := loaded(t)
	m.Load(d.Persons["Jory"])
	m.Set(calls.Feels, calls.Same)
	m.Set(calls.Parts, "cannula, 2 m")
	m.SetTime(calls.When, uitest.Now.Add(time.Hour), nil)
	m.Save()
	assert.ErrorContains(t, m.Wrong[string(calls.When)], "lies ahead")
	m.SetTime(calls.When, uitest.Now.Add(-7*time.Hour), nil)
	m.Save()
	require.Empty(t, m.Wrong)
	care := d.Page("Jory").Care
	require.NotNil(t, care.LastCall)
	assert.Equal(t, "cannula, 2 m", care.LastCall.Parts)
	assert.True(t, care.LastCall.At.Equal(uitest.Now.Add(-7*time.Hour)), "%s", care.LastCall.At)
	require.NotEmpty(t, care.Tasks)
	assert.Equal(t, "cannula, 2 m", care.Tasks[0].Parts, "the next visit brings it")
	d.Clean()
}

// The clinician list empties as somebody is told.
func TestToldIsRecorded(t *testing.T) {
	d, m := loaded(t)
	m.Show(calls.Tell)
	assert.Contains(t, m.Card().Title, "emergency band")
	assert.Contains(t, m.Card().Do[1], "turned down to save gas")
	m.Save()
	assert.ErrorContains(t, m.Wrong[string(calls.Told)], "name who was told")
	m.Set(calls.Told, "Dr Holm")
	m.Set(calls.Reply, "back to 2 at once")
	m.Save()
	assert.Empty(t, m.Rows)
	assert.Len(t, d.Page("Odd").Care.Told, 2)
	assert.Equal(t, uitest.Now, d.Page("Odd").Care.Told[delivery.SavingGas].In(uitest.Zone))
	require.NotNil(t, d.Offered, "it can be taken back")
	d.Clean()
}

// On a hot day the homes without cooling are called first, and say why.
func TestHotDay(t *testing.T) {
	d, m := loaded(t)
	m.Show(calls.Hot)
	require.Len(t, m.Rows, m.HotCount)
	require.NotEmpty(t, m.Rows)
	assert.Contains(t, m.Rows[0].Why, "machine for up to 40 °C")
	assert.Contains(t, m.Mind(), delivery.HeatScript)
	m.Print()
	require.Len(t, d.Shown, 1)
	assert.Equal(t, "hot-day-2030-03-05-1620.pdf", filepath.Base(d.Shown[0]))
	first := m.Rows[0].ID
	m.Set(calls.Feels, calls.Same)
	m.Save()
	assert.Equal(t, "16:20", m.Rows[0].By, "when they were called stands beside")
	assert.Equal(t, first, m.Rows[0].ID)
	d.Clean()
}

// Both lists are printed as they are shown, and an empty one is refused.
func TestPrintTheListShown(t *testing.T) {
	d, m := loaded(t)
	m.Print()
	m.Show(calls.Tell)
	m.Print()
	require.Len(t, d.Shown, 2)
	for i, name := range []string{"calls-due-2030-03-05-1620.pdf", "to-tell-2030-03-05-1620.pdf"} {
		assert.Equal(t, name, filepath.Base(d.Shown[i]))
		page, err := os.ReadFile(d.Shown[i])
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(page, []byte("%PDF")))
	}
	empty := uitest.NewEmpty(t)
	none := calls.NewModel(empty.Work)
	none.Load("")
	none.Print()
	assert.Contains(t, empty.Refusal().Says, "Nobody is on the list")
	d.Clean()
}

// When nothing is due the screen says what comes next.
func TestNothingDue(t *testing.T) {
	d := uitest.NewEmpty(t)
	m := calls.NewModel(d.Work)
	m.Load("")
	assert.Equal(t, "No call is due.", m.Empty)
	assert.Empty(t, m.Rows)
	assert.False(t, m.Has())
	m.Save()
	m.NoAnswer()
	m.Set(calls.SpO2, "93")
	assert.Empty(t, m.Text(calls.SpO2), "there is nobody to write it for")
}

func done(win fyne.Window) {
	win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl})
}

// TestACallByKeys makes a call from the list to the next without the mouse.
func TestACallByKeys(t *testing.T) {
	d := uitest.New(t)
	v := calls.New(d.Work)
	win := uitest.Show(t, v)
	win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) { v.Key(e.Name) })
	v.Open(work.Target{Room: work.Calls})
	uitest.Shoot(t, win, "calls-1")

	uitest.Press(win, fyne.KeyReturn) // the first of the list
	uitest.Type(win, "s")             // same
	for _, text := range []string{"88", "2"} {
		uitest.Press(win, fyne.KeyReturn)
		uitest.Type(win, text)
	}
	uitest.Shoot(t, win, "calls-2-emergency")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	uitest.Type(win, "Dr Holm")
	done(win)
	uitest.Shoot(t, win, "calls-3-next")
	care := d.Page("Ludo").Care
	require.NotNil(t, care.LastCall)
	assert.Equal(t, delivery.Emergency, care.LastCall.Band)
	assert.Equal(t, gas.Flow(2), *care.LastCall.Flow)
	assert.Equal(t, uitest.Now, care.Told[delivery.InEmergency].In(uitest.Zone), "told in the same act")

	uitest.Press(win, fyne.KeyF2) // the next one does not answer
	assert.Equal(t, 1, d.Page("Ines").Care.Tried)
	uitest.Press(win, fyne.KeyF4)
	require.NotEmpty(t, d.Opened)
	assert.Equal(t, work.Person, d.Opened[len(d.Opened)-1].Room)
	d.Clean()

	d.At(uitest.Now.Add(time.Minute))
	v.Open(work.Target{Room: work.Calls})
	uitest.Shoot(t, win, "calls-4")
}
