package paper

import (
	"io"

	"lungwort/labels/tongue"
)

// ItemTag goes with one thing through the depot: what it is, how it stands, what
// is to be done with it and who did it. It names no person.
type ItemTag struct {
	Head
	Tongue tongue.Tongue // of the depot; none is English
	Word   string        // "HOLD", read across the room
	Says   string        // what that means, "not to be lent, filled or used"
	Held   bool          // a heavy frame goes round it: nobody takes it by mistake
	Thing  Item
	Facts  []TagFact
	Steps  []string // boxes to tick
	Blank  []string // boxes to write in
	Sign   string   // what the signature says; empty: none
}

// TagFact is a word and its value on an item's tag.
type TagFact struct{ Word, Value string }

// wordFace is read across a room.
var wordFace = face{size: 64, bold: true}

// Print writes the tag on one page.
func (t ItemTag) Print(w io.Writer) (Result, error) {
	return ItemTags{t.Head, t.Tongue, []ItemTag{t}}.Print(w)
}

// ItemTags are the tags of several things, a page each.
type ItemTags struct {
	Head
	Tongue tongue.Tongue // of the depot; none is English
	Tags   []ItemTag
}

// Print writes the tags.
func (t ItemTags) Print(w io.Writer) (Result, error) {
	s, err := spokenSheet(t.Head, t.Tongue, "Tag", "")
	if err != nil {
		return Result{}, err
	}
	for _, tag := range t.Tags {
		s.head.Code, s.title, s.again = tag.Code, tag.Word, ""
		s.newPage()
		s.itemTag(tag)
	}
	return s.finish(w)
}

func (s *sheet) itemTag(t ItemTag) {
	top := s.y
	s.y += 3
	s.centred(wordFace, t.Word)
	s.centred(largeHead, t.Says)
	s.y += 3
	const side MM = 40
	s.code(s.right()-side-4, s.y, side, t.Thing.Code)
	wide := s.width() - side - 10
	beside := s.y + side
	for _, line := range []said{{largest, t.Thing.Tag}, {largeHead, t.Thing.What}, {largeHead, t.Thing.Serial}} {
		if line.text != "" {
			line.draw(s.document, s.left()+4, s.y, wide)
			s.y += line.height(s.document, wide) + 1
		}
	}
	s.y = max(s.y, beside) + 3
	if t.Held {
		s.box(s.left(), top, s.width(), s.y-top, 2.4)
		s.y += 3
	}
	for _, f := range t.Facts {
		if f.Value != "" {
			s.need(large.leading() + small.leading())
			s.wordsOn(s.left(), s.y, small, mid, f.Word)
			s.y += small.leading()
			s.say(largeStrong, f.Value)
			s.y += 1
		}
	}
	if len(t.Steps) > 0 {
		s.heading(s.tongue.Say("tag.steps"), 14)
		s.ticks(t.Steps, 2)
	}
	if len(t.Blank) > 0 {
		var row []blank
		for _, word := range t.Blank {
			row = append(row, blank{word, 60})
		}
		s.y += 1
		s.blanks(row, 14)
	}
	if t.Sign != "" {
		s.heading(t.Sign, 16)
		s.blanks([]blank{{s.tongue.Say("tag.name"), 80}, {s.tongue.Say("tag.signature"), 80}, {s.tongue.Say("sign.when"), 40}}, 14)
	}
}
