package intake

import (
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// plan turns what was read into acts: the places that are new, then the things
// and the persons, each with what happened.
func (r *reader) plan() error {
	r.pace.expect(len(r.entries) + 2*len(r.things.all) + len(r.persons))
	for _, e := range r.entries {
		if r.moved() {
			return r.failed
		}
		switch {
		case e.name.ward != "":
			r.toWard(e)
		case len(e.line.refuses) == 0:
			r.lend(e)
		}
	}
	r.contradictions()
	homes := r.homes() // asks the last questions, so it comes before anything is counted as clear
	for _, p := range r.persons {
		r.named(p)
	}
	rows := len(r.entries) + len(r.stocks)
	r.entries, r.stocks = nil, nil // from here on what became an act is let go: a long list is held in memory
	things := r.arrivals()
	people := slices.Concat(r.residents(homes), r.amended())
	settings := r.settings(slices.Concat(things, people))
	r.out.acts = slices.Concat(settings, besides(things, people))
	if len(r.out.acts) == 0 && rows > 0 {
		r.notice("Nothing that is clear is new to the book.")
	}
	return nil
}

// settings is the act that adds the places which are used and new.
func (r *reader) settings(acts []delivery.Act) []delivery.Act {
	used := map[inventory.Place]bool{}
	note := func(events []delivery.Event) {
		for _, e := range events {
			switch s := e.Says.(type) {
			case *inventory.Moved:
				used[s.To] = true
			case *inventory.Cleared:
				used[inventory.At(inventory.AtDepot, s.Depot)] = true
			case *inventory.Returned:
				used[inventory.At(inventory.AtDepot, s.Depot)] = true
			}
		}
	}
	for _, act := range acts {
		takeIn := act.(delivery.TakeIn)
		for _, t := range takeIn.Things {
			note(t.Events)
		}
		for _, p := range takeIn.People {
			for _, l := range p.Kit {
				note(l.Events)
			}
		}
	}
	with, said := r.places.with(used)
	if len(said) == 0 {
		return nil
	}
	r.out.Notices = append(r.out.Notices, said...)
	return []delivery.Act{delivery.Settings{Programme: with}}
}

// together is how many things one act takes in.
const together = 50

// arrivals returns the acts that bring the things of clear rows into the book.
func (r *reader) arrivals() []delivery.Act {
	var acts []delivery.Act
	var batch []delivery.Arrival
	for _, t := range r.things.all {
		if r.moved() {
			return nil
		}
		arrival, any := r.arrival(t)
		t.let()
		if !any {
			continue
		}
		if batch = append(batch, arrival); len(batch) == together {
			acts, batch = append(acts, delivery.TakeIn{Things: batch}), nil
		}
	}
	if len(batch) > 0 {
		acts = append(acts, delivery.TakeIn{Things: batch})
	}
	return acts
}

// arrival is what clear rows say of a thing, if it is anything new.
func (r *reader) arrival(t *thing) (arrival delivery.Arrival, any bool) {
	if t.item == nil && !t.comesIn() || t.item != nil && len(t.events) == 0 {
		return arrival, false
	}
	arrival.Spec = t.spec
	if t.item != nil {
		arrival.ID = t.item.ID
	}
	arrival.Events = fresh(t.standing(), "", r.said(t), t.item != nil)
	if t.item != nil && len(arrival.Events) == 0 {
		return arrival, false
	}
	arrival.Since = t.since()
	r.tally(&r.out.Added.Things, t.item == nil, len(arrival.Events))
	return arrival, true
}

// let lets go of what the persons who had the thing don't need.
func (t *thing) let() {
	if len(t.loans) == 0 {
		t.told = nil
	}
	t.stock, t.events, t.loans = nil, nil, nil
}

// besides puts the acts that bring things right before the first persons who had
// any of them, so that what belongs together is written together.
func besides(things, people []delivery.Act) []delivery.Act {
	brought := map[string]int{} // by serial, 1-based
	for i, act := range things {
		for _, t := range act.(delivery.TakeIn).Things {
			brought[inventory.SerialKey(t.Spec.Serial)] = i + 1
		}
	}
	acts, next := make([]delivery.Act, 0, len(things)+len(people)), 0
	for _, act := range people {
		needs := 0
		for _, p := range act.(delivery.TakeIn).People {
			for _, l := range p.Kit {
				needs = max(needs, brought[inventory.SerialKey(l.Serial)])
			}
		}
		for ; next < needs; next++ {
			acts = append(acts, things[next])
		}
		acts = append(acts, act)
	}
	return append(acts, things[next:]...)
}

func (r *reader) tally(new *int, isNew bool, facts int) {
	if isNew {
		*new++
		facts++
	}
	r.out.Added.Facts += facts
}

// comesIn reports whether a clear row brings a thing that is new.
func (t *thing) comesIn() bool {
	if t.stock != nil {
		return t.stock.line.fate() == clear
	}
	return t.named.fate() == clear || slices.ContainsFunc(t.loans, func(l *loan) bool { return l.entry.line.fate() == clear })
}

// standing returns the thing's events, without those of an item list that
// another list was said to know better.
func (t *thing) standing() []happened {
	if t.stock == nil || !t.stock.moot {
		return t.events
	}
	return slices.DeleteFunc(slices.Clone(t.events), func(h happened) bool {
		switch h.Says.(type) {
		case *inventory.Observed, *inventory.Filled:
			return false
		}
		return h.line == t.stock.line
	})
}

// since returns the first time anything clear is told of the thing.
func (t *thing) since() time.Time {
	var first time.Time
	for _, l := range t.loans {
		for _, h := range l.events {
			if h.line.fate() == clear {
				first = earliest(first, h.At)
			}
		}
	}
	return first
}

// fresh returns the events of clear rows in order of happening, without those
// the book has of the thing, or of its loan to who. Undated ones count only for
// what is new to the book. Events kept are marked as had, so that two rows saying
// the same say it once.
func fresh(all []happened, who inventory.PersonID, has told, known bool) []delivery.Event {
	if has == nil {
		has = told{}
	}
	all = slices.Clone(all)
	inOrder(all)
	var events []delivery.Event
	for _, h := range all {
		sign := signature(h.At, h.Says, who)
		if h.line.fate() != clear || known && h.undated || has[sign] {
			continue
		}
		has[sign] = true
		events = append(events, h.Event)
	}
	return events
}

// factsOf returns the facts the book has of a thing.
func (r *reader) factsOf(t *thing) []inventory.Fact {
	if t.item != nil && !t.asked {
		t.asked = true
		t.facts = r.facts(t.item.ID, "")
	}
	return t.facts
}

// facts returns facts of the book; an error ends the reading. A single fact
// that somebody took back is not brought again by its list, so it counts as
// had; a list that was taken back as a whole was never there.
func (r *reader) facts(item inventory.ItemID, person inventory.PersonID) []inventory.Fact {
	if r.known.Facts == nil || item == "" && person == "" {
		return nil
	}
	facts, err := r.known.Facts(item, person)
	if err != nil && r.failed == nil {
		r.failed = err
	}
	corrected := inventory.Corrections(facts)
	return slices.DeleteFunc(facts, func(f inventory.Fact) bool {
		by, taken := corrected[f.ID].Statement.(*inventory.Retracted)
		return taken && by.TookIn != 0
	})
}
