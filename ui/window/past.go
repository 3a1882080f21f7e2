package window

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery/store"
	"lungwort/inventory/book"
	"lungwort/ui/ask"
	"lungwort/ui/asker"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// past is the book as it was known at a moment, shown in the place of the
// present one. It is a copy of its own, to look at and throw away.
type past struct {
	book    *book.Book
	dir     string
	present *Frame
	here    fyne.CanvasObject // what the window showed before
}

// askPast asks for the moment to look back to.
func (p *program) askPast() {
	now := p.now()
	asker.Show(p.window, ask.Form{
		Title: "As of…", Button: "Look back",
		Before: "Every screen shows what the book knew then, whatever was keyed in or taken back since. Nothing can be entered.",
		Fields: []ask.Field{{Key: "known", Label: "Known at", Kind: ask.Moment, Value: now.Format(time.RFC3339)}},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			known := r.Past("known", now)
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			p.lookBack(known, closed)
			return nil
		},
	}, now.Location())
}

// lookBack opens the book as it was known and shows it.
func (p *program) lookBack(known time.Time, closed func(error)) {
	p.backToNow()
	var dir string
	var b *book.Book
	p.run.Go("look back", func(ctx context.Context) (err error) {
		if dir, err = os.MkdirTemp("", "lungwort-past-"); err != nil {
			return err
		}
		b, err = openPast(ctx, p.desk, filepath.Join(dir, "past.lungwort"), known, p.options())
		return err
	}, func(err error) {
		closed(err)
		if err != nil {
			_ = os.RemoveAll(dir) // the refusal says more
			return
		}
		p.showPast(b, dir, known)
	})
}

// openPast writes the book as it was known to path and opens it to look only.
func openPast(ctx context.Context, desk *store.Desk, path string, known time.Time, o book.Options) (*book.Book, error) {
	b, err := desk.Past(ctx, path, known, o)
	if err != nil {
		return nil, err
	}
	if err := b.Close(); err != nil {
		return nil, err
	}
	return book.OpenReadOnly(ctx, path, o)
}

// showPast puts the screens on the past book, under a band that says so.
func (p *program) showPast(b *book.Book, dir string, known time.Time) {
	w := &work.Work{
		Desk: p.desk.On(b), Run: p.run, Now: func() time.Time { return known }, By: p.frame.work.By, Role: p.frame.work.Role,
		Dir: dir, Show: p.showFile, Leave: p.signOut, Veil: p.frame.work.Veil,
	}
	p.past = &past{book: b, dir: dir, present: p.frame, here: p.window.Content()}
	where := p.frame.here
	p.frame = NewFrame(w, func() fyne.Canvas { return p.window.Canvas() })
	says := widget.NewLabelWithStyle("As the book was known "+known.Format("Mon 2 Jan 2006 15:04")+". Nothing can be entered here.", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	band := widgets.NewPanel(container.NewBorder(nil, nil, nil, widgets.NewMainButton("Back to now", p.backToNow), says))
	p.window.SetContent(newAwake(container.NewBorder(band, nil, nil, nil, p.frame.Root()), p.used))
	p.frame.Refresh()
	p.frame.Open(where)
}

// backToNow shows the present again; without a look back it does nothing.
func (p *program) backToNow() {
	if p.past == nil {
		return
	}
	left := p.past
	p.past, p.frame = nil, left.present
	p.window.SetContent(left.here)
	p.frame.Again()
	p.failed = errors.Join(p.failed, left.book.Close(), os.RemoveAll(left.dir))
}
