package paper

import (
	"codeberg.org/go-pdf/fpdf"

	"lungwort/labels/scene"
)

// ink is a colour of print.
type ink struct{ r, g, b int }

// inks gives every ink of a scene its colour on white paper. All words keep
// 4.5:1, and the order of greys survives a black-and-white printer.
var inks = map[scene.Ink]ink{
	scene.Ground:  {255, 255, 255},
	scene.Panel:   {240, 240, 240},
	scene.Rule:    {200, 200, 200},
	scene.Text:    {0, 0, 0},
	scene.Faint:   {90, 90, 90},
	scene.Gas:     {25, 95, 100},
	scene.Loan:    {120, 165, 168},
	scene.Outline: {25, 95, 100},
	scene.Alarm:   {150, 30, 10},
	scene.Caution: {130, 80, 0},
	scene.Fine:    {45, 95, 25},
	scene.Unsure:  {70, 70, 70},
	scene.Hatch:   {60, 60, 60},
	scene.Sea:     {225, 235, 240},
	scene.Land:    {245, 243, 235},
	scene.Coast:   {130, 145, 150},
	scene.Road:    {185, 172, 150},
}

// faded returns the colour mixed with the white of the paper; share 1 is white.
func (i ink) faded(share float64) ink {
	mix := func(v int) int { return v + int(float64(255-v)*share+0.5) }
	return ink{mix(i.r), mix(i.g), mix(i.b)}
}

// fadeSteps is how many even bars a fading bar is printed as; more can't be
// told apart at a ribbon's size.
const fadeSteps = 24

// picture paints a scene with its top left corner at x, y.
func (d *document) picture(x, y MM, s scene.Scene) {
	for _, shape := range s.Shapes {
		p := painter{document: d, x: x, y: y}
		p.paint(shape)
	}
	d.pdf.SetDashPattern(nil, 0)
}

// painter paints shapes whose scene lies at x, y.
type painter struct {
	*document
	x, y MM
}

// mm turns a length in points into millimetres.
func mm(points float64) float64 { return points / pointsPerMM }

func (p painter) at(x, y float64) (float64, float64) {
	return float64(p.x) + mm(x), float64(p.y) + mm(y)
}

func (p painter) paint(shape scene.Shape) {
	switch s := shape.(type) {
	case scene.Bar:
		p.bar(s)
	case scene.Frame:
		p.frame(s)
	case scene.Line:
		x1, y1 := p.at(s.X1, s.Y1)
		x2, y2 := p.at(s.X2, s.Y2)
		p.stroke(s.Ink, s.Width, s.Dash)
		p.pdf.Line(x1, y1, x2, y2)
	case scene.Polygon:
		p.polygon(s)
	case scene.Ring:
		p.ring(s)
	case scene.Words:
		p.line(s)
	}
}

func (p painter) bar(b scene.Bar) {
	for _, step := range b.Steps(fadeSteps) {
		p.fill(step.Ink, step.Fade)
		x, y := p.at(step.X, step.Y)
		if step.Round > 0 {
			p.pdf.RoundedRect(x, y, mm(step.W), mm(step.H), mm(step.Round), "1234", "F")
			continue
		}
		p.pdf.Rect(x, y, mm(step.W), mm(step.H), "F")
	}
}

func (p painter) frame(f scene.Frame) {
	x, y := p.at(f.X, f.Y)
	p.stroke(f.Ink, f.Width, f.Dash)
	if f.Round > 0 {
		p.pdf.RoundedRect(x, y, mm(f.W), mm(f.H), mm(f.Round), "1234", "D")
		return
	}
	p.pdf.Rect(x, y, mm(f.W), mm(f.H), "D")
}

func (p painter) polygon(s scene.Polygon) {
	points := make([]fpdf.PointType, len(s.Points))
	for i, q := range s.Points {
		points[i].X, points[i].Y = p.at(q.X, q.Y)
	}
	p.fill(s.Ink, s.Fade)
	p.pdf.Polygon(points, "F")
}

func (p painter) ring(r scene.Ring) {
	x, y := p.at(r.X, r.Y)
	if r.Fill != "" {
		p.fill(r.Fill, 0)
		p.pdf.Circle(x, y, mm(r.R), "F")
	}
	p.stroke(r.Ink, r.Width, 0)
	p.pdf.Circle(x, y, mm(r.R), "D")
}

func (p painter) line(w scene.Words) {
	f := face{bold: w.Bold, size: w.Size}
	text := p.clean(w.Text)
	x, y := p.at(w.X, w.Y)
	switch w.Align {
	case scene.Middle:
		x -= float64(f.width(text)) / 2
	case scene.Right:
		x -= float64(f.width(text))
	}
	c := inks[w.Ink]
	p.baseline(MM(x), MM(y), f, c.r, c.g, c.b, text)
}

func (p painter) fill(i scene.Ink, fade float64) {
	c := inks[i].faded(fade)
	p.pdf.SetFillColor(c.r, c.g, c.b)
}

func (p painter) stroke(i scene.Ink, width, dash float64) {
	c := inks[i]
	p.pdf.SetDrawColor(c.r, c.g, c.b)
	p.pdf.SetLineWidth(mm(width))
	if dash > 0 {
		p.pdf.SetDashPattern([]float64{mm(dash), mm(dash)}, 0)
		return
	}
	p.pdf.SetDashPattern(nil, 0)
}
