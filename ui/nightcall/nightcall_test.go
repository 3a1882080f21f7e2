package nightcall_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/ui/nightcall"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// Two fields decide: the lower bound stands there with the second one, and what
// is not clear is asked on the card.
func TestTwoFieldsDecide(t *testing.T) {
	d := uitest.New(t)
	m := nightcall.NewModel(d.Work)
	m.Open("")
	assert.Contains(t, m.Answer.Title, "two things")
	m.Set(nightcall.Gauge, "500 psi")
	assert.Contains(t, m.Answer.Title, "two things")
	m.Set(nightcall.Flow, "4")
	assert.Equal(t, "The size of the cylinder is not known.", m.Answer.Title)
	assert.Equal(t, "Ask for the letter on its label.", m.Answer.Do[0])
	m.Set(nightcall.Size, "e")
	// (500 - 200) × 0.28 ÷ 4, as respiratory-therapy texts count.
	assert.Equal(t, "21 min", m.Answer.Low)
	assert.Equal(t, depletion.Unknown, m.Answer.Verdict, "nobody knows where they are")
	assert.Contains(t, m.Answer.Do[0], "Emergency number 911")
	m.Set(nightcall.Near, "Nowhere Lane")
	assert.Contains(t, m.Answer.Title, "No home in the book is near Nowhere Lane")
	m.Set(nightcall.Near, "")
	m.Set(nightcall.Size, "Q")
	assert.Contains(t, m.Answer.Title, "Q", "asked about, never guessed")
	m.Set(nightcall.Size, "D")
	assert.Equal(t, "12 min", m.Answer.Low)
	m.Set(nightcall.Worse, "yes")
	assert.Contains(t, m.Answer.Title, "emergency first")
	m.Set(nightcall.Flow, "O")
	assert.ErrorContains(t, m.Wrong[nightcall.Flow], "the letter O")
	m.Save()
	assert.Zero(t, d.Changes, "nobody of the book called")
	d.Clean()
}

// A pulse device has a setting on its dial: what a breath takes is asked for, and
// the answer stands with it.
func TestAPulseDeviceIsAskedAbout(t *testing.T) {
	d := uitest.New(t)
	v := nightcall.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Night})
	win.Canvas().Focus(v.Keyboard())
	for _, text := range []string{"500", "setting 2", "16.5 mL, 20 a minute", "n", "E"} {
		uitest.Type(win, text)
		uitest.Press(win, fyne.KeyReturn)
	}
	uitest.Shoot(t, win, "night-pulse")
	m := nightcall.NewModel(d.Work)
	m.Open("")
	m.Set(nightcall.Gauge, "500")
	m.Set(nightcall.Size, "E")
	m.Set(nightcall.Flow, "setting 2")
	assert.Empty(t, m.Wrong)
	assert.Contains(t, m.Answer.Title, "A setting of a pulse device is not a flow")
	m.Set(nightcall.Pulse, "16.5 mL")
	assert.ErrorContains(t, m.Wrong[nightcall.Pulse], "write the bolus and the breaths a minute")
	m.Set(nightcall.Pulse, "16.5 mL, 20 a minute")
	// (500 - 200) × 0.28 = 84 L, at 0.33 L/min.
	assert.Equal(t, "4 h 14 min", m.Answer.Low)
}

// The whole call by keys: gauge, flow, breath, recorded in one act.
func TestNightCallByKeys(t *testing.T) {
	d := uitest.New(t)
	v := nightcall.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Night})
	uitest.Shoot(t, win, "night-nobody")
	v.Open(work.Target{Room: work.Night, Person: d.Persons["Jory"]})
	assert.LessOrEqual(t, win.Content().MinSize().Width, uitest.Stage.Width)
	win.Canvas().Focus(v.Keyboard())
	uitest.Type(win, "500")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "4")
	uitest.Press(win, fyne.KeyReturn)
	done := &desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl}
	win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(done)
	assert.Zero(t, d.Changes, "nothing is written before it was asked how they breathe")
	uitest.Type(win, "n")
	uitest.Shoot(t, win, "night-told")
	win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(done)
	require.Equal(t, 1, d.Changes)
	call := d.Page("Jory").Care.LastCall
	require.NotNil(t, call)
	assert.Equal(t, "gas is ending", call.Problem)
	assert.InDelta(t, 4, float64(*call.Flow), 1e-9)
	assert.Equal(t, work.Person, d.Opened[len(d.Opened)-1].Room)
	seen := false
	for _, h := range d.Page("Jory").Care.Kit {
		seen = seen || h.Spec.Kind == inventory.Cylinder && h.Gauge != nil && h.Gauge.Told
	}
	assert.True(t, seen, "the gauge is kept as told")
	d.Clean()
}
