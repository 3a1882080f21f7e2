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
	id      inventory.PersonID // of the book; for a new person one of this reading
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
		p := &person{id: known.Person.ID, known: known, name: n, record: known.Person.Record, born: known.Person.Born}
		book[string(known.Person.ID)] = p
		r.persons = append(r.persons, p)
	}
	index := newIndex(r.persons)
	for _, numbered := range []bool{true, false} { // what is surely known first
		for i, e := range r.entries {
			if e.name.ward == "" && (e.record != "") == numbered {
				r.join(r.whose(index, i), e)
				index.add(e.who)
			}
		}
	}
	r.inRowOrder()
	for i, e := range r.entries {
		if e.name.same && i > 0 && e.who.with == nil && r.entries[i-1].who != e.who {
			e.who.with = r.entries[i-1].who
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

// inRowOrder brings the persons, and the rows of each, into the order of the
// lists.
func (r *reader) inRowOrder() {
	at := make(map[*entry]int, len(r.entries))
	for i, e := range r.entries {
		at[e] = i
	}
	first := func(p *person) int {
		if len(p.entries) == 0 {
			return -1
		}
		return at[p.entries[0]]
	}
	for _, p := range r.persons {
		slices.SortFunc(p.entries, func(a, b *entry) int { return at[a] - at[b] })
	}
	slices.SortStableFunc(r.persons, func(a, b *person) int { return first(a) - first(b) })
}

// whose returns the person a row is about, who may be new.
func (r *reader) whose(x index, i int) *person {
	e := r.entries[i]
	if p := r.match(x, e); p != nil {
		return p
	}
	if e.name.ditto && e.record == "" && i > 0 && r.entries[i-1].who != nil {
		return r.entries[i-1].who
	}
	p := &person{id: inventory.PersonID(fmt.Sprintf("new %d", i))}
	r.persons = append(r.persons, p)
	return p
}

func (r *reader) join(p *person, e *entry) {
	e.who = p
	p.entries = append(p.entries, e)
	if p.known != nil {
		return
	}
	switch {
	case e.name.key() == "":
	case p.name.shown() == "":
		p.name = e.name
	case alike(p.name, e.name):
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
	if p := r.matchRecord(x, e); p != nil || e.name.key() == "" {
		return p
	}
	var can, shares []*person
	for _, p := range x.byName[e.name.key()] {
		switch {
		case e.record != "" && p.record != "", e.person.Born != "" && p.born != "" && e.person.Born != p.born:
			r.finding("%s: %s has the name of another person of the lists or the book, with another record number or birthday. They are two persons.", e.line.where(), e.name.shown())
			continue
		case e.person.Born != "" && e.person.Born == p.born, r.shares(p, e):
			shares = append(shares, p)
		}
		can = append(can, p)
	}
	switch {
	case len(shares) == 1:
		return shares[0]
	case len(can) == 0:
		return nil
	}
	return r.whichPerson(can, e)
}

// matchRecord returns the person with the row's record number: the same name
// stands beside it, or none, or the book has the row's very loan. A number
// that only lost its leading zeros needs the same name.
func (r *reader) matchRecord(x index, e *entry) *person {
	numbered := x.byRecord[bareRecord(e.record)]
	exact := func(p *person) bool { return p.record == e.record }
	named := func(p *person) bool { return e.name.key() != "" && p.name.key() != "" && alike(p.name, e.name) }
	for _, sure := range []func(*person) bool{
		func(p *person) bool { return exact(p) && named(p) },
		named,
		func(p *person) bool { return exact(p) && r.hadAny(p, e) },
		func(p *person) bool { return exact(p) && (e.name.key() == "" || p.name.key() == "") },
	} {
		if i := slices.IndexFunc(numbered, sure); i >= 0 {
			if !exact(numbered[i]) {
				r.finding("%s: record number %s is taken for %s, because the name is the same.", e.line.where(), e.record, numbered[i].record)
			}
			return numbered[i]
		}
	}
	if i := slices.IndexFunc(numbered, exact); i >= 0 {
		return r.sameRecord(numbered[i], e)
	}
	return nil
}

// hadAny reports whether the book has one of the row's very loans.
func (r *reader) hadAny(p *person, e *entry) bool {
	return p.known != nil && slices.ContainsFunc(e.kit, func(h held) bool { return r.hadIt(p, h.thing, e.out) })
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
func (r *reader) shares(p *person, e *entry) bool {
	if p.known != nil {
		has := func(h held) bool { return r.hasIt(p, h.thing) }
		if sharesIdentity(p.known.Person.Phones, p.known.Address.Street, e) || r.hadAny(p, e) || slices.ContainsFunc(e.kit, has) {
			return true
		}
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
		Choices: choices,
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
