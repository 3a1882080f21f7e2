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
	r.pace.expect(2 * len(r.entries))
	for _, numbered := range []bool{true, false} { // what is surely known first
		for i, e := range r.entries {
			if r.moved() {
				return r.failed
			}
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
			host := first[houseKey(*e.address)]
			switch {
			case e.address.Street == "":
			case host == nil:
				first[houseKey(*e.address)] = p
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
		other = *host.entries[0].address
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
