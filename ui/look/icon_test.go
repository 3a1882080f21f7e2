package look_test

import (
	"image"
	"image/png"
	"os"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/look"
)

// The sign must read at the size of a title bar as well as on a desktop. With
// LUNGWORT_GALLERY set to a folder the drawn sign is kept there for a look.
func TestIconDraws(t *testing.T) {
	for _, side := range []float32{16, 256} {
		test.NewTempApp(t)
		icon := canvas.NewImageFromResource(look.Icon)
		win := test.NewTempWindow(t, icon)
		win.SetPadded(false)
		win.Resize(fyne.NewSize(side, side))
		img := win.Canvas().Capture()
		assert.Greater(t, coloursOf(img), 5, "at %v points", side)
		if dir := os.Getenv("LUNGWORT_GALLERY"); dir != "" && side == 256 {
			file, err := os.Create(dir + "/icon.png")
			require.NoError(t, err)
			require.NoError(t, png.Encode(file, img))
			require.NoError(t, file.Close())
		}
	}
}

func coloursOf(img image.Image) int {
	seen := map[any]bool{}
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			seen[img.At(x, y)] = true
		}
	}
	return len(seen)
}
