package paper

import (
	"fmt"

	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
)

// Pages is how many pages the batch fills.
func (s LabelSheet) Pages() int {
	if s.check() != nil {
		return 0
	}
	return (s.First - 1 + len(s.Labels)*s.Copies + s.Stock.PerSheet() - 1) / s.Stock.PerSheet()
}

// Preview returns a page of the batch as it will print, counted from 0, as
// large as it fits w by h points. Labels that are used up are crossed out.
func (s LabelSheet) Preview(page int, w, h float64) (scene.Scene, error) {
	if err := s.check(); err != nil {
		return scene.Scene{}, err
	}
	if page < 0 || page >= s.Pages() {
		return scene.Scene{}, refusal.New(refusal.NotFound, fmt.Sprintf("There is no page %d of %d.", page+1, s.Pages()), "")
	}
	scale := min(w/float64(s.Stock.Page.Width), h/float64(s.Stock.Page.Height))
	p := preview{scale: scale}
	p.W, p.H = float64(s.Stock.Page.Width)*scale, float64(s.Stock.Page.Height)*scale
	p.Shapes = append(p.Shapes, scene.Bar{W: p.W, H: p.H, Ink: scene.Panel}, scene.Frame{X: 0.5, Y: 0.5, W: p.W - 1, H: p.H - 1, Width: 1, Ink: scene.Rule})
	for place := range s.Stock.PerSheet() {
		x, y := s.Stock.corner(place)
		n := page*s.Stock.PerSheet() + place - (s.First - 1)
		p.edge(s.Stock, x, y, n < 0)
		if n < 0 || n >= len(s.Labels)*s.Copies {
			continue
		}
		laid, err := s.Stock.lay(s.Labels[n/s.Copies], s.DPI, shown)
		if err != nil {
			return scene.Scene{}, err
		}
		p.label(laid, x, y)
	}
	return p.Scene, nil
}

// PreviewOne returns one label by itself, as large as it fits w by h points.
func (s LabelSheet) PreviewOne(l Label, w, h float64) (scene.Scene, error) {
	one := s
	one.Stock = Roll(s.Stock.Name, s.Stock.Width, s.Stock.Height)
	one.First, one.Copies, one.Labels = 1, 1, []Label{l}
	return one.Preview(0, w, h)
}

// shown is a text as it will be printed.
func shown(text string) string {
	text, _ = clean(text)
	return text
}

// preview is a page while it is drawn, in points; scale is points a
// millimetre.
type preview struct {
	scene.Scene

	scale float64
}

func (p *preview) points(v MM) float64 { return float64(v) * p.scale }

// edge shows where a label ends.
func (p *preview) edge(s Stock, x, y MM, used bool) {
	left, top, w, h := p.points(x), p.points(y), p.points(s.Width), p.points(s.Height)
	if s.PerSheet() > 1 {
		p.Shapes = append(p.Shapes, scene.Frame{X: left, Y: top, W: w, H: h, Width: 1, Ink: scene.Rule})
	}
	if used {
		p.Shapes = append(p.Shapes, scene.Line{X1: left, Y1: top, X2: left + w, Y2: top + h, Width: 1, Ink: scene.Rule})
	}
}

// onScreen makes words a little smaller than printed: a screen sets small
// letters on whole pixels, which widens them.
const onScreen = 0.95

func (p *preview) label(laid laidLabel, x, y MM) {
	p.code(laid.code, p.points(x+laid.x), p.points(y+laid.y))
	for _, line := range laid.lines {
		p.Shapes = append(p.Shapes, scene.Words{
			X: p.points(x + line.x), Y: p.points(y + line.y + line.face.ascent()),
			Size: line.face.size / pointsPerMM * p.scale * onScreen, Bold: line.face.bold, Text: line.text, Ink: scene.Text,
		})
	}
}

// code draws a QR code as one polygon: from its corner to each horizontal run
// of dark modules, round it, and back the same way. The ways there and back
// cancel, and a page of codes stays a few dozen shapes.
func (p *preview) code(c code, x, y float64) {
	module := p.points(MM(float64(c.dots)) * c.dpi.dot())
	x, y = x+quietZone*module, y+quietZone*module
	corner := scene.Point{X: x, Y: y}
	outline := []scene.Point{corner}
	for row, modules := range c.modules {
		for from := 0; from < len(modules); from++ {
			to := from
			for to < len(modules) && modules[to] {
				to++
			}
			if to == from {
				continue
			}
			left, right := x+float64(from)*module, x+float64(to)*module
			top, bottom := y+float64(row)*module, y+float64(row+1)*module
			outline = append(outline, scene.Point{X: left, Y: top}, scene.Point{X: right, Y: top},
				scene.Point{X: right, Y: bottom}, scene.Point{X: left, Y: bottom}, scene.Point{X: left, Y: top}, corner)
			from = to
		}
	}
	p.Shapes = append(p.Shapes, scene.Polygon{Points: outline, Ink: scene.Text})
}
