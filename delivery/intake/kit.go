package intake

import (
	"fmt"
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// lent lists the columns of things lent, with the kind each is of.
var lent = []struct {
	key  string
	kind inventory.Kind
}{
	{"concentrator", inventory.Concentrator}, {"cylinder", inventory.Cylinder},
	{"regulator", inventory.Regulator}, {"oximeter", inventory.Oximeter}, {"items", ""},
}

// kit reads what the row lends, with the readings of it.
func (r *reader) kit(l *line, e *entry) {
	for _, column := range lent {
		for _, text := range l.serials(column.key) {
			if t := r.lentThing(l, text, column.kind); t != nil {
				e.kit = append(e.kit, held{thing: t})
			}
		}
	}
	e.lends = len(e.kit) > 0
	r.gauges(l, e)
	hours, back := r.meter(l, "hours"), r.meter(l, "hours in")
	lot := r.written(r.lots, l.text("lot"))
	machines := 0
	for i := range e.kit {
		h := &e.kit[i]
		switch h.thing.spec.Kind {
		case inventory.Cylinder:
			h.lot = lot
		case inventory.Concentrator:
			machines++
			h.hours, h.back = hours, back
		}
	}
	if machines > 1 && hours != nil {
		l.refuse("%s has one value for %d concentrators. Write one row for each.", l.heading("hours"), machines)
	}
	if l.list.sort == ofPeople && (hours != nil || slices.ContainsFunc(e.kit, func(h held) bool { return h.gauge != nil })) {
		e.readAt = r.readingTime(l, e.readAt, e.out)
	}
	if len(e.kit) > 0 && e.out.IsZero() && len(l.refuses) == 0 {
		e.out = r.handOver(l, e)
	}
}

// lentThing returns the thing a serial names: of the book, of an item list,
// or new. What is new and can't be told by its column is asked about.
func (r *reader) lentThing(l *line, text string, kind inventory.Kind) *thing {
	if r.serials.open[inventory.SerialKey(text)] {
		return nil // the line waits for the question about it
	}
	serial := r.written(r.serials, text)
	found := r.things.find(inventory.SerialKey(serial), kind)
	switch {
	case len(found) == 1:
		r.inherit(l, found[0])
		return found[0]
	case len(found) > 1:
		l.refuse("%d things carry the serial %s. Write it into the column of its kind.", len(found), serial)
		return nil
	}
	if other := r.things.find(inventory.SerialKey(serial), ""); kind != "" && len(other) > 0 {
		l.refuse("%s “%s” is a %s elsewhere. Write it into the column of its kind.", l.heading(string(kind)), text, orNothing(string(other[0].spec.Kind)))
		return nil
	}
	spec := inventory.Spec{Kind: kind, Serial: serial}
	if kind == "" && l.text("kind") != "" {
		spec.Kind = inventory.Kind(l.word(r.inquiry, "kind", kinds))
		if spec.Kind == "" {
			return nil
		}
	}
	if spec.Kind == "" && !r.whatIs(l, &spec) {
		return nil
	}
	if spec.Kind == inventory.Cylinder && spec.Size == "" {
		size, ok := r.size(l, serial)
		if !ok {
			return nil
		}
		spec.Size = size.Code
	}
	return r.things.add(&thing{spec: spec, named: l})
}

// inherit makes a row wait for what the row of the item list waits for.
func (r *reader) inherit(l *line, t *thing) {
	if t.stock == nil || t.item != nil {
		return
	}
	r.share(l, t.stock.line)
}

// whatIs asks what the things are whose serials begin alike and that neither
// the book nor an item list has.
func (r *reader) whatIs(l *line, spec *inventory.Spec) bool {
	prefix := lettersInFront.FindString(inventory.SerialKey(spec.Serial))
	choices := []Choice{{"concentrator", ""}, {"regulator", ""}, {"oximeter", ""}}
	for _, s := range r.programme.Sizes.All() {
		if s.Region == r.programme.Region {
			choices = append(choices, Choice{"cylinder " + string(s.Code), s.Contents.String() + " when full"})
		}
	}
	answer, ok := r.ask(l, Question{
		Key:     "thing:" + prefix,
		Asks:    fmt.Sprintf("Neither the book nor an item list has these serials that begin with “%s”. What are they?", prefix),
		Choices: choices,
	}, spec.Serial)
	if !ok {
		return false
	}
	kind, size, _ := strings.Cut(answer, " ")
	spec.Kind, spec.Size = inventory.Kind(kind), gas.SizeCode(size)
	return true
}

// gauges gives each cylinder its reading, in the order they are written.
func (r *reader) gauges(l *line, e *entry) {
	var cylinders []*held
	for i := range e.kit {
		if e.kit[i].thing.spec.Kind == inventory.Cylinder {
			cylinders = append(cylinders, &e.kit[i])
		}
	}
	text := l.text("gauge")
	if text == "" || len(l.waits) > 0 && len(cylinders) == 0 {
		return
	}
	parts := readings(text, len(cylinders))
	switch {
	case len(cylinders) == 0:
		r.finding("%s: %s “%s” stands without a cylinder and stays out.", l.where(), l.heading("gauge"), text)
		return
	case len(parts) > len(cylinders), l.list.sort == ledger && len(parts) != len(cylinders):
		if len(l.waits) == 0 {
			l.refuse("%s “%s” has %d readings for %d cylinders.", l.heading("gauge"), text, len(parts), len(cylinders))
		}
		return
	}
	for i, part := range parts {
		size, _ := r.programme.SizeOf(cylinders[i].thing.spec)
		cylinders[i].gauge = r.pressure(l, "gauge", part, size.Service)
	}
}
