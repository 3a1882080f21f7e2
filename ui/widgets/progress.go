package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Progress shows that long work is under way, how far it is, and a button that
// stops it. It takes no room while nothing is under way.
type Progress struct {
	widget.BaseWidget

	text  *widget.Label
	bar   *widget.ProgressBar
	stop  *Button
	stops func()
}

var _ fyne.Widget = (*Progress)(nil)

// NewProgress returns a hidden progress line.
func NewProgress() *Progress {
	p := &Progress{text: widget.NewLabel(""), bar: widget.NewProgressBar()}
	p.ExtendBaseWidget(p)
	p.stop = NewButton("Stop", p.Stop)
	p.Hide()
	return p
}

// Start shows work under way. stop is called when the person stops it.
func (p *Progress) Start(text string, stop func()) {
	p.stops = stop
	p.text.SetText(text)
	p.stop.Hidden = stop == nil
	p.stop.Enable()
	p.bar.SetValue(0)
	p.Show()
}

// SetShare shows how much is done, from 0 to 1.
func (p *Progress) SetShare(share float64) { p.bar.SetValue(share) }

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
	p.stops = nil
	p.Hide()
}

// CreateRenderer is called by the toolkit.
func (p *Progress) CreateRenderer() fyne.WidgetRenderer {
	p.ExtendBaseWidget(p)
	return widget.NewSimpleRenderer(container.NewBorder(nil, nil, p.text, p.stop, p.bar))
}
