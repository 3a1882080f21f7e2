package scene

// Sign is what the last scan came to. Its word is read from two metres, its
// shape by who sees no colour.
type Sign struct {
	Verdict string // one of the five verdicts; it chooses shape and colour
	Word    string // huge: "BENCH", "ASK", "STOP"
	Below   string // one line under it
}

// SignHeight is the height of a sign in points: its word is about 11 mm high
// on a desk's screen, twice what the eye needs at two metres.
const SignHeight = 84

// Draw draws the sign w points wide and h high.
func (s Sign) Draw(w, h float64) Scene {
	out, ink := Scene{W: w, H: h}, VerdictInk(s.Verdict)
	out.add(
		Bar{W: w, H: h, Round: 5, Ink: Panel},
		Frame{X: 1.5, Y: 1.5, W: w - 3, H: h - 3, Round: 5, Width: 3, Ink: ink},
		Words{X: h + 4, Y: h * 0.60, Size: 42, Bold: true, Text: s.Word, Ink: ink},
		Words{X: h + 5, Y: h * 0.86, Size: 14, Bold: true, Text: s.Below, Ink: Text})
	out.Place(VerdictMark(s.Verdict, h*0.6), h*0.2, h*0.2)
	return out
}
