package scene

import "slices"

// The five verdicts, as every screen, sheet and command words them.
const (
	Holds   = "holds"
	Tight   = "tight"
	Short   = "short"
	Dry     = "dry"
	Unknown = "unknown"
)

// VerdictInk returns the ink of a verdict; a word that is none is unsure.
func VerdictInk(verdict string) Ink {
	switch verdict {
	case Holds:
		return Fine
	case Tight:
		return Caution
	case Short, Dry:
		return Alarm
	default:
		return Unsure
	}
}

// urgency orders verdicts as lists do: holds, tight, unknown, short, dry.
func urgency(verdict string) int {
	return slices.Index([]string{Holds, Tight, Unknown, Short, Dry}, verdict)
}

// VerdictMark draws the shape of a verdict, size points square, so that no
// verdict is told by its colour alone: a ring holds, a diamond is tight, a
// triangle pointing down is short, a filled square with a cross in it is dry,
// a dashed square is unknown.
func VerdictMark(verdict string, size float64) Scene {
	s := Scene{W: size, H: size}
	ink, mid, in := VerdictInk(verdict), size/2, size*0.08
	far := size - in
	switch verdict {
	case Holds:
		s.add(Ring{X: mid, Y: mid, R: mid - size*0.14, Width: size * 0.18, Ink: ink})
	case Tight:
		s.add(Polygon{Points: []Point{{mid, 0}, {size, mid}, {mid, size}, {0, mid}}, Ink: ink})
	case Short:
		s.add(Polygon{Points: []Point{{0, in}, {size, in}, {mid, far}}, Ink: ink})
	case Dry:
		arm := size * 0.26
		s.add(
			Bar{X: in, Y: in, W: far - in, H: far - in, Ink: ink},
			Line{arm, arm, size - arm, size - arm, size * 0.13, Ground, 0},
			Line{arm, size - arm, size - arm, arm, size * 0.13, Ground, 0},
		)
	default:
		s.add(Frame{X: 1.5 * in, Y: 1.5 * in, W: size - 3*in, H: size - 3*in, Width: size * 0.14, Ink: ink, Dash: size * 0.19})
	}
	return s
}
