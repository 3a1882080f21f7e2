package scene_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"golang.org/x/image/font"

	"lungwort/labels/scene"
)

func TestStepsCoverTheFadingBar(t *testing.T) {
	steps := scene.Bar{X: 10, Y: 2, W: 100, H: 5, Ink: scene.Gas, Fade: 0.2, FadeTo: 0.8}.Steps(4)
	assert.Len(t, steps, 4)
	var wide float64
	for _, s := range steps {
		wide += s.W
		assert.Equal(t, s.Fade, s.FadeTo)
	}
	assert.InDelta(t, 100, wide, 1e-9)
	assert.InDelta(t, 0.275, steps[0].Fade, 1e-9)
	assert.InDelta(t, 0.725, steps[3].Fade, 1e-9)
}

func TestDashesEndWithTheLine(t *testing.T) {
	dashes := scene.Line{X1: 0, Y1: 0, X2: 10, Y2: 0, Width: 1, Ink: scene.Text, Dash: 4}.Dashes()
	assert.Equal(t, []scene.Line{
		{X1: 0, X2: 4, Width: 1, Ink: scene.Text},
		{X1: 8, X2: 10, Width: 1, Ink: scene.Text},
	}, dashes)
}

func TestStripsKeepTheAreaOfAPolygon(t *testing.T) {
	for _, c := range []struct {
		name   string
		points []scene.Point
		want   float64
	}{
		{"triangle, half base times height", []scene.Point{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 5, Y: 8}}, 40},
		{"square", []scene.Point{{X: 1, Y: 1}, {X: 4, Y: 1}, {X: 4, Y: 4}, {X: 1, Y: 4}}, 9},
		{"arrow head with a notch", []scene.Point{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 2, Y: 2}, {X: 4, Y: 4}, {X: 0, Y: 4}}, 12},
		{"two points", []scene.Point{{X: 0, Y: 0}, {X: 4, Y: 4}}, 0},
	} {
		area := 0.0
		for _, b := range (scene.Polygon{Points: c.points, Ink: scene.Text}).Strips(0.5) {
			area += b.W * b.H
		}
		assert.InDelta(t, c.want, area, 1e-9, c.name)
	}
}

// The widths are the fonts' own.
func TestWidthsAreThoseOfTheFonts(t *testing.T) {
	for r := ' '; r <= '~'; r++ {
		for _, bold := range []bool{false, true} {
			face := faceOf(t, bold, 1000)
			want := float64(font.MeasureString(face, string(r))) / 64
			assert.InDelta(t, want, scene.Width(string(r), 1000, bold), 1, "%q bold %t", r, bold)
		}
	}
}

func TestShortenedFits(t *testing.T) {
	assert.Equal(t, "Kiln Brae 1", scene.Shortened("Kiln Brae 1", 12, false, 200))
	cut := scene.Shortened("Kiln Brae 1", 12, false, 40)
	assert.Equal(t, "Kiln…", cut)
	assert.Empty(t, scene.Shortened("Kiln Brae 1", 12, false, 1))
}
