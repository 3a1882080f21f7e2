package widgets_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"lungwort/ui/widgets"
)

func TestActionsByKeyTapAndArrows(t *testing.T) {
	var did []string
	do := func(what string) func() { return func() { did = append(did, what) } }
	bar := widgets.NewActions(
		widgets.Action{Key: '1', Label: "Call", Do: do("call")},
		widgets.Action{Key: '2', Label: "Read", Off: true, Do: do("read")},
		widgets.Action{Key: '9', Label: "Stop oxygen", Danger: true, Do: do("stop")},
	)
	win := open(t, bar, 500, 60)
	win.Canvas().Focus(bar)
	assert.True(t, bar.Press('1'))
	assert.True(t, bar.Press('2'), "a key that is off is still the bar's")
	assert.False(t, bar.Press('5'))
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyRight, fyne.KeyReturn, fyne.KeyLeft, fyne.KeySpace} {
		key(win, k)
	}
	test.Type(bar, "9")
	test.TapAt(bar, fyne.NewPos(20, 15))
	assert.Equal(t, []string{"call", "stop", "stop", "call"}, did)
}

func TestFilterGoesOnToItsListAndBack(t *testing.T) {
	rows := widgets.NewRows([]widgets.Column{{Title: "Home"}}, "")
	filter := widgets.NewFilter("name or street", rows)
	var typed []string
	filter.OnText = func(text string) { typed = append(typed, text) }
	win := open(t, container.NewBorder(filter, nil, nil, nil, rows), 400, 300)
	win.Canvas().Focus(filter)
	key(win, fyne.KeyDown)
	assert.Same(t, filter, win.Canvas().Focused(), "an empty list takes no keys")
	rows.SetRows(numbered(3))
	test.Type(filter, "ho")
	assert.Equal(t, []string{"h", "ho"}, typed)
	key(win, fyne.KeyDown)
	assert.Same(t, rows.Keyboard(), win.Canvas().Focused())
	key(win, fyne.KeyUp)
	assert.Same(t, filter, win.Canvas().Focused())
	key(win, fyne.KeyEscape)
	assert.Empty(t, filter.Text.Text)
}

func TestRowsOfferLettersFirst(t *testing.T) {
	d := newDesk(t, numbered(30))
	var offered []rune
	d.OnRune = func(r rune) bool {
		offered = append(offered, r)
		return r == '1'
	}
	test.Type(d.Keyboard(), "1")
	assert.Equal(t, "r0", d.InHand())
	test.Type(d.Keyboard(), "21")
	assert.Equal(t, "r21", d.InHand(), "a search goes on with any letter")
	assert.Equal(t, []rune{'1', '2'}, offered)
}
