package window

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery/store"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/ui/look"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
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
	server := widgets.NewButton("A book on a server", func() { p.askServer(ctx) })
	s.buttons = []*widgets.Button{fresh, demo, restore, server}
	s.told.TextStyle.Bold = true
	s.told.Hide()
	return centred("There is no book yet",
		wrapped("The book holds everything the programme knows: who is on oxygen, what is lent, what was promised. It will be kept in "+book.Named(p.path)+"."),
		beside(fresh, "Begin with an empty book: set the programme up, then take in your lists."),
		beside(demo, "An invented programme on invented islands, with a day in full swing."),
		beside(restore, "Put back a copy you made before; it is proven first."),
		beside(server, "One that several desks share."),
		s.progress, s.told,
	)
}

// stuck says why the book can't be opened, and offers what may help.
func (p *program) stuck(ctx context.Context, err error) fyne.CanvasObject {
	again := func() { p.begin(ctx) }
	buttons := []fyne.CanvasObject{widgets.NewMainButton("Try again", again)}
	if refusal.KindOf(err) == refusal.Locked {
		password := widgets.NewMainButton("Give the password", func() { p.askPassword(ctx) })
		buttons = []fyne.CanvasObject{password, widgets.NewButton("Try again", again)}
	}
	buttons = append(buttons, widgets.NewButton("Close", p.app.Quit))
	if book.OnServer(p.path) {
		buttons = append(buttons, widgets.NewButton("The book of this machine", func() { p.backToOwn(ctx) }))
	}
	return centred("The book can't be opened",
		wrapped(refusal.For(err)),
		container.NewHBox(buttons...),
	)
}

func wrapped(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	return l
}

// beside is a button with what it does.
func beside(b *widgets.Button, does string) fyne.CanvasObject {
	return container.NewBorder(nil, nil, container.NewGridWrap(fyne.NewSize(200, b.MinSize().Height), b), nil, wrapped(does))
}

func centred(title string, parts ...fyne.CanvasObject) fyne.CanvasObject {
	icon := canvas.NewImageFromResource(look.Icon)
	icon.FillMode = canvas.ImageFillContain
	icon.SetMinSize(fyne.NewSize(36, 36))
	heading := widget.NewLabelWithStyle(title, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	heading.SizeName = theme.SizeNameHeadingText
	column := container.NewVBox(append([]fyne.CanvasObject{container.NewHBox(icon, heading)}, parts...)...)
	return container.New(cardLayout{}, widgets.NewPanel(container.NewPadded(column)))
}

// cardLayout puts a card of a fixed width into the middle of the window, as
// high as its words are at that width.
type cardLayout struct{}

const cardWidth = 680

func (cardLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(cardWidth, objects[0].MinSize().Height)
}

func (cardLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	card := objects[0]
	for range 2 { // text wraps to its width, and only then knows its height
		card.Resize(fyne.NewSize(cardWidth, card.MinSize().Height))
	}
	card.Move(fyne.NewPos((size.Width-cardWidth)/2, max(0, (size.Height-card.Size().Height)/3)))
}

func (s *starter) fresh() {
	s.make("Making the book", func(ctx context.Context) error {
		b, err := book.Create(ctx, s.program.path, s.program.options())
		if err != nil {
			return err
		}
		return b.Close()
	}, work.Settings)
}

func (s *starter) demo() {
	s.make("Making the demo", func(ctx context.Context) error { return s.program.setting.Demo(ctx, s.program.path) }, work.Needs)
}

func (s *starter) restore() {
	s.program.pickFile(s.program.window, func(from string) {
		s.make("Proving the copy", func(ctx context.Context) error {
			return book.Restore(ctx, from, s.program.path)
		}, work.Needs)
	})
}

// pickFile asks for a file in the toolkit's own dialog.
func pickFile(w fyne.Window, picked func(path string)) {
	d := dialog.NewFileOpen(func(file fyne.URIReadCloser, err error) {
		if err != nil || file == nil {
			return
		}
		path := file.URI().Path()
		_ = file.Close() // only its path is needed
		picked(path)
	}, w)
	d.Resize(fyne.NewSize(w.Canvas().Size().Width*0.8, w.Canvas().Size().Height*0.8))
	d.Show()
}

// make makes a book off the window's goroutine, then opens it on the screen
// to begin with.
func (s *starter) make(what string, build func(context.Context) error, first work.Room) {
	for _, b := range s.buttons {
		b.Disable()
	}
	s.told.Hide()
	s.progress.Start(what, func() { s.program.run.Stop("book") })
	s.program.run.Go("book", build, func(err error) {
		s.progress.Done()
		for _, b := range s.buttons {
			b.Enable()
		}
		if err != nil {
			s.told.SetText(refusal.For(err))
			s.told.Show()
			return
		}
		s.program.first = first
		s.program.begin(s.ctx)
	})
}

func (p *program) options() book.Options {
	return book.Options{Now: p.setting.Now, Sets: store.Migrations()}
}
