package asker_test

import (
	"errors"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/uitest"
)

// form is a form with a field of each kind, and what was answered in it.
func form(answered *ask.Answers, refusal error) ask.Form {
	return ask.Form{
		Title: "Record a call", Button: "Record", Before: "A clinician decides on flow.",
		Fields: []ask.Field{
			{Key: "worse", Label: "Feels worse", Kind: ask.Pick, Options: ask.YesNo()},
			{Key: "spo2", Label: "SpO2", Kind: ask.Number, Unit: "%"},
			{Key: "flow", Label: "Flow", Kind: ask.Flow},
			{Key: "gauge", Label: "Gauge", Kind: ask.Gauge},
			{Key: "why", Label: "Why", Kind: ask.Line, Value: "daily call"},
			ask.When(uitest.Now),
		},
		Live: func(a ask.Answers) (string, bool) {
			if a.Is("worse", "yes") {
				return "emergency band", true
			}
			return "", false
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			r.Flow("flow")
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			*answered = a
			closed(refusal)
			return nil
		},
	}
}

func shown(t *testing.T) fyne.Window {
	win := test.NewTempWindow(t, widget.NewLabel("behind"))
	win.Resize(fyne.NewSize(900, 600))
	return win
}

func TestFormIsAnsweredByKeysAlone(t *testing.T) {
	win := shown(t)
	var got ask.Answers
	asker.Show(win, form(&got, nil), uitest.Zone)
	uitest.Type(win, "y")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "91")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "2")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "1400")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	assert.Nil(t, win.Canvas().Overlays().Top(), "the form is closed")
	assert.Equal(t, ask.Answers{
		"worse": "yes", "spo2": "91", "flow": "2", "gauge": "1400", "why": "daily call", "when": uitest.Now.Format(time.RFC3339),
	}, got)
}

func TestWrongAnswerIsSaidAtItsField(t *testing.T) {
	win := shown(t)
	var got ask.Answers
	asker.Show(win, form(&got, nil), uitest.Zone)
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn)
	uitest.Type(win, "2-3")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	require.NotNil(t, win.Canvas().Overlays().Top(), "the form stays")
	assert.Nil(t, got)
	uitest.Type(win, "3")
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	assert.Nil(t, win.Canvas().Overlays().Top())
	assert.Equal(t, "3", got.Text("flow"), "the keyboard was on the wrong answer, its text selected")
}

func TestRefusedFormStaysAndSaysWhy(t *testing.T) {
	win := shown(t)
	var got ask.Answers
	asked := asker.Show(win, form(&got, errors.New("x")), uitest.Zone)
	uitest.Press(win, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyReturn)
	require.NotNil(t, win.Canvas().Overlays().Top())
	assert.Contains(t, asked.Note(), "Nothing was written")
	uitest.Press(win, fyne.KeyEscape)
	assert.Nil(t, win.Canvas().Overlays().Top())
}

func TestFormSaysWhatTheAnswersMean(t *testing.T) {
	win := shown(t)
	var got ask.Answers
	asked := asker.Show(win, form(&got, nil), uitest.Zone)
	assert.Empty(t, asked.Note())
	uitest.Type(win, "y")
	assert.Equal(t, "emergency band", asked.Note())
}
