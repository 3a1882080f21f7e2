package paper_test

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/vector"

	"lungwort/labels/paper"
	"lungwort/labels/scene"
)

// filed draws the polygons of a scene, the codes, black on white, into a
// file.
func filed(t *testing.T, s scene.Scene) string {
	t.Helper()
	page := image.NewRGBA(image.Rect(0, 0, int(math.Ceil(s.W)), int(math.Ceil(s.H))))
	draw.Draw(page, page.Bounds(), image.White, image.Point{}, draw.Src)
	for _, shape := range s.Shapes {
		polygon, ok := shape.(scene.Polygon)
		if !ok {
			continue
		}
		pen := vector.NewRasterizer(page.Bounds().Dx(), page.Bounds().Dy())
		for i, q := range polygon.Points {
			if i == 0 {
				pen.MoveTo(float32(q.X), float32(q.Y))
				continue
			}
			pen.LineTo(float32(q.X), float32(q.Y))
		}
		pen.ClosePath()
		pen.Draw(page, page.Bounds(), image.NewUniform(color.Black), image.Point{})
	}
	name := filepath.Join(t.TempDir(), "page.png")
	var file bytes.Buffer
	require.NoError(t, png.Encode(&file, page))
	require.NoError(t, os.WriteFile(name, file.Bytes(), 0o600))
	return name
}

func wordsOf(s scene.Scene) string {
	var all []string
	for _, shape := range s.Shapes {
		if w, ok := shape.(scene.Words); ok {
			all = append(all, w.Text)
		}
	}
	return strings.Join(all, "\n")
}

// dots is a length in dots of the printer, so that a module is whole pixels.
func dots(length paper.MM) float64 { return float64(length) * float64(paper.DPI203) / 25.4 }

// What the window shows is what the printer prints: the same codes in the same
// order, on every stock, read by an independent decoder.
func TestPreviewShowsThePrintedCodes(t *testing.T) {
	for _, stock := range paper.Stocks {
		sheet := sheetOf(stock, labels(3))
		_, result := mustPrint(t, sheet)
		require.Equal(t, result.Pages, sheet.Pages(), stock.Name)
		var seen []string
		for page := range sheet.Pages() {
			s, err := sheet.Preview(page, dots(stock.Page.Width), dots(stock.Page.Height))
			require.NoError(t, err, stock.Name)
			seen = append(seen, scanned(t, filed(t, s))...)
			assert.Contains(t, wordsOf(s), "555-0142", stock.Name)
		}
		assert.ElementsMatch(t, payloads(sheet.Labels), seen, stock.Name)
	}
}

func TestPreviewFitsAndKeepsTheShapeOfThePage(t *testing.T) {
	sheet := sheetOf(paper.Stocks[0], labels(30))
	s, err := sheet.Preview(1, 300, 4000)
	require.NoError(t, err)
	assert.InDelta(t, 300, s.W, 1e-9)
	assert.InDelta(t, 297.0/210, s.H/s.W, 1e-9) // A4: ISO 216
	for _, shape := range s.Shapes {
		if w, ok := shape.(scene.Words); ok {
			assert.True(t, w.X >= 0 && w.Y <= s.H && w.X+scene.Width(w.Text, w.Size, w.Bold) <= s.W+1, "%+v", w)
		}
	}
}

func TestPreviewCrossesOutWhatIsUsedUp(t *testing.T) {
	sheet := sheetOf(paper.Stocks[0], labels(2))
	sheet.First, sheet.Copies = 23, 2
	crossed := func(page int) (n int) {
		s, err := sheet.Preview(page, 400, 600)
		require.NoError(t, err)
		for _, shape := range s.Shapes {
			if _, ok := shape.(scene.Line); ok {
				n++
			}
		}
		return n
	}
	require.Equal(t, 2, sheet.Pages())
	assert.Equal(t, 22, crossed(0))
	assert.Zero(t, crossed(1))
	_, err := sheet.Preview(2, 400, 600)
	assert.Error(t, err)
}

func refused(sheet paper.LabelSheet) string {
	_, err := sheet.Print(io.Discard)
	return err.Error()
}

func TestPreviewRefusesWhatPrintRefuses(t *testing.T) {
	tiny := sheetOf(paper.Roll("tiny", 12, 12), labels(1))
	_, err := tiny.Preview(0, 400, 400)
	assert.EqualError(t, err, refused(tiny))
	empty := sheetOf(paper.Stocks[0], nil)
	_, err = empty.Preview(0, 400, 400)
	assert.EqualError(t, err, refused(empty))
	assert.Zero(t, empty.Pages())
}

func TestPreviewOfOneLabel(t *testing.T) {
	sheet := sheetOf(paper.Stocks[0], nil)
	one := labels(1)[0]
	s, err := sheet.PreviewOne(one, 635, 400)
	require.NoError(t, err)
	assert.InDelta(t, 63.5/33.9, s.W/s.H, 1e-9)
	assert.Equal(t, []string{one.Payload}, scanned(t, filed(t, s)))
}
