package intake

import (
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
)

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
