// Package picture reads the codes in a picture: a photo of a label, a scan of a
// returned sheet with many codes on it. It finds QR codes of any number, and
// the makers' Data Matrix, Code 128 and EAN codes; turned, askew, dim or a
// little blurred. What a code means is for package tag to say.
package picture

import (
	"context"
	"fmt"
	"image"
	"image/draw"
	_ "image/gif"  // pictures in this form
	_ "image/jpeg" // and this
	_ "image/png"  // and this
	"io"

	_ "golang.org/x/image/bmp"  // and this
	_ "golang.org/x/image/tiff" // and this
	_ "golang.org/x/image/webp" // and this

	xdraw "golang.org/x/image/draw"

	"lungwort/inventory/refusal"
)

// The largest pictures that are read: more than any telephone or office scanner
// makes, and few enough to hold in memory.
const (
	mostBytes  = 64 << 20
	mostPixels = 64_000_000
)

// workSide is how many pixels the longer side is worked on: a code a tenth as
// wide as the page then has ten pixels a module.
const workSide = 2600

// Read returns what the codes in a picture say, in the order in which they were
// found, each once. It tells progress, if that is not nil, after each step, and
// stops when ctx ends. No code is no error.
func Read(ctx context.Context, r io.ReadSeeker, progress func(done, all int)) ([]string, error) {
	img, err := decode(r)
	if err != nil {
		return nil, err
	}
	f := finder{seen: map[string]bool{}}
	steps := looks(img.Bounds())
	for i, look := range steps {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		f.look(img, look)
		if progress != nil {
			progress(i+1, len(steps))
		}
	}
	return f.texts, nil
}

// decode reads the picture as greys, made smaller where it is very large. Its
// size is looked at before its pixels are.
func decode(r io.ReadSeeker) (*image.Gray, error) {
	size, err := r.Seek(0, io.SeekEnd)
	if err != nil {
		return nil, fmt.Errorf("read picture: %w", err)
	}
	if size > mostBytes {
		return nil, refusal.New(refusal.Invalid, fmt.Sprintf("The picture has %d MB.", size>>20), "Take it in a lower resolution.")
	}
	unreadable := func(cause error) error {
		return refusal.New(refusal.Invalid, "This is no picture the program can read.", "Choose a JPEG, PNG, TIFF, WebP, BMP or GIF file.").Because(cause)
	}
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return nil, fmt.Errorf("read picture: %w", err)
	}
	config, _, err := image.DecodeConfig(r)
	if err != nil {
		return nil, unreadable(err)
	}
	if config.Width <= 0 || config.Height <= 0 || config.Width > mostPixels/config.Height {
		return nil, refusal.New(refusal.Invalid, fmt.Sprintf("The picture has %d × %d pixels.", config.Width, config.Height), "Take it in a lower resolution.")
	}
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return nil, fmt.Errorf("read picture: %w", err)
	}
	img, _, err := image.Decode(r)
	if err != nil {
		return nil, unreadable(err)
	}
	return grey(img), nil
}

// grey returns the picture in greys on white, its longer side at most workSide.
func grey(img image.Image) *image.Gray {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if long := max(w, h); long > workSide {
		w, h = max(w*workSide/long, 1), max(h*workSide/long, 1)
	}
	to := image.NewGray(image.Rect(0, 0, w, h))
	draw.Draw(to, to.Bounds(), image.White, image.Point{}, draw.Src)
	if w == b.Dx() && h == b.Dy() {
		draw.Draw(to, to.Bounds(), img, b.Min, draw.Over)
		return to
	}
	xdraw.ApproxBiLinear.Scale(to, to.Bounds(), img, b, xdraw.Over, nil)
	return to
}
