package paper_test

import (
	"flag"
	"fmt"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
)

// The proof that what leaves a printer reads at the first scan: random
// payloads over all stocks and both resolutions, rendered dot by dot, each read
// by two decoders that share nothing with the encoder or with each other.
// In full: go test ./labels/paper -run Proof -codes 10000
var proofCodes = flag.Int("codes", 140, "how many labels the proof renders and reads back")

func TestProofThatEveryRenderedCodeIsRead(t *testing.T) {
	cases := len(paper.Stocks) * 2
	for i, stock := range paper.Stocks {
		for j, dpi := range []paper.DPI{paper.DPI203, paper.DPI300} {
			random := rand.New(rand.NewPCG(uint64(i), uint64(j)))
			batch := labels((*proofCodes + cases - 1) / cases)
			for k := range batch {
				batch[k].Payload = randomPayload(random, stock)
			}
			t.Run(fmt.Sprintf("%.0fx%.0f on %s at %d dpi", stock.Width, stock.Height, stock.Page.Name, dpi), func(t *testing.T) {
				sheet := sheetOf(stock, batch)
				sheet.DPI = dpi
				pdf, _ := mustPrint(t, sheet)
				files := pages(t, pdf, int(dpi))
				require.ElementsMatch(t, payloads(batch), scanned(t, files...), "whole pages")
				for page, file := range files {
					rendered := picture(t, file)
					for place, l := range batch[page*stock.PerSheet() : min((page+1)*stock.PerSheet(), len(batch))] {
						require.Equal(t, l.Payload, read(t, rendered, stock, place, l.Payload, dpi), "page %d, label %d", page+1, place+1)
					}
				}
			})
		}
	}
}

// randomPayload is one of our tags, a GS1 Digital Link or an element string in
// plain characters; the smallest label carries our tags alone.
func randomPayload(random *rand.Rand, stock paper.Stock) string {
	const signs = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	draw := func(n int) string {
		made := make([]byte, n)
		for i := range made {
			made[i] = signs[random.IntN(len(signs))]
		}
		return string(made)
	}
	switch kind := random.IntN(3); {
	case kind == 0 && stock.Height > 25:
		return "https://id.example/8004/0952123" + draw(8+random.IntN(12))
	case kind == 1 && stock.Height > 25:
		return "80030" + fmt.Sprintf("%013d", random.Int64N(1e13)) + draw(4+random.IntN(10))
	}
	return draw(6 + random.IntN(8))
}

// read cuts one code out of a page that is rendered dot by dot and decodes it.
func read(t *testing.T, page *image.Gray, stock paper.Stock, place int, payload string, dpi paper.DPI) string {
	x, y, side, err := paper.CodeSquare(stock, place, payload, dpi)
	require.NoError(t, err)
	left, top := int(math.Round(x)), int(math.Round(y))
	cut := page.SubImage(image.Rect(left, top, left+int(math.Round(side)), top+int(math.Round(side))))
	bitmap, err := gozxing.NewBinaryBitmapFromImage(cut)
	require.NoError(t, err)
	pure := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_PURE_BARCODE: true}
	result, err := qrcode.NewQRCodeReader().Decode(bitmap, pure)
	require.NoError(t, err, "%q at %d dpi on %s", payload, dpi, stock.Name)
	return result.GetText()
}
