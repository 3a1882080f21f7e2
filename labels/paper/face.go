package paper

import (
	"fmt"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"lungwort/labels/typeface"
)

// face is a weight and a size of our typeface.
type face struct {
	bold bool
	size float64 // points
}

// The faces in use. Nothing a driver reads standing is under 9 points.
var (
	tiny    = face{size: 7}
	small   = face{size: 9}
	body    = face{size: 10.5}
	strong  = face{size: 10.5, bold: true}
	caption = face{size: 9, bold: true}
	heading = face{size: 13, bold: true}
	title   = face{size: 18, bold: true}
)

// leading is the distance between two lines of text.
func (f face) leading() MM { return MM(f.size * 1.25 / pointsPerMM) }

// ascent is the distance from the top of a line to its baseline; 0.76 em is
// the height of DejaVu's capitals and ascenders, the rest is air.
func (f face) ascent() MM { return MM(f.size * 0.97 / pointsPerMM) }

// width is the printed length of text that clean has passed.
func (f face) width(text string) MM {
	m := metrics()
	table := &m.regular
	if f.bold {
		table = &m.bold
	}
	var sum int
	for _, r := range text {
		if r < planeEnd {
			sum += int(table[r])
		}
	}
	return MM(float64(sum) * f.size / 1000 / pointsPerMM)
}

// planeEnd is the first rune outside the basic plane; the PDF library can't
// hold such runes.
const planeEnd = 0x10000

// typeMetrics holds, rune by rune, the advance in thousandths of an em of both
// weights, and whether both have a glyph that reads right without shaping.
type typeMetrics struct {
	regular, bold [planeEnd]uint16
	shown         [planeEnd]bool
}

// unshaped lists scripts our fonts hold letters of but that come out wrong when
// letters are set one by one from left to right.
var unshaped = []*unicode.RangeTable{
	unicode.Arabic, unicode.Hebrew, unicode.Lao, unicode.Nko, unicode.Syriac, unicode.Thaana,
}

// metrics reads the two embedded fonts once.
var metrics = sync.OnceValue(func() *typeMetrics {
	m := new(typeMetrics)
	var inBold [planeEnd]bool
	readAdvances(typeface.Regular, &m.regular, &m.shown)
	readAdvances(typeface.Bold, &m.bold, &inBold)
	for r := range m.shown {
		m.shown[r] = m.shown[r] && inBold[r] && !unicode.In(rune(r), unshaped...)
	}
	return m
})

// readAdvances fills the advances of a font and marks the runes it shows.
func readAdvances(file []byte, advances *[planeEnd]uint16, shown *[planeEnd]bool) {
	parsed, err := sfnt.Parse(file)
	if err != nil { // the font is part of the program: only a broken build comes here
		panic(fmt.Sprintf("paper: embedded font: %v", err))
	}
	var buf sfnt.Buffer
	for r := rune(' '); r < planeEnd; r++ {
		glyph, err := parsed.GlyphIndex(&buf, r)
		if err != nil || glyph == 0 {
			continue
		}
		advance, err := parsed.GlyphAdvance(&buf, glyph, fixed.I(1000), font.HintingNone)
		if err != nil {
			continue
		}
		shown[r] = true
		advances[r] = uint16(advance.Round())
	}
}
