package widgets

import (
	"fmt"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// Progress shows that long work is under way, how far it is, and a button that
// stops it. It takes no room while nothing is under way.
type Progress struct {
	widget.BaseWidget

	text  *widget.Label
	share float64
	beat  *fyne.Animation // while the last step gives no share; else nil
	phase float64         // of the beat, from 0 to 1
	bar   *Picture
	stop  *Button
	stops func()
}

var _ fyne.Widget = (*Progress)(nil)

// NewProgress returns a hidden progress line.
func NewProgress() *Progress {
	p := &Progress{text: widget.NewLabel("")}
	p.ExtendBaseWidget(p)
	p.bar = NewPicture(fyne.NewSize(120, 20), p.draw)
	p.stop = NewButton("Stop", p.Stop)
	p.Hide()
	return p
}

// Start shows work under way. stop is called when the person stops it.
func (p *Progress) Start(text string, stop func()) {
	p.still()
	p.stops = stop
	p.text.SetText(text)
	p.stop.Hidden = stop == nil
	p.stop.Enable()
	p.SetShare(0)
	p.Show()
}

// SetShare shows how much is done, from 0 to 1.
func (p *Progress) SetShare(share float64) {
	p.share = min(max(share, 0), 1)
	p.bar.Refresh()
}

// Finish shows that all is done but a last step which can't say how far it is
// nor be stopped: a full bar with a light that runs along it.
func (p *Progress) Finish(text string) {
	p.text.SetText(text)
	p.stop.Disable()
	p.SetShare(1)
	if p.beat != nil {
		return
	}
	p.beat = fyne.NewAnimation(beatLasts, func(phase float32) {
		p.phase = float64(phase)
		p.bar.Refresh()
	})
	p.beat.RepeatCount = fyne.AnimationRepeatForever
	p.beat.Curve = fyne.AnimationLinear
	p.beat.Start()
}

// beatLasts is how long the light takes along the bar.
const beatLasts = 1500 * time.Millisecond

// still ends the beat.
func (p *Progress) still() {
	if p.beat != nil {
		p.beat.Stop()
		p.beat = nil
	}
}

// draw is a bar with the percentage behind it.
func (p *Progress) draw(w, h float64) scene.Scene {
	z := themeSizes()
	room := scene.Width("100 %", z.text, true) + 12
	long, mid := max(w-room, 0), h/2
	s := scene.Scene{W: w, H: h, Shapes: []scene.Shape{
		scene.Bar{Y: mid - 5, W: long, H: 10, Round: 5, Ink: look.InHand},
		scene.Bar{Y: mid - 5, W: long * p.share, H: 10, Round: 5, Ink: scene.Gas},
		scene.Words{X: w - 4, Y: mid + z.text*0.36, Size: z.text, Bold: true, Align: scene.Right, Text: fmt.Sprintf("%.0f %%", math.Floor(p.share*100)), Ink: scene.Text},
	}}
	if light := long / 8; p.beat != nil {
		s.Shapes = append(s.Shapes, scene.Bar{X: p.phase * (long - light), Y: mid - 5, W: light, H: 10, Round: 5, Ink: look.InHand})
	}
	return s
}

// SetText says what the work is at.
func (p *Progress) SetText(text string) { p.text.SetText(text) }

// Stop asks the work to stop; the line stays until Done.
func (p *Progress) Stop() {
	if p.stops == nil {
		return
	}
	stop := p.stops
	p.stops = nil
	p.stop.Disable()
	p.text.SetText("Stopping …")
	stop()
}

// Done hides the line.
func (p *Progress) Done() {
	p.still()
	p.stops = nil
	p.Hide()
}

// CreateRenderer is called by the toolkit.
func (p *Progress) CreateRenderer() fyne.WidgetRenderer {
	p.ExtendBaseWidget(p)
	return widget.NewSimpleRenderer(container.NewBorder(nil, nil, p.text, p.stop, p.bar))
}
