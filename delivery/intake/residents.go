package intake

import (
	"slices"

	"lungwort/delivery"
)

// homes groups the persons whose rows say that they live together, and makes
// those wait whose house-mate waits.
func (r *reader) homes() [][]*person {
	var homes [][]*person
	at := map[*person]int{}
	for _, p := range r.persons {
		if len(p.entries) == 0 {
			continue
		}
		r.bury(p)
		if p.with != nil && p.known == nil && len(p.with.entries) > 0 {
			r.waitFor(p, p.with)
			if i, ok := at[p.with]; ok {
				homes[i] = append(homes[i], p)
				at[p] = i
				continue
			}
		}
		at[p] = len(homes)
		homes = append(homes, []*person{p})
	}
	return homes
}

// waitFor makes a person's rows wait when nothing clear is known of the
// house-mate yet.
func (r *reader) waitFor(p, host *person) {
	if host.known != nil || host.clear() {
		return
	}
	for _, e := range p.entries {
		for _, other := range host.entries {
			r.share(e.line, other.line)
		}
	}
}

func (p *person) clear() bool {
	return slices.ContainsFunc(p.entries, func(e *entry) bool { return e.line.fate() == clear })
}

// named tells who the rows are about.
func (r *reader) named(p *person) {
	if len(p.entries) == 0 {
		return
	}
	who := Who{Name: p.name.shown(), Record: p.record, Known: p.known != nil}
	if p.name.shown() == "" {
		who.Name = p.entries[0].name.shown()
	}
	for _, e := range p.entries {
		who.Rows = append(who.Rows, e.line.number())
	}
	r.out.People = append(r.out.People, who)
}

// residents returns the acts that bring the persons of clear rows into the
// book, those of one home in one act.
func (r *reader) residents(homes [][]*person) []delivery.Act {
	var acts []delivery.Act
	for _, home := range homes {
		if r.moved() {
			return nil
		}
		act := delivery.TakeIn{}
		placed := map[*person]int{}
		new := false
		for _, p := range home {
			if !p.clear() {
				continue
			}
			resident, any := r.resident(p)
			if p.known == nil && p.with != nil {
				if placed[p.with] == 0 && p.with.known != nil {
					act.People = append(act.People, delivery.Resident{Person: p.with.known.Person})
					placed[p.with] = len(act.People)
				}
				if resident.With = placed[p.with]; resident.With == 0 || p.with.homeless() {
					resident.Person.Note = joined(resident.Person.Note, "same house as "+p.with.name.shown())
				}
			}
			if act.From == "" {
				act.From = p.entries[0].line.where()
			}
			act.People = append(act.People, resident)
			placed[p] = len(act.People)
			new = new || any
		}
		if new {
			acts = append(acts, act)
		}
		for _, p := range home {
			p.entries = nil
		}
	}
	return acts
}

// resident puts together what the clear rows say of a person, and reports
// whether any of it is new to the book.
func (r *reader) resident(p *person) (delivery.Resident, bool) {
	res := delivery.Resident{}
	if p.known != nil {
		res.Person, res.Address = p.known.Person, p.known.Address
	}
	var entries []*entry
	for _, e := range p.entries {
		if e.line.fate() == clear {
			entries = append(entries, e)
		}
	}
	slices.SortStableFunc(entries, func(a, b *entry) int { return a.out.Compare(b.out) })
	if p.known == nil {
		r.introduce(p, entries, &res)
	} else {
		r.differences(p, entries)
	}
	var has told
	if p.known != nil {
		has = signatures(r.facts("", p.id))
	}
	res.Events = fresh(r.course(p, entries, has), "", has, p.known != nil)
	facts := len(res.Events)
	for _, e := range entries {
		for _, l := range e.loans {
			t := l.thing
			events := fresh(l.events, p.id, r.said(t), p.known != nil && t.item != nil && l.undatedOnly())
			if len(events) == 0 {
				continue
			}
			facts += len(events)
			res.Kit = append(res.Kit, delivery.Loan{Kind: t.spec.Kind, Serial: t.spec.Serial, Events: events})
		}
	}
	r.end(p, entries, &res)
	r.tally(&r.out.Added.Persons, p.known == nil, facts)
	return res, p.known == nil || facts > 0
}

// undatedOnly reports whether nothing in the loan has a time of its own.
func (l *loan) undatedOnly() bool {
	return !slices.ContainsFunc(l.events, func(h happened) bool { return !h.undated })
}
