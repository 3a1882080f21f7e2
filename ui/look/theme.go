// Package look is how Lungwort looks: one theme in light and dark, its colours
// by name, its sizes and typefaces, the marks of the verdicts and the icon.
package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"lungwort/labels/typeface"
)

// Shade says whether the window is light, dark, or as the desktop asks.
type Shade int

// The shades a person can set.
const (
	Light Shade = iota
	Dark
	AsDesktop
)

// Theme is the program's look.
type Theme struct {
	// Shade is the set shade.
	Shade Shade
	// Larger enlarges text, icons and spacing: 1 is the ordinary size, 1.25 a
	// quarter more. Zero means 1.
	Larger float32
}

var _ fyne.Theme = (*Theme)(nil)

// New returns the look in a shade, at its ordinary size.
func New(shade Shade) *Theme { return &Theme{Shade: shade, Larger: 1} }

// Color gives the value of a colour name. A name the palette lacks has the
// colour of text, so that nothing becomes invisible.
func (t *Theme) Color(name fyne.ThemeColorName, desktop fyne.ThemeVariant) color.Color {
	variant := t.variant(desktop)
	if c, ok := Colour(name, variant); ok {
		return c
	}
	c, _ := Colour(theme.ColorNameForeground, variant)
	return c
}

func (t *Theme) variant(desktop fyne.ThemeVariant) fyne.ThemeVariant {
	switch t.Shade {
	case Light:
		return theme.VariantLight
	case Dark:
		return theme.VariantDark
	}
	return desktop
}

var (
	regular = fyne.NewStaticResource("lungwort-regular.ttf", typeface.Regular)
	bold    = fyne.NewStaticResource("lungwort-bold.ttf", typeface.Bold)
)

// Font gives the typeface that screen and paper share. It has no slanted cut:
// emphasis is bold.
func (t *Theme) Font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Monospace, style.Symbol:
		return theme.DefaultTheme().Font(style)
	case style.Bold:
		return bold
	}
	return regular
}

// Icon gives the toolkit's own icons.
func (t *Theme) Icon(name fyne.ThemeIconName) fyne.Resource {
	return theme.DefaultTheme().Icon(name)
}

// sizes are chosen so that twelve two-line rows, the field, the headings and
// the foot fit a screen of 1366 by 768.
var sizes = map[fyne.ThemeSizeName]float32{
	theme.SizeNameText:               13,
	theme.SizeNameCaptionText:        11,
	theme.SizeNameSubHeadingText:     15,
	theme.SizeNameHeadingText:        20,
	theme.SizeNamePadding:            4,
	theme.SizeNameInnerPadding:       7,
	theme.SizeNameLineSpacing:        4,
	theme.SizeNameInlineIcon:         18,
	theme.SizeNameInputBorder:        1.5,
	theme.SizeNameInputRadius:        4,
	theme.SizeNameSelectionRadius:    4,
	theme.SizeNameScrollBar:          12,
	theme.SizeNameScrollBarSmall:     5,
	theme.SizeNameScrollBarRadius:    4,
	theme.SizeNameSeparatorThickness: 1,
}

// Size gives a size by name, in the toolkit's units.
func (t *Theme) Size(name fyne.ThemeSizeName) float32 {
	size, ok := sizes[name]
	if !ok {
		size = theme.DefaultTheme().Size(name)
	}
	if t.Larger > 0 && name != theme.SizeNameSeparatorThickness {
		size *= t.Larger
	}
	return size
}
