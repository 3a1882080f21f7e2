package paper

import (
	"image"
	"image/color"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// decode reads the modules with a decoder that shares no code with the encoder.
func decode(t require.TestingT, modules [][]bool) string {
	side := len(modules) + 2*quietZone
	img := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			img.SetGray(x, y, color.Gray{Y: 255})
		}
	}
	for y, row := range modules {
		for x, dark := range row {
			if dark {
				img.SetGray(x+quietZone, y+quietZone, color.Gray{})
			}
		}
	}
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	require.NoError(t, err)
	pure := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_PURE_BARCODE: true}
	result, err := qrcode.NewQRCodeReader().Decode(bitmap, pure)
	require.NoError(t, err)
	return result.GetText()
}

func TestEveryPayloadIsReadBackByAnIndependentDecoder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		payload := rapid.StringMatching(`[ -~]{1,120}`).Draw(t, "payload")
		level := Level(rapid.IntRange(int(LevelL), int(LevelH)).Draw(t, "level"))
		modules, err := Matrix(payload, level)
		require.NoError(t, err)
		assert.Equal(t, payload, decode(t, modules))
	})
}

// Smallest versions by ISO/IEC 18004 table 7 (alphanumeric mode): version 1
// has 21 modules and holds 25, 20, 16 and 10 characters at L, M, Q and H.
func TestMatrixIsTheSmallestCodeOfItsLevel(t *testing.T) {
	for level, holds := range []int{25, 20, 16, 10} {
		full, err := Matrix(strings.Repeat("A", holds), Level(level))
		require.NoError(t, err)
		assert.Len(t, full, 21, "level %d, %d characters", level, holds)
		over, err := Matrix(strings.Repeat("A", holds+1), Level(level))
		require.NoError(t, err)
		assert.Len(t, over, 25, "level %d, %d characters", level, holds+1)
	}
}

func TestMatrixRefusesWhatNoReaderAgreesOn(t *testing.T) {
	for _, payload := range []string{"", "é", "氧", "a\nb", "a\x00b", "\xff", strings.Repeat("A", 5000)} {
		_, err := Matrix(payload, LevelM)
		assert.Error(t, err, "%.20q", payload)
	}
	_, err := Matrix("A", Level(9))
	assert.Error(t, err)
}

func TestCodesFitTheirSquareInWholeDots(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 18004))
	for range 300 {
		payload := strings.Repeat("Q", 1+random.IntN(60))
		side := MM(12 + random.Float64()*40)
		dpi := []DPI{DPI203, DPI300}[random.IntN(2)]
		c, err := fitCode(payload, side, dpi)
		if err != nil {
			modules, err := Matrix(payload, LevelL)
			require.NoError(t, err)
			across := MM(len(modules) + 2*quietZone)
			assert.Less(t, side/across, leastModule+dpi.dot(), "%d characters refused on %.1f mm at %d dpi", len(payload), side, dpi)
			continue
		}
		assert.LessOrEqual(t, c.side(), side+0.001)
		assert.GreaterOrEqual(t, MM(c.dots)*dpi.dot(), leastModule)
	}
}

func TestALargerLabelGetsAStrongerCode(t *testing.T) {
	payload := "https://tag.example/8003/" + strings.Repeat("0123456789", 4)
	narrow, err := fitCode(payload, 16, DPI300)
	require.NoError(t, err)
	wide, err := fitCode(payload, 45, DPI300)
	require.NoError(t, err)
	assert.Greater(t, len(wide.modules), len(narrow.modules), "more correction takes more modules")
}
