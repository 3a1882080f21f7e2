package widgets

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"golang.org/x/image/vector"

	"lungwort/labels/scene"
)

func point(x, y float64) fyne.Position { return fyne.NewPos(float32(x), float32(y)) }
func extent(w, h float64) fyne.Size    { return fyne.NewSize(float32(w), float32(h)) }

// faded is c with a share of its opacity taken away.
func faded(c color.Color, fade float64) color.Color {
	if fade <= 0 {
		return c
	}
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	n.A = uint8(math.Round(float64(n.A) * (1 - math.Min(fade, 1))))
	return n
}

func rectangle(old fyne.CanvasObject, x, y, w, h, round float64, c color.Color) fyne.CanvasObject {
	r := reused[canvas.Rectangle](old)
	r.FillColor, r.StrokeColor, r.StrokeWidth, r.CornerRadius = c, nil, 0, float32(round)
	return placed(r, x, y, w, h)
}

func fading(old fyne.CanvasObject, b scene.Bar, c color.Color) fyne.CanvasObject {
	g := reused[canvas.LinearGradient](old)
	g.StartColor, g.EndColor, g.Angle = faded(c, b.Fade), faded(c, b.FadeTo), 270
	x, w := whole(b.X, b.W)
	return placed(g, x, b.Y, w, b.H)
}

// whole moves both ends of a stretch to whole points, so that bars that touch
// do not overlap by a pixel. What is thinner than two points is left alone.
func whole(x, w float64) (float64, float64) {
	if w < 2 {
		return x, w
	}
	left := math.Round(x)
	return left, math.Round(x+w) - left
}

func frame(old fyne.CanvasObject, f scene.Frame, c color.Color) fyne.CanvasObject {
	r := reused[canvas.Rectangle](old)
	r.FillColor, r.StrokeColor, r.StrokeWidth, r.CornerRadius = color.Transparent, c, float32(f.Width), float32(f.Round)
	return placed(r, f.X, f.Y, f.W, f.H)
}

// line draws upright and level lines as bars, which fall on whole pixels.
func line(old fyne.CanvasObject, l scene.Line, c color.Color) fyne.CanvasObject {
	x, y := math.Min(l.X1, l.X2), math.Min(l.Y1, l.Y2)
	w, h := math.Abs(l.X2-l.X1), math.Abs(l.Y2-l.Y1)
	if w == 0 {
		return rectangle(old, x-l.Width/2, y, l.Width, h, 0, c)
	}
	if h == 0 {
		return rectangle(old, x, y-l.Width/2, w, l.Width, 0, c)
	}
	s := reused[canvas.Line](old)
	s.StrokeColor, s.StrokeWidth = c, float32(l.Width)
	s.Position1, s.Position2 = point(l.X1, l.Y1), point(l.X2, l.Y2)
	s.Refresh()
	return s
}

func ring(old fyne.CanvasObject, r scene.Ring, edge, fill color.Color) fyne.CanvasObject {
	o := reused[canvas.Circle](old)
	o.FillColor, o.StrokeColor, o.StrokeWidth = fill, edge, float32(r.Width)
	return placed(o, r.X-r.R, r.Y-r.R, 2*r.R, 2*r.R)
}

func words(old fyne.CanvasObject, w scene.Words, c color.Color) fyne.CanvasObject {
	t := reused[canvas.Text](old)
	t.Text, t.TextSize, t.Color, t.TextStyle = w.Text, float32(w.Size), c, fyne.TextStyle{Bold: w.Bold}
	size, baseline := fyne.CurrentApp().Driver().RenderedTextSize(t.Text, t.TextSize, t.TextStyle, nil)
	x := w.X
	switch w.Align {
	case scene.Middle:
		x -= float64(size.Width) / 2
	case scene.Right:
		x -= float64(size.Width)
	}
	return placed(t, x, w.Y-float64(baseline), float64(size.Width), float64(size.Height))
}

// polygon is a small image of its bounding box: the canvas has only regular
// polygons. The image is made at the screen's own resolution.
func polygon(p scene.Polygon, c color.Color) fyne.CanvasObject {
	left, top, right, bottom := bounds(p.Points)
	w, h := right-left, bottom-top
	r := canvas.NewRaster(func(pw, ph int) image.Image {
		dst := image.NewRGBA(image.Rect(0, 0, pw, ph))
		if w <= 0 || h <= 0 || pw <= 0 || ph <= 0 {
			return dst
		}
		pen := vector.NewRasterizer(pw, ph)
		for i, q := range p.Points {
			x, y := float32((q.X-left)/w*float64(pw)), float32((q.Y-top)/h*float64(ph))
			if i == 0 {
				pen.MoveTo(x, y)
				continue
			}
			pen.LineTo(x, y)
		}
		pen.ClosePath()
		pen.Draw(dst, dst.Bounds(), image.NewUniform(c), image.Point{})
		return dst
	})
	r.Move(point(left, top))
	r.Resize(extent(w, h))
	return r
}

// bounds is the smallest box of whole points round a polygon.
func bounds(points []scene.Point) (left, top, right, bottom float64) {
	if len(points) == 0 {
		return 0, 0, 0, 0
	}
	left, top = math.Inf(1), math.Inf(1)
	right, bottom = math.Inf(-1), math.Inf(-1)
	for _, p := range points {
		left, right = math.Min(left, p.X), math.Max(right, p.X)
		top, bottom = math.Min(top, p.Y), math.Max(bottom, p.Y)
	}
	return math.Floor(left), math.Floor(top), math.Ceil(right), math.Ceil(bottom)
}

func placed(o fyne.CanvasObject, x, y, w, h float64) fyne.CanvasObject {
	o.Move(point(x, y))
	o.Resize(extent(w, h))
	o.Refresh()
	return o
}
