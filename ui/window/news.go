package window

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/ui/widgets"
)

// listen hears what other desks write and whether the book can be reached,
// until the program ends.
func (p *program) listen() {
	b := p.book
	p.run.Alongside(func(ctx context.Context) error {
		return b.Listen(ctx, func(news book.News, why error) {
			p.run.Show(func() { p.heard(news, why) })
		})
	})
}

// heard passes news on to the screens on the present, which may lie under a
// look back.
func (p *program) heard(news book.News, why error) {
	f := p.frame
	if f == nil || p.locked != nil && news == book.Written {
		return // read anew when somebody is back
	}
	if p.past != nil {
		f = p.past.present
	}
	switch news {
	case book.Lost:
		f.Lose(why)
	case book.Back:
		f.Regain()
	case book.Written:
		f.Reread()
	}
}

// rereading is a screen that can be read anew at any moment: the row in hand
// stays, and nothing typed is lost.
type rereading interface{ Reread() }

// Reread takes up what other desks wrote: the counts, and the open screen where
// nothing is being typed. A form is left alone; what it does is decided anew on
// the book.
func (f *Frame) Reread() {
	f.Refresh()
	if r, ok := f.rooms[f.here.Room].(rereading); ok && f.lost == nil {
		r.Reread()
	}
}

// loss is the time in which the book can't be reached.
type loss struct {
	since time.Time
	why   error
}

// newBand is where it is said above the screens what is wrong with the book or
// the machine.
func newBand() (*fyne.Container, *widget.Label) {
	says := widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	says.Wrapping = fyne.TextWrapWord
	band := container.NewStack(widgets.NewPanel(says))
	band.Hide()
	return band, says
}

// caution says above the screens what is to be put right on the machine, until
// it is.
func (f *Frame) caution(says []string) {
	if f.lost != nil || f.says.Text == strings.Join(says, "\n") {
		return
	}
	f.says.SetText(strings.Join(says, "\n"))
	if len(says) > 0 {
		f.band.Show()
	} else {
		f.band.Hide()
	}
	f.root.Refresh()
}

// Lose says that the book can't be reached. The screens keep what they show.
func (f *Frame) Lose(why error) {
	f.lost = &loss{f.work.Now(), why}
	f.tellLoss()
	f.band.Show()
	f.root.Refresh()
}

// Regain takes everything up again once the book is back.
func (f *Frame) Regain() {
	f.lost = nil
	f.says.SetText("")
	f.band.Hide()
	f.root.Refresh()
	f.say("The book is back; everything was read anew.")
	f.Reread()
}

// tellLoss says since when, how old what is shown is, and what to do.
func (f *Frame) tellLoss() {
	says := refusal.For(f.lost.why)
	var no *refusal.Error
	if errors.As(f.lost.why, &no) && no.Kind == refusal.Unreachable {
		says = no.Says // its next step is taken by the program itself
	}
	f.says.SetText(fmt.Sprintf(
		"%s Since %s nothing can be entered; what is shown is as of %s, %s old. It comes back by itself: meanwhile write on paper, and key it in later.",
		says, f.lost.since.Format("15:04"), f.read.Format("15:04"), age(f.work.Now().Sub(f.read))))
}

// age says a duration as the desk counts it.
func age(d time.Duration) string {
	minutes := int(d.Minutes())
	switch {
	case minutes < 1:
		return "less than a minute"
	case minutes < 60:
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
}
