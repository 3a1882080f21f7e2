package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"lungwort/labels/scene"
)

// Inks of the window that no picture on paper has. Like the inks of package
// scene each has a light and a dark value.
const (
	// InHand is the ground of the row the keyboard is on.
	InHand scene.Ink = "in hand"
	// Key is the ground of a button that is not pressed.
	Key scene.Ink = "key"
	// Foot is the ground of the band along the bottom of the window.
	Foot scene.Ink = "foot"
	// OnVerdict draws on the full ground of any verdict.
	OnVerdict scene.Ink = "on verdict"

	// SideGround is the side bar.
	SideGround scene.Ink = "side"
	// SideText is the name of a screen on the side bar.
	SideText scene.Ink = "side text"
	// SideCount is the count beside the name.
	SideCount scene.Ink = "side count"
	// SideHere is the ground of the screen now open.
	SideHere scene.Ink = "side here"
	// OnSideHere is what stands on SideHere.
	OnSideHere scene.Ink = "on side here"
	// SideHover is the ground under the pointer on the side bar.
	SideHover scene.Ink = "side hover"
)

// shades is one colour for the light look and one for the dark.
type shades struct{ light, dark color.NRGBA }

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xff}
}

func both(light, dark uint32) shades { return shades{rgb(light), rgb(dark)} }

// clear is a colour that lets what lies below show through.
func clear(s shades, alpha uint8) shades {
	s.light.A, s.dark.A = alpha, alpha
	return s
}

// The few colours everything else is made from.
var (
	paper   = both(0xf6f2e9, 0x10211f)
	surface = both(0xfffdf8, 0x182c2b)
	sand    = both(0xece6d8, 0x274140)
	stone   = both(0xe0d8c4, 0x294644)
	ink     = both(0x16313a, 0xe9efe9)
	dim     = both(0x53646a, 0xa7b8b5)
	teal    = both(0x1d6d73, 0x63bfc0)
	deep    = both(0x14333c, 0x0a1716)
	line    = both(0xd6cfbd, 0x34504e)
	shadow  = both(0x16313a, 0x000000)
	rust    = both(0x9a210f, 0xff9d78)
	ochre   = both(0x865f00, 0xe8b74e)
	blue    = both(0x1f5c93, 0x86bdf2)
	onTeal  = both(0xffffff, 0x08201f)
)

// palette holds every colour by name. The verdicts' colours keep apart for
// people who see no red or no green: rust and ochre differ in lightness, what
// holds is blue, what is unknown has no hue.
var palette = map[fyne.ThemeColorName]shades{
	theme.ColorNameBackground:          paper,
	theme.ColorNameForeground:          ink,
	theme.ColorNameButton:              stone,
	theme.ColorNameDisabledButton:      both(0xece8dd, 0x1d3331),
	theme.ColorNameDisabled:            both(0x5d696c, 0x9aaca8),
	theme.ColorNamePlaceHolder:         dim,
	theme.ColorNameFocus:               clear(teal, 0x58),
	theme.ColorNameHover:               clear(teal, 0x1c),
	theme.ColorNamePressed:             clear(teal, 0x40),
	theme.ColorNameSelection:           clear(teal, 0x48),
	theme.ColorNamePrimary:             teal,
	theme.ColorNameForegroundOnPrimary: onTeal,
	theme.ColorNameHyperlink:           both(0x17616b, 0x7accd0),
	theme.ColorNameHeaderBackground:    paper,
	theme.ColorNameInputBackground:     surface,
	theme.ColorNameInputBorder:         both(0x7a8a8d, 0x6d8a87),
	theme.ColorNameMenuBackground:      surface,
	theme.ColorNameOverlayBackground:   surface,
	theme.ColorNameScrollBar:           clear(dim, 0x99),
	theme.ColorNameScrollBarBackground: clear(dim, 0x18),
	theme.ColorNameSeparator:           line,
	theme.ColorNameShadow:              clear(shadow, 0x50),
	theme.ColorNameError:               rust,
	theme.ColorNameForegroundOnError:   both(0xffffff, 0x2a0d03),
	theme.ColorNameWarning:             ochre,
	theme.ColorNameForegroundOnWarning: both(0xffffff, 0x2a1d00),
	theme.ColorNameSuccess:             blue,
	theme.ColorNameForegroundOnSuccess: both(0xffffff, 0x061a2d),

	Ink(InHand):     sand,
	Ink(Key):        stone,
	Ink(Foot):       both(0xebe5d6, 0x1a302f),
	Ink(OnVerdict):  both(0xffffff, 0x0c1a19),
	Ink(SideGround): deep,
	Ink(SideText):   both(0xe6ede9, 0xd5e0dc),
	Ink(SideCount):  both(0xa9c0c1, 0x9db4b1),
	Ink(SideHere):   both(0x257278, 0x1f5a5e),
	Ink(OnSideHere): both(0xffffff, 0xffffff),
	Ink(SideHover):  both(0x1f434d, 0x17302f),

	Ink(scene.Ground):  paper,
	Ink(scene.Panel):   surface,
	Ink(scene.Rule):    both(0xdcd5c4, 0x2c4644),
	Ink(scene.Text):    ink,
	Ink(scene.Faint):   dim,
	Ink(scene.Gas):     both(0x217a80, 0x4fa9ab),
	Ink(scene.Loan):    both(0x8db8b6, 0x3f7f80),
	Ink(scene.Outline): both(0x217a80, 0x63bfc0),
	Ink(scene.Alarm):   rust,
	Ink(scene.Caution): ochre,
	Ink(scene.Fine):    blue,
	Ink(scene.Unsure):  both(0x4d5558, 0xb9c3c2),
	Ink(scene.Hatch):   both(0x3c4c50, 0xb9c6c2),
	Ink(scene.Sea):     both(0xd3e3e6, 0x122b36),
	Ink(scene.Land):    both(0xf1e9d2, 0x2c3f2d),
	Ink(scene.Coast):   both(0x9fb2ac, 0x5d7f70),
	Ink(scene.Road):    both(0xb19c6b, 0x7d9371),
}

// Ink is the theme's name for the colour of a role in a picture.
func Ink(role scene.Ink) fyne.ThemeColorName {
	return fyne.ThemeColorName("ink-" + string(role))
}

// Colour is the value of a colour name in one variant of the look, and whether
// the palette has it.
func Colour(name fyne.ThemeColorName, variant fyne.ThemeVariant) (color.NRGBA, bool) {
	s, ok := palette[name]
	if variant == theme.VariantLight {
		return s.light, ok
	}
	return s.dark, ok
}
