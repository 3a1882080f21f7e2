package widgets

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

// Option is one thing a Choice offers.
type Option struct{ Value, Label string }

// Choice is an input of a few options side by side: Left and Right, the number
// of an option or its first letter choose it. Nothing is chosen beforehand.
type Choice struct {
	widget.BaseWidget

	// OnChanged is called when a person chose another option.
	OnChanged func(value string)

	options []Option
	chosen  int
	byHand  bool // chosen by a person
	focused bool
	keys    formKeys
	picture *Picture
}

var (
	_ Input         = (*Choice)(nil)
	_ fyne.Tappable = (*Choice)(nil)
)

// NewChoice returns a choice among options, none of them chosen.
func NewChoice(options ...Option) *Choice {
	c := &Choice{options: options, chosen: -1}
	c.ExtendBaseWidget(c)
	c.picture = NewPicture(fyne.NewSize(0, 0), c.draw)
	return c
}

// SetOptions offers other options; what was chosen stays chosen if it is still
// among them.
func (c *Choice) SetOptions(options ...Option) {
	if slices.Equal(options, c.options) {
		return
	}
	value := c.Value()
	c.options = options
	c.SetValue(value)
	c.Refresh()
}

// Value is the chosen option's value, empty while none is chosen.
func (c *Choice) Value() string {
	if c.chosen < 0 {
		return ""
	}
	return c.options[c.chosen].Value
}

// SetValue chooses an option without telling OnChanged. A value that is not
// among the options chooses none.
func (c *Choice) SetValue(value string) {
	c.byHand = c.byHand && value == c.Value()
	c.chosen = -1
	for i, o := range c.options {
		if o.Value == value {
			c.chosen = i
		}
	}
	c.picture.Refresh()
}

func (c *Choice) choose(i int) {
	if i < 0 || i >= len(c.options) || i == c.chosen {
		return
	}
	c.chosen, c.byHand = i, true
	defer Typed()
	c.picture.Refresh()
	if c.OnChanged != nil {
		c.OnChanged(c.Value())
	}
}

// Space within and between options, in points.
const (
	optionMargin = 14.0
	optionGap    = 4.0
)

// places lays the options side by side.
func (c *Choice) places(z sizes) []span {
	out, x := make([]span, len(c.options)), 0.0
	for i, o := range c.options {
		w := scene.Width(o.Label, z.text, true) + 2*optionMargin
		out[i] = span{x, w}
		x += w + optionGap
	}
	return out
}

func (c *Choice) draw(w, h float64) scene.Scene {
	z := themeSizes()
	s := scene.Scene{W: w, H: h}
	for i, at := range c.places(z) {
		ground, text := look.Key, scene.Text
		if i == c.chosen {
			ground, text = look.SideHere, look.OnSideHere
		}
		s.Shapes = append(s.Shapes,
			scene.Bar{X: at.x, Y: 3, W: at.w, H: h - 6, Round: 4, Ink: ground},
			scene.Words{X: at.x + at.w/2, Y: h/2 + z.text*0.36, Size: z.text, Bold: i == c.chosen, Align: scene.Middle, Text: c.options[i].Label, Ink: text})
	}
	if c.focused && len(c.options) > 0 {
		last := c.places(z)[len(c.options)-1]
		s.Shapes = append(s.Shapes, scene.Bar{X: 2, Y: h - 2, W: last.x + last.w - 4, H: 2, Ink: scene.Outline})
	}
	return s
}

// Tapped chooses the option under the pointer.
func (c *Choice) Tapped(e *fyne.PointEvent) {
	focus(c)
	for i, at := range c.places(themeSizes()) {
		if x := float64(e.Position.X); x >= at.x && x < at.x+at.w {
			c.choose(i)
		}
	}
}

// FocusGained shows that the keys go here.
func (c *Choice) FocusGained() { c.focused = true; c.picture.Refresh() }

// FocusLost ends that.
func (c *Choice) FocusLost() { c.focused = false; c.picture.Refresh() }

// TypedRune chooses by number or first letter.
func (c *Choice) TypedRune(r rune) {
	if n, err := strconv.Atoi(string(r)); err == nil && !c.startsWith(r) {
		c.choose(n - 1)
		return
	}
	for n := range c.options {
		i := (c.chosen + 1 + n) % len(c.options)
		if starts(c.options[i].Label, r) {
			c.choose(i)
			return
		}
	}
}

// startsWith tells whether a label starts with the digit, as in "6 h", so that
// typing it means that label and not its place.
func (c *Choice) startsWith(r rune) bool {
	for _, o := range c.options {
		if starts(o.Label, r) {
			return true
		}
	}
	return false
}

func starts(label string, r rune) bool {
	return strings.HasPrefix(strings.ToLower(label), string(unicode.ToLower(r)))
}

// TypedKey moves along the options.
func (c *Choice) TypedKey(e *fyne.KeyEvent) {
	Used()
	switch e.Name {
	case fyne.KeyRight:
		c.choose(min(c.chosen+1, len(c.options)-1))
	case fyne.KeyLeft:
		c.choose(max(c.chosen-1, 0))
	case fyne.KeyHome:
		c.choose(0)
	case fyne.KeyEnd:
		c.choose(len(c.options) - 1)
	default:
		if !toWindow(e) {
			c.keys.handle(e)
		}
	}
}

// TypedShortcut passes Ctrl+Enter on to the form.
func (c *Choice) TypedShortcut(s fyne.Shortcut) { c.keys.handleShortcut(s) }

func (c *Choice) listen(keys formKeys) { c.keys = keys }

// MinSize holds all options.
func (c *Choice) MinSize() fyne.Size {
	places := c.places(themeSizes())
	w := 0.0
	if len(places) > 0 {
		last := places[len(places)-1]
		w = last.x + last.w
	}
	h := theme.Size(theme.SizeNameText) + 2*theme.Size(theme.SizeNameInnerPadding) + 6
	return fyne.NewSize(float32(w), h)
}

// CreateRenderer is called by the toolkit.
func (c *Choice) CreateRenderer() fyne.WidgetRenderer {
	c.ExtendBaseWidget(c)
	return widget.NewSimpleRenderer(c.picture)
}

// Refresh redraws the choice.
func (c *Choice) Refresh() {
	c.picture.Refresh()
	c.BaseWidget.Refresh()
}
