package picture_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"lungwort/labels/paper"
	"lungwort/labels/picture"
	"lungwort/labels/tag"
)

// page renders n of our labels as an office scanner sees the sheet, and returns
// what their codes say.
func page(t *testing.T, stock paper.Stock, n int) (image.Image, []string) {
	t.Helper()
	sheet := paper.LabelSheet{Stock: stock, DPI: paper.DPI300, First: 1, Copies: 1, Printed: time.Unix(0, 0)}
	var says []string
	for i := range n {
		own := tag.Mint(uint32(417 + i))
		sheet.Labels = append(sheet.Labels, paper.Label{Tag: own.Printed(), Payload: own.Payload(), Kind: "concentrator", Owner: "Quillet Home Oxygen", ReturnPhone: "555-0142"})
		says = append(says, own.Payload())
	}
	var pdf bytes.Buffer
	_, err := sheet.Print(&pdf)
	require.NoError(t, err)
	cmd := exec.Command("pdftoppm", "-r", "150", "-png", "-gray", "-singlefile", "-")
	cmd.Stdin = &pdf
	out, err := cmd.Output()
	require.NoError(t, err, "the test needs pdftoppm: install poppler-utils")
	img, err := png.Decode(bytes.NewReader(out))
	require.NoError(t, err)
	return img, says
}

// turned returns a picture turned by degrees and sheared, on a grey table.
func turned(img image.Image, degrees, shear float64) image.Image {
	b := img.Bounds()
	side := int(math.Hypot(float64(b.Dx()), float64(b.Dy()))*(1+math.Abs(shear))) + 20
	to := image.NewGray(image.Rect(0, 0, side, side))
	draw.Draw(to, to.Bounds(), image.NewUniform(color.Gray{Y: 150}), image.Point{}, draw.Src)
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	cx, cy, mid := float64(b.Dx())/2, float64(b.Dy())/2, float64(side)/2
	m := f64.Aff3{cos, -sin + shear, 0, sin, cos, 0}
	m[2], m[5] = mid-m[0]*cx-m[1]*cy, mid-m[3]*cx-m[4]*cy
	draw.BiLinear.Transform(to, m, img, b, draw.Over, nil)
	return to
}

// spoiled blurs a picture by a number of pixels, dims it to a share of its light,
// and adds the noise of a dark room.
func spoiled(img image.Image, blur int, light float64, noise int) image.Image {
	b, random := img.Bounds(), rand.New(rand.NewPCG(1, 2))
	grey := image.NewGray(b)
	draw.Draw(grey, b, img, b.Min, draw.Src)
	to := image.NewGray(b)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			sum, n := 0, 0
			for dy := -blur; dy <= blur; dy++ {
				for dx := -blur; dx <= blur; dx++ {
					if p := image.Pt(x+dx, y+dy); p.In(b) {
						sum += int(grey.GrayAt(p.X, p.Y).Y)
						n++
					}
				}
			}
			v := float64(sum)/float64(n)*light + float64(random.IntN(2*noise+1)-noise)
			to.SetGray(x, y, color.Gray{Y: uint8(max(0, min(255, v)))})
		}
	}
	return to
}

func read(t *testing.T, img image.Image) []string {
	t.Helper()
	var file bytes.Buffer
	require.NoError(t, jpeg.Encode(&file, img, &jpeg.Options{Quality: 70}))
	texts, err := picture.Read(context.Background(), bytes.NewReader(file.Bytes()), nil)
	require.NoError(t, err)
	return texts
}

func TestOneLabelAsATelephoneSeesIt(t *testing.T) {
	roll, says := page(t, paper.Stocks[5], 1)
	for _, c := range []struct {
		name string
		img  image.Image
	}{
		{"straight", roll},
		{"on its side", turned(roll, 90, 0)},
		{"upside down", turned(roll, 180, 0)},
		{"turned", turned(roll, 31, 0)},
		{"askew", turned(roll, -12, 0.25)},
		{"blurred", spoiled(turned(roll, 5, 0), 2, 1, 0)},
		{"low light", spoiled(turned(roll, 5, 0), 0, 0.25, 6)},
		{"blurred, askew, in low light", spoiled(turned(roll, 8, 0.1), 1, 0.35, 4)},
	} {
		assert.Equal(t, says, read(t, c.img), c.name)
	}
}

func TestAPageWithTwelveCodes(t *testing.T) {
	sheet, says := page(t, paper.Stocks[2], 12)
	assert.ElementsMatch(t, says, read(t, sheet), "straight")
	assert.ElementsMatch(t, says, read(t, spoiled(turned(sheet, 4, 0), 0, 0.6, 3)), "laid on the scanner askew")
}

func TestWhatIsNoPictureOfALabel(t *testing.T) {
	assert.Empty(t, read(t, image.NewGray(image.Rect(0, 0, 400, 300))), "a black picture holds no code")
	head := append([]byte("IHDR"), 0, 1, 0, 0, 0, 1, 0, 0, 8, 0, 0, 0, 0)
	huge := binary.BigEndian.AppendUint32(append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\r"), head...), crc32.ChecksumIEEE(head))
	_, err := picture.Read(context.Background(), bytes.NewReader(huge), nil)
	assert.ErrorContains(t, err, "65536 × 65536 pixels")
	for name, data := range map[string][]byte{"nothing": nil, "text": []byte("LW-00417-Y"), "half a picture": []byte("\x89PNG\r\n\x1a\n")} {
		_, err := picture.Read(context.Background(), bytes.NewReader(data), nil)
		assert.Error(t, err, name)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var file bytes.Buffer
	require.NoError(t, png.Encode(&file, image.NewGray(image.Rect(0, 0, 40, 30))))
	_, err = picture.Read(ctx, bytes.NewReader(file.Bytes()), nil)
	assert.ErrorIs(t, err, context.Canceled)
}

func TestProgressComesToItsEnd(t *testing.T) {
	roll, _ := page(t, paper.Stocks[5], 1)
	var file bytes.Buffer
	require.NoError(t, png.Encode(&file, roll))
	var told []string
	_, err := picture.Read(context.Background(), bytes.NewReader(file.Bytes()), func(done, all int) { told = append(told, fmt.Sprint(done, " of ", all)) })
	require.NoError(t, err)
	require.NotEmpty(t, told)
	assert.Equal(t, fmt.Sprint(len(told), " of ", len(told)), told[len(told)-1])
}

// Whatever the file holds, the reader says what it is or that it is nothing; it
// never takes the program along.
func FuzzRead(f *testing.F) {
	var file bytes.Buffer
	if err := png.Encode(&file, image.NewGray(image.Rect(0, 0, 20, 20))); err != nil {
		f.Fatal(err)
	}
	f.Add(file.Bytes())
	f.Add([]byte("GIF89a"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, err := picture.Read(context.Background(), bytes.NewReader(data), nil); err != nil && err.Error() == "" {
			t.Error("an error without a word")
		}
	})
}
