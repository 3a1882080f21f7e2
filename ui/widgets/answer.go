package widgets

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// AnswerData is one answer as the card shows it, in words ready to read out.
type AnswerData struct {
	// Verdict is one of the five words; Title says it in full.
	Verdict, Title string
	// Low is the safe end of the range, which is what to plan on: "21 min".
	// Range is the rest: "21 to 43, textbook rule, E at 500 psi and 4 L/min".
	Low, Range string
	// Help is when help can come: "38 min". HelpNote says which and from where.
	Help, HelpNote string
	// Do are the steps in their order; the first is emphasised.
	Do []string
	// Assumed are what the answer takes for granted, Facts what it rests on,
	// each with its age.
	Assumed, Facts []string
	// Foot is the caution at the foot of the card.
	Foot string
}

// AnswerCard shows the answer to an urgent question: verdict, range, steps,
// assumptions and facts, always in this order.
type AnswerCard struct {
	widget.BaseWidget

	data    AnswerData
	picture *Picture
}

var _ fyne.Widget = (*AnswerCard)(nil)

// NewAnswerCard returns a card with an answer.
func NewAnswerCard(data AnswerData) *AnswerCard {
	c := &AnswerCard{data: data}
	c.ExtendBaseWidget(c)
	c.picture = NewPicture(fyne.Size{}, func(w, _ float64) scene.Scene { return answerScene(c.data, w, themeSizes()) })
	return c
}

// SetData shows another answer.
func (c *AnswerCard) SetData(data AnswerData) {
	c.data = data
	c.Refresh()
}

// Data is the answer shown.
func (c *AnswerCard) Data() AnswerData { return c.data }

// answerWidth is the width a card has before it is laid out, and the least it
// takes, in points.
const answerWidth = 380

// MinSize is as high as the answer needs at the card's present width.
func (c *AnswerCard) MinSize() fyne.Size {
	width := max(float64(c.Size().Width), answerWidth)
	return fyne.NewSize(answerWidth, float32(answerScene(c.data, width, themeSizes()).H))
}

// CreateRenderer is called by the toolkit.
func (c *AnswerCard) CreateRenderer() fyne.WidgetRenderer {
	c.ExtendBaseWidget(c)
	return widget.NewSimpleRenderer(c.picture)
}

// Refresh redraws the card.
func (c *AnswerCard) Refresh() {
	c.picture.Refresh()
	c.BaseWidget.Refresh()
}

// answer is a card while it is drawn, from the top down.
type answer struct {
	scene.Scene
	sizes
	y     float64
	left  float64 // where values start
	right float64 // where they end
}

const cardMargin = 16.0

func answerScene(data AnswerData, w float64, z sizes) scene.Scene {
	ink := scene.VerdictInk(data.Verdict)
	a := &answer{Scene: scene.Scene{W: w}, sizes: z}
	a.left = cardMargin + scene.Width("Assumed", z.text, false) + 16*z.scale
	a.right = w - cardMargin
	a.banner(data, ink)
	a.figure("Plan on", data.Low, data.Range)
	a.figure("Help", data.Help, data.HelpNote)
	a.steps(data.Do)
	a.gap(8)
	a.list("Assumed", data.Assumed)
	a.list("Facts", data.Facts)
	a.foot(data.Foot)
	a.H = a.y + cardMargin - 4
	frame := []scene.Shape{
		scene.Bar{W: w, H: a.H, Round: 5, Ink: scene.Panel},
	}
	edge := scene.Frame{X: 0.5, Y: 0.5, W: w - 1, H: a.H - 1, Round: 5, Width: 1, Ink: ink}
	a.Shapes = append(append(frame, a.Shapes...), edge)
	return a.Scene
}

// banner is the verdict's ground with its mark and the title.
func (a *answer) banner(data AnswerData, ink scene.Ink) {
	mark, size := a.sub+5, a.sub+1
	lines := wrapped(data.Title, size, true, a.W-2*cardMargin-mark-10)
	lead := size * 1.35
	h := float64(len(lines))*lead + 22
	a.Shapes = append(a.Shapes,
		scene.Bar{W: a.W, H: h, Round: 5, Ink: ink},
		scene.Bar{Y: h - 6, W: a.W, H: 6, Ink: ink})
	a.mark(data.Verdict, ink, 11+(lead-mark)/2-1, mark)
	for i, text := range lines {
		a.Shapes = append(a.Shapes, scene.Words{
			X: cardMargin + mark + 10, Y: 11 + lead*float64(i) + size, Size: size, Bold: true, Text: text, Ink: look.OnVerdict,
		})
	}
	a.y = h + 14
}

// mark draws the verdict's shape, its inks turned round for the coloured ground.
func (a *answer) mark(verdict string, ground scene.Ink, y, size float64) {
	turned := map[scene.Ink]scene.Ink{ground: look.OnVerdict, scene.Ground: ground}
	var marked scene.Scene
	for _, shape := range scene.VerdictMark(verdict, size).Shapes {
		marked.Shapes = append(marked.Shapes, reInked(shape, turned))
	}
	a.Place(marked, cardMargin, y)
}

// reInked is a shape with its ink exchanged.
func reInked(shape scene.Shape, inks map[scene.Ink]scene.Ink) scene.Shape {
	switch s := shape.(type) {
	case scene.Bar:
		s.Ink = inks[s.Ink]
		return s
	case scene.Frame:
		s.Ink = inks[s.Ink]
		return s
	case scene.Line:
		s.Ink = inks[s.Ink]
		return s
	case scene.Polygon:
		s.Ink = inks[s.Ink]
		return s
	case scene.Ring:
		s.Ink = inks[s.Ink]
		return s
	}
	return shape
}

// figure is a large value with its explanation beside it, or under it where
// the card is narrow.
func (a *answer) figure(label, value, note string) {
	if value == "" {
		return
	}
	size := a.sub + 3
	base := a.y + size
	a.label(label, base)
	a.Shapes = append(a.Shapes, scene.Words{X: a.left, Y: base, Size: size, Bold: true, Text: value, Ink: scene.Text})
	a.y = base + 9
	if note == "" {
		a.gap(2)
		return
	}
	x := max(a.left+scene.Width(value, size, true)+14, a.left+5.5*size)
	if scene.Width(note, a.text-1, false) <= a.right-x {
		a.Shapes = append(a.Shapes, scene.Words{X: x, Y: base, Size: a.text - 1, Text: note, Ink: scene.Faint})
		a.gap(2)
		return
	}
	a.y -= 3
	a.block(note, a.text-1, false, scene.Faint)
	a.gap(5)
}

// steps are numbered, the first one emphasised.
func (a *answer) steps(do []string) {
	if len(do) == 0 {
		return
	}
	a.gap(6)
	a.label("Do", a.y+a.text)
	left := a.left
	for i, step := range do {
		number := strconv.Itoa(i + 1)
		first := i == 0
		a.Shapes = append(a.Shapes, scene.Words{X: left, Y: a.y + a.text, Size: a.text, Bold: first, Text: number, Ink: scene.Text})
		a.left = left + scene.Width("0", a.text, true) + 8
		a.block(step, a.text, first, scene.Text)
		a.left = left
		a.gap(5)
	}
}

func (a *answer) list(label string, entries []string) {
	if len(entries) == 0 {
		return
	}
	a.label(label, a.y+a.text-1)
	a.block(strings.Join(entries, " · "), a.text-1, false, scene.Text)
	a.gap(6)
}

func (a *answer) foot(text string) {
	if text == "" {
		return
	}
	a.gap(6)
	a.left = cardMargin
	a.block(text, a.small, false, scene.Faint)
}

func (a *answer) label(text string, base float64) {
	a.Shapes = append(a.Shapes, scene.Words{X: cardMargin, Y: base, Size: a.text, Text: text, Ink: scene.Faint})
}

// block is text in as many lines as it takes.
func (a *answer) block(text string, size float64, bold bool, ink scene.Ink) {
	for _, line := range wrapped(text, size, bold, a.right-a.left) {
		a.Shapes = append(a.Shapes, scene.Words{X: a.left, Y: a.y + size, Size: size, Bold: bold, Text: line, Ink: ink})
		a.y += size * 1.4
	}
}

func (a *answer) gap(points float64) { a.y += points }

// wrapped breaks text into lines no wider than w. A word that is wider than a
// line is cut.
func wrapped(text string, size float64, bold bool, w float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && scene.Width(longer, size, bold) > w {
			lines = append(lines, line)
			longer = word
		}
		line = scene.Shortened(longer, size, bold, w)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
