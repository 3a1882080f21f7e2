package intake

import (
	"reflect"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// course returns what happened to the person, besides the loans.
func (r *reader) course(p *person, entries []*entry, has told) []happened {
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
			all = append(all, r.event(e.line, e.called, e.call))
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
	if e.out.IsZero() || e.line.list.sort == ledger && !e.lends {
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
func (r *reader) end(p *person, entries []*entry, res *delivery.Resident) {
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
		if leaveOver(entries, res, e.stopped) {
			res.Events = append(res.Events, delivery.Event{At: e.stopped, Says: &delivery.Tasked{Task: delivery.Collect, Why: "oxygen stopped: " + reason}})
		}
		return
	}
}

// leaveOver marks what is still out as not needed, and reports whether
// anything is.
func leaveOver(entries []*entry, res *delivery.Resident, at time.Time) bool {
	out := map[*thing]bool{}
	var order []*thing
	for _, e := range entries {
		for _, l := range e.loans {
			t := l.thing
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
