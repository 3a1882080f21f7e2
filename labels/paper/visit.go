package paper

import "fmt"

// The questions of a visit are common practice of home oxygen supply, no
// single source; what is done about an answer is the programme's rule.

// inside is what is written down in the house, kept on one page where it can
// be, with what room is left for words to the desk.
func (s *sheet) inside(p Stop) {
	tall := 42 + 7*MM(len(p.Tasks))
	if p.leaves() {
		tall += 46
	}
	s.need(min(tall, 120))
	if p.leaves() {
		s.readings()
		s.teachBack()
	}
	s.proof(p)
	if room := s.bottom() - s.y - 2; room > 14 {
		s.blanks([]blank{{"for the desk: what was otherwise than planned", s.width()}}, min(room, 60))
	}
}

// safetyLook is what the driver looks at before any gas flows.
func (s *sheet) safetyLook(fireDistance string) {
	if fireDistance == "" {
		fireDistance = "the set distance"
	}
	s.heading("Safety look (tick what is right; if not, write it and ring the desk)", 16)
	s.ticks([]string{
		"smoke alarm works", "nobody smokes, vapes", "flame and heat " + fireDistance + " off",
		"own socket at the wall", "machine has air all round", "cylinders upright, secured",
		"tubing way is free, no trip", "way out is free", "no oil or petroleum products",
	}, 3)
}

// collection is what is seen to before a thing is carried out.
func (s *sheet) collection() {
	s.heading("Before carrying out", 16)
	s.ticks([]string{
		"valve shut, gauge read", "hours meter read", "only this person's things",
		"parts complete", "soiled: bagged, apart", "left behind: say why below",
	}, 3)
}

// readings is what the gauges and meters say once all is set up.
func (s *sheet) readings() {
	s.heading("Readings after warm-up", 13)
	s.blanks([]blank{
		{"time", 20}, {"gauge, unit", 32}, {"hours meter", 30}, {"oxygen %", 26}, {"flow set, L/min", 30}, {"backup gauge", 30}, {"alarm test", 22},
	}, 12)
}

// teachBack is ticked when the household has done it, one box a step, since
// opening the valve alone lets no gas out.
func (s *sheet) teachBack() {
	s.heading("Shown back to me, without help", 20)
	s.ticks([]string{"opened the valve", "set the flow", "felt the gas come"}, 3)
	s.blanks([]blank{{"shown back by", 70}, {"in which language", 60}, {"emergency numbers left with", 60}}, 10)
}

// proof is the household's signature for what was left and taken.
func (s *sheet) proof(p Stop) {
	name := "Proof of delivery"
	if !p.leaves() {
		name = "Receipt for what was taken"
	}
	s.heading(name+": the household signs, staff may not sign for them", 46)
	columns := []column{{"item", s.width() - 102}, {"tag or serial", 42}, {"planned", 20}, {"left", 20}, {"taken", 20}}
	var rows [][]cell
	add := func(i Item, leave bool) {
		name := i.Tag
		if name == "" {
			name = i.Serial
		}
		planned := fmt.Sprintf("leave %d", i.quantity())
		if !leave {
			planned = fmt.Sprintf("take %d", i.quantity())
		}
		rows = append(rows, []cell{said{small, i.What}, said{caption, name}, said{small, planned}, space{5}, space{5}})
	}
	for _, t := range p.Tasks {
		if t.Work != Collect {
			add(t.Leave, true)
		}
		if t.Work != Drop {
			add(t.Take, false)
		}
	}
	s.table(columns, rows)
	s.y += 1
	s.blanks([]blank{{"signature of the person or who acts for them", 80}, {"printed name", 60}, {"relationship", 30}, {"date and time", 30}}, 14)
}

// failed is filled in when the stop can't be done.
func (s *sheet) failed() {
	s.heading("If it can't be done: ring the desk before you leave the door", 34)
	s.ticks([]string{
		"nobody home", "no answer by phone", "wrong address", "identity not sure",
		"refused", "not safe to enter", "no way in, lift out", "road or ferry",
		"item wrong or faulty", "no shared language", "too late", "other",
	}, 4)
	s.blanks([]blank{{"at the door from", 30}, {"to", 25}, {"calls made to", 60}, {"gas left there, minutes", 40}, {"next try", 35}}, 10)
}
