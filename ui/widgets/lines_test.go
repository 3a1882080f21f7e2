package widgets_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"lungwort/ui/widgets"
)

// kit is a list of three things: one with a value, one that can't be used, one
// with nothing to read.
func kit(open, done bool) []widgets.Line {
	return []widgets.Line{
		{ID: "a", Text: "E-20114", Below: "cylinder", Tick: &open, Asks: "gauge, psi"},
		{ID: "b", Text: "E-20101", Below: "cylinder", Asks: "gauge, psi", Wrong: "is on loan to another person.", Offer: "take E-20112", Aside: "is brought"},
		{ID: "c", Text: "RG-3301", Below: "regulator", Tick: &done},
	}
}

// heard is what a list told its screen.
type heard struct {
	values, entered       []string
	ticked, offered, drop []string
	aside                 []string
}

func newLines(t *testing.T) (*widgets.Lines, fyne.Window, *heard) {
	l, h := widgets.NewLines("Scan what goes along."), &heard{}
	l.OnValue = func(id, text string) { h.values = append(h.values, id+" "+text) }
	l.OnEnter = func(id, text string) bool { h.entered = append(h.entered, id+" "+text); return text == "LW-00014-X" }
	l.OnTick = func(id string) { h.ticked = append(h.ticked, id) }
	l.OnOffer = func(id string) { h.offered = append(h.offered, id) }
	l.OnDrop = func(id string) { h.drop = append(h.drop, id) }
	l.OnAside = func(id string) { h.aside = append(h.aside, id) }
	win := open(t, l, 420, 300)
	l.SetLines(kit(false, true))
	win.Canvas().Focus(l)
	return l, win, h
}

func press(win fyne.Window, keys ...fyne.KeyName) {
	for _, k := range keys {
		win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

func runes(l *widgets.Lines, text string) {
	for _, r := range text {
		l.TypedRune(r)
	}
}

func TestLinesAreWorkedByKeys(t *testing.T) {
	l, win, h := newLines(t)
	runes(l, "19")
	press(win, fyne.KeyBackspace)
	runes(l, "850")
	assert.Equal(t, "a 1850", h.values[len(h.values)-1])
	press(win, fyne.KeyReturn)
	assert.Equal(t, "b", l.InHand(), "Enter goes on")
	press(win, fyne.KeyUp)
	runes(l, "9")
	assert.Equal(t, "a 9", h.values[len(h.values)-1], "what is typed first takes the place of what stood there")
	press(win, fyne.KeyBackspace, fyne.KeyDown, fyne.KeyF2, fyne.KeyF4, fyne.KeyDelete)
	press(win, fyne.KeyDown, fyne.KeyDown, fyne.KeyF2)
	assert.Equal(t, "c", l.InHand())
	runes(l, " ")
	assert.Equal(t, &heard{
		values: h.values, entered: []string{"a 1850"}, offered: []string{"b"}, aside: []string{"b"}, drop: []string{"b"}, ticked: []string{"c"},
	}, h, "F2 takes only what is offered")
}

// TestScanIntoLines: a scanner types into whatever has the keyboard.
func TestScanIntoLines(t *testing.T) {
	l, win, h := newLines(t)
	l.Take("c")
	runes(l, "LW-00014-X")
	press(win, fyne.KeyReturn)
	assert.Equal(t, []string{"c LW-00014-X"}, h.entered)
	assert.Empty(t, h.values, "nothing is read on a regulator")
	assert.Equal(t, "c", l.InHand(), "the screen took it")
}

func TestLinesKeepWhatIsInHand(t *testing.T) {
	l, _, _ := newLines(t)
	l.Take("b")
	l.SetLines(kit(true, true)[1:])
	assert.Equal(t, "b", l.InHand())
	l.SetLines(kit(true, true)[2:])
	assert.Equal(t, "c", l.InHand())
	l.SetLines(nil)
	assert.Empty(t, l.InHand())
	l.TypedRune('1')
	l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
}

func TestLinesAreTapped(t *testing.T) {
	l, _, h := newLines(t)
	test.TapAt(l, fyne.NewPos(15, 20))
	assert.Equal(t, []string{"a"}, h.ticked)
	test.TapAt(l, fyne.NewPos(40, 46+46+30))
	assert.Equal(t, "b", l.InHand())
	assert.Equal(t, []string{"b"}, h.offered)
}

// TestLinkGoesFromInputToInput: Enter passes hidden inputs by, the last one
// and Ctrl+Enter submit.
func TestLinkGoesFromInputToInput(t *testing.T) {
	a, b, c := widgets.NewText(), widgets.NewText(), widgets.NewText()
	submitted, left := 0, 0
	widgets.Link(func() { submitted++ }, func() { left++ }, a, b, c)
	win := open(t, container.NewVBox(a, b, c), 300, 200)
	b.Hide()
	win.Canvas().Focus(a)
	press(win, fyne.KeyReturn)
	assert.Same(t, c, win.Canvas().Focused())
	press(win, fyne.KeyReturn, fyne.KeyEscape)
	a.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl})
	assert.Equal(t, 2, submitted)
	assert.Equal(t, 1, left)
}
