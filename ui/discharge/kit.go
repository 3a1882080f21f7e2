package discharge

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/finder"
	"lungwort/ui/meter"
	"lungwort/ui/work"
)

// Piece is one line of the kit: what is wanted, and the thing that serves.
type Piece struct {
	Want    delivery.Wanted
	Item    inventory.Item // without an ID nothing ready was found
	Gauge   string         // as typed
	Brought bool           // to the home, by the delivery; else it goes along
	InHand  bool           // scanned or typed, not only proposed
	number  int            // in the kit list
}

// ID tells the line apart from the others.
func (p Piece) ID() string {
	if p.Item.ID == "" {
		return fmt.Sprint("none ", p.number)
	}
	return string(p.Item.ID)
}

// reading returns the gauge typed; nil when none is.
func (p Piece) reading() (*gas.Pressure, error) {
	read, err := meter.Of(p.Item, p.Gauge)
	return read.Gauge, err
}

// Trouble is why a line can't go out, and the thing that would serve instead.
type Trouble struct {
	Says    string
	Out     bool // the thing can't go out; else only its reading lacks
	Instead *inventory.Item
}

// SetKit fills the kit from one of the programme's kit lists, with what is set
// aside for the person first, then the best that is ready.
func (m *Model) SetKit(name string) {
	list, ok := m.draft.programme.Kit(name)
	if !ok {
		return
	}
	m.KitName, m.Pieces, m.supplies = name, nil, list.Supplies
	for _, want := range list.Items {
		for range want.Count {
			m.pick(want)
		}
	}
	m.recompute()
}

// pick puts one of what a kit list wants into the kit: what is ready, else what
// goes out in its place where all of that is ready, else a line that says it
// lacks.
func (m *Model) pick(want delivery.Wanted) {
	want.Count = 1
	before := len(m.Pieces)
	if m.add(want) {
		return
	}
	lacking := m.Pieces[before]
	for _, other := range m.draft.programme.Substitutes(want) {
		m.Pieces = m.Pieces[:before]
		all := true
		for range other.Count {
			one := other
			one.Count = 1
			all = m.add(one) && all
		}
		if all {
			return
		}
	}
	m.Pieces = append(m.Pieces[:before], lacking)
	m.rekit()
}

// add puts one line into the kit, and reports whether a thing for it is ready.
func (m *Model) add(one delivery.Wanted) bool {
	m.Pieces = append(m.Pieces, Piece{Want: one, Brought: one.Kind == inventory.Concentrator, number: len(m.Pieces)})
	m.rekit()
	item := m.propose(one)
	m.Pieces[len(m.Pieces)-1].Item = item
	return item.ID != ""
}

// rekit tells the draft what the kit holds now.
func (m *Model) rekit() {
	m.draft.kit = nil
	for _, p := range m.Pieces {
		if p.Item.ID != "" {
			m.draft.kit = append(m.draft.kit, p.Item)
		}
	}
}

// propose returns the thing to offer for a line.
func (m *Model) propose(want delivery.Wanted) inventory.Item {
	for _, item := range m.draft.page.Reserved {
		used := slices.ContainsFunc(m.Pieces, func(p Piece) bool { return p.Item.ID == item.ID })
		if !used && item.Spec.Kind == want.Kind {
			return item
		}
	}
	if want.Kind == inventory.Concentrator {
		want.Rated = max(want.Rated, m.order().Highest())
	}
	item, _, _ := m.draft.Alternative(want) // a draft reads nothing and can't fail
	return item
}

// Scan puts the thing of a scan or a serial into the kit: in the place of one
// that was only proposed, else as one more. It reports whether the text was
// taken; a name is left for the window.
func (m *Model) Scan(text string) bool {
	if !strings.ContainsAny(text, "0123456789") {
		return false
	}
	m.look(text, func(item inventory.Item) { m.put(item) })
	return true
}

func (m *Model) put(item inventory.Item) {
	i := slices.IndexFunc(m.Pieces, func(p Piece) bool { return p.Item.ID == item.ID })
	if i < 0 {
		i = slices.IndexFunc(m.Pieces, func(p Piece) bool {
			return !p.InHand && p.Want.Kind == item.Spec.Kind && (p.Want.Size == "" || p.Want.Size == item.Spec.Size)
		})
	}
	if i < 0 {
		m.Pieces = append(m.Pieces, Piece{
			Want:    delivery.Wanted{Kind: item.Spec.Kind, Size: item.Spec.Size, Count: 1},
			Brought: item.Spec.Kind == inventory.Concentrator,
		})
		i = len(m.Pieces) - 1
	}
	if m.Pieces[i].Item.ID != item.ID {
		m.Pieces[i].Item, m.Pieces[i].Gauge = item, ""
	}
	m.Pieces[i].InHand = true
	m.work.Scanned(work.Scan{Verdict: scene.Holds, Title: item.Label(), Detail: "in the kit: " + item.Spec.What()})
	m.recompute()
	m.Focus(Kit, m.Pieces[i].ID())
}

// SetGauge takes what was typed as the gauge of a line.
func (m *Model) SetGauge(id, text string) {
	m.change(id, func(p *Piece) { p.Gauge = text })
}

// Swap takes the nearest alternative in the place of a line's thing.
func (m *Model) Swap(id string) {
	instead := m.Troubles[id].Instead
	if instead == nil {
		return
	}
	m.change(id, func(p *Piece) { p.Item, p.Gauge, p.InHand = *instead, "", false })
	m.Focus(Kit, string(instead.ID))
}

// Turn changes whether a thing goes along or is brought to the home.
func (m *Model) Turn(id string) { m.change(id, func(p *Piece) { p.Brought = !p.Brought }) }

// Drop takes a line out of the kit.
func (m *Model) Drop(id string) {
	m.Pieces = slices.DeleteFunc(m.Pieces, func(p Piece) bool { return p.ID() == id })
	m.recompute()
}

func (m *Model) change(id string, how func(*Piece)) {
	for i := range m.Pieces {
		if m.Pieces[i].ID() == id {
			how(&m.Pieces[i])
			break
		}
	}
	m.recompute()
}

// wanted is what a line asks for under the order.
func (m *Model) wanted(p Piece) inventory.Spec {
	s := inventory.Spec{Kind: p.Want.Kind, Size: p.Want.Size, Rated: p.Want.Rated}
	if s.Kind == inventory.Concentrator {
		s.Rated = max(s.Rated, m.order().Highest())
	}
	return s
}

// judge says what is wrong with a line of the kit.
func (m *Model) judge(p Piece) (Trouble, bool) {
	if p.Item.ID == "" {
		return Trouble{Out: true, Says: fmt.Sprintf("No %s is ready. Look at the bench and at what is not needed in homes, or press Delete.",
			m.wanted(p).What())}, true
	}
	order := m.order()
	if err := delivery.Lendable(&m.draft, p.Item, m.draft.page.Care.Person, &order); err != nil {
		want := delivery.Wanted{Kind: p.Item.Spec.Kind, Size: p.Item.Spec.Size, Rated: p.Want.Rated}
		if want.Kind == inventory.Concentrator {
			want.Rated = max(want.Rated, order.Highest())
		}
		t := Trouble{Out: true, Says: refusal.For(err)}
		if other, ok, _ := m.draft.Alternative(want); ok {
			t.Says, t.Instead = says(err), &other
		}
		return t, true
	}
	read, err := p.reading()
	if err == nil {
		err = delivery.Readable(&m.draft, p.Item, read)
	}
	switch {
	case err != nil:
		return Trouble{Says: err.Error()}, true
	case m.tried && p.Item.Spec.Kind == inventory.Cylinder && !p.Brought && read == nil:
		return Trouble{Says: "Read the gauge with the nurse, and write it here."}, true
	}
	return Trouble{}, false
}

// says returns a refusal without its next step, which the screen offers.
func says(err error) string {
	var no *refusal.Error
	if errors.As(err, &no) {
		return no.Says
	}
	return refusal.For(err)
}

// Words says what a line is, in two lines.
func (m *Model) Words(p Piece) (first, below string) {
	if p.Item.ID == "" {
		return m.wanted(p).What(), "nothing ready"
	}
	below = strings.TrimPrefix(p.Item.Spec.What(), "oxygen ") + " · " + p.Item.Place.Name()
	if p.InHand {
		below = strings.TrimPrefix(p.Item.Spec.What(), "oxygen ") + " · scanned"
	}
	if g := p.Item.Gauge; g != nil {
		below += fmt.Sprintf(" · %s %s", g.Value, delivery.Clock(g.At, m.draft.now))
	}
	return finder.Label(p.Item), below
}
