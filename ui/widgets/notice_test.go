package widgets_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"lungwort/ui/widgets"
)

func TestNoticeOffersOneStepOnce(t *testing.T) {
	n := widgets.NewNotice()
	win := open(t, container.NewVBox(n), 600, 60)
	undone := 0
	n.Offer("E-20117 is in van 2.", "Undo", func() { undone++ })
	assert.Equal(t, "E-20117 is in van 2.|Undo", said(n))
	win.Canvas().FocusNext()
	win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	n.Act()
	assert.Equal(t, 1, undone)
	assert.Equal(t, "", n.Text())
}

func TestNoticeRefusesWithTheNextStep(t *testing.T) {
	n := widgets.NewNotice()
	win := open(t, container.NewVBox(n), 600, 60)
	n.Offer("E-20117 is in van 2.", "Undo", func() { t.Error("an undo that is gone") })
	n.Refuse("E-20118 is lent to Ines A.", "Record the return first.")
	assert.Equal(t, "E-20118 is lent to Ines A.|Record the return first.", said(n))
	n.Act()
	win.Resize(fyne.NewSize(600, 60))
	test.AssertRendersToMarkup(t, "notice-refused.xml", win.Canvas())

	gone := false
	n.RefuseOffering("No reading of E-20118.", "Ask for one.", "Call", func() { gone = true })
	n.Act()
	assert.True(t, gone)
	n.Say("Done.")
	assert.Equal(t, "Done.", said(n))
	n.Clear()
	assert.Equal(t, "", said(n))
}

func TestProgressStops(t *testing.T) {
	p := widgets.NewProgress()
	win := open(t, container.NewVBox(p), 600, 60)
	assert.False(t, p.Visible())
	stopped := 0
	p.Start("Reading orders.xlsx", func() { stopped++ })
	p.SetShare(0.349)
	win.Content().Refresh()
	assert.Equal(t, "34 %|Reading orders.xlsx|Stop", said(p))
	win.Canvas().FocusNext()
	win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	p.Stop()
	assert.Equal(t, 1, stopped)
	assert.Contains(t, said(p), "Stopping …")
	p.Done()
	assert.False(t, p.Visible())

	p.Start("Writing", nil)
	win.Content().Refresh()
	assert.Equal(t, "0 %|Writing", said(p), "work that cannot be stopped has no button")
	p.SetText("Checking")
	p.SetShare(7)
	assert.Equal(t, "100 %|Checking", said(p))
}

// The last step of a long work gives no share: the bar moves all the same.
func TestProgressMovesWhileItFinishes(t *testing.T) {
	p := widgets.NewProgress()
	win := open(t, container.NewVBox(p), 600, 60)
	p.Start("Writing", func() {})
	p.SetShare(1)
	p.SetText("Putting it on the disk …")
	win.Content().Refresh()
	full := win.Canvas().Capture()
	p.Finish("Putting it on the disk …")
	p.Finish("Putting it on the disk …")
	win.Content().Refresh()
	assert.Equal(t, "100 %|Putting it on the disk …|Stop", said(p))
	assert.NotEqual(t, full, win.Canvas().Capture(), "a light runs along the bar")
	win.Canvas().FocusNext()
	assert.Nil(t, win.Canvas().Focused(), "it can't be stopped any more")

	p.Done()
	assert.False(t, p.Visible())
	p.Start("Writing", func() {})
	assert.Equal(t, "0 %|Writing|Stop", said(p))
}
