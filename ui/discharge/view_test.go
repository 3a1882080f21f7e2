package discharge_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/discharge"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// screen is the discharge screen in a window.
func screen(t *testing.T) (*uitest.Desk, *discharge.View, fyne.Window) {
	d := stocked(t)
	v := discharge.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Discharge})
	return d, v, win
}

func done(win fyne.Window) {
	ctrlEnter := &desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl}
	win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(ctrlEnter)
}

// TestDischargeByKeys hands a kit over from the keyboard and the scanner
// alone.
func TestDischargeByKeys(t *testing.T) {
	d, v, win := screen(t)
	uitest.Shoot(t, win, "discharge-1-who")
	uitest.Type(win, "lund")
	uitest.Press(win, fyne.KeyReturn)

	done(win)
	uitest.Shoot(t, win, "discharge-2-lacking")
	assert.Equal(t, delivery.Known, d.Page("Nia").Care.Phase, "nothing is written while something lacks")
	for range 4 { // the keyboard is at the first that lacks: smoker, then the consents
		uitest.Press(win, fyne.KeyRight)
		done(win)
	}
	uitest.Type(win, "6B") // the ward
	done(win)
	uitest.Type(win, "1950")                          // the gauge of the cylinder that is proposed
	require.True(t, v.Scan("E-20112"), "the scanner") // another one is at hand
	uitest.Type(win, "1,200 psi")
	uitest.Shoot(t, win, "discharge-3-tight")
	done(win)

	require.Empty(t, d.Refused)
	assert.Equal(t, delivery.OnBridge, d.Page("Nia").Care.Phase)
	assert.Equal(t, inventory.HandedOver, d.Thing("E-20112").State)
	d.Clean()
}

// TestRefusalsOnScreen looks at a kit of which hardly anything can go out.
func TestRefusalsOnScreen(t *testing.T) {
	d, v, win := screen(t)
	uitest.Press(win, fyne.KeyDown, fyne.KeyReturn)
	require.True(t, v.Scan("E-20101"))
	uitest.Type(win, "CN00903")
	uitest.Press(win, fyne.KeyReturn) // a scanner that types into the list
	uitest.Shoot(t, win, "discharge-4-refusals")
	uitest.Press(win, fyne.KeyF2)
	done(win)
	assert.Equal(t, delivery.Known, d.Page("Nia").Care.Phase)
	require.Empty(t, d.Refused)
}

// TestShortAsks looks at the warning before a bridge that does not hold.
func TestShortAsks(t *testing.T) {
	d := stocked(t)
	v := discharge.New(d.Work)
	win := uitest.Show(t, v)
	d.Act(delivery.Order{Person: d.Persons["Nia"], Rest: 4, Exertion: 5, Hours: 24, Review: d.Now().AddDate(0, 0, 14), Prescriber: "ward 6B"})
	v.Open(work.Target{Room: work.Discharge, Person: d.Persons["Nia"]})
	done(win)
	for range 4 {
		uitest.Press(win, fyne.KeyRight)
		done(win)
	}
	uitest.Type(win, "90, 6, 7, Dr Holm") // 5 L/min are ordered: the clinician's own bands
	done(win)
	uitest.Type(win, "6B")
	done(win)
	uitest.Type(win, "1100")
	uitest.Shoot(t, win, "discharge-5-short")
	done(win)
	uitest.Shoot(t, win, "discharge-6-warning")
	uitest.Press(win, fyne.KeyReturn) // the keyboard is on Cancel
	assert.Equal(t, delivery.Known, d.Page("Nia").Care.Phase)
	done(win)
	uitest.Press(win, fyne.KeyTab)
	win.Canvas().FocusNext()
	uitest.Press(win, fyne.KeyReturn)
	assert.Equal(t, delivery.OnBridge, d.Page("Nia").Care.Phase)
	assert.Equal(t, "Dr Holm", d.Page("Nia").Care.Bands.By)
	d.Clean()
}
