package paper

import (
	"io"
	"strconv"

	"lungwort/inventory/refusal"
	"lungwort/labels/tongue"
)

// HomeLetter is a letter to a household about things we lent: a recall, or what can
// come home. It speaks the household's language, asks, and never demands.
type HomeLetter struct {
	Head
	Tongue  tongue.Tongue
	Name    string
	Address []string
	Title   string
	Before  []string // what is the matter, a paragraph each
	Things  []LeafletThing
	Valued  bool     // says what each thing is worth, or has room to write it
	After   []string // what is asked, and what to do until then
	Reply   []string // boxes to tick on the slip that comes back; empty: no slip
	Phone   string   // whom to ring about it
}

// Print writes the letter.
func (l HomeLetter) Print(w io.Writer) (Result, error) {
	return HomeLetters{l}.Print(w)
}

// HomeLetters are letters to several households, in one file: each begins on a
// page of its own and counts its own pages.
type HomeLetters []HomeLetter

// Print writes the letters one after another.
func (all HomeLetters) Print(w io.Writer) (Result, error) {
	var s *sheet
	for _, l := range all {
		next, err := spokenSheet(l.Head, l.Tongue, "Letter", "letter.frame")
		if err != nil {
			return Result{}, err
		}
		first := 1
		if s != nil {
			next.document, first = s.document, s.pdf.PageCount()+1
		}
		s = next
		s.letter(l)
		s.feet(first)
	}
	if s == nil {
		return Result{}, refusal.New(refusal.NotFound, "There is no letter to print.", "")
	}
	return s.write(w)
}

func (s *sheet) letter(l HomeLetter) {
	say := s.tongue.Say
	s.newPage()
	for _, line := range append([]string{l.Name}, l.Address[:min(len(l.Address), 6)]...) {
		s.say(largeStrong, line)
	}
	s.y += 2
	s.largeText(large, s.tongue.Day(l.Printed))
	s.largeHeading(l.Title, 30)
	for _, text := range l.Before {
		s.largeText(large, text)
	}
	s.letterThings(l)
	for _, text := range l.After {
		s.largeText(large, text)
	}
	if l.Phone != "" {
		s.ringLine(Phone{Whose: say("letter.ring"), Number: l.Phone})
	}
	s.emergencyBox(l.Emergency, say("ring.emergency"))
	s.say(largeStrong, l.Programme)
	if len(l.Reply) > 0 {
		s.replySlip(l)
	}
}

// letterThings lists what the letter is about.
func (s *sheet) letterThings(l HomeLetter) {
	if len(l.Things) == 0 {
		return
	}
	say := s.tongue.Say
	columns := []column{{say("kit.what"), s.width() - 108}, {say("kit.tag"), 42}, {say("kit.serial"), 42}, {say("kit.count"), 24}}
	if l.Valued {
		columns[3].heading = say("letter.worth")
	}
	var rows [][]cell
	for _, t := range l.Things {
		last := cell(said{large, strconv.Itoa(t.quantity())})
		if l.Valued {
			last = space{8}
			if t.Worth != "" {
				last = said{large, t.Worth}
			}
		}
		rows = append(rows, []cell{said{large, t.Named(s.tongue)}, said{largeStrong, t.Tag}, said{large, t.Serial}, last})
	}
	s.table(columns, rows)
	s.y += 3
}

// replySlip is the part that comes back, with the paper's code beside it: a
// scan of it opens what the letter is about.
func (s *sheet) replySlip(l HomeLetter) {
	say := s.tongue.Say
	const beforeLines, blanksHigh MM = 7 + codeSide, 13
	high := beforeLines + blanksHigh
	for _, text := range l.Reply {
		high += said{large, text}.height(s.document, s.width()-7) + 1.5
	}
	s.need(high) // it is cut off in one piece
	s.y += 3
	for x := s.left(); x < s.right(); x += 4 { // to cut along
		s.rule(x, s.y, min(x+2, s.right()), s.y, 0.3, black)
	}
	s.y += 3
	if l.Code != "" {
		s.code(s.right()-codeSide, s.y, codeSide, l.Code)
	}
	top := s.y
	s.paragraph(s.left(), s.y, largeStrong, s.width()-codeSide-4, say("letter.reply"), 2)
	s.y = top + codeSide + 1
	for _, text := range l.Reply {
		words := said{large, text}
		s.tick(s.left(), s.y+1)
		words.draw(s.document, s.left()+7, s.y, s.width()-7)
		s.y += words.height(s.document, s.width()-7) + 1.5
	}
	s.blanks([]blank{{say("sign.name"), 80}, {say("sign.phone"), 50}, {say("sign.when"), 50}}, blanksHigh)
}
