package gallery_test

import (
	"context"
	"image"
	_ "image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/console"
	"lungwort/ui/gallery"
	"lungwort/ui/window"
)

// fewestColours is what even an empty screen of ours has: side bar, ground,
// letters with their soft edges.
const fewestColours = 40

// TestEveryScreenIsDrawn draws the demo and looks whether each picture shows
// anything.
func TestEveryScreenIsDrawn(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, gallery.Draw(context.Background(), dir, console.MakeDemo))
	files, err := filepath.Glob(filepath.Join(dir, "*.png"))
	require.NoError(t, err)
	assert.Len(t, files, 2*(len(window.Rooms())+7), "each room, a discharge, a person, an item, a visit, an alarm, a night call and what changed, light and dark")
	drawn := make(map[string]bool)
	for _, file := range files {
		name := filepath.Base(file)
		assert.GreaterOrEqual(t, colours(t, file), fewestColours, name)
		if strings.HasSuffix(name, "-light.png") {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.False(t, drawn[string(data)], "%s looks like another screen", name)
			drawn[string(data)] = true
		}
	}
}

// colours counts the colours of the screen beside the side bar.
func colours(t *testing.T, file string) int {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	img, _, err := image.Decode(f)
	require.NoError(t, err)
	assert.Equal(t, image.Rect(0, 0, 1366, 768), img.Bounds(), file)
	seen := make(map[[3]uint32]bool)
	for y := 50; y < 768; y++ {
		for x := 160; x < 1366; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			seen[[3]uint32{r, g, b}] = true
		}
	}
	return len(seen)
}
