package widgets_test

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"lungwort/ui/look"
	"lungwort/ui/widgets"
)

func app(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
}

// sheet is the form of a reading in a window.
type sheet struct {
	*widgets.Form
	fields    []*widgets.Field
	win       fyne.Window
	submitted int
	cancelled int
}

func newSheet(t *testing.T) *sheet {
	s := &sheet{}
	app(t)
	s.Form, s.fields = readingForm()
	s.OnSubmit = func() { s.submitted++ }
	s.OnCancel = func() { s.cancelled++ }
	s.win = open(t, container.NewVBox(s.Form), 500, 500)
	s.Begin()
	return s
}

func (s *sheet) press(keys ...fyne.KeyName) {
	for _, k := range keys {
		s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

func (s *sheet) at() fyne.Focusable { return s.win.Canvas().Focused() }

func TestFormGoesFromTopToBottom(t *testing.T) {
	s := newSheet(t)
	for i, field := range s.fields {
		assert.Same(t, field.Input(), s.at(), "field %d", i)
		s.win.Canvas().FocusNext()
	}
	s.Begin()
	s.press(fyne.KeyReturn)
	assert.Same(t, s.fields[1].Input(), s.at(), "Enter goes on")
	s.fields[2].Hide()
	s.press(fyne.KeyEnter)
	assert.Same(t, s.fields[3].Input(), s.at(), "past a hidden field")
	assert.Zero(t, s.submitted)
}

func TestFormSubmits(t *testing.T) {
	s := newSheet(t)
	ctrlEnter := &desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierControl}
	for i, field := range s.fields {
		field.Input().(fyne.Shortcutable).TypedShortcut(ctrlEnter)
		assert.Equal(t, i+1, s.submitted, "Ctrl+Enter in field %d", i)
	}
	s.SetReady(false)
	s.fields[0].Input().(fyne.Shortcutable).TypedShortcut(ctrlEnter)
	assert.Equal(t, len(s.fields), s.submitted, "while its work runs")
	s.SetReady(true)

	s.fields[3].Hide()
	s.win.Canvas().Focus(s.fields[2].Input())
	s.press(fyne.KeyReturn)
	assert.Equal(t, len(s.fields)+1, s.submitted, "Enter in the last field")
	s.press(fyne.KeyEscape)
	assert.Equal(t, 1, s.cancelled)
}

func TestFormShowsErrorsBelowTheirFields(t *testing.T) {
	s := newSheet(t)
	before := s.fields[1].MinSize().Height
	fine := s.ShowErrors(map[*widgets.Field]error{s.fields[1]: errors.New("the needle cannot stand at -3")})
	assert.False(t, fine)
	assert.Same(t, s.fields[1].Input(), s.at(), "the keyboard goes to the first that is wrong")
	assert.Contains(t, said(s.Form), "the needle cannot stand at -3")
	assert.NotContains(t, said(s.Form), "as the needle stands", "the error stands in place of the hint")
	assert.Equal(t, before, s.fields[1].MinSize().Height, "one line either way: nothing jumps")

	assert.True(t, s.ShowErrors(nil))
	assert.Equal(t, "", s.fields[1].Wrong())
	assert.Contains(t, said(s.Form), "as the needle stands")
	s.fields[1].SetHint("between 0 and 3,000 psi")
	assert.Contains(t, said(s.Form), "between 0 and 3,000 psi")
}

func TestFormMakesRoomForALongError(t *testing.T) {
	s := newSheet(t)
	below := s.fields[2].Position().Y
	s.ShowErrors(map[*widgets.Field]error{s.fields[1]: errors.New("this gauge stands higher than the cylinder can be filled, and higher than it stood an hour ago; look at it again and at its unit")})
	assert.Greater(t, s.fields[2].Position().Y, below)
}

func TestWhenShowsItsWeekdayAndMoves(t *testing.T) {
	s := newSheet(t)
	when := s.fields[0].Input().(*widgets.When)
	assert.Contains(t, said(s.fields[0]), "Tue 24 Nov")
	for _, step := range []struct {
		key  fyne.KeyName
		want string
	}{
		{fyne.KeyUp, "2026-11-24 16:30"},
		{fyne.KeyDown, "2026-11-24 16:15"},
		{fyne.KeyDown, "2026-11-24 16:00"},
		{fyne.KeyPageUp, "2026-11-25 16:00"},
		{fyne.KeyPageDown, "2026-11-24 16:00"},
	} {
		s.press(step.key)
		assert.Equal(t, step.want, when.Text.Text, "after %s", step.key)
	}
	when.SetText("2026-11-2")
	assert.NotContains(t, said(s.fields[0]), "Nov")
	s.press(fyne.KeyUp)
	assert.Equal(t, "2026-11-2", when.Text.Text, "what is no time does not move")
}

func TestQuantityShowsTheUnitItTakes(t *testing.T) {
	app(t)
	q := widgets.NewQuantity("psi", "bar")
	open(t, container.NewVBox(q), 300, 60)
	assert.Contains(t, said(q), "psi")
	q.SetText("35 bar")
	assert.NotContains(t, said(q), "psi")
	amount, unit, err := q.Amount()
	assert.NoError(t, err)
	assert.Equal(t, 35.0, amount)
	assert.Equal(t, "bar", unit)
}

func TestChoiceByKeysAndPointer(t *testing.T) {
	app(t)
	c := widgets.NewChoice(widgets.Option{Value: "6h", Label: "6 h"}, widgets.Option{Value: "24h", Label: "24 h"}, widgets.Option{Value: "week", Label: "a week"})
	var chosen []string
	c.OnChanged = func(value string) { chosen = append(chosen, value) }
	win := open(t, container.NewHBox(c), 400, 60)
	assert.Equal(t, "", c.Value(), "nothing is chosen beforehand")

	win.Canvas().Focus(c)
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft, fyne.KeyHome, fyne.KeyEnd} {
		c.TypedKey(&fyne.KeyEvent{Name: k})
	}
	assert.Equal(t, []string{"6h", "24h", "week", "24h", "6h", "week"}, chosen)

	chosen = nil
	for _, r := range "2A63x9" {
		c.TypedRune(r)
	}
	// "2" begins "24 h", "6" begins "6 h", "3" is the third; x and 9 mean nothing.
	assert.Equal(t, []string{"24h", "week", "6h", "week"}, chosen)

	chosen = nil
	c.SetValue("24h")
	assert.Empty(t, chosen, "setting is not choosing")
	test.TapCanvas(win.Canvas(), fyne.NewPos(10, 20))
	assert.Equal(t, []string{"6h"}, chosen)
	c.SetValue("gone")
	assert.Equal(t, "", c.Value())
}

func TestTicksByKeysAndPointer(t *testing.T) {
	app(t)
	parts := widgets.NewTicks("key", "seal washer", "stand")
	var turned [][]string
	parts.OnChanged = func(there []string) { turned = append(turned, there) }
	win := open(t, container.NewHBox(parts), 400, 60)
	assert.Empty(t, parts.Ticked(), "nothing is there before somebody looked")
	win.Canvas().Focus(parts)
	for _, r := range "3kx91" {
		parts.TypedRune(r)
	}
	// 3 is the stand, k the key, x and 9 mean nothing, 1 turns the key again.
	assert.Equal(t, [][]string{{"stand"}, {"key", "stand"}, {"stand"}}, turned)
	test.TapCanvas(win.Canvas(), fyne.NewPos(10, 20))
	assert.Equal(t, []string{"key", "stand"}, parts.Ticked())
	turned = nil
	parts.Set([]string{"power cord"}, nil)
	assert.Empty(t, turned, "setting is not ticking")
	parts.TypedRune('2')
	assert.Empty(t, parts.Ticked())
}

func TestNotesAreLimited(t *testing.T) {
	app(t)
	n := widgets.NewNotes()
	open(t, n, 300, 200)
	n.FocusGained()
	n.SetText(strings.Repeat("a", 598))
	for range 5 {
		n.TypedRune('a')
	}
	assert.Len(t, n.Text, 600)
	n.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	n.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Contains(t, n.Text, "\n", "Enter in notes is a new line")
	assert.False(t, n.AcceptsTab())
}

func TestTextIsReplacedByTyping(t *testing.T) {
	app(t)
	e := widgets.NewText()
	win := open(t, container.NewVBox(e), 300, 60)
	e.SetText("Kelp Street")
	win.Canvas().Focus(e)
	e.TypedRune('S')
	assert.Equal(t, "S", e.Text)
}
