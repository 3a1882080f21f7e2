package scene_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/scene"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares the scene, shape by shape, with testdata/name.golden.
func golden(t *testing.T, name string, s scene.Scene) {
	t.Helper()
	file := filepath.Join("testdata", name+".golden")
	got := dump(s)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "%s differs; look at it with -out, then -update", file)
}

func dump(s scene.Scene) string {
	var b strings.Builder
	fmt.Fprintf(&b, "scene %.1f x %.1f\n", s.W, s.H)
	for _, sh := range s.Shapes {
		b.WriteString(dumpShape(sh))
	}
	for _, sp := range s.Spots {
		fmt.Fprintf(&b, "spot %.1f %.1f r %.1f %q\n", sp.X, sp.Y, sp.R, sp.Key)
	}
	return b.String()
}

func dumpShape(sh scene.Shape) string {
	switch s := sh.(type) {
	case scene.Bar:
		return fmt.Sprintf("bar %.1f %.1f %.1f x %.1f round %.1f %s fade %.2f-%.2f\n", s.X, s.Y, s.W, s.H, s.Round, s.Ink, s.Fade, s.FadeTo)
	case scene.Frame:
		return fmt.Sprintf("frame %.1f %.1f %.1f x %.1f round %.1f width %.1f %s dash %.1f\n", s.X, s.Y, s.W, s.H, s.Round, s.Width, s.Ink, s.Dash)
	case scene.Line:
		return fmt.Sprintf("line %.1f %.1f - %.1f %.1f width %.1f %s dash %.1f\n", s.X1, s.Y1, s.X2, s.Y2, s.Width, s.Ink, s.Dash)
	case scene.Polygon:
		return fmt.Sprintf("polygon %.1f %s fade %.2f\n", s.Points, s.Ink, s.Fade)
	case scene.Ring:
		return fmt.Sprintf("ring %.1f %.1f r %.1f width %.1f %s fill %q\n", s.X, s.Y, s.R, s.Width, s.Ink, s.Fill)
	case scene.Words:
		return fmt.Sprintf("words %.1f %.1f size %.1f bold %t align %d %s %q\n", s.X, s.Y, s.Size, s.Bold, s.Align, s.Ink, s.Text)
	default:
		return fmt.Sprintf("%T?\n", sh)
	}
}

// wantInside checks that no shape leaves its scene, so that a painter needs no
// clipping and no ribbon writes into its neighbour.
func wantInside(t assert.TestingT, name string, s scene.Scene) {
	const slack = 0.01
	for i, sh := range s.Shapes {
		x1, y1, x2, y2 := extent(sh)
		inside := x1 >= -slack && y1 >= -slack && x2 <= s.W+slack && y2 <= s.H+slack
		assert.True(t, inside, "%s: shape %d %s leaves %.1f x %.1f", name, i, dumpShape(sh), s.W, s.H)
	}
}

// extent returns the box of a shape. The width of a line counts across its
// direction only when it is upright or level, which is all our lines at edges.
func extent(sh scene.Shape) (x1, y1, x2, y2 float64) {
	switch s := sh.(type) {
	case scene.Bar:
		return s.X, s.Y, s.X + s.W, s.Y + s.H
	case scene.Frame:
		return s.X - s.Width/2, s.Y - s.Width/2, s.X + s.W + s.Width/2, s.Y + s.H + s.Width/2
	case scene.Line:
		return math.Min(s.X1, s.X2), math.Min(s.Y1, s.Y2), math.Max(s.X1, s.X2), math.Max(s.Y1, s.Y2)
	case scene.Ring:
		reach := s.R + s.Width/2
		return s.X - reach, s.Y - reach, s.X + reach, s.Y + reach
	case scene.Words:
		wide := scene.Width(s.Text, s.Size, s.Bold)
		left := s.X - wide*float64(s.Align)/2
		return left, s.Y - 0.76*s.Size, left + wide, s.Y + 0.24*s.Size
	case scene.Polygon:
		x1, y1, x2, y2 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, q := range s.Points {
			x1, y1, x2, y2 = math.Min(x1, q.X), math.Min(y1, q.Y), math.Max(x2, q.X), math.Max(y2, q.Y)
		}
		return x1, y1, x2, y2
	}
	return math.NaN(), math.NaN(), math.NaN(), math.NaN()
}
