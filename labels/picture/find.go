package picture

import (
	"image"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/multi/qrcode"
	"github.com/makiuchi-d/gozxing/oned"
)

// look is one step: a part of the picture, and how its light is judged.
type look struct {
	part   image.Rectangle
	global bool // one threshold for the whole part, which suits faint and even light
}

// leastPart is the side in pixels under which a picture is not divided further.
const leastPart = 300

// looks divides a picture: the whole, then overlapping parts a half and a third
// as wide, so that a small code among many fills a part and one on an edge is
// whole in the next.
func looks(whole image.Rectangle) []look {
	all := []look{{part: whole}, {part: whole, global: true}}
	for _, n := range []int{2, 3, 4} {
		w, h := whole.Dx()*2/(n+1), whole.Dy()*2/(n+1)
		if max(w, h) < leastPart {
			break
		}
		for row := range n {
			for column := range n {
				x, y := whole.Min.X+column*(whole.Dx()-w)/(n-1), whole.Min.Y+row*(whole.Dy()-h)/(n-1)
				all = append(all, look{part: image.Rect(x, y, x+w, y+h)})
			}
		}
	}
	return all
}

// finder gathers what codes say.
type finder struct {
	texts []string
	seen  map[string]bool
}

// look reads every code it finds in a part.
func (f *finder) look(img *image.Gray, l look) {
	defer func() { _ = recover() }() // the decoder must not take the program along, whatever a picture holds
	source := gozxing.NewLuminanceSourceFromImage(img.SubImage(l.part))
	binarizer := gozxing.NewHybridBinarizer(source)
	if l.global {
		binarizer = gozxing.NewGlobalHistgramBinarizer(source)
	}
	bitmap, err := gozxing.NewBinaryBitmap(binarizer)
	if err != nil {
		return
	}
	hints := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true}
	codes, _ := qrcode.NewQRCodeMultiReader().DecodeMultiple(bitmap, hints) // none is no error
	for _, c := range codes {
		f.add(c.GetText())
	}
	for _, reader := range []gozxing.Reader{datamatrix.NewDataMatrixReader(), oned.NewCode128Reader(), oned.NewEAN13Reader()} {
		if c, err := reader.Decode(bitmap, hints); err == nil {
			f.add(c.GetText())
		}
	}
}

func (f *finder) add(text string) {
	if text != "" && !f.seen[text] {
		f.seen[text] = true
		f.texts = append(f.texts, text)
	}
}
