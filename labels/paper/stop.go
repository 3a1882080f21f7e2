package paper

import (
	"fmt"
	"strings"
)

// stop prints one stop on pages of its own: the door, the work, the person,
// the proof.
func (s *sheet) stop(p Stop, last int, r RunSheet) {
	s.again = ""
	s.newPage()
	s.again = fmt.Sprintf("Stop %d of %d  ·  %s", p.Number, last, p.Name)
	s.stopTimes(p, last)
	s.stopPerson(p)
	s.stopNotes(p)
	s.doNotTouch(p.DoNotTouch)
	s.tasks(p.Tasks)
	if p.leaves() {
		s.safetyLook(r.FireDistance)
	}
	if p.takes() {
		s.collection()
	}
	s.failed()
	s.inside(p)
	s.again = ""
}

// leaves reports whether anything stays in the house.
func (p Stop) leaves() bool {
	for _, t := range p.Tasks {
		if t.Work != Collect {
			return true
		}
	}
	return false
}

// takes reports whether anything leaves the house.
func (p Stop) takes() bool {
	for _, t := range p.Tasks {
		if t.Work != Drop {
			return true
		}
	}
	return false
}

// stopTimes is the top line: which stop, when, and until when it matters.
func (s *sheet) stopTimes(p Stop, last int) {
	name := fmt.Sprintf("Stop %d of %d", p.Number, last)
	s.words(s.left(), s.y+1, title, name)
	times := []fact{{"planned", momentBeside(p.Planned, p.Planned)}, {"promised", p.promised()}}
	if p.Allowed > 0 {
		times = append(times, fact{"allowed", span(p.Allowed)})
	}
	const gap MM = 7
	x := s.left() + title.width(name) + gap
	for _, t := range times {
		s.wordsOn(x, s.y, small, mid, t.word)
		s.fitted(x, s.y+small.leading()-0.3, heading, s.right()-actByWide-2-x, t.value)
		x += max(heading.width(t.value), small.width(t.word)) + gap
	}
	s.actBy(p)
	s.y += 13
	s.rule(s.left(), s.y-1, s.right(), s.y-1, 0.6, black)
}

// actByWide holds a weekday, a date and a time.
const actByWide MM = 48

// actBy stands white on black, so that nobody takes it for a plan.
func (s *sheet) actBy(p Stop) {
	if p.ActBy.IsZero() {
		return
	}
	x := s.right() - actByWide
	s.ground(x, s.y-0.8, actByWide, 11.6, black)
	s.wordsOn(x+2, s.y-0.3, caption, white, "ACT BY")
	s.wordsOn(x+2, s.y+small.leading()-0.6, heading, white, fit(heading, momentBeside(p.ActBy, p.Planned), actByWide-3))
}

// stopPerson says whom the driver must find, and how to be sure.
func (s *sheet) stopPerson(p Stop) {
	const rightWide MM = 72
	leftWide := s.width() - rightWide - 4
	x, y := s.left()+leftWide+4, s.y
	s.y += s.paragraph(s.left(), s.y, title, leftWide, p.Name, 2)
	s.y += s.paragraph(s.left(), s.y, heading, leftWide, strings.Join(p.Identifiers, "  ·  "), 3) + 0.5
	s.tick(s.left(), s.y)
	s.y += s.paragraph(s.left()+tickSide+tickGap, s.y, caption, leftWide-6, "asked and matched. If not: leave nothing, ring the desk.", 2) + 1.5
	for _, line := range p.Address[:min(len(p.Address), 6)] {
		s.y += s.paragraph(s.left(), s.y, heading, leftWide, line, 2)
	}
	for _, phone := range p.Phones[:min(len(p.Phones), 5)] {
		s.fitted(x, y, heading, rightWide, phone.Number)
		y += heading.leading() - 0.6
		s.fitted(x, y, small, rightWide, phone.Whose)
		y += small.leading() + 0.6
	}
	if p.Order != "" {
		s.wordsOn(x, y, small, mid, "ordered flow (the clinician decides)")
		y += small.leading()
		y += s.paragraph(x, y, strong, rightWide, p.Order, 4)
	}
	s.y = max(s.y, y) + 1
}

// stopNotes are the words before the door: only those there are.
func (s *sheet) stopNotes(p Stop) {
	var rows [][]cell
	for _, n := range []fact{
		{"language", p.Language}, {"access", p.Access}, {"pets", p.Pets}, {"smoking, flame", p.Smoker}, {"note", p.Note},
	} {
		if n.value != "" {
			rows = append(rows, []cell{said{caption, n.word}, said{body, n.value}})
		}
	}
	if len(rows) == 0 {
		return
	}
	columns := []column{{"", 30}, {"", s.width() - 30}}
	s.rule(s.left(), s.y, s.right(), s.y, tableRule, black)
	for _, row := range rows {
		tall := s.rowHeight(columns, row) - 0.8
		s.need(tall)
		s.tableRow(columns, row, tall)
	}
}

// doNotTouch warns of what belongs to somebody else in the house.
func (s *sheet) doNotTouch(others []OtherItem) {
	const label MM = 40
	for _, o := range others {
		name := said{strong, strings.Join(present(o.Tag, o.Serial, o.What), "  ·  ")}
		why := said{body, o.Why}
		wide := s.width() - label - 4
		tall := stack{name, why}.height(s.document, wide) + 3
		s.need(tall + 2)
		s.y += 1.5
		s.ground(s.left(), s.y, label, tall, black)
		s.wordsOn(s.left()+2, s.y+(tall-strong.leading())/2, strong, white, "DO NOT TOUCH")
		s.box(s.left(), s.y, s.width(), tall, 0.9)
		stack{name, why}.draw(s.document, s.left()+label+2, s.y+1.5, wide)
		s.y += tall
	}
}

// present drops the empty texts.
func present(texts ...string) []string {
	var kept []string
	for _, text := range texts {
		if text != "" {
			kept = append(kept, text)
		}
	}
	return kept
}

// tasks lists the work with the codes to scan and room for what is found.
func (s *sheet) tasks(tasks []Task) {
	s.heading("To do", 28)
	if len(tasks) == 0 {
		s.say(strong, "Nothing is set aside for this stop: do what the note says, see that all is well, read the gauges.")
		return
	}
	columns := []column{{"done", 12}, {"", 25}, {"item", s.width() - 119}, {"code", 20}, {"gauge", 21}, {"hours", 21}, {"flaw, soil", 20}}
	var rows [][]cell
	add := func(word string, i Item) {
		count := i.What
		if i.quantity() > 1 {
			count = fmt.Sprintf("%d × %s", i.Quantity, i.What)
		}
		serial := ""
		if i.Serial != "" {
			serial = "serial " + i.Serial
		}
		rows = append(rows, []cell{
			ticked{}, said{strong, word},
			stack{said{heading, i.Tag}, said{body, count}, said{small, serial}},
			coded{i.Code, 15}, space{7}, space{7}, space{7},
		})
	}
	for _, t := range tasks {
		switch t.Work {
		case Drop:
			add("LEAVE", t.Leave)
		case Collect:
			add("TAKE", t.Take)
		case Swap:
			add("SWAP: leave", t.Leave)
			add("SWAP: take", t.Take)
		}
	}
	s.table(columns, rows)
}
