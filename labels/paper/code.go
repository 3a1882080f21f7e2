package paper

import (
	"fmt"
	"math"
	"strconv"

	"github.com/skip2/go-qrcode"

	"lungwort/inventory/refusal"
)

// DPI is a printer's resolution in dots per inch.
type DPI int

// The resolutions of label printers.
const (
	DPI203 DPI = 203
	DPI300 DPI = 300
)

// dot is the width of one printer dot.
func (d DPI) dot() MM { return MM(mmPerInch / float64(d)) }

// Level is how much of a QR code may be lost before it can't be read
// (ISO/IEC 18004: L 7 %, M 15 %, Q 25 %, H 30 %).
type Level int

// The four levels, weakest first.
const (
	LevelL Level = iota
	LevelM
	LevelQ
	LevelH
)

// recovery gives the encoder's names for the levels, which differ from the
// standard's.
var recovery = [...]qrcode.RecoveryLevel{qrcode.Low, qrcode.Medium, qrcode.High, qrcode.Highest}

// quietZone is the empty border a QR code needs, in modules (ISO/IEC 18004).
const quietZone = 4

// Module widths, common practice, no source: phones and hand scanners read
// half a millimetre at arm's length; under a quarter they need luck.
const (
	easyModule  MM = 0.5
	leastModule MM = 0.25
)

// Matrix returns the modules of the smallest QR code that holds payload, true
// for dark, without the quiet zone. A payload must be printable ASCII, since
// readers disagree about everything else.
func Matrix(payload string, level Level) ([][]bool, error) {
	if payload == "" || !isPlain(payload) {
		return nil, refusal.New(refusal.Invalid,
			fmt.Sprintf("A code can't hold %q: it needs plain letters, digits and signs.", payload), "Print the tag without accents or line ends.")
	}
	if level < LevelL || level > LevelH {
		return nil, refusal.New(refusal.Internal, fmt.Sprintf("There is no QR error level %d.", level), "")
	}
	encoded, err := qrcode.New(payload, recovery[level])
	if err != nil {
		return nil, refusal.New(refusal.Invalid,
			fmt.Sprintf("%d characters are too many for one QR code.", len(payload)), "Shorten the payload.").Because(err)
	}
	encoded.DisableBorder = true // must be set before the bitmap is first asked for
	return encoded.Bitmap(), nil
}

// code is a QR code sized for a printer: its module is a whole number of dots.
type code struct {
	modules [][]bool
	dpi     DPI
	dots    int // of one module
}

// side is the width of the code with its quiet zone.
func (c code) side() MM {
	return MM(float64((len(c.modules)+2*quietZone)*c.dots)) * c.dpi.dot()
}

// fitCode returns the code of the strongest level whose modules still read
// easily within a square of the given side; if none does, the one with the
// largest modules.
func fitCode(payload string, side MM, dpi DPI) (code, error) {
	best := code{dpi: dpi}
	for level := LevelH; level >= LevelL; level-- {
		modules, err := Matrix(payload, level)
		if err != nil {
			if level > LevelL {
				continue // a weaker level holds more
			}
			if best.dots == 0 {
				return code{}, err
			}
			break
		}
		across := float64(len(modules) + 2*quietZone)
		dots := int(math.Floor(float64(side/dpi.dot())/across + 1e-9))
		if dots > best.dots {
			best.modules, best.dots = modules, dots
		}
		if MM(dots)*dpi.dot() >= easyModule {
			break
		}
	}
	if MM(best.dots)*dpi.dot() < leastModule {
		return code{}, refusal.New(refusal.Invalid,
			fmt.Sprintf("The code %q doesn't fit %.0f mm at %d dpi: its squares would be too small to scan.", payload, side, dpi),
			"Choose a larger label or a finer printer.")
	}
	return best, nil
}

// draw returns the code as PDF operators with its upper left corner, quiet
// zone included, snapped to the printer's dots near x, y. Each horizontal run
// of dark modules is a rectangle filled by itself: readers of PDF snap those
// to whole pixels, and blur what they find inside one large path. Coordinates
// are whole modules under one transformation, so no rounding opens a gap.
func (c code) draw(x, y, pageHeight MM) []byte {
	dot := pointsPerInch / float64(c.dpi)
	module := float64(c.dots) * dot
	left := math.Round(float64(x/c.dpi.dot()))*dot + quietZone*module
	top := float64(pageHeight)*pointsPerMM - math.Round(float64(y/c.dpi.dot()))*dot - quietZone*module

	out := []byte("q 0 g ")
	for _, v := range [...]float64{module, 0, 0, -module, left, top} {
		out = append(strconv.AppendFloat(out, v, 'f', 4, 64), ' ')
	}
	out = append(out, "cm\n"...)
	for row, modules := range c.modules {
		for from := 0; from < len(modules); from++ {
			to := from
			for to < len(modules) && modules[to] {
				to++
			}
			if to > from {
				out = fmt.Appendf(out, "%d %d %d 1 re f\n", from, row, to-from)
				from = to
			}
		}
	}
	return append(out, "Q"...)
}
