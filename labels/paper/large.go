package paper

import "lungwort/labels/scene"

// What a paper for the kitchen table is made of: letters that a person of
// eighty reads without glasses, and a picture before the words.

// The faces of a household's paper. Nothing there is under 14 points but the
// frame of the page.
var (
	large       = face{size: 14}
	largeStrong = face{size: 14, bold: true}
	largeHead   = face{size: 20, bold: true}
	largest     = face{size: 28, bold: true}
)

// largeText sets text over the full width, flowing to further pages.
func (s *sheet) largeText(f face, text string) {
	s.say(f, text)
	s.y += 1.5
}

// largeHeading opens a part, keeping so much of it on the same page.
func (s *sheet) largeHeading(text string, follow MM) {
	lines := s.lines(largeHead, text, s.width(), 3)
	s.need(MM(len(lines))*largeHead.leading() + follow + 4)
	s.y += 3
	for _, line := range lines {
		s.words(s.left(), s.y, largeHead, line)
		s.y += largeHead.leading()
	}
	s.y += 1.5
}

// drawnStep is a drawing with its words.
type drawnStep struct {
	drawing scene.HowTo
	figure  string // in the drawing
	words   string
}

const (
	pictureWide = MM(scene.HowToWide / pointsPerMM)
	pictureTall = MM(scene.HowToTall / pointsPerMM)
)

// steps sets drawings two beside each other in the order in which to do them,
// each with its number and its words under it.
func (s *sheet) steps(steps []drawnStep) {
	const gap MM = 8
	wide := (s.width() - gap) / 2
	for from := 0; from < len(steps); from += 2 {
		pair := steps[from:min(from+2, len(steps))]
		var tall MM
		for _, step := range pair {
			tall = max(tall, said{large, step.words}.height(s.document, wide))
		}
		s.need(pictureTall + tall + 5)
		for i, step := range pair {
			x := s.left() + MM(i)*(wide+gap)
			s.number(x, s.y, from+i+1)
			s.picture(x+wide-pictureWide, s.y, step.drawing.Draw(step.figure))
			said{large, step.words}.draw(s.document, x, s.y+pictureTall+1.5, wide)
		}
		s.y += pictureTall + tall + 6
	}
}

// number sets the number of a step white on black.
func (s *sheet) number(x, y MM, n int) {
	const side MM = 14
	s.ground(x, y, side, side, black)
	text := string(rune('0' + n%10))
	s.wordsOn(x+(side-largest.width(text))/2, y+0.6, largest, white, text)
}

// pictured sets a drawing with its words to the right.
func (s *sheet) pictured(p drawnStep) {
	wide := s.width() - pictureWide - 5
	words := said{large, p.words}
	tall := max(pictureTall, words.height(s.document, wide))
	s.need(tall + 3)
	s.picture(s.left(), s.y, p.drawing.Draw(p.figure))
	words.draw(s.document, s.left()+pictureWide+5, s.y+1, wide)
	s.y += tall + 3
}

// numbered sets sentences under each other, each with its number.
func (s *sheet) numbered(sentences []string) {
	const indent MM = 9
	for i, text := range sentences {
		words := said{large, text}
		tall := words.height(s.document, s.width()-indent)
		s.need(tall + 1.5)
		s.words(s.left(), s.y, largeStrong, string(rune('1'+i)))
		words.draw(s.document, s.left()+indent, s.y, s.width()-indent)
		s.y += tall + 1.5
	}
}
