package alarm_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/ui/alarm"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// Each answer changes what is to be done; half a number does not.
func TestAnswersNarrowTheCause(t *testing.T) {
	d := uitest.New(t)
	m := alarm.NewModel(d.Work)
	m.Open(d.Persons["Jory"])
	assert.Equal(t, "Vale, Jory", m.Name)
	for _, s := range []struct{ key, text, title string }{
		{"power", "on", "ask on"},
		{"light", "fault", "the machine reports a fault: "},
		{"light", "fine", "the machine is fine: check the line"},
		{alarm.SpO2, "8", "the machine is fine: check the line"},
		{alarm.SpO2, "84", "emergency first. The machine is fine"},
		{alarm.SpO2, "", "the machine is fine: check the line"},
		{alarm.Worse, "yes", "emergency first"},
	} {
		m.Set(s.key, s.text)
		assert.Contains(t, m.Answer.Title, s.title, "%s = %q", s.key, s.text)
	}
	assert.Contains(t, m.Answer.Do[0], "Emergency number 911")
	assert.Zero(t, d.Changes)
	d.Clean()
}

// Nothing is written before it was asked how they breathe.
func TestBreathIsAskedFirst(t *testing.T) {
	d := uitest.New(t)
	m := alarm.NewModel(d.Work)
	m.Open(d.Persons["Jory"])
	m.Set("light", "dead")
	m.Set(alarm.SpO2, "930")
	m.Save()
	assert.ErrorContains(t, m.Wrong[alarm.Worse], "overrides the machine")
	assert.ErrorContains(t, m.Wrong[alarm.SpO2], "not between")
	assert.Zero(t, d.Changes)
}

// The whole call by keys: breath, four questions, gauge, the cylinder, a swap.
func TestAlarmByKeys(t *testing.T) {
	d := uitest.New(t)
	v := alarm.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Alarm})
	uitest.Shoot(t, win, "alarm-nobody")
	v.Open(work.Target{Room: work.Alarm, Person: d.Persons["Jory"]})
	assert.LessOrEqual(t, win.Content().MinSize().Width, uitest.Stage.Width)
	win.Canvas().Focus(v.Keyboard())
	uitest.Type(win, "n")                                             // not breathless
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn) // no saturation
	uitest.Type(win, "o")                                             // power is on
	uitest.Press(win, fyne.KeyReturn)                                 // to the light
	uitest.Type(win, "d")                                             // dead
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn) // to the gauge
	uitest.Type(win, "1500")                                          //
	uitest.Press(win, fyne.KeyReturn)                                 //
	uitest.Type(win, "y")                                             // on the cylinder
	uitest.Press(win, fyne.KeyReturn)                                 //
	uitest.Type(win, "y")                                             // a swap
	uitest.Shoot(t, win, "alarm-told")
	win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl})
	care := d.Page("Jory").Care
	assert.Equal(t, delivery.FromCylinder, care.Breathes)
	assert.True(t, care.Has(delivery.Swap))
	require.NotNil(t, care.LastCall)
	assert.Equal(t, "alarm: the machine gets no power", care.LastCall.Problem)
	assert.Equal(t, 1, d.Changes, "one act")
	assert.Equal(t, work.Person, d.Opened[len(d.Opened)-1].Room)
	d.Clean()
}
