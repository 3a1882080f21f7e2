package widgets

import (
	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// Sizes of a line in points at the ordinary text size.
const (
	offerHeight = 24.0
	valueWidth  = 86.0
	asideWidth  = 82.0
)

// lineParts says where the parts of a line begin, from the left.
type lineParts struct{ tick, text, aside, value, end float64 }

func partsOf(w float64, z sizes) lineParts {
	end := w - rowMargin
	value := end - valueWidth*z.scale
	return lineParts{tick: rowMargin, text: rowMargin + z.text + 10, aside: value - asideWidth*z.scale, value: value, end: end}
}

// textFrom is where the words of a line begin.
func (r lineParts) textFrom(line Line) float64 {
	if line.Tick == nil {
		return r.tick
	}
	return r.text
}

// textTo is where the words of a line have to end.
func (r lineParts) textTo(line Line) float64 {
	switch {
	case line.Aside != "":
		return r.aside - 6
	case line.Asks != "":
		return r.value - 8
	}
	return r.end
}

// lineSpans are the tops and heights of the lines over a width.
func lineSpans(lines []Line, w float64, z sizes) []span {
	out, y := make([]span, len(lines)), 0.0
	for i, line := range lines {
		h := tallRow * z.scale
		if wrong := len(wrongLines(line, w, z)); wrong > 0 {
			h += float64(wrong)*z.small*1.4 + 4
		}
		if line.Offer != "" {
			h += offerHeight * z.scale
		}
		out[i] = span{y, h}
		y += h
	}
	return out
}

func wrongLines(line Line, w float64, z sizes) []string {
	r := partsOf(w, z)
	return wrapped(line.Wrong, z.small, true, max(r.end-r.textFrom(line)-z.small-6, 60))
}

func (l *Lines) draw(w float64) scene.Scene {
	z := themeSizes()
	s := scene.Scene{W: w}
	if len(l.lines) == 0 {
		for i, text := range wrapped(l.empty, z.text, false, w-2*rowMargin) {
			s.Shapes = append(s.Shapes, scene.Words{X: rowMargin, Y: 10 + z.text*(1+1.4*float64(i)), Size: z.text, Text: text, Ink: scene.Faint})
		}
		if l.focused {
			s.Shapes = append(s.Shapes, scene.Bar{W: 4, H: tallRow * z.scale, Ink: scene.Outline})
		}
		return s
	}
	for i, at := range lineSpans(l.lines, w, z) {
		l.drawLine(&s, i, at, z)
		s.H = at.x + at.w
	}
	return s
}

func (l *Lines) drawLine(s *scene.Scene, i int, at span, z sizes) {
	line, r, h := l.lines[i], partsOf(s.W, z), tallRow*z.scale
	inHand := i == l.hand
	if inHand {
		s.Shapes = append(s.Shapes, scene.Bar{Y: at.x, W: s.W, H: at.w - 2, Round: 4, Ink: look.InHand})
	}
	if inHand && l.focused {
		s.Shapes = append(s.Shapes, scene.Bar{Y: at.x, W: 4, H: at.w - 2, Ink: scene.Outline})
	}
	drawTick(s, line, r, at.x+h/2, z)
	var words scene.Scene
	textCell(&words, Cell{Text: line.Text, Below: line.Below, Bold: true}, false, span{r.textFrom(line), r.textTo(line) - r.textFrom(line)}, h, z)
	s.Place(words, 0, at.x)
	if line.Aside != "" {
		s.Shapes = append(s.Shapes, scene.Words{X: r.aside, Y: at.x + h/2 + z.small*0.36, Size: z.small,
			Text: scene.Shortened(line.Aside, z.small, false, r.value-r.aside-6), Ink: scene.Faint})
	}
	l.drawValue(s, line, r, at.x, inHand && l.focused, z)
	l.drawWrong(s, line, r, at.x+h, z)
}

func drawTick(s *scene.Scene, line Line, r lineParts, mid float64, z sizes) {
	if line.Tick == nil {
		return
	}
	size := z.text + 2
	y := mid - size/2
	if !*line.Tick {
		s.Shapes = append(s.Shapes, scene.Frame{X: r.tick, Y: y, W: size, H: size, Round: 2, Width: 1.5, Ink: scene.Faint})
		return
	}
	s.Shapes = append(s.Shapes,
		scene.Bar{X: r.tick, Y: y, W: size, H: size, Round: 2, Ink: look.SideHere},
		scene.Line{X1: r.tick + size*0.2, Y1: mid, X2: r.tick + size*0.42, Y2: mid + size*0.24, Width: 2, Ink: look.OnSideHere},
		scene.Line{X1: r.tick + size*0.42, Y1: mid + size*0.24, X2: r.tick + size*0.8, Y2: mid - size*0.26, Width: 2, Ink: look.OnSideHere})
}

// drawValue draws the box with what was read, or in it what is to be read.
func (l *Lines) drawValue(s *scene.Scene, line Line, r lineParts, y float64, here bool, z sizes) {
	if line.Asks == "" {
		return
	}
	h := tallRow * z.scale
	edge, width := scene.Faint, 1.0
	if here {
		edge, width = scene.Outline, 2
	}
	s.Shapes = append(s.Shapes,
		scene.Bar{X: r.value, Y: y + 8, W: r.end - r.value, H: h - 18, Round: 4, Ink: scene.Panel},
		scene.Frame{X: r.value, Y: y + 8, W: r.end - r.value, H: h - 18, Round: 4, Width: width, Ink: edge})
	text, ink, base := line.Value, scene.Text, y+h/2-1+z.text*0.36
	if text == "" {
		text, ink = line.Asks, scene.Faint
	}
	shown := scene.Shortened(text, z.text, false, r.end-r.value-16)
	s.Shapes = append(s.Shapes, scene.Words{X: r.value + 8, Y: base, Size: z.text, Text: shown, Ink: ink})
	if here {
		x := r.value + 8
		if line.Value != "" {
			x += scene.Width(shown, z.text, false) + 1
		}
		s.Shapes = append(s.Shapes, scene.Bar{X: x, Y: y + 13, W: 1.5, H: h - 28, Ink: scene.Outline})
	}
}

// drawWrong writes why the thing can't be used, and what would mend it.
func (l *Lines) drawWrong(s *scene.Scene, line Line, r lineParts, y float64, z sizes) {
	left := r.textFrom(line)
	lines := wrongLines(line, s.W, z)
	if len(lines) > 0 {
		s.Place(scene.VerdictMark(scene.Short, z.small), left, y)
	}
	for _, text := range lines {
		s.Shapes = append(s.Shapes, scene.Words{X: left + z.small + 6, Y: y + z.small - 1, Size: z.small, Bold: true, Text: text, Ink: scene.Alarm})
		y += z.small * 1.4
	}
	if line.Offer == "" {
		return
	}
	text := "F2   " + line.Offer
	w := min(scene.Width(text, z.small, true)+20, r.end-left)
	s.Shapes = append(s.Shapes,
		scene.Bar{X: left, Y: y + 3, W: w, H: offerHeight*z.scale - 6, Round: 4, Ink: look.Key},
		scene.Words{X: left + 10, Y: y + offerHeight*z.scale/2 + z.small*0.36, Size: z.small, Bold: true,
			Text: scene.Shortened(text, z.small, true, w-20), Ink: scene.Text})
}
