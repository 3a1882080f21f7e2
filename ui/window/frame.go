package window

import (
	"context"
	"errors"
	"fmt"
	"image/color"
	"reflect"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/delivery"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// room is one screen of the window.
type room interface {
	Content() fyne.CanvasObject
	Keyboard() fyne.Focusable
	Open(work.Target)
}

// Frame is what stays around the screens: side bar, the one field on top, the
// clock, the notice line.
type Frame struct {
	work   *work.Work
	canvas func() fyne.Canvas
	rooms  map[work.Room]room
	here   work.Target
	back   []work.Target

	side   *widgets.Side
	field  *widgets.AnyField
	clock  *widget.Label
	duty   *widget.Label
	notice *widgets.Notice
	scan   *widgets.ScanLine
	open   bool      // a scan was taken and nothing was said of it yet
	drafts *drafts   // nil: what is half typed is not kept
	lost   *loss     // nil: the book can be reached
	read   time.Time // when the book was last read
	wall   *clock
	band   *fyne.Container // above the screens; hidden where all is well
	says   *widget.Label   // of the band
	stage  *fyne.Container
	below  *fyne.Container // the field on top: scan line, stage, notice line
	root   fyne.CanvasObject
}

// NewFrame returns the window's content on a desk. The caller completes w with
// what only it knows: Desk, Run, Now, By, Dir and Show.
func NewFrame(w *work.Work, canvas func() fyne.Canvas) *Frame {
	wall := &clock{machine: w.Now}
	w.Now = wall.now
	f := &Frame{
		work: w, canvas: canvas, wall: wall,
		side:   widgets.NewSide(nil),
		field:  widgets.NewAnyField(w.Now),
		clock:  widget.NewLabelWithStyle("", fyne.TextAlignTrailing, fyne.TextStyle{Bold: true}),
		duty:   widget.NewLabelWithStyle("", fyne.TextAlignTrailing, fyne.TextStyle{}),
		notice: widgets.NewNotice(),
		scan:   widgets.NewScanLine(),
		stage:  container.NewStack(),
	}
	f.duty.SizeName = theme.SizeNameCaptionText
	f.side.SetEntries(f.entries(nil))
	f.band, f.says = newBand()
	f.read = w.Now()
	w.Open, w.Say, w.Offer, w.Refuse, w.Changed = f.Open, f.say, f.offer, f.refuse, f.changed
	w.Scanned = f.scanned
	w.Field = f.Field
	f.rooms = rooms(w)
	f.wire()
	f.root = f.layout()
	return f
}

func (f *Frame) wire() {
	f.side.OnOpen = func(id string) { f.Open(work.Target{Room: work.Room(id)}) }
	f.field.OnChanged = f.suggest
	f.field.OnSubmitted = f.submit
	f.field.OnPicked = f.pick
	f.field.OnLeave = func() { f.focus(f.rooms[f.here.Room].Keyboard()) }
}

func (f *Frame) layout() fyne.CanvasObject {
	corner := container.New(layout.NewCustomPaddedVBoxLayout(-10), f.clock, f.duty)
	middle := container.NewVBox(layout.NewSpacer(), f.field, layout.NewSpacer())
	top := container.NewBorder(nil, nil, nil, corner, container.NewPadded(middle))
	line := canvas.NewRectangle(color.Transparent) // as high with a button as without
	line.SetMinSize(fyne.NewSize(0, widgets.NewButton("Undo", nil).MinSize().Height))
	notice := container.New(layout.NewCustomPaddedLayout(0, 3, 4, 8), container.NewStack(line, f.notice))
	f.below = container.NewBorder(container.New(layout.NewCustomPaddedLayout(0, 0, 8, 8), f.scan), notice, nil, nil, container.NewPadded(f.stage))
	return container.NewBorder(f.band, nil, f.side, nil, container.NewBorder(top, nil, nil, nil, f.field.Over(f.below)))
}

// Root returns what the window shows.
func (f *Frame) Root() fyne.CanvasObject { return f.root }

// Begin opens the first screen of whoever is at the desk.
func (f *Frame) Begin() {
	for _, n := range names {
		if f.work.Has(n.room) {
			f.Open(work.Target{Room: n.room})
			return
		}
	}
}

// Open goes to a screen and loads it.
func (f *Frame) Open(t work.Target) {
	r, ok := f.rooms[t.Room]
	if !ok {
		return
	}
	if !f.work.Has(t.Room) {
		f.refuse(refusal.New(refusal.Forbidden, fmt.Sprintf("%s is at the desk as %s, which has no such screen.", f.work.By, f.work.Role), "Ask a coordinator."))
		return
	}
	if f.here.Room != "" && !reflect.DeepEqual(f.here, t) {
		f.back = append(f.back, f.here)
	}
	f.show(t, r)
}

func (f *Frame) show(t work.Target, r room) {
	if f.here.Room != t.Room {
		f.scan.Hide()
		f.below.Refresh()
	}
	f.here, f.open = t, false
	f.side.SetHere(string(t.Room))
	f.stage.Objects = []fyne.CanvasObject{r.Content()}
	f.stage.Refresh()
	f.focus(r.Keyboard())
	r.Open(t) // may bring the keyboard elsewhere
}

// Back goes to the screen before, if there is one.
func (f *Frame) Back() {
	if len(f.back) == 0 {
		return
	}
	last := f.back[len(f.back)-1]
	f.back = f.back[:len(f.back)-1]
	f.show(last, f.rooms[last.Room])
}

// Refresh reads the counts, the clock and who is on call anew.
func (f *Frame) Refresh() {
	now := f.work.Now()
	f.clock.SetText(f.atDesk() + now.Format("Mon 2 Jan 15:04"))
	if f.lost != nil {
		f.tellLoss()
		return
	}
	type state struct {
		counts   map[work.Room]int
		settings delivery.Programme
		cautions []string
	}
	work.Ask(f.work, "frame", func(ctx context.Context) (state, error) {
		counts, err := countRooms(ctx, f.work.Desk, now)
		if err != nil {
			return state{}, err
		}
		settings, err := f.work.Desk.Programme(ctx)
		if err != nil {
			return state{}, err
		}
		cautions, err := f.work.Desk.Cautions(ctx, now)
		return state{counts, settings, cautions}, err
	}, func(s state) {
		f.read = now
		f.caution(s.cautions)
		f.side.SetEntries(f.entries(s.counts))
		f.duty.SetText(onCall(s.settings, now))
		f.setClock(s.settings.TimeZone)
	})
}

// changed takes up that an act was done: what stands in the form is no draft any
// more, and the counts are read anew.
func (f *Frame) changed() {
	if f.drafts != nil {
		f.drafts.done()
	}
	f.Refresh()
}

// Again reads the open screen and everything around it anew.
func (f *Frame) Again() {
	f.Refresh()
	if r, ok := f.rooms[f.here.Room]; ok {
		r.Open(f.here)
	}
}

// Tick is called as time passes: the clock moves on, and the first screen and
// a person's page are read anew without losing the row in hand.
func (f *Frame) Tick() {
	f.Refresh()
	if f.lost == nil && (f.here.Room == work.Needs || f.here.Room == work.Person) {
		f.rooms[f.here.Room].Open(f.here)
	}
}

func onCall(settings delivery.Programme, now time.Time) string {
	who, ok := settings.Duty(now)
	if !ok {
		return "nobody is set on call: see Settings"
	}
	return "on call: " + who.Name + " " + who.Phone
}

// atDesk says who is at the desk, where names are asked for, and that names
// are hidden.
func (f *Frame) atDesk() string {
	words := ""
	if f.work.Role != "" {
		words = f.work.By + "  ·  "
	}
	if f.work.Veil {
		words += "names hidden  ·  "
	}
	return words
}

func (f *Frame) say(text string) {
	f.outcome(scene.Holds, text, "")
	f.notice.Say(text)
}

func (f *Frame) offer(text, step string, do func()) {
	f.outcome(scene.Holds, text, "")
	f.notice.Offer(text, step+" (Ctrl+Z)", do)
}

func (f *Frame) refuse(err error) {
	var no *refusal.Error
	if errors.As(err, &no) {
		f.outcome(scene.Short, no.Says, no.Next)
		f.notice.Refuse(no.Says, no.Next)
		return
	}
	f.outcome(scene.Short, refusal.For(err), "")
	f.notice.Refuse(refusal.For(err), "")
}

// outcome says large what is the first answer to a scan.
func (f *Frame) outcome(verdict, title, detail string) {
	if f.open {
		f.scanned(work.Scan{Verdict: verdict, Title: title, Detail: detail})
	}
}

func (f *Frame) scanned(s work.Scan) {
	f.open = false
	f.scan.Tell(s.Verdict, s.Title, s.Detail)
	f.below.Refresh()
}

// scanning is a room that takes scans itself while it is open. Scan reports
// whether it took the text.
type scanning interface{ Scan(text string) bool }

// printable is a room with one paper that its work leads to.
type printable interface{ Print() }

// Print prints what the open screen is there to print, if it is.
func (f *Frame) Print() {
	if p, ok := f.rooms[f.here.Room].(printable); ok {
		p.Print()
	}
}

// keyed is a room with function keys of its own.
type keyed interface{ Key(fyne.KeyName) }

// Key gives the open screen a function key, unless a question is open over it.
func (f *Frame) Key(key fyne.KeyName) {
	if k, ok := f.rooms[f.here.Room].(keyed); ok && f.canvas().Overlays().Top() == nil {
		k.Key(key)
	}
}

// Undo takes back what the notice line offers to take back. While a text has
// the keyboard, it takes back typing instead.
func (f *Frame) Undo() {
	if c := f.canvas(); c != nil && (f.drafts == nil || !f.drafts.back) {
		if typing, ok := c.Focused().(fyne.Shortcutable); ok {
			if _, text := c.Focused().(interface{ SelectedText() string }); text {
				typing.TypedShortcut(&fyne.ShortcutUndo{})
				return
			}
		}
	}
	f.notice.Act()
}

func (f *Frame) focus(target fyne.Focusable) {
	if c := f.canvas(); c != nil && target != nil {
		c.Focus(target)
	}
}

// Field puts the keyboard into the one field on top.
func (f *Frame) Field() { f.focus(f.field.Keyboard()) }
