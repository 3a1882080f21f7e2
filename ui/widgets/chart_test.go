package widgets_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"lungwort/labels/scene"
	"lungwort/ui/widgets"
)

// line of spots a, b, c at x = 50, 100, 150.
func threeSpots(w, h float64) scene.Scene {
	s := scene.Scene{W: w, H: h}
	for i, key := range []string{"a", "b", "c"} {
		x := 50 * float64(i+1)
		s.Shapes = append(s.Shapes, scene.Ring{X: x, Y: 20, R: 5, Width: 1, Ink: scene.Text})
		s.Spots = append(s.Spots, scene.Spot{X: x, Y: 20, R: 5, Key: key})
	}
	return s
}

func TestChartOpensSpots(t *testing.T) {
	c := widgets.NewChart(fyne.NewSize(100, 40), threeSpots)
	var opened []string
	c.OnSpot = func(key string) { opened = append(opened, key) }
	win := open(t, c, 200, 40)

	test.TapCanvas(win.Canvas(), fyne.NewPos(106, 22))
	test.TapCanvas(win.Canvas(), fyne.NewPos(75, 20)) // between two
	assert.Equal(t, []string{"b"}, opened)
	assert.Equal(t, desktop.PointerCursor, c.Cursor())

	opened = nil
	win.Canvas().Focus(c)
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyReturn, fyne.KeyRight, fyne.KeyEnter, fyne.KeyHome, fyne.KeySpace, fyne.KeyLeft, fyne.KeyEnd, fyne.KeyLeft, fyne.KeyReturn} {
		c.TypedKey(&fyne.KeyEvent{Name: k})
	}
	assert.Equal(t, []string{"c", "c", "a", "b"}, opened)
}

func TestChartMarksTheSpotInHand(t *testing.T) {
	c := widgets.NewChart(fyne.NewSize(100, 40), threeSpots)
	var hands []string
	c.OnHand = func(key string) { hands = append(hands, key) }
	win := open(t, c, 200, 40)
	plain := win.Canvas().Capture()
	win.Canvas().Focus(c)
	assert.NotEqual(t, plain, win.Canvas().Capture(), "the spot in hand has no mark")
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	win.Canvas().Unfocus()
	assert.Equal(t, plain, win.Canvas().Capture(), "the mark stays without the keyboard")
	assert.Equal(t, []string{"a", "b"}, hands)
}

func TestChartWithoutSpots(t *testing.T) {
	c := widgets.NewChart(fyne.NewSize(100, 40), func(w, h float64) scene.Scene { return scene.Scene{W: w, H: h} })
	c.OnSpot = func(key string) { t.Errorf("opened %q of an empty chart", key) }
	win := open(t, c, 200, 40)
	win.Canvas().Focus(c)
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyEnd, fyne.KeyReturn} {
		c.TypedKey(&fyne.KeyEvent{Name: k})
	}
	test.TapCanvas(win.Canvas(), fyne.NewPos(50, 20))
	assert.Equal(t, desktop.DefaultCursor, c.Cursor())
}
