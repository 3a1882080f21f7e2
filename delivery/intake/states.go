package intake

import (
	"fmt"
	"time"

	"lungwort/inventory"
)

// atHome is what an item list says of a thing that is lent, without saying to
// whom.
const atHome = "at home"

// states are the words of a column of status. "Full" and "empty" are none of
// them: they are conclusions about the gas, and say nothing of clean or
// tested; they are asked about.
var states = []choiceWord{
	{string(inventory.Ready), "clean, tested, ready to lend", []string{"available", "in stock", "ready to lend", "ready to go", "clean"}},
	{atHome, "lent to a person", []string{"lent", "on loan", "in use", "backup", "out", "home", "with patient", "handed over", "in house"}},
	{string(inventory.Dirty), "came back, not cleaned yet", []string{"returned", "to clean", "needs cleaning", "unclean"}},
	{string(inventory.InQuarantine), "must not be lent", []string{"quarantined", "hold", "do not use"}},
	{string(inventory.OnBench), "is being cleaned or tested", []string{"bench", "on the bench", "testing"}},
	{string(inventory.InRepair), "in the workshop", []string{"repair", "workshop", "service", "in service"}},
	{string(inventory.OutAtPlant), "at the filling plant", []string{"plant", "at the plant", "being filled", "refill"}},
	{string(inventory.Missing), "nobody knows where it is", []string{"lost"}},
	{string(inventory.Gone), "out of use for good", []string{"scrapped", "condemned", "disposed"}},
	{string(inventory.NotOurs), "another supplier's", []string{"foreign"}},
}

// enter puts the row's thing into the register, with what happened to it.
func (r *reader) enter(s *stock) {
	l := s.line
	for _, t := range r.things.find(inventory.SerialKey(s.spec.Serial), s.spec.Kind) {
		if t.stock != nil {
			r.again(t, s)
			return
		}
		if t.item != nil {
			t.stock = s
			r.compare(t, s)
			t.events = append(t.events, r.seenOn(s)...)
			return
		}
	}
	for _, t := range r.things.find(inventory.SerialKey(s.spec.Serial), "") {
		if t.item != nil && t.spec.Kind == "" {
			l.refuse("The book has %s as a stray in quarantine. Settle there what it is and whose.", t.spec.Serial)
			return
		}
	}
	if s.state == inventory.NotOurs {
		s.spec.Foreign = true
		if s.spec.Owner == "" {
			l.refuse("The thing is not ours, but no owner is named.")
			return
		}
	}
	t := r.things.add(&thing{spec: s.spec, stock: s})
	t.events = append(r.seenOn(s), r.stands(s)...)
}

// again takes a second row about the same thing: the same words say nothing
// new, other words contradict.
func (r *reader) again(t *thing, s *stock) {
	first := t.stock.line
	for i := range max(len(first.row.Cells), len(s.line.row.Cells)) {
		if first.row.Cell(i).Text != s.line.row.Cell(i).Text {
			s.line.refuse("%s stands in row %d already, with other details. Keep the row that is right.", s.spec.Serial, first.number())
			return
		}
	}
	r.leaveOut(s.line, fmt.Sprintf("says the same as row %d", first.number()))
}

// compare asks about what a list says otherwise than the book: what was done
// since is in the book, and a list has no time.
func (r *reader) compare(t *thing, s *stock) {
	says := map[string]string{
		"size": string(s.spec.Size), "owner": s.spec.Owner, "model": s.spec.Model, "requalify by": s.spec.Requal,
		"rated": numberOrNothing(float64(s.spec.Rated)), "place": s.place.InWords(), "status": string(s.state),
	}
	if s.state == atHome || t.item.Lent() && s.state == "" {
		delete(says, "place")
	}
	for _, f := range itemFields {
		list, book := says[f.key], f.text(*t.item)
		if list != "" && !sameWords(list, book) && (f.key != "status" || list != atHome) {
			r.changeItem(change{s.line, f.key, t.item.Label(), list, book}, t, undated)
		}
	}
}

func orNothing(s string) string {
	if s == "" {
		return "not set"
	}
	return s
}

// seenOn returns the fill and the readings of a row.
func (r *reader) seenOn(s *stock) []happened {
	var all []happened
	if s.lot != "" && s.spec.Kind == inventory.Cylinder {
		at := s.filled
		if at.IsZero() {
			at = earliest(s.readAt, s.since, r.at)
		}
		all = append(all, r.event(s.line, at, &inventory.Filled{Lot: s.lot, Full: s.full}))
	}
	if !s.readAt.IsZero() {
		seen := s.seen
		all = append(all, r.event(s.line, s.readAt, &seen))
	}
	return all
}

// event is one event of a line; at the time of taking in it has no time of
// its own.
func (r *reader) event(l *line, at time.Time, says inventory.Statement) happened {
	h := happened{line: l, undated: at.IsZero() || at.Equal(r.at)}
	h.At, h.Says = at, says
	if at.IsZero() {
		h.At = r.at
	}
	return h
}

func earliest(times ...time.Time) time.Time {
	var first time.Time
	for _, t := range times {
		if !t.IsZero() && (first.IsZero() || t.Before(first)) {
			first = t
		}
	}
	return first
}

// ours reports whether the list has the thing in a place of ours.
func (s *stock) ours() bool {
	if s.state == "" {
		return s.place != "" && s.place.Kind() != inventory.AtAddress
	}
	return s.state != atHome
}

// stands returns the events that bring a new thing to its place and status.
func (r *reader) stands(s *stock) []happened {
	var all []happened
	add := func(says inventory.Statement) { all = append(all, r.event(s.line, s.since, says)) }
	if s.state != atHome && s.place != "" && s.place.Kind() != inventory.AtAddress {
		add(&inventory.Moved{To: s.place})
	}
	switch s.state {
	case inventory.Ready:
		return append(all, r.readied(s)...)
	case inventory.Dirty:
		if depot, ok := r.depotOf(s); ok {
			add(&inventory.Returned{Depot: depot})
		}
	case inventory.InQuarantine:
		why := s.line.notes()
		if why == "" {
			why = "as the list says"
		}
		add(&inventory.Quarantined{Why: why})
	case inventory.OnBench:
		add(&inventory.Benched{})
	case inventory.InRepair:
		add(&inventory.Moved{To: inventory.At(inventory.AtWorkshop, "")})
	case inventory.Missing:
		add(&inventory.Moved{To: inventory.At(inventory.AtMissing, "")})
	case inventory.Gone:
		add(&inventory.Moved{To: inventory.At(inventory.AtRetired, "")})
	case inventory.OutAtPlant:
		if s.place.Kind() != inventory.AtPlant {
			r.toPlant(s, add)
		}
	}
	return all
}

// readied clears a thing for lending. A cylinder without a reading is not
// cleared: it is never taken for full.
func (r *reader) readied(s *stock) []happened {
	depot, ok := r.depotOf(s)
	if !ok {
		return nil
	}
	if s.spec.Kind == inventory.Cylinder && s.seen.Gauge == nil {
		r.finding("%s: %s is said to be ready, but has no gauge reading. It waits in quarantine until it is read and released.", s.line.where(), s.spec.Serial)
		return []happened{r.event(s.line, s.since, &inventory.Moved{To: inventory.At(inventory.AtDepot, depot)})}
	}
	all := []happened{r.event(s.line, s.since, &inventory.Cleared{Depot: depot})}
	if kind := s.place.Kind(); kind == inventory.AtVehicle || kind == inventory.AtWard {
		all = append(all, r.event(s.line, s.since, &inventory.Moved{To: s.place}))
	}
	return all
}

// depotOf returns the depot a thing was made ready in.
func (r *reader) depotOf(s *stock) (string, bool) {
	switch s.place.Kind() {
	case inventory.AtDepot:
		return s.place.Name(), true
	case inventory.AtVehicle:
		if v, ok := r.places.programme.Vehicle(s.place.Name()); ok {
			return v.Depot, true
		}
	}
	if len(s.line.waits) > 0 {
		return "", false
	}
	return r.depot(s.line)
}

func (r *reader) toPlant(s *stock, add func(inventory.Statement)) {
	if plants := r.places.programme.Plants; len(plants) == 1 {
		add(&inventory.Moved{To: inventory.At(inventory.AtPlant, plants[0].Name)})
		return
	}
	s.line.refuse("The thing is at a plant, but not said at which. Write plant:NAME into the column Place.")
}
