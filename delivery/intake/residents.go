package intake

import (
	"reflect"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
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
	kits := map[*entry][]loan{}
	for _, t := range r.things.all {
		for _, l := range t.loans {
			l.held.thing = t
			kits[l.entry] = append(kits[l.entry], l)
		}
	}
	var acts []delivery.Act
	for _, home := range homes {
		act := delivery.TakeIn{}
		placed := map[*person]int{}
		new := false
		for _, p := range home {
			if !p.clear() {
				continue
			}
			resident, any := r.resident(p, kits)
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
	}
	return acts
}

// homeless reports whether nobody knows a person's address.
func (p *person) homeless() bool {
	if p.known != nil {
		return p.known.Care.Address == ""
	}
	return !slices.ContainsFunc(p.entries, func(e *entry) bool { return e.address.Where() != "" })
}

// resident puts together what the clear rows say of a person, and reports
// whether any of it is new to the book.
func (r *reader) resident(p *person, kits map[*entry][]loan) (delivery.Resident, bool) {
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
	var has map[string]bool
	if p.known != nil {
		has = signatures(r.facts("", p.id))
	}
	res.Events = fresh(r.course(p, entries, has), has, p.known != nil)
	facts := len(res.Events)
	for _, e := range entries {
		for _, l := range kits[e] {
			t := l.held.thing
			events := fresh(l.events, r.said(t), p.known != nil && t.item != nil && l.undatedOnly())
			if len(events) == 0 {
				continue
			}
			facts += len(events)
			res.Kit = append(res.Kit, delivery.Loan{Kind: t.spec.Kind, Serial: t.spec.Serial, Events: events})
		}
	}
	r.end(p, entries, kits, &res)
	r.tally(&r.out.Added.Persons, p.known == nil, facts)
	return res, p.known == nil || facts > 0
}

// undatedOnly reports whether nothing in the loan has a time of its own.
func (l loan) undatedOnly() bool {
	return !slices.ContainsFunc(l.events, func(h happened) bool { return !h.undated })
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
			res.Address = e.address
		}
	}
}

// differences tells where a list and the book differ about a known person.
// The book stands.
func (r *reader) differences(p *person, entries []*entry) {
	book := p.known
	for _, e := range entries {
		tell := func(what, list, kept string) {
			if list != "" && list != kept {
				r.finding("%s: %s of %s is %s in the list, %s in the book. The book stands; change it on the person's page.",
					e.line.where(), what, book.Person.Name(), list, orNothing(kept))
			}
		}
		tell("birthday", e.person.Born, book.Person.Born)
		tell("street", e.address.Street, book.Address.Street)
		tell("language", e.person.Language, book.Person.Language)
		for _, phone := range e.person.Phones {
			if !slices.ContainsFunc(book.Person.Phones, func(q delivery.Phone) bool { return digits(q.Number) == digits(phone.Number) }) {
				tell("phone", phone.Number, "")
			}
		}
	}
}

// course returns what happened to the person, besides the loans.
func (r *reader) course(p *person, entries []*entry, has map[string]bool) []happened {
	var all []happened
	var order *delivery.Ordered
	discharged := false
	for _, e := range entries {
		if o := e.order; o != nil && (order == nil || !reflect.DeepEqual(*order, *o)) {
			given := r.event(e.line, earliestKnown(e.ordered, e.out), o)
			if has[signature(given.At, o, "")] || r.newOrder(p, e) {
				order = o
				all = append(all, given)
			}
		}
		if !discharged && r.goesHome(p, e) {
			discharged = true
			all = append(all, r.discharge(e)...)
		}
		if !e.called.IsZero() {
			call := e.call
			all = append(all, r.event(e.line, e.called, &call))
		}
	}
	return all
}

func earliestKnown(times ...time.Time) time.Time {
	for _, t := range times {
		if !t.IsZero() {
			return t
		}
	}
	return time.Time{}
}

// newOrder reports whether an order is later than the one the book has, and
// tells of an older one that differs.
func (r *reader) newOrder(p *person, e *entry) bool {
	if p.known == nil || p.known.Care.Order == nil {
		return true
	}
	at, care := earliestKnown(e.ordered, e.out), p.known.Care
	if at.After(care.OrderedAt) && (e.line.list.sort == ledger || !e.ordered.IsZero()) {
		return care.Order.Rest != e.order.Rest || e.line.list.sort != ledger
	}
	if care.Order.Rest != e.order.Rest || care.Order.Exertion != e.order.Exertion || care.Order.Asleep != e.order.Asleep {
		r.finding("%s: the order for %s is %s at rest in the list, %s in the book. The book stands; enter a new order if there is one.",
			e.line.where(), p.name.shown(), e.order.Rest, care.Order.Rest)
	}
	return false
}

// goesHome reports whether a row says that the person went home on oxygen:
// everybody discharged of a person list, and whoever was handed things.
func (r *reader) goesHome(p *person, e *entry) bool {
	if e.out.IsZero() || e.line.list.sort == ledger && len(e.kit) == 0 {
		return false
	}
	if p.known == nil || p.known.Care.Discharge == nil {
		return true
	}
	care := p.known.Care
	return !care.Watched() && e.out.After(care.Since)
}

// discharge returns the events of going home. Where a list does not say what
// the person breathes from, that is not known, and the watch list asks.
func (r *reader) discharge(e *entry) []happened {
	all := []happened{r.event(e.line, e.out, &delivery.Discharged{Ward: e.ward, Opened: e.out, Leaves: e.out})}
	at := e.out
	if !e.since.IsZero() && e.since.After(e.out) {
		at = e.since
	}
	switch {
	case e.breathes == delivery.FromConcentrator:
		all = append(all, r.event(e.line, at, &delivery.Switched{To: delivery.FromConcentrator, Why: "as the list says"}))
	case e.breathes == delivery.FromNothing:
		all = append(all, r.event(e.line, e.out, &delivery.Switched{To: delivery.FromNothing, Why: "the list does not say what from"}))
	case at.After(e.out):
		all = append(all, r.event(e.line, at, &delivery.Switched{To: delivery.FromCylinder, Why: "as the list says"}))
	}
	return all
}

// end records a stop: the kit is not needed any more, and a collection opens
// for what has not come back.
func (r *reader) end(p *person, entries []*entry, kits map[*entry][]loan, res *delivery.Resident) {
	if p.known != nil && p.known.Care.Phase == delivery.Over {
		return
	}
	for _, e := range entries {
		if e.stopped.IsZero() {
			continue
		}
		reason := "as the list says"
		if e.name.deceased {
			reason = "died"
		}
		res.Events = append(res.Events, delivery.Event{At: e.stopped, Says: &delivery.Stopped{Reason: reason, OrderedBy: e.stoppedB}})
		if r.leaveOver(entries, kits, res, e.stopped) {
			res.Events = append(res.Events, delivery.Event{At: e.stopped, Says: &delivery.Tasked{Task: delivery.Collect, Why: "oxygen stopped: " + reason}})
		}
		return
	}
}

// leaveOver marks what is still out as not needed, and reports whether
// anything is.
func (r *reader) leaveOver(entries []*entry, kits map[*entry][]loan, res *delivery.Resident, at time.Time) bool {
	out := map[*thing]bool{}
	var order []*thing
	for _, e := range entries {
		for _, l := range kits[e] {
			t := l.held.thing
			if _, met := out[t]; !met {
				order = append(order, t)
			}
			out[t] = e.in.IsZero()
		}
	}
	any := false
	for _, t := range order {
		if out[t] {
			any = true
			res.Kit = append(res.Kit, delivery.Loan{
				Kind: t.spec.Kind, Serial: t.spec.Serial,
				Events: []delivery.Event{{At: at, Says: &inventory.Serving{As: inventory.NotNeeded}}},
			})
		}
	}
	return any
}
