package window

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery/store"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/ui/widgets"
)

// starter is the first screen of all: there is no book yet.
type starter struct {
	program  *program
	ctx      context.Context
	told     *widget.Label
	progress *widgets.Progress
	buttons  []*widgets.Button
}

func (p *program) start(ctx context.Context) fyne.CanvasObject {
	s := &starter{program: p, ctx: ctx, told: wrapped(""), progress: widgets.NewProgress()}
	fresh := widgets.NewMainButton("New programme", s.fresh)
	demo := widgets.NewButton("Demo: the Quillet Isles", s.demo)
	restore := widgets.NewButton("Restore a copy", s.restore)
	s.buttons = []*widgets.Button{fresh, demo, restore}
	return centred("There is no book yet", 560,
		wrapped("The book holds everything the programme knows: who is on oxygen, what is lent, what was promised. It will be kept in "+p.path+"."),
		fresh, wrapped("Begin with an empty book; then set the programme up and take in your lists."),
		demo, wrapped("An invented programme on invented islands, with a day in full swing."),
		restore, wrapped("Put back a copy you made before; it is proven first."),
		s.progress, s.told,
	)
}

// stuck says why the book can't be opened, and offers to try again.
func (p *program) stuck(ctx context.Context, err error) fyne.CanvasObject {
	return centred("The book can't be opened", 240,
		wrapped(refusal.For(err)),
		widgets.NewMainButton("Try again", func() { p.begin(ctx) }),
		widgets.NewButton("Close", p.app.Quit),
	)
}

func wrapped(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	return l
}

func centred(title string, height float32, parts ...fyne.CanvasObject) fyne.CanvasObject {
	heading := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = "subHeadingText"
	card := widgets.NewPanel(container.NewVBox(append([]fyne.CanvasObject{heading}, parts...)...))
	return container.NewCenter(container.NewGridWrap(fyne.NewSize(640, height), card))
}

func (s *starter) fresh() {
	s.make("Making the book", func(ctx context.Context) error {
		b, err := book.Create(ctx, s.program.path, s.program.options())
		if err != nil {
			return err
		}
		return b.Close()
	})
}

func (s *starter) demo() {
	s.make("Making the demo", func(ctx context.Context) error { return s.program.setting.Demo(ctx, s.program.path) })
}

func (s *starter) restore() {
	dialog.ShowFileOpen(func(file fyne.URIReadCloser, err error) {
		if err != nil || file == nil {
			return
		}
		from := file.URI().Path()
		_ = file.Close() // only its path is needed
		s.make("Proving the copy", func(ctx context.Context) error {
			return book.Restore(ctx, from, s.program.path)
		})
	}, s.program.window)
}

// make makes a book off the window's goroutine, then opens it.
func (s *starter) make(what string, work func(context.Context) error) {
	for _, b := range s.buttons {
		b.Disable()
	}
	s.told.SetText("")
	s.progress.Start(what, func() { s.program.run.Stop("book") })
	s.program.run.Go("book", work, func(err error) {
		s.progress.Done()
		for _, b := range s.buttons {
			b.Enable()
		}
		if err != nil {
			s.told.SetText(refusal.For(err))
			return
		}
		s.program.begin(s.ctx)
	})
}

func (p *program) options() book.Options {
	return book.Options{Now: p.setting.Now, Sets: store.Migrations()}
}
