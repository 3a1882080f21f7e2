package nightlog_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/nightlog"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// packed is a desk on the morning after a pack was printed with two homes in it.
func packed(t *testing.T) *uitest.Desk {
	t.Helper()
	d := uitest.New(t)
	d.Day(0, "17:05")
	d.Act(delivery.PrintedPack{Persons: []inventory.PersonID{d.Persons["Jory"], d.Persons["Odd"]}})
	d.Day(1, "07:10")
	return d
}

// A line takes its time of the night, and the home stands otherwise then.
func TestALineTakesItsPlaceInTheNight(t *testing.T) {
	d := packed(t)
	m := nightlog.NewModel(d.Work)
	m.Load()
	assert.Contains(t, m.Answer.Title, "night pack of Tue 17:05")
	assert.Empty(t, m.Rows)
	m.Set(nightlog.Clock, "23:40")
	assert.Equal(t, "Tue 5 Mar 23:40", m.When(), "the hour alone was last that hour yesterday")
	m.Set(nightlog.Who, "3")
	assert.Contains(t, m.Caller, "ends at 2")
	m.Set(nightlog.Who, "1")
	assert.Contains(t, m.Caller, "Vale, Jory, Kelp Street 22")
	m.Set(nightlog.Gauge, "1200")
	m.Set(nightlog.Flow, "2")
	m.Save()
	assert.ErrorContains(t, m.Wrong[nightlog.Worse], "breathless")
	m.Set(nightlog.Worse, "no")
	m.Set(nightlog.Machine, string(delivery.FromCylinder))
	m.Set(nightlog.Said, "machine silent")
	m.Set(nightlog.Again, "06:30")
	m.Save()
	require.Empty(t, m.Wrong)
	care := d.Page("Jory").Care
	at := time.Date(2030, time.March, 5, 23, 40, 0, 0, uitest.Zone)
	assert.True(t, care.Switched.Equal(at), "%s", care.Switched)
	assert.Equal(t, "machine silent", care.LastCall.Problem)
	assert.True(t, care.LastCall.Next.Equal(at.Add(6*time.Hour+50*time.Minute)))
	require.Len(t, m.Rows, 1)
	assert.Equal(t, "1", m.Rows[0].Number)
	assert.Contains(t, m.Rows[0].Says, "was running, is on cylinder")
	d.Clean()
}

// What was never printed can't be worked from.
func TestNoPack(t *testing.T) {
	d := uitest.New(t)
	m := nightlog.NewModel(d.Work)
	m.Load()
	assert.Equal(t, "no night pack was printed", m.Answer.Title)
	m.Set(nightlog.Clock, "25:00")
	m.Save()
	assert.ErrorContains(t, m.Wrong[nightlog.Clock], "write it as 16:20")
	assert.ErrorContains(t, m.Wrong[nightlog.Who], "number in the pack")
	d.Clean()
}

// A line by keys alone: time, number, nobody answered, done.
func TestLineByKeys(t *testing.T) {
	d := packed(t)
	v := nightlog.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.NightLog})
	assert.LessOrEqual(t, win.Content().MinSize().Width, uitest.Stage.Width)
	win.Canvas().Focus(v.Keyboard())
	uitest.Type(win, "02:15")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "2")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "y") // nobody answered
	uitest.Shoot(t, win, "night-log-line")
	win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl})
	assert.Equal(t, 1, d.Changes)
	assert.Equal(t, 1, d.Page("Odd").Care.Tried)
	uitest.Shoot(t, win, "night-log")
	assert.Equal(t, v.Keyboard(), win.Canvas().Focused(), "ready for the next line")
	v.Print()
	assert.Equal(t, work.Papers, d.Opened[len(d.Opened)-1].Room)
	d.Clean()
}
