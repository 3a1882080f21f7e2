package intake

import (
	"fmt"
	"strings"
)

const (
	one = "one person"
	two = "two persons"
)

// sameRecord asks about a record number that stands with two names.
func (r *reader) sameRecord(p *person, e *entry) *person {
	answer, ok := r.ask(e.line, Question{
		Key:     "record:" + e.record,
		Asks:    fmt.Sprintf("Record number %s stands with the names %s and %s. Is that one person?", e.record, p.name.shown(), e.name.shown()),
		Choices: []Choice{{one, "the first name is kept"}, {two, "the record number is wrong in one row"}},
	}, e.name.shown())
	if ok && answer == two {
		e.line.refuse("Record number %s belongs to %s. Correct it in the list.", e.record, p.name.shown())
		return nil
	}
	return p
}

// whichPerson asks about a row that has the name of persons, and not enough
// else to tell whether it is about one of them.
func (r *reader) whichPerson(can []*person, e *entry) *person {
	const another = "somebody else"
	choices := []Choice{}
	for _, p := range can {
		choices = append(choices, Choice{p.handle(), "the person of " + p.whereFrom()})
	}
	choices = append(choices, Choice{another, "who has the same name"})
	answer, ok := r.ask(e.line, Question{
		Key:     "person:" + e.name.key(),
		Asks:    fmt.Sprintf("Who is %s, where no record number stands beside the name?", e.name.shown()),
		Choices: choices, fits: func(answer string) bool { return !strings.HasPrefix(answer, "row ") },
	}, e.name.shown())
	if ok && answer == another {
		return nil
	}
	for _, p := range can {
		if ok && p.handle() == answer {
			return p
		}
	}
	return can[0]
}

// handle is what a person is called in an answer.
func (p *person) handle() string {
	switch {
	case p.record != "":
		return p.record
	case p.known != nil:
		return string(p.id)
	}
	return fmt.Sprintf("row %d", p.entries[0].line.number())
}

func (p *person) whereFrom() string {
	if p.known != nil {
		return "the book"
	}
	return p.entries[0].line.where()
}

// settleName asks for a name that the rows don't give, and for the order of
// family and given name where the writing leaves it open.
func (r *reader) settleName(p *person) {
	if p.known != nil {
		return
	}
	for _, e := range p.entries {
		switch {
		case p.name.family+p.name.given == "":
			r.askName(p, e)
		case !p.name.sure:
			r.askNameOrder(p, e)
		}
	}
}

func (r *reader) askName(p *person, e *entry) {
	id := p.record
	if id == "" {
		id = fmt.Sprintf("row %d", e.line.number())
	}
	words := e.name.shown()
	asks := fmt.Sprintf("What is the name of the person with record number %s? Write it as Family, Given.", id)
	if words != "" {
		asks = fmt.Sprintf("%s names a person only by “%s”. What is the name? Write it as Family, Given.", e.line.where(), words)
	}
	answer, ok := r.ask(e.line, Question{Key: "name:" + id, Asks: asks, once: p.record == ""}, words)
	if ok {
		p.name = readName(answer)
		p.name.sure = true
	}
}

func (r *reader) askNameOrder(p *person, e *entry) {
	const first, last = "family name first", "family name last"
	answer, ok := r.ask(e.line, Question{
		Key:  "names:" + e.line.list.name(),
		Asks: fmt.Sprintf("Names of %s stand without a comma. Which is the family name?", e.line.list.name()),
		Choices: []Choice{
			{first, p.name.shown()},
			{last, p.name.turned().shown()},
		},
	}, p.name.family+" "+p.name.given)
	if !ok {
		return
	}
	if answer == last {
		p.name = p.name.turned()
	}
	p.name.sure = true
}
