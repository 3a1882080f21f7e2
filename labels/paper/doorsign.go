package paper

import (
	"io"

	"lungwort/labels/scene"
	"lungwort/labels/tongue"
)

// DoorSign hangs at the door of a home with oxygen. It names nobody.
type DoorSign struct {
	Head
	Tongues      []tongue.Tongue // the household's first; at most two
	FireDistance string
}

// signFace is read from the street.
var signFace = face{size: 44, bold: true}

// Print writes the sign on one page.
func (d DoorSign) Print(w io.Writer) (Result, error) {
	for _, t := range d.Tongues {
		if err := setInFull(t); err != nil {
			return Result{}, err
		}
	}
	s, err := newSheet(d.Head, d.Format, "Door sign", "")
	if err != nil {
		return Result{}, err
	}
	if len(d.Tongues) > 0 {
		s.speak(d.Tongues[0])
	}
	s.newPage()
	const side = 300.0 // points
	s.picture((s.page.Width-MM(mm(side)))/2, s.y, scene.NoSmokingSign(side))
	s.y += MM(mm(side)) + 5
	for i, t := range d.Tongues {
		title, words := signFace, largeHead
		if i > 0 || len(t.Say("sign.title")) > 24 {
			title, words = largest, largeStrong
		}
		s.centred(title, t.Say("sign.title"))
		s.centred(words, t.Say("sign.no"))
		s.centred(largeStrong, t.Say("sign.caution", "distance", d.FireDistance))
		s.centred(largeStrong, t.Say("sign.fire", "emergency", d.Emergency))
		s.y += 4
	}
	return s.finish(w)
}

// centred sets text in the middle of the page.
func (s *sheet) centred(f face, text string) {
	for _, line := range s.lines(f, text, s.width(), 4) {
		s.words((s.page.Width-f.width(line))/2, s.y, f, line)
		s.y += f.leading()
	}
}
