package widgets_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"lungwort/ui/widgets"
)

// counter is the field on top of a window, with what it told the window.
type counter struct {
	*widgets.AnyField
	win       fyne.Window
	now       time.Time
	changed   []string
	submitted []string
	picked    []string
	left      int
}

func newCounter(t *testing.T) *counter {
	c := &counter{now: at}
	c.AnyField = widgets.NewAnyField(func() time.Time { return c.now })
	c.OnChanged = func(text string) { c.changed = append(c.changed, text) }
	c.OnSubmitted = func(text string) { c.submitted = append(c.submitted, text) }
	c.OnPicked = func(id string) { c.picked = append(c.picked, id) }
	c.OnLeave = func() { c.left++ }
	below := widgets.NewRows([]widgets.Column{{}}, "")
	c.win = open(t, container.NewBorder(c.AnyField, nil, nil, nil, c.Over(below)), 600, 400)
	c.win.Canvas().Focus(c.Keyboard())
	return c
}

func (c *counter) write(text string) {
	for _, r := range text {
		c.win.Canvas().Focused().TypedRune(r)
	}
}

func (c *counter) press(keys ...fyne.KeyName) {
	for _, k := range keys {
		c.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

var two = []widgets.Suggestion{{ID: "ines", Text: "Ines A."}, {ID: "gull", Text: "Gull Row"}}

func TestAnyFieldTakesScans(t *testing.T) {
	c := newCounter(t)
	c.write("LW-K7Q2")
	c.press(fyne.KeyReturn)
	c.now = c.now.Add(300 * time.Millisecond)
	c.write("LW-K7Q3") // the next scan replaces the text
	c.press(fyne.KeyTab)
	c.write("  ")
	c.press(fyne.KeyReturn) // nothing there
	assert.Equal(t, []string{"LW-K7Q2", "LW-K7Q3"}, c.submitted)
}

func TestAnyFieldIgnoresAStutter(t *testing.T) {
	c := newCounter(t)
	for _, later := range []time.Duration{0, 400 * time.Millisecond, 900 * time.Millisecond, 1100 * time.Millisecond} {
		c.now = c.now.Add(later)
		c.write("LW-K7Q2")
		c.press(fyne.KeyReturn)
	}
	// 0 counts; 400 ms and 900 ms after the one before are stutter; 1.1 s is not.
	assert.Equal(t, []string{"LW-K7Q2", "LW-K7Q2"}, c.submitted)
}

func TestAnyFieldTabGoesOnWithoutFreshText(t *testing.T) {
	c := newCounter(t)
	tab := c.Keyboard().(fyne.Tabbable)
	assert.False(t, tab.AcceptsTab(), "empty")
	c.write("x")
	assert.True(t, tab.AcceptsTab(), "fresh text: Tab may end a scan")
	c.press(fyne.KeyTab)
	assert.False(t, tab.AcceptsTab(), "submitted")
}

func TestAnyFieldSuggests(t *testing.T) {
	c := newCounter(t)
	c.write("gu")
	c.SetSuggestions(two)
	assert.Equal(t, []string{"g", "gu"}, c.changed)
	assert.Contains(t, said(c.win.Content()), "Ines A.")

	c.press(fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, []string{"gull"}, c.picked)
	assert.NotContains(t, said(c.win.Content()), "Ines A.", "the list is gone once a thing is picked")
	assert.Same(t, c.Keyboard(), c.win.Canvas().Focused())
	assert.Empty(t, c.submitted, "a pick is no scan")
}

func TestAnyFieldGoesBackFromTheSuggestions(t *testing.T) {
	for _, key := range []fyne.KeyName{fyne.KeyUp, fyne.KeyEscape} {
		c := newCounter(t)
		c.write("gu")
		c.SetSuggestions(two)
		c.press(fyne.KeyDown)
		assert.NotSame(t, c.Keyboard(), c.win.Canvas().Focused())
		c.press(key)
		assert.Same(t, c.Keyboard(), c.win.Canvas().Focused(), "after %s", key)
	}
}

func TestAnyFieldSuggestionsByPointer(t *testing.T) {
	c := newCounter(t)
	c.write("gu")
	c.SetSuggestions(two)
	field := c.Size().Height
	test.TapCanvas(c.win.Canvas(), fyne.NewPos(60, field+4+50+25))
	assert.Equal(t, []string{"gull"}, c.picked)

	c.write("gu")
	c.SetSuggestions(two)
	test.TapCanvas(c.win.Canvas(), fyne.NewPos(300, 390))
	assert.NotContains(t, said(c.win.Content()), "Ines A.", "a click beside the list closes it")
}

func TestAnyFieldDropsLateSuggestions(t *testing.T) {
	c := newCounter(t)
	c.write("LW-K7Q2")
	c.press(fyne.KeyReturn)
	c.SetSuggestions(two)
	assert.NotContains(t, said(c.win.Content()), "Ines A.", "after the text was submitted")
	c.SetText("gull")
	c.SetSuggestions(two)
	assert.NotContains(t, said(c.win.Content()), "Ines A.", "after the window set the text")
	assert.Equal(t, "gull", c.Text())
	assert.Len(t, c.changed, len("LW-K7Q2"), "SetText is not typing")
}

func TestAnyFieldEscape(t *testing.T) {
	c := newCounter(t)
	c.write("gu")
	c.SetSuggestions(two)
	c.press(fyne.KeyEscape)
	assert.Equal(t, "", c.Text())
	assert.NotContains(t, said(c.win.Content()), "Ines A.")
	assert.Zero(t, c.left)
	c.press(fyne.KeyEscape)
	c.press(fyne.KeyDown)
	assert.Equal(t, 2, c.left, "Esc and Down in the empty field go to what is below")

	c.write("LW-K7Q2")
	c.press(fyne.KeyReturn, fyne.KeyEscape)
	assert.Equal(t, 3, c.left, "and Esc after a scan")
	assert.Equal(t, "", c.Text())
	c.write("E-20144")
	assert.Equal(t, "E-20144", c.Text(), "no letter of the next scan is lost")
}
