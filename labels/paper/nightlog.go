package paper

import (
	"slices"
	"strconv"
	"strings"
)

// finder lists the names in order with the number of their row, since callers
// say their name and not their urgency.
func (s *sheet) finder(households []Household) {
	type entry struct {
		name, street string
		number       int
	}
	entries := make([]entry, len(households))
	for i, h := range households {
		entries[i] = entry{h.Name, h.Street, i + 1}
	}
	slices.SortStableFunc(entries, func(a, b entry) int {
		return strings.Compare(strings.ToLower(lastWordFirst(a.name)), strings.ToLower(lastWordFirst(b.name)))
	})
	const columns = 4
	wide := s.width() / columns
	s.heading("Names in order, with their number in this pack", 20)
	for len(entries) > 0 {
		rows := max(int((s.bottom()-s.y)/rowFace.leading()), 1)
		rows = min(rows, (len(entries)+columns-1)/columns)
		top := s.y
		for i, e := range entries[:min(len(entries), rows*columns)] {
			x, y := s.left()+MM(i/rows)*wide, top+MM(i%rows)*rowFace.leading()
			s.words(x, y, caption, strconv.Itoa(e.number))
			s.fitted(x+10, y, rowFace, wide-12, strings.Join(present(lastWordFirst(e.name), e.street), " · "))
		}
		entries = entries[min(len(entries), rows*columns):]
		s.y = top + MM(rows)*rowFace.leading()
		if len(entries) > 0 {
			s.newPage()
		}
	}
}

// lastWordFirst turns "Ines Achterberg" into "Achterberg, Ines".
func lastWordFirst(name string) string {
	words := strings.Fields(name)
	if len(words) < 2 || strings.Contains(name, ",") {
		return name
	}
	last := len(words) - 1
	return words[last] + ", " + strings.Join(words[:last], " ")
}

// nightLog is a page to write on, keyed in on the next day with its true times.
func (s *sheet) nightLog() {
	s.newPage()
	s.words(s.left(), s.y, heading, "What happened tonight (key it in tomorrow, with these times)")
	s.y += heading.leading()
	s.say(body, "Ask: who is there; which cylinder, gauge and unit; flow set now; does the machine run; other cylinders; smoking or flame near. "+
		"Breathless, or gas at its end: emergency number first, then the clinician, then the van.")
	s.y += 1
	columns := []column{
		{"time", 20}, {"no.", 14}, {"who rang", 38}, {"gauge, unit", 27}, {"flow now", 22}, {"machine", 22},
		{"said and done", s.width() - 203}, {"ring again", 26}, {"by", 18}, {"keyed", 16},
	}
	var rows [][]cell
	for range int((s.bottom() - s.y - s.headerHeight()) / 11) {
		row := make([]cell, len(columns))
		for i := range row {
			row[i] = space{11 - 2*cellPad - 0.01}
		}
		row[len(row)-1] = ticked{}
		rows = append(rows, row)
	}
	s.table(columns, rows)
}
