package widgets_test

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/scene"
	"lungwort/ui/look"
	"lungwort/ui/widgets"
)

// open shows content in a window of the light look.
func open(t *testing.T, content fyne.CanvasObject, w, h float32) fyne.Window {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	win := test.NewTempWindow(t, content)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

func TestPictureIsDrawnAtItsSize(t *testing.T) {
	var sizes []float64
	p := widgets.NewPicture(fyne.NewSize(40, 20), func(w, h float64) scene.Scene {
		sizes = append(sizes, w, h)
		return scene.Scene{W: w, H: h}
	})
	win := open(t, p, 200, 100)
	win.Resize(fyne.NewSize(300, 100))
	require.GreaterOrEqual(t, len(sizes), 4)
	assert.Equal(t, []float64{300, 100}, sizes[len(sizes)-2:])
	assert.Equal(t, fyne.NewSize(40, 20), p.MinSize())
}

func TestPictureKeepsObjectsThatStayTheSame(t *testing.T) {
	end := 50.0
	p := widgets.NewPicture(fyne.NewSize(10, 10), func(w, h float64) scene.Scene {
		return scene.Scene{W: w, H: h, Shapes: []scene.Shape{
			scene.Bar{W: end, H: 10, Ink: scene.Gas},
			scene.Words{X: 5, Y: 20, Size: 11, Text: "16:20", Ink: scene.Faint},
			scene.Polygon{Points: []scene.Point{{X: 0, Y: 0}, {X: 9, Y: 0}, {X: 4, Y: 9}}, Ink: scene.Alarm},
		}}
	})
	open(t, p, 200, 100)
	before := objects(t, p)
	end = 70
	p.Refresh()
	after := objects(t, p)
	require.Len(t, after, 3)
	for i := range after {
		assert.Same(t, before[i], after[i], "object %d was made anew", i)
	}
	assert.Equal(t, float32(70), after[0].Size().Width)
}

func TestPictureTakesShapesOfAnotherKind(t *testing.T) {
	shapes := []scene.Shape{scene.Bar{W: 5, H: 5, Ink: scene.Gas}, scene.Ring{X: 9, Y: 9, R: 4, Width: 1, Ink: scene.Text, Fill: scene.Ground}}
	p := widgets.NewPicture(fyne.NewSize(10, 10), func(w, h float64) scene.Scene { return scene.Scene{W: w, H: h, Shapes: shapes} })
	open(t, p, 100, 100)
	shapes = []scene.Shape{scene.Line{X1: 1, Y1: 1, X2: 30, Y2: 40, Width: 2, Ink: scene.Text}}
	p.Refresh()
	require.Len(t, objects(t, p), 1)
	assert.IsType(t, &canvas.Line{}, objects(t, p)[0])
}

func TestPictureFollowsTheTheme(t *testing.T) {
	p := widgets.NewPicture(fyne.NewSize(10, 10), func(w, h float64) scene.Scene {
		return scene.Scene{W: w, H: h, Shapes: []scene.Shape{scene.Bar{W: w, H: h, Ink: scene.Gas}}}
	})
	open(t, p, 100, 100)
	fill := func() color.Color { return objects(t, p)[0].(*canvas.Rectangle).FillColor }
	light, _ := look.Colour(look.Ink(scene.Gas), theme.VariantLight)
	dark, _ := look.Colour(look.Ink(scene.Gas), theme.VariantDark)
	assert.Equal(t, light, fill())
	test.ApplyTheme(t, look.New(look.Dark))
	assert.Equal(t, dark, fill())
}

func TestPictureOfNothing(t *testing.T) {
	p := widgets.NewPicture(fyne.NewSize(10, 10), nil)
	open(t, p, 100, 100)
	assert.Empty(t, objects(t, p))
}

func objects(t *testing.T, w fyne.Widget) []fyne.CanvasObject {
	t.Helper()
	return test.TempWidgetRenderer(t, w).Objects()
}
