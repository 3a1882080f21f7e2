package look_test

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"

	"lungwort/labels/scene"
	"lungwort/ui/look"
)

var variants = map[string]fyne.ThemeVariant{"light": theme.VariantLight, "dark": theme.VariantDark}

func TestEveryColourNameIsDefined(t *testing.T) {
	test.NewTempApp(t)
	for _, shade := range []look.Shade{look.Light, look.Dark, look.AsDesktop} {
		test.AssertAllColorNamesDefined(t, look.New(shade), "lungwort")
	}
	for _, ink := range scene.Inks {
		_, ok := look.Colour(look.Ink(ink), theme.VariantLight)
		assert.True(t, ok, "the palette lacks the ink %q", ink)
	}
}

// Grounds and the text that may stand on them.
var textOn = map[fyne.ThemeColorName][]fyne.ThemeColorName{
	theme.ColorNameBackground:        words,
	theme.ColorNameInputBackground:   words,
	theme.ColorNameMenuBackground:    words,
	theme.ColorNameOverlayBackground: words,
	theme.ColorNameHeaderBackground:  words,
	look.Ink(look.InHand):            words,
	look.Ink(look.Foot):              words,
	look.Ink(scene.Ground):           words,
	look.Ink(scene.Panel):            words,
	look.Ink(scene.Sea):              {look.Ink(scene.Text), look.Ink(scene.Faint)},
	look.Ink(scene.Land):             {look.Ink(scene.Text), look.Ink(scene.Faint)},
	theme.ColorNameButton:            {theme.ColorNameForeground},
	theme.ColorNamePrimary:           {theme.ColorNameForegroundOnPrimary},
	theme.ColorNameError:             {theme.ColorNameForegroundOnError, look.Ink(look.OnVerdict)},
	theme.ColorNameWarning:           {theme.ColorNameForegroundOnWarning, look.Ink(look.OnVerdict)},
	theme.ColorNameSuccess:           {theme.ColorNameForegroundOnSuccess, look.Ink(look.OnVerdict)},
	look.Ink(scene.Alarm):            {look.Ink(look.OnVerdict)},
	look.Ink(scene.Caution):          {look.Ink(look.OnVerdict)},
	look.Ink(scene.Fine):             {look.Ink(look.OnVerdict)},
	look.Ink(scene.Unsure):           {look.Ink(look.OnVerdict)},
	look.Ink(look.SideGround):        {look.Ink(look.SideText), look.Ink(look.SideCount)},
	look.Ink(look.SideHover):         {look.Ink(look.SideText), look.Ink(look.SideCount)},
	look.Ink(look.SideHere):          {look.Ink(look.OnSideHere)},
}

var words = []fyne.ThemeColorName{
	theme.ColorNameForeground, theme.ColorNamePlaceHolder, theme.ColorNameDisabled, theme.ColorNameHyperlink,
	theme.ColorNameError, theme.ColorNameWarning, theme.ColorNameSuccess, theme.ColorNamePrimary,
	look.Ink(scene.Text), look.Ink(scene.Faint), look.Ink(scene.Alarm),
	look.Ink(scene.Caution), look.Ink(scene.Fine), look.Ink(scene.Unsure),
}

// Veils lie between a ground and its text: the pointer over a button or a row.
var veils = []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameFocus, theme.ColorNameSelection}

// WCAG 2.1, success criterion 1.4.3: text has a contrast of at least 4.5:1.
func TestTextContrast(t *testing.T) {
	for label, v := range variants {
		for ground, texts := range textOn {
			for _, text := range texts {
				ratio := contrast(colour(t, text, v), colour(t, ground, v))
				assert.GreaterOrEqual(t, ratio, 4.5, "%s: %s on %s", label, text, ground)
			}
		}
		for _, veil := range veils {
			for _, ground := range []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameButton} {
				under := over(colour(t, veil, v), colour(t, ground, v))
				ratio := contrast(colour(t, theme.ColorNameForeground, v), under)
				assert.GreaterOrEqual(t, ratio, 4.5, "%s: text under %s on %s", label, veil, ground)
			}
		}
	}
}

// WCAG 2.1, success criterion 1.4.11: what must be seen without being text has
// at least 3:1.
func TestMarkContrast(t *testing.T) {
	seen := []fyne.ThemeColorName{theme.ColorNameInputBorder, look.Ink(scene.Gas), look.Ink(scene.Outline), look.Ink(scene.Hatch)}
	for label, v := range variants {
		for _, name := range seen {
			ratio := contrast(colour(t, name, v), colour(t, theme.ColorNameBackground, v))
			assert.GreaterOrEqual(t, ratio, 3.0, "%s: %s", label, name)
		}
	}
}

// The verdict colours stay apart for a person without red cones (protanopia)
// or green cones (deuteranopia), by the matrices of Machado, Oliveira and
// Fernandes (2009), severity 1.0, quoted from memory. The bound is a distance
// of 0.04 in OKLab, about twice what is just seen side by side: common
// practice, no source.
func TestVerdictColoursStayApart(t *testing.T) {
	inks := []scene.Ink{scene.Alarm, scene.Caution, scene.Fine, scene.Unsure}
	eyes := map[string][3][3]float64{
		"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
		"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	}
	for label, v := range variants {
		for eye, m := range eyes {
			for i, a := range inks {
				for _, b := range inks[i+1:] {
					d := distance(seenBy(m, colour(t, look.Ink(a), v)), seenBy(m, colour(t, look.Ink(b), v)))
					assert.Greater(t, d, 0.04, "%s, %s: %s and %s", label, eye, a, b)
				}
			}
		}
	}
}

func TestShadeFixesTheVariant(t *testing.T) {
	light, _ := look.Colour(theme.ColorNameBackground, theme.VariantLight)
	dark, _ := look.Colour(theme.ColorNameBackground, theme.VariantDark)
	for _, tc := range []struct {
		shade   look.Shade
		desktop fyne.ThemeVariant
		want    color.Color
	}{
		{look.Light, theme.VariantDark, light},
		{look.Dark, theme.VariantLight, dark},
		{look.AsDesktop, theme.VariantDark, dark},
		{look.AsDesktop, theme.VariantLight, light},
	} {
		got := look.New(tc.shade).Color(theme.ColorNameBackground, tc.desktop)
		assert.Equal(t, tc.want, got, "shade %d on desktop variant %d", tc.shade, tc.desktop)
	}
}

func TestLargerEnlargesAllButHairlines(t *testing.T) {
	test.NewTempApp(t)
	small, large := look.New(look.Light), &look.Theme{Larger: 1.5}
	for _, name := range []fyne.ThemeSizeName{theme.SizeNameText, theme.SizeNameInlineIcon, theme.SizeNameWindowButtonHeight} {
		assert.InDelta(t, small.Size(name)*1.5, large.Size(name), 1e-4, "%s", name)
	}
	assert.Equal(t, small.Size(theme.SizeNameSeparatorThickness), large.Size(theme.SizeNameSeparatorThickness))
	assert.Equal(t, small.Size(theme.SizeNameText), (&look.Theme{}).Size(theme.SizeNameText), "zero means the ordinary size")
}

func colour(t *testing.T, name fyne.ThemeColorName, v fyne.ThemeVariant) color.NRGBA {
	t.Helper()
	c, ok := look.Colour(name, v)
	assert.True(t, ok, "no colour %q", name)
	return c
}

func linear(c uint8) float64 {
	s := float64(c) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}

func luminance(c color.NRGBA) float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func contrast(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func over(veil, ground color.NRGBA) color.NRGBA {
	mix := func(v, g uint8) uint8 {
		return uint8((int(v)*int(veil.A) + int(g)*(255-int(veil.A))) / 255)
	}
	return color.NRGBA{mix(veil.R, ground.R), mix(veil.G, ground.G), mix(veil.B, ground.B), 255}
}

func seenBy(m [3][3]float64, c color.NRGBA) [3]float64 {
	in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	var out [3]float64
	for i := range m {
		for j := range in {
			out[i] += m[i][j] * in[j]
		}
		out[i] = math.Max(0, out[i])
	}
	return out
}

// distance is Euclidean in OKLab (Ottosson 2020), from linear sRGB.
func distance(a, b [3]float64) float64 {
	p, q := okLab(a), okLab(b)
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

func okLab(c [3]float64) [3]float64 {
	l := math.Cbrt(0.4122214708*c[0] + 0.5363325363*c[1] + 0.0514459929*c[2])
	m := math.Cbrt(0.2119034982*c[0] + 0.6806995451*c[1] + 0.1073969566*c[2])
	s := math.Cbrt(0.0883024619*c[0] + 0.2817188376*c[1] + 0.6299787005*c[2])
	return [3]float64{
		0.2104542553*l + 0.7936177850*m - 0.0040720468*s,
		1.9779984951*l - 2.4285922050*m + 0.4505937099*s,
		0.0259040371*l + 0.7827717662*m - 0.8086757660*s,
	}
}
