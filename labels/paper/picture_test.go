package paper_test

import (
	"bytes"
	"image"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
	"lungwort/labels/scene"
)

func TestEveryInkOfASceneHasAColourOfPrint(t *testing.T) {
	colours := paper.Inks()
	for _, name := range scene.Inks {
		assert.Contains(t, colours, name)
	}
	assert.Len(t, colours, len(scene.Inks))
}

// luminance is the relative luminance of WCAG 2.1.
func luminance(c [3]int) float64 {
	linear := func(v int) float64 {
		if s := float64(v) / 255; s > 0.04045 {
			return math.Pow((s+0.055)/1.055, 2.4)
		} else {
			return s / 12.92
		}
	}
	return 0.2126*linear(c[0]) + 0.7152*linear(c[1]) + 0.0722*linear(c[2])
}

// WCAG 2.1, success criterion 1.4.3: words keep a contrast of 4.5 to 1.
func TestInksOfWordsAreReadableOnWhitePaper(t *testing.T) {
	for _, name := range []scene.Ink{scene.Text, scene.Faint, scene.Alarm, scene.Caution, scene.Fine, scene.Unsure, scene.Gas, scene.Outline} {
		contrast := 1.05 / (luminance(paper.Inks()[name]) + 0.05)
		assert.GreaterOrEqual(t, contrast, 4.5, "%s", name)
	}
}

// painted renders a scene with one pixel to the point.
func painted(t *testing.T, s scene.Scene) *image.Gray {
	var pdf bytes.Buffer
	require.NoError(t, paper.PrintScene(&pdf, s))
	return picture(t, pages(t, pdf.Bytes(), 72)[0])
}

func TestShapesLieWhereTheSceneSays(t *testing.T) {
	s := scene.Scene{W: 200, H: 100, Shapes: []scene.Shape{
		scene.Bar{X: 10, Y: 10, W: 80, H: 20, Ink: scene.Text, FadeTo: 1},
		scene.Polygon{Points: []scene.Point{{X: 110, Y: 10}, {X: 150, Y: 10}, {X: 130, Y: 50}}, Ink: scene.Text},
		scene.Ring{X: 170, Y: 70, R: 15, Width: 4, Ink: scene.Text},
		scene.Line{X1: 10, Y1: 60, X2: 100, Y2: 60, Width: 4, Ink: scene.Text},
		scene.Frame{X: 20, Y: 70, W: 60, H: 20, Width: 2, Ink: scene.Text},
	}}
	page := painted(t, s)
	for _, c := range []struct {
		what string
		x, y int
		dark bool
	}{
		{"the bar's solid end", 12, 20, true}, {"the bar's faded end", 88, 20, false}, {"left of the bar", 7, 20, false},
		{"in the polygon", 130, 20, true}, {"beside its point", 112, 45, false},
		{"on the ring", 185, 70, true}, {"in the ring's hole", 170, 70, false},
		{"on the line", 50, 60, true}, {"under the line", 50, 65, false},
		{"on the frame", 50, 90, true}, {"in the frame", 50, 80, false},
	} {
		assert.Equal(t, c.dark, page.GrayAt(c.x, c.y).Y < 128, "%s: grey %d", c.what, page.GrayAt(c.x, c.y).Y)
	}
}

func TestWordsOfASceneKeepTheirAlignment(t *testing.T) {
	for align, columns := range map[scene.Align][2]int{scene.Left: {100, 200}, scene.Middle: {50, 150}, scene.Right: {0, 100}} {
		page := painted(t, scene.Scene{W: 200, H: 20, Shapes: []scene.Shape{
			scene.Words{X: 100, Y: 15, Size: 12, Align: align, Text: "MMMM", Ink: scene.Text},
		}})
		for y := range 20 {
			for x := range 200 {
				if page.GrayAt(x, y).Y < 100 {
					require.True(t, x >= columns[0] && x <= columns[1], "alignment %d puts ink at %d", align, x)
				}
			}
		}
	}
}

func TestRibbonsAreDrawnAlikeOnPaper(t *testing.T) {
	low := at(18, 20)
	page := painted(t, scene.Ribbon(scene.RibbonData{
		Now: at(16, 20), Horizon: 4 * time.Hour, Low: low, Mid: low.Add(time.Hour), High: low.Add(2 * time.Hour),
	}, 400, 44))
	solid, beyond := page.GrayAt(150, 21).Y, page.GrayAt(280, 21).Y
	assert.Less(t, solid, uint8(100), "gas before the safe end")
	assert.Greater(t, beyond, solid+60, "gas after the middle is fainter")
}
