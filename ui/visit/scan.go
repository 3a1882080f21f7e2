package visit

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/ui/finder"
	"lungwort/ui/work"
)

// Scan ticks the thing of a scan, or adds it. It reports whether it took the
// text.
func (m *Model) Scan(text string) bool {
	if !strings.ContainsAny(text, "0123456789") {
		return false
	}
	now := m.work.Now()
	type found struct {
		item inventory.Item
		no   error // why it can't be left here
	}
	work.Ask(m.work, "visit scan "+text, func(ctx context.Context) (f found, err error) {
		if f.item, err = finder.Item(ctx, m.work.Desk, text); err != nil {
			return f, err
		}
		err = m.work.Desk.Ask(ctx, now, func(v delivery.View) error {
			f.no = delivery.Lendable(v, f.item, m.page.Person.ID, m.page.Care.Order)
			return nil
		})
		return f, err
	}, func(f found) { m.scanned(f.item, f.no) })
	return true
}

func (m *Model) scanned(item inventory.Item, no error) {
	switch {
	case m.tick(m.Take, item.ID) || m.tick(m.Leave, item.ID) && no == nil:
	case item.Lent() && item.Person == m.page.Person.ID:
		m.Take = append(m.Take, Thing{Item: item, Ticked: true, Extra: true})
	case item.Lent():
		m.work.Refuse(refusal.New(refusal.Conflict, fmt.Sprintf("%s is on loan to somebody else.", item.Label()),
			"Leave it where it is: it is not this person's."))
		return
	case no != nil:
		m.untick(item.ID)
		m.work.Refuse(no)
		m.Changed()
		return
	default:
		m.left(item)
	}
	m.work.Scanned(work.Scan{Verdict: scene.Holds, Title: item.Label(), Detail: m.does(item.ID) + " " + item.Spec.What()})
	m.Changed()
	m.Focus(Things, string(item.ID))
}

// does says what is done with an item of this stop.
func (m *Model) does(id inventory.ItemID) string {
	if slices.ContainsFunc(m.Take, func(t Thing) bool { return t.Item.ID == id }) {
		return "taken along:"
	}
	return "left here:"
}

// tick marks a line as done, and reports whether the item was expected there.
func (m *Model) tick(things []Thing, id inventory.ItemID) bool {
	i := slices.IndexFunc(things, func(t Thing) bool { return t.Item.ID == id })
	if i < 0 {
		return false
	}
	things[i].Ticked = true
	return true
}

func (m *Model) untick(id inventory.ItemID) {
	for i := range m.Leave {
		if m.Leave[i].Item.ID == id {
			m.Leave[i].Ticked = false
		}
	}
}

// left puts an item in the place of one that was expected and not seen, else
// adds it.
func (m *Model) left(item inventory.Item) {
	fits := func(t Thing) bool { return !t.Ticked && t.Want.Kind == item.Spec.Kind }
	i := slices.IndexFunc(m.Leave, func(t Thing) bool { return fits(t) && t.Item.ID == "" })
	if i < 0 {
		i = slices.IndexFunc(m.Leave, fits)
	}
	if i < 0 {
		m.Leave = append(m.Leave, Thing{Item: item, Ticked: true, Extra: true})
		return
	}
	m.Leave[i].Item, m.Leave[i].Ticked, m.Leave[i].Value = item, true, ""
}
