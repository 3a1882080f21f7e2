// Package window is the program's window: one frame, one desk, every screen.
package window

import (
	"context"
	"errors"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"lungwort/delivery/store"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/ui/look"
	"lungwort/ui/printing"
	"lungwort/ui/runner"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// Setting is what the window needs from outside.
type Setting struct {
	Book string           // file of the book, or its address on a server; empty: the user's own
	By   string           // who sits at the desk
	Now  func() time.Time // the clock
	// Private is the folder for reports of faults and what is half typed; empty:
	// the user's own.
	Private string
	// Demo makes the demo book in a file.
	Demo func(ctx context.Context, path string) error
}

// title is the window's title. It names nobody.
const title = "Lungwort"

// The size the window opens at; it is usable at 1366 × 768.
const (
	width  = 1366
	height = 740
)

// Run opens the window and returns when it is closed.
func Run(ctx context.Context, s Setting) error {
	path := s.Book
	if path == "" {
		own, err := book.DefaultPath()
		if err != nil {
			return err
		}
		path = own
	}
	path, err := book.Absolute(path)
	if err != nil {
		return err
	}
	dir, err := book.Folder(path)
	if err != nil {
		return err
	}
	a := app.NewWithID("lungwort")
	a.Settings().SetTheme(look.New(look.AsDesktop))
	a.SetIcon(look.Icon)
	w := a.NewWindow(title)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(width, height))
	p := &program{app: a, window: w, setting: s, path: path, papers: filepath.Join(dir, "papers"), pickFile: pickFile}
	background := runner.NewBackground()
	background.Fault, p.run = p.report, background
	stop := context.AfterFunc(ctx, func() {
		fyne.Do(a.Quit)
		p.leave()
	})
	defer stop()
	w.SetOnClosed(p.leave)
	p.begin(ctx)
	p.runs(w.ShowAndRun)
	p.end()
	return p.failed
}

// lingering is how long the toolkit may take to end once the window is closed.
const lingering = 10 * time.Second

// leave sees to it that the program ends once its window is closed. Now and
// then the toolkit (Fyne 2.7) waits forever for an event of its own after its
// loop has ended; the book would stay held by a program nobody sees.
func (p *program) leave() {
	time.AfterFunc(lingering, func() {
		p.end()
		os.Exit(0)
	})
}

// program is the running program: the window and the book it shows.
type program struct {
	app     fyne.App
	window  fyne.Window
	setting Setting
	path    string // of the book, or its address; may hold a secret
	papers  string // the folder for papers and sheets
	run     engine
	book    *book.Book
	desk    *store.Desk
	frame   *Frame // nil: nobody is at the desk yet
	locked  *behind
	lastUse time.Time // when a key or the pointer last moved
	first   work.Room // to begin with; empty: what needs you
	past    *past     // nil: the present is shown
	// lookOnly says why nothing can be entered; empty: it can.
	lookOnly string
	failed   error
	ending   sync.Once
	// pickFile lets the person choose a file.
	pickFile func(fyne.Window, func(path string))
}

// engine does the work off the window's goroutine, and keeps the time.
type engine interface {
	runner.Runner
	EveryMinute(tick func(now time.Time))
	Alongside(work func(ctx context.Context) error)
	Shutdown()
}

// begin opens the book, or offers what to do when there is none. A server may
// let one wait.
func (p *program) begin(ctx context.Context) {
	if !book.OnServer(p.path) {
		p.opened(ctx, p.open(ctx))
		return
	}
	p.window.SetContent(centred("Opening the book", wrapped(book.Named(p.path)+" is asked for it.")))
	p.run.Go("book", p.open, func(err error) { p.opened(ctx, err) })
}

func (p *program) opened(ctx context.Context, err error) {
	switch {
	case err == nil:
		p.desk = store.NewDesk(p.book)
		p.arrive()
	case refusal.KindOf(err) == refusal.NotFound:
		p.put(p.start(ctx))
	default:
		p.put(p.stuck(ctx, err))
	}
}

// put shows a card with the keyboard on its first button.
func (p *program) put(card fyne.CanvasObject) {
	p.window.SetContent(card)
	p.window.Canvas().FocusNext()
}

// show puts the screens on the open book.
func (p *program) show() {
	w := &work.Work{
		Desk: p.desk, Run: p.run, Now: p.now, By: p.setting.By,
		Dir: p.papers, Show: p.showFile, Leave: p.signOut, Veil: p.app.Preferences().Bool(veiled),
	}
	if user, signedIn := p.desk.User(); signedIn {
		w.By, w.Role = user.Name, user.Role
	}
	if file, err := printing.DefaultFile(); err == nil {
		w.Printers = printing.New(file)
	}
	p.frame = NewFrame(w, func() fyne.Canvas { return p.window.Canvas() })
	p.window.SetContent(newAwake(p.screens(), p.used))
	p.window.SetMainMenu(p.menu())
	widgets.Used = p.used
	p.used()
	p.window.Canvas().SetOnTypedKey(p.typed)
	p.window.SetOnDropped(p.dropped)
	p.frame.Refresh()
	p.frame.Begin()
	p.keepDrafts()
	if p.first != "" && p.first != work.Needs {
		p.frame.Open(work.Target{Room: p.first})
	}
	copies := p.copier(w.Desk.KeepCopy)
	p.run.EveryMinute(func(time.Time) {
		if p.frame != nil && p.locked == nil {
			p.frame.Tick()
		}
		p.minute()
		if p.lookOnly == "" { // else whoever has the book makes them
			copies.tick(p.now())
		}
	})
	p.listen()
}

// now returns the present on the clock of this machine.
func (p *program) now() time.Time { return p.setting.Now().Truncate(time.Second) }

// end stops the work under way, then closes the book, once.
func (p *program) end() { p.ending.Do(p.close) }

func (p *program) close() {
	p.run.Shutdown()
	if p.past != nil {
		p.failed = errors.Join(p.failed, p.past.book.Close(), os.RemoveAll(p.past.dir))
	}
	if p.book != nil {
		p.failed = errors.Join(p.failed, p.book.Close())
	}
}

// showFile opens a paper in the system's viewer.
func (p *program) showFile(file string) {
	path, err := filepath.Abs(file)
	if err != nil {
		path = file
	}
	if err := p.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}); err != nil {
		p.frame.refuse(refusal.New(refusal.Unready, "No viewer opened "+filepath.Base(path)+".", "It is in "+filepath.Dir(path)+".").Because(err))
	}
}
