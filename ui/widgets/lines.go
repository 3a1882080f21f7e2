package widgets

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
)

// Line is one thing of Lines, its words ready to show.
type Line struct {
	ID          string
	Text, Below string
	// Tick is a box before the line; nil for none.
	Tick *bool
	// Asks is what is to be read off the thing, "gauge, psi"; empty: nothing is.
	Asks string
	// Value is what was read off it.
	Value string
	// Aside stands at the right: "goes along", "brought".
	Aside string
	// Wrong is why the thing can't be used. Offer is what would mend it.
	Wrong, Offer string
}

// Lines is a short list of things that are handed over, left or taken: each is
// ticked, and its gauge or meter read, without leaving the list. Up, Down and
// Enter go from line to line, digits write the value, Space ticks, F2 takes
// what is offered, F4 changes what stands aside, Delete drops the line.
type Lines struct {
	widget.BaseWidget

	// OnValue is called with the value at each change.
	OnValue func(id, value string)
	// OnEnter is called on Enter with what stands in the value. It reports
	// whether it took it, as a scan that landed here; else the next line comes.
	OnEnter func(id, value string) bool
	// OnTick, OnOffer, OnAside and OnDrop are called on their keys.
	OnTick, OnOffer, OnAside, OnDrop func(id string)

	lines   []Line
	hand    int
	fresh   bool // what is typed next replaces the value
	focused bool
	keys    formKeys
	empty   string
	picture *Picture
	scroll  *container.Scroll
}

var (
	_ Input         = (*Lines)(nil)
	_ fyne.Tappable = (*Lines)(nil)
)

// NewLines returns an empty list. empty is what it says then: what to do
// first.
func NewLines(empty string) *Lines {
	l := &Lines{empty: empty, fresh: true}
	l.ExtendBaseWidget(l)
	l.picture = NewPicture(fyne.Size{}, func(w, _ float64) scene.Scene { return l.draw(w) })
	l.scroll = container.NewVScroll(l.picture)
	return l
}

// SetLines shows lines. The line in hand stays in hand if it is still there.
func (l *Lines) SetLines(lines []Line) {
	before := l.InHand()
	l.lines = lines
	l.hand = min(max(l.hand, 0), max(len(lines)-1, 0))
	for i := range lines {
		if lines[i].ID == before {
			l.hand = i
		}
	}
	if l.InHand() != before {
		l.fresh = true
	}
	l.Refresh()
}

// InHand is the ID of the line in hand, empty when there are none.
func (l *Lines) InHand() string {
	if l.hand >= len(l.lines) {
		return ""
	}
	return l.lines[l.hand].ID
}

// Has reports whether there is a line of an ID.
func (l *Lines) Has(id string) bool {
	return slices.ContainsFunc(l.lines, func(line Line) bool { return line.ID == id })
}

// Take brings a line to hand and in sight.
func (l *Lines) Take(id string) {
	for i := range l.lines {
		if l.lines[i].ID == id {
			l.take(i)
		}
	}
}

func (l *Lines) take(i int) {
	l.hand, l.fresh = min(max(i, 0), max(len(l.lines)-1, 0)), true
	l.Refresh()
	l.keepInSight()
}

// FocusGained shows that the keys go here.
func (l *Lines) FocusGained() { l.focused, l.fresh = true, true; l.picture.Refresh() }

// FocusLost ends that.
func (l *Lines) FocusLost() { l.focused = false; l.picture.Refresh() }

// TypedRune writes into the value of the line in hand; Space ticks.
func (l *Lines) TypedRune(r rune) {
	if l.hand >= len(l.lines) {
		return
	}
	line := &l.lines[l.hand]
	writing := line.Asks != "" && !l.fresh && line.Value != ""
	switch {
	case r == ' ' && line.Tick != nil && !writing:
		call(l.OnTick, line.ID)
	case l.fresh:
		l.write(string(r))
	default:
		l.write(line.Value + string(r))
	}
}

// write puts text into the value of the line in hand. A line that asks for
// nothing takes it too, unseen: it may be a scan.
func (l *Lines) write(text string) {
	line := &l.lines[l.hand]
	line.Value, l.fresh = text, false
	if line.Asks != "" && l.OnValue != nil {
		l.OnValue(line.ID, text)
	}
	l.picture.Refresh()
}

// TypedKey moves and acts.
func (l *Lines) TypedKey(e *fyne.KeyEvent) {
	Used()
	if l.hand >= len(l.lines) {
		l.keys.handle(e)
		return
	}
	line := &l.lines[l.hand]
	switch e.Name {
	case fyne.KeyDown:
		l.take(l.hand + 1)
	case fyne.KeyUp:
		l.take(l.hand - 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		l.enter(e)
	case fyne.KeyBackspace:
		if text := []rune(line.Value); len(text) > 0 && !l.fresh {
			l.write(string(text[:len(text)-1]))
		} else {
			l.write("")
		}
	case fyne.KeyF2:
		if line.Offer != "" {
			call(l.OnOffer, line.ID)
		}
	case fyne.KeyF4:
		call(l.OnAside, line.ID)
	case fyne.KeyDelete:
		call(l.OnDrop, line.ID)
	default:
		if !toWindow(e) {
			l.keys.handle(e)
		}
	}
}

// enter goes to the next line; from the last one to what comes after the list.
func (l *Lines) enter(e *fyne.KeyEvent) {
	line := l.lines[l.hand]
	if line.Asks == "" {
		l.lines[l.hand].Value = ""
	}
	if l.OnEnter != nil && l.OnEnter(line.ID, line.Value) {
		return
	}
	if l.hand+1 < len(l.lines) {
		l.take(l.hand + 1)
		return
	}
	l.keys.handle(e)
}

// TypedShortcut passes Ctrl+Enter on to the form.
func (l *Lines) TypedShortcut(s fyne.Shortcut) { l.keys.handleShortcut(s) }

func (l *Lines) listen(keys formKeys) { l.keys = keys }

func call(f func(string), id string) {
	if f != nil {
		f(id)
	}
}
