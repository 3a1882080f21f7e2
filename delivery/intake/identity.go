package intake

import (
	"slices"

	"lungwort/delivery"
)

// bury asks about rows that call a person deceased: a stop is never taken
// from a word in a name.
func (r *reader) bury(p *person) {
	if p.known != nil && p.known.Care.Phase == delivery.Over {
		return
	}
	for _, e := range p.entries {
		if !e.name.deceased {
			continue
		}
		id := p.record
		if id == "" {
			id = p.name.key()
		}
		answer, ok := r.ask(e.line, Question{
			Key:  "deceased:" + id,
			Asks: e.line.where() + " calls " + p.name.shown() + " deceased. Does the oxygen count as stopped?",
			Choices: []Choice{
				{stopped, "the things are not needed any more, and a collection opens"},
				{stillOn, "the person stays on the watch list; ask"},
			},
			group: "deceased", means: map[string]string{stopped: stopped, stillOn: stillOn},
		}, e.line.text("name"))
		if ok && answer == stopped {
			e.stopped, e.stoppedB = r.at, "told in "+e.line.list.name()
		}
	}
}

const (
	stopped = "stopped"
	stillOn = "still on oxygen"
)

// homeless reports whether nobody knows a person's address.
func (p *person) homeless() bool {
	if p.known != nil {
		return p.known.Care.Address == ""
	}
	return !slices.ContainsFunc(p.entries, func(e *entry) bool { return e.address.Where() != "" })
}

// introduce sets who a new person is: what any row tells, the first one
// first, the notes of all.
func (r *reader) introduce(p *person, entries []*entry, res *delivery.Resident) {
	who := &res.Person
	who.Family, who.Given, who.Record, who.Born = p.name.family, p.name.given, p.record, p.born
	for _, e := range entries {
		for _, phone := range e.person.Phones {
			if !slices.Contains(who.Phones, phone) {
				who.Phones = append(who.Phones, phone)
			}
		}
		if who.Language == "" {
			who.Language = e.person.Language
		}
		who.Note = joined(who.Note, e.person.Note)
		if res.Address.Where() == "" {
			res.Address = *e.address
		}
	}
}

// differences asks about what a list says otherwise of a known person.
func (r *reader) differences(p *person, entries []*entry) {
	book := r.amends.of[p.known.Person.ID]
	for _, e := range entries {
		says := map[string]string{
			"born": e.person.Born, "language": e.person.Language, "street": e.address.Street, "town": e.address.Town,
			"power line": e.address.Line, "mains": string(e.address.Mains), "access": e.address.Access,
		}
		for _, phone := range e.person.Phones {
			if !slices.ContainsFunc(book.Person.Phones, func(q delivery.Phone) bool { return digits(q.Number) == digits(phone.Number) }) {
				says["phone"] = PhonesText(append(slices.Clone(book.Person.Phones), phone))
			}
		}
		for _, f := range personFields {
			if list, kept := says[f.key], f.text(book.Resident); list != "" && !sameWords(list, kept) {
				r.changePerson(change{e.line, f.key, p.known.Person.Name(), list, kept}, book, undated)
			}
		}
	}
}
