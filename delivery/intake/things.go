package intake

import (
	"lungwort/delivery"
	"lungwort/inventory"
)

// happened is one event as a row tells it. An undated event has the time of
// taking in, and only counts for what is new to the book.
type happened struct {
	delivery.Event
	undated bool
	line    *line
}

// thing is one serial-numbered thing that the lists name or the book has.
type thing struct {
	spec   inventory.Spec
	item   *inventory.Item // in the book
	stock  *stock          // the row of an item list
	named  *line           // a row of a person list that brings it in
	events []happened      // of the thing alone
	loans  []*loan
	facts  []inventory.Fact // of the book, once they were asked for
	asked  bool
	told   told // what the book, or a row before, says of its loans
}

// register knows things by serial.
type register struct {
	byID  map[inventory.ItemID]*thing // of the book
	byKey map[string][]*thing
	all   []*thing // in the order they were met
}

func newRegister(items []inventory.Item) *register {
	reg := &register{byID: map[inventory.ItemID]*thing{}, byKey: map[string][]*thing{}}
	for i := range items {
		reg.byID[items[i].ID] = reg.add(&thing{spec: items[i].Spec, item: &items[i]})
	}
	return reg
}

func (reg *register) add(t *thing) *thing {
	key := inventory.SerialKey(t.spec.Serial)
	reg.byKey[key] = append(reg.byKey[key], t)
	reg.all = append(reg.all, t)
	return t
}

// find returns the things of a serial, of one kind when the kind is known.
func (reg *register) find(key string, kind inventory.Kind) []*thing {
	var found []*thing
	for _, t := range reg.byKey[key] {
		if kind == "" || t.spec.Kind == kind {
			found = append(found, t)
		}
	}
	return found
}

// pairSerials finds the serials and lots of all lists that are easily taken
// for one another.
func (r *reader) pairSerials() error {
	const aLine = 7 // about: to look at it, at its serial three times, at its lot and the thing beside it twice
	r.things = newRegister(r.known.Items)
	r.pace.expect(aLine * r.lines())
	var serials, lots []mention
	for _, l := range r.lists {
		for line := range each(r, l.lines) {
			if _, ours := readMark(line.text(marks)); ours {
				continue
			}
			for _, key := range []string{"serial", "items", "concentrator", "cylinder", "regulator", "oximeter"} {
				for _, text := range line.serials(key) {
					serials = append(serials, mention{line, text})
				}
			}
			if lot := line.text("lot"); lot != "" {
				lots = append(lots, mention{line, lot})
			}
		}
	}
	known := make([]string, 0, len(r.known.Items))
	inBook := make(map[string]bool, len(r.known.Items))
	var knownLots []string
	for _, item := range r.known.Items {
		known = append(known, item.Spec.Serial)
		inBook[inventory.SerialKey(item.Spec.Serial)] = true
		if item.Fill != nil && item.Fill.Lot != "" {
			knownLots = append(knownLots, item.Fill.Lot)
		}
	}
	r.serials = r.pair("serial", serials, known)
	r.rounded(r.serials, serials, inBook)
	r.lots = r.pair("lot", lots, knownLots)
	return nil
}

// written returns a serial as it goes into the book: as answered where it was
// asked about, else as it stands in the list.
func (r *reader) written(t twins, text string) string {
	if to, ok := t.of[inventory.SerialKey(text)]; ok {
		return to
	}
	return text
}
