package calls

import (
	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/ui/work"
)

// Numbers are the numbers to call, the one to try now marked.
func (m *Model) Numbers() []Number {
	list := make([]Number, len(m.in.Person.Phones))
	for i := range m.in.Person.Phones {
		number, whose := paperwork.Number(m.in.Person, i)
		if whose == "" && i > 0 {
			whose = "or"
		}
		list[i] = Number{Text: number, Chosen: i == m.contact}
		if whose != "" {
			list[i].Text = whose + " " + number
		}
	}
	return list
}

// OtherNumber turns to the person's next number.
func (m *Model) OtherNumber() {
	if n := len(m.in.Person.Phones); n > 1 {
		m.contact = (m.contact + 1) % n
		m.Changed()
	}
}

// Mind is what to know before dialling: language, note, who else is there, why
// the call is made, what it has to ask.
func (m *Model) Mind() []string {
	c := m.in
	var mind []string
	if c.Person.Language != "" {
		mind = append(mind, "Speaks "+c.Person.Language)
	}
	if c.Person.Note != "" {
		mind = append(mind, c.Person.Note)
	}
	if c.Call.Why != "" {
		mind = append(mind, c.Call.Why)
	}
	if m.List == Hot {
		mind = append(mind, delivery.HeatScript)
	}
	for _, a := range c.Asks {
		if a != c.Call.Why {
			mind = append(mind, "ask for "+a)
		}
	}
	return mind
}

// previous are the last calls and what was told on, newest first.
func (m *Model) previous() []string {
	const shown = 5
	var lines []string
	for _, e := range delivery.Timeline(m.page.Facts) {
		switch e.Statement.(type) {
		case *delivery.Called, *delivery.Escalated:
			if e.Corrected == "" && len(lines) < shown {
				lines = append(lines, delivery.Clock(e.Happened, m.now)+" "+e.Words)
			}
		}
	}
	return lines
}

// OpenPage goes to the person's page.
func (m *Model) OpenPage() {
	if m.Has() {
		m.work.Open(work.Target{Room: work.Person, Person: m.in.Person.ID})
	}
}

// Night turns the call into one about gas that ends.
func (m *Model) Night() {
	if m.Has() {
		m.work.Open(work.Target{Room: work.Night, Person: m.in.Person.ID})
	}
}

// Alarm turns the call into one about a machine that beeps.
func (m *Model) Alarm() {
	if m.Has() {
		m.work.Open(work.Target{Room: work.Alarm, Person: m.in.Person.ID})
	}
}
