package paper

// What a form is made of: words over values, cautions, boxes to tick and boxes
// to write in.

// fact is a word and its value.
type fact struct{ word, value string }

// facts sets words over values in the given number of columns.
func (s *sheet) facts(facts []fact, columns int) {
	wide := s.width()/MM(columns) - 3
	for from := 0; from < len(facts); from += columns {
		row := facts[from:min(from+columns, len(facts))]
		var tall MM
		for _, f := range row {
			tall = max(tall, MM(len(s.lines(heading, f.value, wide, 2)))*heading.leading())
		}
		s.need(small.leading() + tall + 0.5)
		for i, f := range row {
			x := s.left() + MM(i)*(wide+3)
			s.wordsOn(x, s.y, small, mid, f.word)
			s.paragraph(x, s.y+small.leading()-0.3, heading, wide, f.value, 2)
		}
		s.y += small.leading() + tall + 0.5
	}
}

// notice sets a caution in a frame over the full width.
func (s *sheet) notice(text string) {
	const pad MM = 2
	lines := s.lines(caption, text, s.width()-2*pad, cellLines)
	tall := MM(len(lines))*caption.leading() + 2*pad - 0.5
	s.need(tall + 2)
	s.y += 1
	s.box(s.left(), s.y, s.width(), tall, 0.5)
	s.paragraph(s.left()+pad, s.y+pad-0.2, caption, s.width()-2*pad, text, cellLines)
	s.y += tall + 1
}

// ticks sets boxes to tick with their texts in columns, row by row.
func (s *sheet) ticks(texts []string, columns int) {
	wide := s.width() / MM(columns)
	for from := 0; from < len(texts); from += columns {
		row := texts[from:min(from+columns, len(texts))]
		var tall MM
		for _, text := range row {
			tall = max(tall, ticked{said{body, text}}.height(s.document, wide-3))
		}
		s.need(tall + 0.8)
		for i, text := range row {
			ticked{said{body, text}}.draw(s.document, s.left()+MM(i)*wide, s.y, wide-3)
		}
		s.y += tall + 0.8
	}
}

// blank is a box to write in by hand, with its word in the corner.
type blank struct {
	word string
	wide MM
}

// blanks sets boxes side by side; what is wider than the page is narrowed
// evenly.
func (s *sheet) blanks(row []blank, tall MM) {
	s.need(tall + 1)
	var sum MM
	for _, b := range row {
		sum += b.wide
	}
	scale := s.width() / sum
	x := s.left()
	for _, b := range row {
		wide := b.wide * scale
		s.box(x, s.y, wide, tall, 0.35)
		s.fitted(x+1, s.y+0.5, tiny, wide-2, b.word)
		x += wide
	}
	s.y += tall + 1
}
