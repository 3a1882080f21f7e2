package widgets_test

import (
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"lungwort/ui/widgets"
)

func newSide(t *testing.T) (*widgets.Side, fyne.Window, *[]string) {
	s := widgets.NewSide([]widgets.SideEntry{{ID: "needs", Name: "Needs you", Count: 14}, {ID: "homes", Name: "Homes"}, {ID: "items", Name: "Items", Count: 912}})
	var opened []string
	s.OnOpen = func(id string) { opened = append(opened, id) }
	return s, open(t, s, 150, 400), &opened
}

func TestSideOpensByPointer(t *testing.T) {
	s, win, opened := newSide(t)
	test.TapCanvas(win.Canvas(), fyne.NewPos(40, 58+33+10))
	test.TapCanvas(win.Canvas(), fyne.NewPos(40, 20))  // the name of the program
	test.TapCanvas(win.Canvas(), fyne.NewPos(40, 350)) // below the last
	assert.Equal(t, []string{"homes"}, *opened)
	assert.Equal(t, "homes", s.Here())
}

func TestSideOpensByKeys(t *testing.T) {
	s, win, opened := newSide(t)
	win.Canvas().FocusNext()
	assert.Same(t, s, win.Canvas().Focused())
	for _, k := range []fyne.KeyName{fyne.KeyUp, fyne.KeyReturn, fyne.KeyDown, fyne.KeySpace, fyne.KeyEnd, fyne.KeyDown, fyne.KeyEnter, fyne.KeyHome} {
		s.TypedKey(&fyne.KeyEvent{Name: k})
	}
	assert.Equal(t, []string{"needs", "homes", "items"}, *opened)
}

func TestSideShowsCountsAndHere(t *testing.T) {
	s, win, opened := newSide(t)
	assert.Equal(t, "needs", s.Here())
	assert.Equal(t, "Lungwort|14|Needs you|Homes|912|Items", said(s))
	s.SetEntries([]widgets.SideEntry{{ID: "needs", Name: "Needs you"}, {ID: "homes", Name: "Homes", Count: 3}})
	s.SetHere("homes")
	assert.Equal(t, "Lungwort|Needs you|3|Homes", said(s))
	assert.Empty(t, *opened, "marking is not opening")
	test.AssertRendersToMarkup(t, "side.xml", win.Canvas())
}

func TestSideShowsWhatAClickWouldOpen(t *testing.T) {
	s, win, _ := newSide(t)
	plain := win.Canvas().Capture()
	test.MoveMouse(win.Canvas(), fyne.NewPos(40, 58+33+10))
	assert.NotEqual(t, plain, win.Canvas().Capture())
	s.MouseOut()
	assert.Equal(t, plain, win.Canvas().Capture())
}

// Where the window is low the entries draw together, and a click still finds
// the one under it.
func TestSideDrawsTogetherWhereTheWindowIsLow(t *testing.T) {
	entries := make([]widgets.SideEntry, 20)
	for i := range entries {
		entries[i] = widgets.SideEntry{ID: strconv.Itoa(i), Name: "screen " + strconv.Itoa(i), Apart: i == 10}
	}
	s := widgets.NewSide(entries)
	var opened []string
	s.OnOpen = func(id string) { opened = append(opened, id) }
	win := open(t, s, 150, 600)
	step := (600 - 58 - 8 - 10) / float32(20)
	test.TapCanvas(win.Canvas(), fyne.NewPos(40, 58+9.5*step))
	test.TapCanvas(win.Canvas(), fyne.NewPos(40, 58+10*step+5)) // between the groups
	test.TapCanvas(win.Canvas(), fyne.NewPos(40, 58+10+19.5*step))
	assert.Equal(t, []string{"9", "19"}, opened)
	assert.Less(t, s.MinSize().Height, float32(600))
}
