package scene_test

import (
	"flag"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"lungwort/labels/scene"
	"lungwort/labels/typeface"
)

var out = flag.String("out", "", "folder to write the pictures to, for looking at them")

// look paints the scene, checks that something was painted, and writes it as
// name.png when a folder was given.
func look(t *testing.T, name string, s scene.Scene) {
	t.Helper()
	p := &painter{scale: 2}
	p.img = image.NewRGBA(image.Rect(0, 0, int(math.Ceil(s.W*p.scale)), int(math.Ceil(s.H*p.scale))))
	draw.Draw(p.img, p.img.Bounds(), image.NewUniform(palette[scene.Ground]), image.Point{}, draw.Src)
	blank := append([]byte(nil), p.img.Pix...)
	for _, sh := range s.Shapes {
		p.paint(t, sh)
	}
	require.NotEqual(t, blank, p.img.Pix, "%s: nothing was painted", name)
	if *out == "" {
		return
	}
	f, err := os.Create(filepath.Join(*out, name+".png"))
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, p.img))
	require.NoError(t, f.Close())
}

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 255}
}

var palette = map[scene.Ink]color.NRGBA{
	scene.Ground: rgb(0xfbf9f4), scene.Panel: rgb(0xeae6d8), scene.Rule: rgb(0xd9d5c8), scene.Text: rgb(0x17303a),
	scene.Faint: rgb(0x5d6a6e), scene.Gas: rgb(0x2b7a80), scene.Loan: rgb(0x7aa9ad), scene.Outline: rgb(0x2b7a80),
	scene.Alarm: rgb(0xb23a1a), scene.Caution: rgb(0x9a6500), scene.Fine: rgb(0x4b7a2b), scene.Unsure: rgb(0x5d6a6e),
	scene.Hatch: rgb(0x17303a), scene.Sea: rgb(0xe3edf0), scene.Land: rgb(0xefe9d6),
	scene.Coast: rgb(0x9fb2ac), scene.Road: rgb(0xc2b18b),
}

// painter is the plainest painter there is: filled outlines and glyphs.
type painter struct {
	img   *image.RGBA
	scale float64
}

func (p *painter) paint(t *testing.T, sh scene.Shape) {
	t.Helper()
	switch s := sh.(type) {
	case scene.Bar:
		for _, b := range s.Steps(48) {
			left, right := p.edge(b.X), p.edge(b.X+b.W) // on whole pixels, or the steps show seams
			p.fill(b.Ink, b.Fade, corners(left, b.Y, right-left, b.H))
		}
	case scene.Frame:
		for _, l := range s.Sides() {
			p.line(l)
		}
	case scene.Line:
		p.line(s)
	case scene.Polygon:
		p.fill(s.Ink, s.Fade, s.Points)
	case scene.Ring:
		p.fill(s.Ink, 0, circle(s.X, s.Y, s.R+s.Width/2))
		inside := s.Fill
		if inside == "" {
			inside = scene.Ground
		}
		p.fill(inside, 0, circle(s.X, s.Y, s.R-s.Width/2))
	case scene.Words:
		p.words(t, s)
	default:
		t.Fatalf("no painter for %T", sh)
	}
}

func (p *painter) edge(x float64) float64 { return math.Round(x*p.scale) / p.scale }

func corners(x, y, w, h float64) []scene.Point {
	return []scene.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

func circle(x, y, r float64) []scene.Point {
	points := make([]scene.Point, 48)
	for i := range points {
		a := 2 * math.Pi * float64(i) / 48
		points[i] = scene.Point{X: x + r*math.Cos(a), Y: y + r*math.Sin(a)}
	}
	return points
}

func (p *painter) line(l scene.Line) {
	for _, d := range l.Dashes() {
		length := math.Hypot(d.X2-d.X1, d.Y2-d.Y1)
		if length == 0 {
			continue
		}
		nx, ny := (d.Y2-d.Y1)/length*d.Width/2, -(d.X2-d.X1)/length*d.Width/2
		p.fill(d.Ink, 0, []scene.Point{{X: d.X1 + nx, Y: d.Y1 + ny}, {X: d.X2 + nx, Y: d.Y2 + ny}, {X: d.X2 - nx, Y: d.Y2 - ny}, {X: d.X1 - nx, Y: d.Y1 - ny}})
	}
}

func (p *painter) fill(ink scene.Ink, fade float64, points []scene.Point) {
	box := boundsOf(points, p.scale).Intersect(p.img.Bounds())
	if box.Empty() {
		return
	}
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	for i, q := range points {
		x, y := float32(q.X*p.scale)-float32(box.Min.X), float32(q.Y*p.scale)-float32(box.Min.Y)
		if i == 0 {
			r.MoveTo(x, y)
			continue
		}
		r.LineTo(x, y)
	}
	r.ClosePath()
	c := palette[ink]
	c.A = uint8(math.Round(255 * (1 - fade)))
	r.Draw(p.img, box, image.NewUniform(c), image.Point{})
}

func boundsOf(points []scene.Point, scale float64) image.Rectangle {
	var box image.Rectangle
	for _, q := range points {
		x, y := int(math.Floor(q.X*scale)), int(math.Floor(q.Y*scale))
		box = box.Union(image.Rect(x, y, x+2, y+2))
	}
	return box
}

func (p *painter) words(t *testing.T, w scene.Words) {
	t.Helper()
	face := faceOf(t, w.Bold, w.Size*p.scale)
	d := font.Drawer{Dst: p.img, Src: image.NewUniform(palette[w.Ink]), Face: face}
	x, wide := w.X*p.scale, float64(d.MeasureString(w.Text))/64
	switch w.Align {
	case scene.Middle:
		x -= wide / 2
	case scene.Right:
		x -= wide
	case scene.Left:
	}
	d.Dot = fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6(w.Y * p.scale * 64)}
	d.DrawString(w.Text)
}

func faceOf(t *testing.T, bold bool, size float64) font.Face {
	t.Helper()
	f := fonts[bold]
	if f == nil {
		file := typeface.Regular
		if bold {
			file = typeface.Bold
		}
		var err error
		f, err = opentype.Parse(file)
		require.NoError(t, err)
		fonts[bold] = f
	}
	face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	require.NoError(t, err)
	return face
}

// fonts holds each font once it is parsed: by whether it is bold.
var fonts = map[bool]*opentype.Font{}
