package intake

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// loan is one thing with one person, as one row tells it.
type loan struct {
	entry  *entry
	thing  *thing
	events []happened
}

// lend turns the kit of an entry into loans of its things.
func (r *reader) lend(e *entry) {
	machine := slices.ContainsFunc(e.kit, func(h held) bool { return h.thing.spec.Kind == inventory.Concentrator })
	for _, h := range e.kit {
		out := e.out
		if r.elsewhere(e, h.thing) {
			var with bool
			if out, with = r.whoHasIt(e, h.thing); !with {
				continue
			}
		}
		l := &loan{entry: e, thing: h.thing, events: make([]happened, 0, h.tells(e))}
		if h.lot != "" && !h.thing.filledWith(h.lot) {
			h.thing.events = append(h.thing.events, r.event(e.line, e.out, &inventory.Filled{Lot: h.lot, Full: r.fullOf(h.thing.spec)}))
		}
		if !r.hasIt(e.who, h.thing) {
			l.events = append(l.events, r.event(e.line, out, r.alike.lentAs(role(h.thing.spec.Kind, e.breathes, machine))))
		}
		if h.gauge != nil || h.hours != nil {
			if at := r.readOn(e); !at.IsZero() {
				l.events = append(l.events, r.event(e.line, at, &inventory.Observed{Gauge: h.gauge, Hours: h.hours}))
			}
		}
		l.events = r.takenBack(l.events, e, h)
		h.thing.loans, e.loans = append(h.thing.loans, l), append(e.loans, l)
	}
	e.kit = nil // a long ledger is held in memory
}

// tells returns of how many events a loan is made: lent, read, read at its return,
// returned.
func (h held) tells(e *entry) int {
	n := 1
	if h.gauge != nil || h.hours != nil {
		n++
	}
	if !e.in.IsZero() {
		n++
		if h.back != nil {
			n++
		}
	}
	return n
}

// fullOf returns the pressure a cylinder of the size is filled to.
func (r *reader) fullOf(spec inventory.Spec) gas.Pressure {
	size, _ := r.programme.SizeOf(spec)
	return size.Service
}

// readOn returns when the readings of an entry were taken: in a ledger at
// hand-over, in a person list when it says.
func (r *reader) readOn(e *entry) time.Time {
	if e.line.list.sort == ledger && e.readAt.IsZero() {
		return e.out
	}
	return e.readAt
}

// role returns what a lent thing does: a cylinder beside a machine is the
// backup, unless the person is said to breathe from it.
func role(kind inventory.Kind, from delivery.Breathes, machine bool) inventory.Role {
	if kind == inventory.Cylinder && (from == delivery.FromConcentrator || from == delivery.FromNothing && machine) {
		return inventory.Backup
	}
	return inventory.InUse
}

// filledWith reports whether the lot is the one the thing is known to hold.
func (t *thing) filledWith(lot string) bool {
	key := inventory.SerialKey(lot)
	if t.item != nil && t.item.Fill != nil && inventory.SerialKey(t.item.Fill.Lot) == key {
		return true
	}
	return slices.ContainsFunc(t.events, func(h happened) bool {
		f, ok := h.Says.(*inventory.Filled)
		return ok && inventory.SerialKey(f.Lot) == key
	})
}

// hasIt reports whether the book has the thing with this person already.
func (r *reader) hasIt(p *person, t *thing) bool {
	return t.item != nil && t.item.Lent() && t.item.Person == p.id
}

// elsewhere reports whether an item list, or the book, has a thing in a place
// of ours that this row says is still lent. A loan the book knows of is none
// of these: it may have ended since.
func (r *reader) elsewhere(e *entry, t *thing) bool {
	if !e.in.IsZero() && !e.in.Before(e.out) {
		return false
	}
	if t.item != nil {
		fresh := t.item.State == inventory.InQuarantine && t.item.Place.Kind() == inventory.AtMissing
		return !fresh && !r.hasIt(e.who, t) && !t.item.Since.Before(e.out) && !r.hadIt(e.who, t, e.out)
	}
	return t.stock != nil && t.stock.ours()
}

// hadIt reports whether the book has this very loan.
func (r *reader) hadIt(p *person, t *thing, since time.Time) bool {
	return slices.ContainsFunc(r.factsOf(t), func(f inventory.Fact) bool {
		_, lent := f.Statement.(*inventory.Lent)
		return lent && f.Person == p.id && f.Happened.Equal(since)
	})
}

const (
	thisList = "this list"
	theBook  = "the book"
	theStock = "the item list"
)

// whoHasIt asks which list is right about a thing, once for all such things.
// It returns when the loan counts from, and whether there is one.
func (r *reader) whoHasIt(e *entry, t *thing) (time.Time, bool) {
	other, state := theStock, ""
	if t.item != nil {
		other, state = theBook, string(t.item.State)
	} else {
		state = cmp.Or(string(t.stock.state), string(t.stock.place))
	}
	answer, ok := r.ask(e.line, Question{
		Key:  fmt.Sprintf("lent:%s:%s", e.line.list.name(), other),
		Asks: fmt.Sprintf("%s says that things are lent which %s has elsewhere. Which is right?", e.line.list.name(), other),
		Choices: []Choice{
			{thisList, "the persons have them"},
			{other, "they are not lent; the rows go in without them"},
		},
		once: true,
	}, fmt.Sprintf("%s: %s", t.spec.Serial, state))
	switch {
	case !ok || answer == other:
		return time.Time{}, false
	case t.item != nil:
		return r.at, true // after what the book has of it
	}
	t.stock.moot = true
	return e.out, true
}

// takenBack adds the events of a return.
func (r *reader) takenBack(all []happened, e *entry, h held) []happened {
	if e.in.IsZero() {
		return all
	}
	if h.back != nil {
		all = append(all, r.event(e.line, e.in, &inventory.Observed{Hours: h.back}))
	}
	depot, ok := r.depot(e.line)
	if !ok {
		return all
	}
	return append(all, r.event(e.line, e.in, r.alike.backAt(depot)))
}

// toWard moves what a row lends to a ward.
func (r *reader) toWard(e *entry) {
	at, ok := r.places.find(e.name.ward, inventory.AtWard)
	if !ok {
		return
	}
	for _, h := range e.kit {
		if h.thing.item != nil && !h.thing.item.Since.Before(e.out) {
			if h.thing.item.Place != at {
				r.finding("%s: %s is at %s in the list, at %s in the book. The book stands; change it by an act.", e.line.where(), h.thing.spec.Serial, at, h.thing.item.Place)
			}
			continue
		}
		h.thing.events = append(h.thing.events, r.event(e.line, e.out, &inventory.Moved{To: at}))
	}
}

// contradictions tells what the rows say of a thing that can't all be so.
func (r *reader) contradictions() {
	for _, t := range r.things.all {
		if r.moved() {
			return
		}
		if len(t.loans) == 0 {
			r.lentToNobody(t)
			continue
		}
		var all []happened
		who := map[*line]*entry{}
		for _, l := range t.loans {
			all = append(all, l.events...)
			who[l.entry.line] = l.entry
		}
		inOrder(all)
		r.lentTwice(t, all, who)
		r.hoursDown(t, all)
	}
}

func inOrder(all []happened) {
	slices.SortStableFunc(all, func(a, b happened) int {
		return cmp.Or(a.At.Compare(b.At))
	})
}

func (r *reader) lentToNobody(t *thing) {
	if t.stock != nil && t.item == nil && t.stock.state == atHome && t.stock.line.fate() == clear {
		r.finding("%s: %s is said to be at home, but no list says with whom.", t.stock.line.where(), t.spec.Serial)
	}
}

func (r *reader) lentTwice(t *thing, all []happened, who map[*line]*entry) {
	var has *entry
	for _, h := range all {
		switch h.Says.(type) {
		case *inventory.Lent:
			e := who[h.line]
			if has != nil && has.who != e.who {
				r.finding("%s: %s went to %s while %s (row %d) still had it. Ask who has it.",
					h.line.where(), t.spec.Serial, e.who.name.shown(), has.who.name.shown(), has.line.number())
			}
			has = e
		case *inventory.Returned:
			has = nil
		}
	}
}

func (r *reader) hoursDown(t *thing, all []happened) {
	before := -1.0
	if t.item != nil && t.item.Hours != nil {
		before = t.item.Hours.Value
		all = slices.DeleteFunc(slices.Clone(all), func(h happened) bool { return !h.At.After(t.item.Hours.At) })
	}
	for _, h := range all {
		seen, ok := h.Says.(*inventory.Observed)
		if !ok || seen.Hours == nil {
			continue
		}
		if *seen.Hours < before {
			r.finding("%s: the hours meter of %s went down from %s to %s. Was the meter or the machine changed?",
				h.line.where(), t.spec.Serial, plain(before), plain(*seen.Hours))
		}
		before = *seen.Hours
	}
}

func plain(hours float64) string { return fmt.Sprintf("%.10g", hours) }
