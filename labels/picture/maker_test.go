package picture_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/picture"
	"lungwort/labels/tag"
)

// onPlate draws a code in grey on a maker's plate of the given size.
func onPlate(code *gozxing.BitMatrix, module int, plate image.Rectangle) image.Image {
	img := image.NewGray(plate)
	for i := range img.Pix {
		img.Pix[i] = 225
	}
	left, top := (plate.Dx()-code.GetWidth()*module)/2, (plate.Dy()-code.GetHeight()*module)/2
	for y := range code.GetHeight() * module {
		for x := range code.GetWidth() * module {
			if code.Get(x/module, y/module) {
				img.SetGray(left+x, top+y, color.Gray{Y: 35})
			}
		}
	}
	return img
}

// TestMakersCodesAreReadInPictures: what stands on a maker's plate, a Data Matrix
// or a Code 128, is found beside nothing of ours and turned a little.
func TestMakersCodesAreReadInPictures(t *testing.T) {
	const serial = "CN00417-2029"
	matrix, err := datamatrix.NewDataMatrixWriter().Encode(serial, gozxing.BarcodeFormat_DATA_MATRIX, 0, 0, nil)
	require.NoError(t, err)
	bars, err := oned.NewCode128Writer().Encode(serial, gozxing.BarcodeFormat_CODE_128, 0, 60, nil)
	require.NoError(t, err)
	for name, img := range map[string]image.Image{
		"Data Matrix":             onPlate(matrix, 8, image.Rect(0, 0, 400, 320)),
		"Data Matrix, turned":     turned(onPlate(matrix, 10, image.Rect(0, 0, 400, 320)), 12, 0),
		"Data Matrix, in the dim": spoiled(onPlate(matrix, 8, image.Rect(0, 0, 400, 320)), 1, 0.5, 6),
		"Code 128":                onPlate(bars, 3, image.Rect(0, 0, 900, 320)),
		"Code 128, turned":        turned(onPlate(bars, 3, image.Rect(0, 0, 900, 320)), 4, 0),
	} {
		var file bytes.Buffer
		require.NoError(t, png.Encode(&file, img))
		texts, err := picture.Read(context.Background(), bytes.NewReader(file.Bytes()), nil)
		require.NoError(t, err, name)
		assert.Equal(t, []string{serial}, texts, name)
		read, err := tag.Read(texts[0])
		require.NoError(t, err, name)
		assert.Equal(t, serial, read.Serial, name)
	}
}
