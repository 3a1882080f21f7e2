package intake

import (
	"slices"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// ownRow reads a row that bears a mark of ours: only the cells that differ from
// what was given out say anything. It reports false for any other row, which is
// read like a row of any list.
func (r *reader) ownRow(l *line) bool {
	m, ok := readMark(l.text(marks))
	switch {
	case !ok:
		return false
	case m.sort == "item":
		t := r.things.byID[inventory.ItemID(m.id)]
		if t != nil {
			r.editItem(l, t, m)
		}
		return t != nil
	}
	p := r.amends.of[inventory.PersonID(m.id)]
	if p != nil {
		r.editPerson(l, p, m)
	}
	return p != nil
}

// editItem takes up what was edited in an item's row.
func (r *reader) editItem(l *line, t *thing, m marked) {
	for i, f := range itemFields {
		text, book := l.text(f.key), f.text(*t.item)
		if _, has := l.list.mapping.Columns[f.key]; !has {
			continue // the column was taken out
		}
		of, differs := m.ageOf(i, text, book)
		if !differs {
			continue
		}
		to := r.itemCell(l, t, f.key)
		if len(l.refuses)+len(l.waits) > 0 || text != "" && to == "" {
			return // the cell is asked about, or said why it can't be read
		}
		r.changeItem(change{l, f.key, t.item.Label(), to, book}, t, of)
	}
}

// itemCell reads a cell of a known item as the book would write it.
func (r *reader) itemCell(l *line, t *thing, key string) string {
	if l.text(key) == "" {
		return ""
	}
	switch key {
	case "size":
		size, _ := r.size(l, t.spec.Serial)
		return string(size.Code)
	case "rated":
		if flow := r.flow(l, key); flow != nil {
			return number(float64(*flow))
		}
		return ""
	case "owner":
		return r.owner(l)
	case "status":
		return l.word(r.inquiry, key, states)
	case "place":
		return r.place(l).InWords()
	case "requalify by":
		return requalMonth(r, l)
	case "gauge":
		if p := r.pressure(l, key, l.text(key), r.fullOf(t.spec)); p != nil {
			return number(p.PSI())
		}
		return ""
	case "hours":
		if h := r.meter(l, key); h != nil {
			return number(*h)
		}
		return ""
	}
	return l.text(key)
}

// changeItem makes a change of a known item, where the list holds.
func (r *reader) changeItem(c change, t *thing, of age) {
	if c.list == c.book || r.damaged(c) {
		return
	}
	if why := r.byAct(*t.item, c); why != "" {
		r.finding("%s: %s of %s is %s in the list, %s in the book. %s", c.line.where(), c.line.heading(c.key), c.about, orNothing(c.list), orNothing(c.book), why)
		return
	}
	if !r.listHolds(c, of) {
		return
	}
	now := func(says inventory.Statement) {
		t.events = append(t.events, r.changing(c.line, says))
	}
	switch c.key {
	case "place":
		now(&inventory.Moved{To: r.place(c.line)})
	case "status":
		now(becoming(inventory.State(c.list), c.line.notes()))
	case "gauge", "hours":
		r.readAnew(c, t)
	default:
		spec := t.spec
		respecify(&spec, c)
		t.spec = spec
		now(&inventory.Described{Spec: spec})
	}
}

// changing is an event at the time of taking in that counts for what the book
// knows.
func (r *reader) changing(l *line, says inventory.Statement) happened {
	h := happened{line: l}
	h.At, h.Says = r.at, says
	return h
}

// byAct says why a change of an item can't be taken from a list; empty: it can.
func (r *reader) byAct(item inventory.Item, c change) string {
	key, to := c.key, c.list
	switch {
	case key == "kind" || key == "lot":
		return "The book stands; change it on the item's page."
	case (key == "gauge" || key == "hours") && to == "":
		return "A reading is taken back on the item's page."
	case key != "place" && key != "status":
		return ""
	case item.Lent():
		return "It is lent: record its return."
	case key == "status" && becoming(inventory.State(to), "") == nil, key == "place" && !movable(r.place(c.line)):
		return "The book stands; change it by an act: a list neither lends nor releases."
	}
	return ""
}

// movable reports whether a list may put a thing there.
func movable(to inventory.Place) bool {
	switch to.Kind() {
	case inventory.AtDepot, inventory.AtWard, inventory.AtVehicle, inventory.AtPlant, inventory.AtWorkshop, inventory.AtMissing, inventory.AtRetired:
		return true
	}
	return false
}

// becoming returns what brings a thing in our hands into a state; nil where
// that takes more than a word in a list.
func becoming(to inventory.State, why string) inventory.Statement {
	switch to {
	case inventory.InQuarantine:
		if why == "" {
			why = "as the list says"
		}
		return &inventory.Quarantined{Why: why}
	case inventory.OnBench:
		return &inventory.Benched{}
	case inventory.InRepair:
		return &inventory.Moved{To: inventory.At(inventory.AtWorkshop, "")}
	case inventory.Missing:
		return &inventory.Moved{To: inventory.At(inventory.AtMissing, "")}
	case inventory.Gone:
		return &inventory.Moved{To: inventory.At(inventory.AtRetired, "")}
	}
	return nil
}

func respecify(spec *inventory.Spec, c change) {
	switch c.key {
	case "serial":
		spec.Serial = c.list
	case "model":
		spec.Model = c.list
	case "owner":
		spec.Owner = c.list
	case "requalify by":
		spec.Requal = c.list
	case "size":
		spec.Size = gas.SizeCode(c.list)
	case "rated":
		flow, _ := gas.ParseFlow(c.list + " L/min") // written by the program itself
		spec.Rated = flow
	}
}

// readAnew takes a reading that was edited: at the time beside it where that
// was edited too, else as answered.
func (r *reader) readAnew(c change, t *thing) {
	at := r.day(c.line, "read at")
	if last := t.item.Gauge; last != nil && at.Sub(last.At) < time.Minute {
		at = time.Time{}
	}
	if at.IsZero() {
		answer, ok := r.ask(c.line, Question{
			Key:     "edited reading:" + c.line.list.name(),
			Asks:    "Readings were edited and the time beside them was not. When were they taken?",
			Choices: []Choice{{justNow, "at " + r.at.Format("2 Jan 2006 15:04")}, {noReading, "nobody knows: they are left out"}},
			once:    true,
		}, c.about)
		if !ok || answer == noReading {
			r.changes = slices.DeleteFunc(r.changes, func(had change) bool { return had == c })
			return
		}
		at = r.at
	}
	seen := &inventory.Observed{}
	if c.key == "gauge" {
		seen.Gauge = r.pressure(c.line, c.key, c.line.text(c.key), r.fullOf(t.spec))
	} else {
		seen.Hours = r.meter(c.line, c.key)
	}
	h := r.changing(c.line, seen)
	h.At = at
	t.events = append(t.events, h)
}
