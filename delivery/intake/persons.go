package intake

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
)

// person is one person the lists name, with all rows about that person.
type person struct {
	known   *Resident
	name    named
	record  string
	born    string
	entries []*entry
	with    *person // lives in the same house
}

// gatherPersons finds out which rows are about the same person. Two signs
// that agree make them one: record number and name, or a name with a phone, a
// birthday, a street or a thing lent. One sign alone is asked about.
func (r *reader) gatherPersons() error {
	book := map[string]*person{}
	for i := range r.known.People {
		known := &r.known.People[i]
		if known.Person.Erased {
			continue
		}
		n := named{family: known.Person.Family, given: known.Person.Given, sure: true}
		p := &person{known: known, name: n, record: known.Person.Record, born: known.Person.Born}
		book[string(known.Person.ID)] = p
		r.persons = append(r.persons, p)
	}
	index := newIndex(r.persons)
	for i, e := range r.entries {
		if e.name.ward != "" {
			continue
		}
		p := r.match(index, e)
		if p == nil && e.name.ditto && i > 0 && r.entries[i-1].who != nil && e.record == "" {
			p = r.entries[i-1].who
		}
		if p == nil {
			p = &person{}
			r.persons = append(r.persons, p)
		}
		r.join(p, e)
		index.add(p)
		if e.name.same && i > 0 && p.with == nil {
			p.with = r.entries[i-1].who
		}
	}
	r.houses()
	for _, p := range r.persons {
		r.settleName(p)
	}
	return nil
}

// houses puts persons of one street and town under one address. Where the
// rows differ about it, the first one counts, and that is told.
func (r *reader) houses() {
	first := map[string]*person{}
	for _, p := range r.persons {
		for _, e := range p.entries {
			host := first[houseKey(e.address)]
			switch {
			case e.address.Street == "":
			case host == nil:
				first[houseKey(e.address)] = p
			case host != p && p.with == nil && p.known == nil:
				p.with = host
				r.differentHouse(host, e)
			}
		}
		if p.known != nil && p.known.Address.Street != "" {
			first[houseKey(p.known.Address)] = p
		}
	}
}

func houseKey(a delivery.Address) string {
	return strings.Join(plainWords(a.Street), " ") + "|" + strings.Join(plainWords(a.Town), " ")
}

func (r *reader) differentHouse(host *person, e *entry) {
	var other delivery.Address
	if host.known != nil {
		other = host.known.Address
	} else {
		other = host.entries[0].address
	}
	if e.address.Mains != other.Mains || e.address.Stairs != other.Stairs || e.address.Smoker != other.Smoker {
		r.finding("%s: the row tells other things of %s than the row of %s, who lives there too. What that one tells counts.",
			e.line.where(), e.address.Where(), host.name.shown())
	}
}

func (r *reader) join(p *person, e *entry) {
	e.who = p
	p.entries = append(p.entries, e)
	if p.known != nil {
		return
	}
	switch {
	case e.name.sameAs != "":
	case p.name.shown() == "":
		p.name = e.name
	default:
		p.name = p.name.better(e.name)
	}
	if len(e.record) > len(p.record) {
		p.record = e.record
	}
	if p.born == "" {
		p.born = e.person.Born
	}
}

// index finds persons by record number and by name.
type index struct {
	byRecord, byName map[string][]*person
}

func newIndex(all []*person) index {
	x := index{map[string][]*person{}, map[string][]*person{}}
	for _, p := range all {
		x.add(p)
	}
	return x
}

func (x index) add(p *person) {
	put := func(m map[string][]*person, key string) {
		if key != "" && !slices.Contains(m[key], p) {
			m[key] = append(m[key], p)
		}
	}
	put(x.byRecord, bareRecord(p.record))
	put(x.byName, p.name.key())
	for _, e := range p.entries {
		put(x.byName, e.name.key())
	}
}

// bareRecord is a record number without its leading zeros, which a
// spreadsheet loses.
func bareRecord(record string) string {
	return strings.TrimLeft(strings.ToUpper(record), "0")
}

// match returns the person a row is about, if another row or the book has
// that person.
func (r *reader) match(x index, e *entry) *person {
	for _, p := range x.byRecord[bareRecord(e.record)] {
		switch {
		case e.record == "" || p.record == "":
		case e.name.sameAs == "" && !alike(p.name, e.name):
			if e.record == p.record {
				return r.sameRecord(p, e)
			}
		default:
			if e.record != p.record {
				r.finding("%s: record number %s is taken for %s, because the name is the same.", e.line.where(), e.record, p.record)
			}
			return p
		}
	}
	key := e.name.key()
	if key == "" {
		return nil
	}
	for _, p := range x.byName[key] {
		switch {
		case e.record != "" && p.record != "", e.person.Born != "" && p.born != "" && e.person.Born != p.born:
			r.finding("%s: %s has the name of another person of the lists or the book, with another record number or birthday. They are two persons.", e.line.where(), e.name.shown())
		case e.person.Born != "" && e.person.Born == p.born, p.shares(e):
			return p
		default:
			if r.onePerson(p, e) {
				return p
			}
		}
	}
	return nil
}

// alike reports whether two names can be one person's: the same words, or the
// same family name with an initial that fits.
func alike(a, b named) bool {
	if a.key() == b.key() {
		return true
	}
	first := func(n named) string { return strings.ToLower(strings.Trim(n.given, ". ")) }
	x, y := first(a), first(b)
	sameFamily := slices.Equal(plainWords(a.family), plainWords(b.family))
	return sameFamily && x != "" && y != "" && (initial(x) || initial(y)) && x[0] == y[0]
}

// shares reports whether a row has something else in common with a person
// than the name: a phone, a street, a thing lent.
func (p *person) shares(e *entry) bool {
	if p.known != nil && sharesIdentity(p.known.Person.Phones, p.known.Address.Street, e) {
		return true
	}
	for _, other := range p.entries {
		if sharesIdentity(other.person.Phones, other.address.Street, e) || sharesSerial(other.line, e.line) {
			return true
		}
	}
	return false
}

func sharesIdentity(phones []delivery.Phone, street string, e *entry) bool {
	if street != "" && strings.EqualFold(street, e.address.Street) {
		return true
	}
	for _, p := range phones {
		if slices.ContainsFunc(e.person.Phones, func(q delivery.Phone) bool { return digits(p.Number) != "" && digits(p.Number) == digits(q.Number) }) {
			return true
		}
	}
	return false
}

func digits(s string) string {
	return strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, s)
}

func sharesSerial(a, b *line) bool {
	for _, column := range lent {
		for _, x := range a.serials(column.key) {
			for _, y := range b.serials(column.key) {
				if inventory.SerialKey(x) == inventory.SerialKey(y) {
					return true
				}
			}
		}
	}
	return false
}

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

// onePerson asks whether two rows with one name, and nothing else in common,
// are about one person.
func (r *reader) onePerson(p *person, e *entry) bool {
	answer, ok := r.ask(e.line, Question{
		Key:     "person:" + e.name.key(),
		Asks:    fmt.Sprintf("Several rows name %s, and not all have a record number. Is that one person?", e.name.shown()),
		Choices: []Choice{{one, ""}, {two, "people of the same name"}},
	}, e.name.shown())
	return !ok || answer == one
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
	answer, ok := r.ask(e.line, Question{Key: "name:" + id, Asks: asks}, words)
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
			{first, e.name.shown()},
			{last, e.name.turned().shown()},
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
