package intake

import (
	"slices"
	"strconv"

	"lungwort/delivery"
	"lungwort/inventory"
)

// amendment is a known person while a list changes who that is or where the
// home is.
type amendment struct {
	Resident
	home  *delivery.Address // shared by who lives there
	moved bool
	what  []string // the columns that are otherwise
	lines []*line
}

// amendments are those of the persons of the book.
type amendments struct {
	of    map[inventory.PersonID]*amendment
	order []*amendment // with anything to write
}

func newAmendments(people []Resident) amendments {
	a := amendments{of: map[inventory.PersonID]*amendment{}}
	homes := map[inventory.AddressID]*delivery.Address{}
	for _, p := range people {
		if p.Person.Erased {
			continue
		}
		home := homes[p.Address.ID]
		if home == nil || p.Address.ID == "" {
			address := p.Address
			home = &address
			homes[p.Address.ID] = home
		}
		a.of[p.Person.ID] = &amendment{Resident: p, home: home}
	}
	return a
}

// editPerson takes up what was edited in a person's row.
func (r *reader) editPerson(l *line, p *amendment, m marked) {
	for i, f := range personFields {
		if _, has := l.list.mapping.Columns[f.key]; !has {
			continue
		}
		text, book := l.text(f.key), f.text(p.Resident)
		of, differs := m.ageOf(i, text, book)
		if !differs {
			continue
		}
		to := r.personCell(l, f.key)
		if len(l.refuses)+len(l.waits) > 0 || text != "" && to == "" {
			return
		}
		r.changePerson(change{l, f.key, p.Person.Name(), to, book}, p, of)
	}
}

// personCell reads a cell about a person as the book would write it.
func (r *reader) personCell(l *line, key string) string {
	switch key {
	case "born":
		if born := r.day(l, key); !born.IsZero() {
			return born.Format("2006-01-02")
		}
		return ""
	case "phone":
		return PhonesText(phones(l.text(key)))
	case "mains":
		return l.word(r.inquiry, key, mains)
	case "smoker":
		return l.word(r.inquiry, key, smokes)
	case "floors":
		if floors := r.number(l, key, 0, 60, "floors", "floor", "flights", "flight", "fl"); floors != nil {
			return numberOrNothing(*floors)
		}
		return ""
	}
	return l.text(key)
}

const (
	theyMoved    = "moved"
	writtenWrong = "written wrong"
)

// changePerson makes a change about a known person, where the list holds.
func (r *reader) changePerson(c change, p *amendment, of age) {
	if c.list == c.book || r.damaged(c) || c.key == "phone" && digits(c.list) == digits(c.book) {
		return
	}
	if (c.key == "family" || c.key == "street") && c.list == "" {
		r.finding("%s: %s of %s was emptied; the book keeps %s.", c.line.where(), c.line.heading(c.key), c.about, c.book)
		return
	}
	if other := p.homeSays(c.key); other != c.book && other != c.list {
		c.line.refuse("%s is %s here and %s in another row of the same home.", c.line.heading(c.key), orNothing(c.list), orNothing(other))
		return
	}
	moved := false
	if c.key == "street" && c.book != "" && of != undated {
		answer, ok := r.ask(c.line, Question{
			Key:     "street:" + c.line.list.name(),
			Asks:    "Streets were edited. Do the persons live somewhere else now, or was the street written wrong?",
			Choices: []Choice{{theyMoved, "a new home; what is lent stays where it is until it is carried along"}, {writtenWrong, "the same home"}},
			once:    true,
		}, c.example())
		if !ok {
			return
		}
		moved = answer == theyMoved
	}
	if !r.listHolds(c, of) {
		return
	}
	if moved {
		home := *p.home
		home.ID = ""
		p.home, p.moved = &home, true
	}
	p.amend(c)
	if !slices.Contains(r.amends.order, p) {
		r.amends.order = append(r.amends.order, p)
	}
}

// homeSays returns what the home is by now in a column, after the rows before;
// for a column about the person what the book has.
func (p *amendment) homeSays(key string) string {
	as := Resident{Person: p.Person, Address: *p.home}
	for _, f := range personFields {
		if f.key == key {
			return f.text(as)
		}
	}
	return ""
}

// amend puts what the list says in the place of what the book says.
func (p *amendment) amend(c change) {
	p.what, p.lines = append(p.what, c.key), append(p.lines, c.line)
	texts := map[string]*string{
		"record": &p.Person.Record, "family": &p.Person.Family, "given": &p.Person.Given, "born": &p.Person.Born,
		"language": &p.Person.Language, "notes": &p.Person.Note,
		"street": &p.home.Street, "town": &p.home.Town, "area": &p.home.Point.Area, "power line": &p.home.Line,
		"smoker": &p.home.Smoker, "heater": &p.home.Heater, "pets": &p.home.Pets, "access": &p.home.Access,
	}
	switch to := texts[c.key]; {
	case to != nil:
		*to = c.list
	case c.key == "phone":
		p.Person.Phones = phones(c.list)
	case c.key == "mains":
		p.home.Mains = delivery.Mains(c.list)
	case c.key == "floors":
		p.home.Stairs, _ = strconv.Atoi(c.list) // written by the program itself
	}
}

// amended returns the acts that change known persons by clear rows.
func (r *reader) amended() []delivery.Act {
	var acts []delivery.Act
	for _, p := range r.amends.order {
		if slices.ContainsFunc(p.lines, func(l *line) bool { return l.fate() != clear }) {
			continue
		}
		a := delivery.Amendment{Person: p.Person, Moved: p.moved, What: p.what}
		if slices.ContainsFunc(p.what, ofHome) {
			a.Address = p.home
		}
		r.tally(&r.out.Added.Persons, false, 1)
		acts = append(acts, delivery.TakeIn{From: p.lines[0].where(), Amends: []delivery.Amendment{a}})
	}
	return acts
}

// ofHome reports whether a column is about the home.
func ofHome(key string) bool {
	switch key {
	case "street", "town", "area", "power line", "mains", "floors", "smoker", "heater", "pets", "access":
		return true
	}
	return false
}
